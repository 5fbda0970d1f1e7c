#include "sim/random/sobol_points.hpp"

#include <boost/random/sobol.hpp>

#include "models/base/expects.hpp"

namespace rackwright::random {

struct SobolPoints::State {
  boost::random::sobol engine;
  std::uint64_t next = 0;
  std::vector<double> point;
  explicit State(std::size_t dimensions) : engine(dimensions), point(dimensions) {}
};

SobolPoints::SobolPoints(std::size_t dimensions) {
  EXPECTS(dimensions >= 1 && dimensions <= most_dimensions);
  state_ = std::make_unique<State>(dimensions);
}
SobolPoints::~SobolPoints() = default;

const std::vector<double>& SobolPoints::at(std::uint64_t index) {
  State& s = *state_;
  if (index + 1 == s.next) return s.point;  // asked again
  if (index != s.next) {
    s.engine.seed();
    s.engine.discard(index * s.point.size());
  }
  // The leading 53 bits: exact in a double, and below 1.
  for (double& coordinate : s.point) coordinate = static_cast<double>(s.engine() >> 11U) * 0x1p-53;
  s.next = index + 1;
  return s.point;
}

}  // namespace rackwright::random
