#pragma once

#include <memory>

#include "sim/random/beta_table.hpp"

namespace rackwright {

/// The beta table of an over-dispersion, shared by all plans: made once as long as it is among the last few asked for. Safe from
/// any thread; only those who ask for a table wait while it is made.
std::shared_ptr<const random::BetaTable> beta_table(double rho);

}  // namespace rackwright
