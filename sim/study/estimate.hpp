#pragma once
// A number with how sure it is.

namespace rackwright::study {

/// A mean with its 95 % interval, and the spread of single years.
struct Estimate { double mean = 0.0, low = 0.0, high = 0.0, sd = 0.0, least = 0.0, most = 0.0; };

}  // namespace rackwright::study
