#include "sim/results/kept_years.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <stdexcept>

#include "sim/results/bytes.hpp"

namespace rackwright::results {
namespace {

constexpr std::string_view what = "years-";
constexpr std::chrono::milliseconds pause{250};

}  // namespace

KeptYears::KeptYears(Parts& parts) : parts_(parts) {
  for (const std::string& name : parts_.names())
    if (name.starts_with(what)) read(name);
  known_count_ = known_.size();
}

void KeptYears::read(const std::string& name) {
  next_part_ = std::max<std::uint64_t>(next_part_, std::strtoull(name.c_str() + what.size(), nullptr, 10) + 1);
  const auto content = parts_.read(name);
  if (!content) return;
  ByteReader bytes(*content);
  for (auto runs = bytes.get<std::uint64_t>(); runs > 0; --runs) {
    const auto design = static_cast<std::size_t>(bytes.get<std::uint64_t>());
    auto year = bytes.get<std::uint32_t>();
    for (const Outcome& outcome : bytes.rows<Outcome>()) known_.insert_or_assign({design, year++}, outcome);
  }
}

std::vector<Outcome> KeptYears::recall(std::size_t design, std::uint32_t first, std::uint32_t most) {
  std::vector<Outcome> years;
  for (auto at = known_.find({design, first}); at != known_.end() && years.size() < most; ++at) {
    if (at->first != std::pair(design, first + static_cast<std::uint32_t>(years.size()))) break;
    years.push_back(at->second);
  }
  return years;
}

std::uint32_t KeptYears::next_known(std::size_t design, std::uint32_t first, std::uint32_t end) {
  const auto at = known_.lower_bound({design, first});
  return at != known_.end() && at->first.first == design ? std::min(at->first.second, end) : end;
}

void KeptYears::keep(std::size_t design, std::uint32_t first, std::span<const Outcome> years) {
  waiting_.push_back({design, first, {years.begin(), years.end()}});
  if (Clock::now() - flushed_ >= pause) flush();
}

void KeptYears::flush() {
  flushed_ = Clock::now();
  if (waiting_.empty()) return;
  ByteWriter bytes;
  bytes.put(static_cast<std::uint64_t>(waiting_.size()));
  for (const Run& run : waiting_) {
    bytes.put(run.design);
    bytes.put(run.first);
    bytes.put_rows(run.years);
  }
  parts_.write(fmt::format("{}{:08}", what, next_part_++), bytes.take());
  waiting_.clear();
}

}  // namespace rackwright::results
