#pragma once

#include <memory>

#include "sim/random/beta_table.hpp"

namespace rackwright {

/// The beta table of an over-dispersion, made once for the whole program and shared by all plans. Safe from any thread.
std::shared_ptr<const random::BetaTable> beta_table(double rho);

}  // namespace rackwright
