#include "sim/scenario/suggest.hpp"

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdlib>

namespace rackwright {
namespace {

std::string_view last_part(std::string_view dotted) {
  const auto dot = dotted.rfind('.');
  return dot == std::string_view::npos ? dotted : dotted.substr(dot + 1);
}

// "goat" in "goat-milking", "hen" in "laying-hen": a whole word of the name.
bool word_of(std::string_view written, std::string_view name) {
  if (written.size() < 3) return false;
  for (std::size_t at = name.find(written); at != std::string_view::npos; at = name.find(written, at + 1)) {
    const bool begins = at == 0 || name[at - 1] == '-' || name[at - 1] == '_';
    const std::size_t end = at + written.size();
    if (begins && (end == name.size() || name[end] == '-' || name[end] == '_')) return true;
  }
  return false;
}

// No fewer changes will do: each mends one letter that is too many on either side. Letters of like last bits count as one.
int letters_apart(std::string_view a, std::string_view b) {
  std::array<int, 32> over{};
  for (const char c : a) ++over[static_cast<unsigned char>(c) % 32];
  for (const char c : b) --over[static_cast<unsigned char>(c) % 32];
  int more = 0, fewer = 0;
  for (const int n : over) (n > 0 ? more : fewer) += std::abs(n);
  return std::max(more, fewer);
}

int tolerance(std::string_view text) { return std::max(1, static_cast<int>(text.size()) / 3); }

}  // namespace

int edit_distance(std::string_view a, std::string_view b, int limit) {
  // What begins and ends alike needs no change.
  while (!a.empty() && !b.empty() && a.front() == b.front()) a.remove_prefix(1), b.remove_prefix(1);
  while (!a.empty() && !b.empty() && a.back() == b.back()) a.remove_suffix(1), b.remove_suffix(1);
  const int apart = std::abs(static_cast<int>(a.size()) - static_cast<int>(b.size()));
  if (apart > limit || letters_apart(a, b) > limit) return limit + 1;
  const std::size_t width = b.size() + 1;
  std::vector<int> rows(3 * width);
  int *before = rows.data(), *above = before + width, *row = above + width;
  for (std::size_t j = 0; j < width; ++j) above[j] = static_cast<int>(j);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    int least = row[0] = static_cast<int>(i);
    for (std::size_t j = 1; j < width; ++j) {
      int best = above[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      if (above[j] + 1 < best) best = above[j] + 1;
      if (row[j - 1] + 1 < best) best = row[j - 1] + 1;
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped && before[j - 2] + 1 < best) best = before[j - 2] + 1;
      row[j] = best;
      if (best < least) least = best;
    }
    // A swap leaps over a row, but never for less than the row between has.
    if (least > limit) return limit + 1;
    int* const oldest = before;
    before = above;
    above = row;
    row = oldest;
  }
  return std::min(above[b.size()], limit + 1);
}

std::string nearest(std::string_view written, const std::vector<std::string>& known) {
  if (written.size() > 80) return "";
  std::string best;
  int best_cost = 1000;
  for (const std::string& name : known) {
    const std::string_view end = last_part(written), other = last_part(name);
    const int part = edit_distance(end, other, tolerance(end));
    const int whole = edit_distance(written, name, part <= tolerance(end) ? std::max(20, tolerance(written)) : tolerance(written));
    // The same last part in another table is worth one change; so is a missing table name.
    int cost = 1000;
    if (whole <= tolerance(written)) cost = 2 * whole;
    if (part <= tolerance(end) && (end.size() > 3 || part == 0))
      cost = std::min(cost, 2 * part + 1 + std::min(whole, 20) / 10);
    if (word_of(written, name)) cost = std::min(cost, 3);
    if (cost < best_cost) {
      best_cost = cost;
      best = name;
    }
  }
  return best;
}

}  // namespace rackwright
