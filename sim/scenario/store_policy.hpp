#pragma once
// When grain is ordered, and how much.

#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// A grain's (s, S) rule with what is kept back until a new lot has been tried, where lots are tried.
inline grain::StorePolicy policy_in_use(const GrainSupply& supply) {
  grain::StorePolicy policy = supply.store;
  if (supply.policy.trial <= 0) return policy;
  policy.reorder_point = policy.reorder_point + supply.policy.keep_back;
  policy.order_up_to = policy.order_up_to + supply.policy.keep_back;
  return policy;
}

}  // namespace rackwright
