#include "sim/study/sobol_indices.hpp"

#include <algorithm>

#include "models/base/expects.hpp"
#include "sim/random/philox_stream.hpp"

namespace rackwright::study {
namespace {

constexpr std::size_t resamples = 1000;

/// Chances of 2.5 % on either side.
Index with_interval(double value, std::vector<double> drawn) {
  std::sort(drawn.begin(), drawn.end());
  const auto at = [&](double p) { return drawn[static_cast<std::size_t>(p * static_cast<double>(drawn.size() - 1))]; };
  return {value, at(0.025), at(0.975)};
}

}  // namespace

SobolIndices::SobolIndices(std::size_t inputs) : inputs_(inputs) { EXPECTS(inputs > 0); }

SobolIndices::Batch SobolIndices::none() const {
  const std::vector<double> zeros(inputs_, 0.0);
  return {0.0, 0.0, 0.0, 0.0, zeros, zeros, zeros};
}

void SobolIndices::Batch::add(const Batch& other, double times) {
  rows += times * other.rows;
  sum_a += times * other.sum_a;
  sum_b += times * other.sum_b;
  squares += times * other.squares;
  for (std::size_t i = 0; i < crossed.size(); ++i) {
    crossed[i] += times * other.crossed[i];
    differences[i] += times * other.differences[i];
    mixed[i] += times * other.mixed[i];
  }
}

void SobolIndices::add(double a, double b, const std::vector<double>& mixed) {
  EXPECTS(mixed.size() == inputs_);
  if (rows_ == 0) shift_ = a;
  if (batches_.empty() || batches_.back().rows >= static_cast<double>(batch_rows_)) {
    if (batches_.size() == most_batches) halve();
    if (batches_.empty() || batches_.back().rows >= static_cast<double>(batch_rows_))
      batches_.push_back(none());
  }
  Batch& batch = batches_.back();
  a -= shift_;
  b -= shift_;
  batch.rows += 1.0;
  batch.sum_a += a;
  batch.sum_b += b;
  batch.squares += a * a + b * b;
  for (std::size_t i = 0; i < inputs_; ++i) {
    const double between = mixed[i] - shift_;
    batch.crossed[i] += b * (between - a);
    batch.differences[i] += (a - between) * (a - between);
    batch.mixed[i] += between;
  }
  ++rows_;
}

/// Two and two batches become one.
void SobolIndices::halve() {
  for (std::size_t i = 0; i < batches_.size() / 2; ++i) {
    batches_[2 * i].add(batches_[2 * i + 1], 1.0);
    batches_[i] = batches_[2 * i];
  }
  batches_.resize(batches_.size() / 2);
  batch_rows_ *= 2;
}

/// First-order indices, then total ones.
std::vector<double> SobolIndices::estimate(const Batch& all) const {
  std::vector<double> values(2 * inputs_, 0.0);
  const double mean_all = (all.sum_a + all.sum_b) / (2.0 * all.rows);
  const double spread = all.squares / (2.0 * all.rows) - mean_all * mean_all;
  if (!(spread > 0.0)) return values;
  for (std::size_t i = 0; i < inputs_; ++i) {
    values[i] = (all.crossed[i] - mean_all * (all.mixed[i] - all.sum_a)) / all.rows / spread;
    values[inputs_ + i] = all.differences[i] / (2.0 * all.rows) / spread;
  }
  return values;
}

std::vector<InputIndices> SobolIndices::indices(std::uint64_t random_seed) const {
  const random::Key key = random::make_key(random_seed, 0);
  std::vector<InputIndices> result(inputs_);
  if (rows_ < 16) return result;
  Batch all = none();
  for (const Batch& batch : batches_) all.add(batch, 1.0);
  const std::vector<double> values = estimate(all);
  std::vector<std::vector<double>> drawn(2 * inputs_);
  std::vector<std::uint32_t> times(batches_.size());
  for (std::uint32_t r = 0; r < resamples; ++r) {
    random::Stream stream(key, random::Purpose::sample, 0xC0000000U, r);
    std::fill(times.begin(), times.end(), 0U);
    for (std::size_t i = 0; i < batches_.size(); ++i) ++times[stream() % batches_.size()];
    Batch resample = none();
    for (std::size_t i = 0; i < batches_.size(); ++i)
      if (times[i] > 0) resample.add(batches_[i], times[i]);
    const std::vector<double> again = estimate(resample);
    for (std::size_t i = 0; i < again.size(); ++i) drawn[i].push_back(again[i]);
  }
  for (std::size_t i = 0; i < inputs_; ++i)
    result[i] = {with_interval(values[i], drawn[i]), with_interval(values[inputs_ + i], drawn[inputs_ + i])};
  return result;
}

double SobolIndices::mean() const {
  double sum = 0.0;
  for (const Batch& batch : batches_) sum += batch.sum_a + batch.sum_b;
  return rows_ == 0 ? 0.0 : shift_ + sum / (2.0 * static_cast<double>(rows_));
}

double SobolIndices::variance() const {
  double sum = 0.0, squares = 0.0;
  for (const Batch& batch : batches_) {
    sum += batch.sum_a + batch.sum_b;
    squares += batch.squares;
  }
  const double n = 2.0 * static_cast<double>(rows_);
  return rows_ == 0 ? 0.0 : squares / n - sum / n * (sum / n);
}

}  // namespace rackwright::study
