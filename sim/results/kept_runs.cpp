#include "sim/results/kept_runs.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <optional>
#include <type_traits>

#include "sim/results/bytes.hpp"
#include "sim/results/fault.hpp"

namespace rackwright::results {
namespace {

using study::Bands;
using study::Block;

static_assert(std::is_trivially_copyable_v<Outcome> && std::is_trivially_copyable_v<DailyRow>);

std::string name_of(const char* what, const Stretch& s) { return fmt::format("{}-{:010}-{:010}", what, s.first, s.count); }

std::optional<Stretch> stretch_of(const std::string& name, std::string_view what) {
  if (!name.starts_with(what) || name.size() != what.size() + 22) return std::nullopt;
  Stretch s;
  const char* first = name.data() + what.size() + 1;
  const char* count = first + 11;
  if (std::from_chars(first, first + 10, s.first).ptr != first + 10) return std::nullopt;
  if (std::from_chars(count, count + 10, s.count).ptr != count + 10) return std::nullopt;
  return s;
}

std::string bytes_of(const Block& block) {
  ByteWriter bytes;
  bytes.put(block.first);
  bytes.put_rows(block.outcomes);
  bytes.put(static_cast<std::uint64_t>(block.failures.size()));
  for (const study::Failure& failure : block.failures) {
    bytes.put(failure.replication);
    bytes.put_text(failure.what);
  }
  bytes.put(static_cast<std::uint64_t>(block.series.size()));
  for (const study::Series& series : block.series) {
    bytes.put(series.replication);
    bytes.put_rows(series.rows);
  }
  return bytes.take();
}

Block block_of(const std::string& content) {
  ByteReader bytes(content);
  Block block;
  block.first = bytes.get<std::uint32_t>();
  block.outcomes = bytes.rows<Outcome>();
  for (auto n = bytes.get<std::uint64_t>(); n > 0; --n) {
    const auto replication = bytes.get<std::uint32_t>();
    block.failures.push_back({replication, bytes.text()});
  }
  for (auto n = bytes.get<std::uint64_t>(); n > 0; --n) {
    const auto replication = bytes.get<std::uint32_t>();
    block.series.push_back({replication, bytes.rows<DailyRow>()});
  }
  return block;
}

std::string bytes_of(const Bands& bands) {
  const Bands::Parts parts = bands.parts();
  ByteWriter bytes;
  bytes.put(parts.days);
  bytes.put(parts.replications);
  bytes.put_rows(parts.sums);
  for (const auto& sketch : parts.sketches) {
    bytes.put_rows(sketch.entries);
    bytes.put(sketch.least);
    bytes.put(sketch.most);
    bytes.put(sketch.whole);
  }
  return bytes.take();
}

Bands bands_of(const std::string& content) {
  ByteReader bytes(content);
  Bands::Parts parts;
  parts.days = bytes.get<int>();
  parts.replications = bytes.get<std::uint64_t>();
  parts.sums = bytes.rows<std::int64_t>();
  parts.sketches.resize(parts.sums.size());
  for (auto& sketch : parts.sketches) {
    sketch.entries = bytes.rows<study::QuantileSketch::Entry>();
    sketch.least = bytes.get<double>();
    sketch.most = bytes.get<double>();
    sketch.whole = bytes.get<bool>();
  }
  return Bands::from(parts);
}

/// The content of a part that was there a moment ago.
std::string must_read(Parts& parts, const std::string& name) {
  auto content = parts.read(name);
  if (!content)
    throw WriteFault(WriteFault::Cause::disk,
                     fmt::format("{}/{} was removed or damaged while this ran", parts.folder(), name));
  return *std::move(content);
}

}  // namespace

KeptRuns::KeptRuns(Parts& parts) : parts_(&parts) {
  std::vector<Stretch> runs, bands;
  for (const std::string& name : parts_->names()) {
    if (!parts_->read(name)) continue;
    if (const auto run = stretch_of(name, "runs")) runs.push_back(*run);
    if (const auto band = stretch_of(name, "bands")) bands.push_back(*band);
  }
  accept(runs, bands);
}

/// A chain of stretches counts when bands cover exactly it; of several such bands, the longest.
void KeptRuns::accept(const std::vector<Stretch>& runs, const std::vector<Stretch>& bands) {
  std::uint32_t at = 0;
  for (std::size_t i = 0; i < runs.size();) {
    std::size_t taken = 0;
    Stretch longest;
    for (const Stretch& band : bands) {
      if (runs[i].first < at || band.first != runs[i].first || band.count <= longest.count) continue;
      std::size_t n = 0;
      std::uint32_t end = band.first;
      while (i + n < runs.size() && end < band.end() && runs[i + n].first == end) end = runs[i + n++].end();
      if (end != band.end()) continue;
      longest = band;
      taken = n;
    }
    if (taken > 0) {
      bands_.push_back(longest);
      at = longest.end();
    }
    for (const std::size_t end = i + std::max<std::size_t>(taken, 1); i < end; ++i) {
      if (taken > 0) finished_.push_back(runs[i]);
    }
  }
}

Block KeptRuns::read(const Stretch& stretch) const { return block_of(must_read(*parts_, name_of("runs", stretch))); }

void KeptRuns::add_bands(Bands& into, std::uint32_t end) const {
  for (const Stretch& each : bands_)
    if (each.end() <= end) into.merge(bands_of(must_read(*parts_, name_of("bands", each))));
}

void KeptRuns::keep(const Block& stretch, std::uint32_t count, const Bands& chain, std::uint32_t chain_first) {
  // In this order the parts tell the truth at every instant: bands that no stretch follows are not looked at.
  parts_->write(name_of("bands", {chain_first, stretch.first + count - chain_first}), bytes_of(chain));
  parts_->write(name_of("runs", {stretch.first, count}), bytes_of(stretch));
  if (stretch.first > chain_first) parts_->remove(name_of("bands", {chain_first, stretch.first - chain_first}));
}

}  // namespace rackwright::results
