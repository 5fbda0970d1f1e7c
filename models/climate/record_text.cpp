// A record as text: FIRST_YEAR, columns (2, or 3 with dew point), then two signs of base 64 for each value.
#include <charconv>
#include <cmath>
#include <limits>

#include "models/base/expects.hpp"
#include "models/climate/record.hpp"

namespace rackwright::climate {
namespace {

constexpr std::string_view alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
constexpr double coldest = -100.0;
constexpr int missing = 4095;

void put(std::string& text, float value) {
  const int steps = value == value ? static_cast<int>(std::lround((static_cast<double>(value) - coldest) / record_step)) : missing;
  EXPECTS(steps >= 0 && steps <= missing);
  text += alphabet[static_cast<std::size_t>(steps / 64)];
  text += alphabet[static_cast<std::size_t>(steps % 64)];
}

// Nothing for a sign that is not ours.
std::optional<float> value_of(char high, char low) {
  const auto a = alphabet.find(high), b = alphabet.find(low);
  if (a == std::string_view::npos || b == std::string_view::npos) return std::nullopt;
  const int steps = static_cast<int>(64 * a + b);
  return steps == missing ? std::numeric_limits<float>::quiet_NaN() : rounded_to_step(coldest + record_step * steps);
}

}  // namespace

std::string encode(const Record& record) {
  std::string text = std::to_string(record.first_year) + (record.dew_point.empty() ? " 2 " : " 3 ");
  for (std::size_t i = 0; i < record.size(); ++i) {
    put(text, record.maximum[i]);
    put(text, record.minimum[i]);
    if (!record.dew_point.empty()) put(text, record.dew_point[i]);
  }
  return text;
}

std::optional<Record> decode(std::string_view text) {
  Record record;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), record.first_year);
  const std::string_view rest = text.substr(static_cast<std::size_t>(end - text.data()));
  const bool dew = rest.starts_with(" 3 ");
  if (error != std::errc() || record.first_year < 1800 || record.first_year > 2300 || (!dew && !rest.starts_with(" 2 "))) return std::nullopt;
  const std::string_view values = rest.substr(3);
  const std::size_t columns = dew ? 3 : 2, year = std::size_t{730} * columns;
  if (values.empty() || values.size() % year != 0 || values.size() / year > static_cast<std::size_t>(longest_record)) return std::nullopt;
  for (std::size_t at = 0; at < values.size(); at += 2) {
    const auto value = value_of(values[at], values[at + 1]);
    if (!value) return std::nullopt;
    const std::size_t column = at / 2 % columns;
    (column == 0 ? record.maximum : column == 1 ? record.minimum : record.dew_point).push_back(*value);
  }
  for (std::size_t i = 0; i < record.size(); ++i) {
    const bool high = record.maximum[i] == record.maximum[i], low = record.minimum[i] == record.minimum[i];
    if (high != low || (high && record.maximum[i] < record.minimum[i])) return std::nullopt;
    for (const float value : {record.maximum[i], record.minimum[i]})
      if (value < -90.0F || value > 60.0F) return std::nullopt;
  }
  for (const float value : record.dew_point)
    if (value < -90.0F || value > 60.0F) return std::nullopt;
  return record;
}

}  // namespace rackwright::climate
