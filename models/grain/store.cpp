#include "models/grain/store.hpp"

#include <algorithm>
#include <cmath>

#include "models/base/expects.hpp"

namespace rackwright::grain {

Kilograms order_quantity(const StorePolicy& policy, Kilograms on_hand, Kilograms on_order) {
  EXPECTS(policy.bag.value() > 0.0);
  EXPECTS(on_hand.value() >= 0.0 && on_order.value() >= 0.0);
  constexpr double whole = 1e-9;  // a bag short by rounding is still a bag
  const Kilograms position = on_hand + on_order;
  if (position > policy.reorder_point) return Kilograms(0.0);
  const double room = policy.bin / policy.bag - position / policy.bag;
  const double wanted = std::ceil((policy.order_up_to - position) / policy.bag - whole);
  const double least = std::ceil(policy.least_order / policy.bag - whole);
  const double bags = std::min(std::max(wanted, least), std::floor(room + whole));
  // A merchant does not split the least order: if the bin cannot take it, nothing comes.
  if (wanted < 1.0 || bags < least || bags < 1.0) return Kilograms(0.0);
  return bags * policy.bag;
}

Hours bag_life(Kilograms bag, Kilograms use_per_day) {
  EXPECTS(use_per_day.value() > 0.0);
  return days(bag / use_per_day);
}

}  // namespace rackwright::grain
