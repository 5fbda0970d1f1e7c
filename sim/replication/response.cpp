#include "sim/replication/response.hpp"

#include "models/base/expects.hpp"

namespace rackwright {

ResponseTable::ResponseTable(std::size_t curves)
    : curves_(curves),
      stride_((curves + 7) / 8 * 8),
      bins_(static_cast<std::size_t>((warmest - coldest) / bin) + 1),
      values_(2 * bins_ * stride_, 0.0F) {
  EXPECTS(curves > 0);
}

void ResponseTable::close() {
  for (std::size_t row = 0; row + 1 < bins_; ++row) {
    float* here = values_.data() + 2 * row * stride_;
    for (std::size_t i = 0; i < stride_; ++i) here[i + stride_] = here[i + 2 * stride_] - here[i];
  }
}

}  // namespace rackwright
