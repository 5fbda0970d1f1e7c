#include "sim/study/quantile_sketch.hpp"

#include <algorithm>
#include <bit>
#include <cmath>

#include "models/base/expects.hpp"

namespace rackwright::study {
namespace {

constexpr int steps = 64;             // in each power of two: a bin is 1/64 to 1/128 of its values wide
constexpr int lowest_exponent = -30;  // of QuantileSketch::smallest
constexpr int octaves = 71;           // up to and with that of QuantileSketch::largest

// Bins are 1, 2, ... by magnitude, 0 for zero, and the negative of a magnitude's bin for a negative value. A double's exponent and the
// first six bits of its fraction, read as one whole number, count those bins already.
std::int32_t bin_of(double value) {
  static_assert(std::numeric_limits<double>::is_iec559 && steps == 64);
  constexpr int bias = 1023;
  constexpr int first = (bias + lowest_exponent) * steps;
  const double magnitude = std::min(std::abs(value), QuantileSketch::largest);
  if (magnitude < QuantileSketch::smallest) return 0;
  const int bin = 1 + static_cast<int>(std::bit_cast<std::uint64_t>(magnitude) >> 46U) - first;
  return value < 0.0 ? -bin : bin;
}

double middle_of(std::int32_t bin) {
  if (bin == 0) return 0.0;
  const int index = std::abs(bin) - 1;
  const double low = 1.0 + static_cast<double>(index % steps) / steps;
  const double middle = std::ldexp(low + 0.5 / steps, index / steps + lowest_exponent);
  return bin < 0 ? -middle : middle;
}

}  // namespace

void QuantileSketch::Window::add(std::int32_t bin, std::uint32_t n) {
  auto place = static_cast<std::size_t>(static_cast<std::int64_t>(bin) - first);  // far out of range where the bin lies before the first
  if (place >= counts.size()) {
    widen(bin);
    place = static_cast<std::size_t>(bin - first);
  }
  EXPECTS(n <= std::numeric_limits<std::uint32_t>::max() - counts[place]);
  counts[place] += n;
}

void QuantileSketch::Window::widen(std::int32_t bin) {
  if (counts.empty()) first = bin;
  if (bin < first) {
    counts.insert(counts.begin(), static_cast<std::size_t>(first - bin), 0U);
    first = bin;
  }
  counts.resize(std::max(counts.size(), static_cast<std::size_t>(bin - first) + 1), 0U);
}

void QuantileSketch::add_bin(std::int32_t bin, std::uint32_t n) {
  EXPECTS(std::abs(bin) <= octaves * steps);
  if (bin == 0) zeros_ += n;
  else if (bin > 0) above_.add(bin, n);
  else below_.add(-bin, n);
  count_ += n;
}

void QuantileSketch::add(double value) {
  EXPECTS(std::isfinite(value));
  add_bin(bin_of(value), 1);
  least_ = std::min(least_, value);
  most_ = std::max(most_, value);
  // Beyond 2^53 every double is a whole number, and a conversion to one might not fit.
  whole_ = whole_ && (std::abs(value) >= 0x1p53 || static_cast<double>(static_cast<std::int64_t>(value)) == value);
}

void QuantileSketch::merge(const QuantileSketch& other) {
  const auto join = [](Window& here, const Window& there) {
    if (there.counts.empty()) return;
    here.add(there.first, 0);  // make room once at each end
    here.add(there.first + static_cast<std::int32_t>(there.counts.size()) - 1, 0);
    for (std::size_t i = 0; i < there.counts.size(); ++i)
      here.add(there.first + static_cast<std::int32_t>(i), there.counts[i]);
  };
  join(below_, other.below_);
  join(above_, other.above_);
  zeros_ += other.zeros_;
  count_ += other.count_;
  least_ = std::min(least_, other.least_);
  most_ = std::max(most_, other.most_);
  whole_ = whole_ && other.whole_;
}

double QuantileSketch::answer(std::int32_t bin) const {
  const double middle = std::clamp(middle_of(bin), least_, most_);
  return whole_ ? std::trunc(middle) : middle;  // a bin up to 1 wide holds a whole number only at its inner edge
}

double QuantileSketch::quantile(double p) const {
  EXPECTS(p >= 0.0 && p <= 1.0);
  if (count_ == 0) return 0.0;
  constexpr double hair = 1e-9;  // 0.07 * 100 is rank 7, whatever the rounding
  const auto rank = static_cast<std::uint64_t>(std::max(1.0, std::ceil(p * static_cast<double>(count_) - hair)));
  if (rank == 1) return least_;
  if (rank >= count_) return most_;
  std::uint64_t passed = 0;
  for (std::size_t i = below_.counts.size(); i-- > 0;) {  // most negative first
    passed += below_.counts[i];
    if (passed >= rank) return answer(-(below_.first + static_cast<std::int32_t>(i)));
  }
  passed += zeros_;
  if (passed >= rank) return answer(0);
  for (std::size_t i = 0; i < above_.counts.size(); ++i) {
    passed += above_.counts[i];
    if (passed >= rank) return answer(above_.first + static_cast<std::int32_t>(i));
  }
  return most_;
}

std::size_t QuantileSketch::bytes() const {
  return (below_.counts.capacity() + above_.counts.capacity()) * sizeof(std::uint32_t);
}

QuantileSketch::Parts QuantileSketch::parts() const {
  Parts parts{{}, least(), most(), whole_};
  const auto put = [&parts](std::int32_t bin, std::uint64_t n) {
    if (n > 0) parts.entries.push_back({bin, static_cast<std::uint32_t>(n)});
  };
  for (std::size_t i = below_.counts.size(); i-- > 0;)
    put(-(below_.first + static_cast<std::int32_t>(i)), below_.counts[i]);
  put(0, zeros_);
  for (std::size_t i = 0; i < above_.counts.size(); ++i)
    put(above_.first + static_cast<std::int32_t>(i), above_.counts[i]);
  return parts;
}

QuantileSketch QuantileSketch::from(const Parts& parts) {
  QuantileSketch sketch;
  for (const Entry& entry : parts.entries) sketch.add_bin(entry.bin, entry.count);
  if (sketch.count_ == 0) return sketch;
  EXPECTS(parts.least <= parts.most);
  sketch.least_ = parts.least;
  sketch.most_ = parts.most;
  sketch.whole_ = parts.whole;
  return sketch;
}

}  // namespace rackwright::study
