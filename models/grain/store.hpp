#pragma once
// Keeping grain: a reorder point and an order-up-to level, whole bags, a bin that holds so much.

#include "models/base/quantity.hpp"

namespace rackwright::grain {

/// The keeper's rule for one grain, an (s, S) policy.
struct StorePolicy {
  Kilograms reorder_point{50.0};  ///< order when on hand + on order falls to this
  Kilograms order_up_to{250.0};   ///< and order up to this
  Kilograms bag{25.0};            ///< orders are whole bags
  Kilograms least_order{25.0};    ///< the merchant's least order
  Kilograms bin{500.0};           ///< what the store holds
  Hours delivery{72.0};           ///< mean delivery time
  Hours use_by{24.0 * 365.0};     ///< grain older than this is not sown
};

/// How much to order now; zero if none. Whole bags, at least the least order, never past the bin.
Kilograms order_quantity(const StorePolicy& policy, Kilograms on_hand, Kilograms on_order);

/// How long a bag lasts at a steady use per day.
Hours bag_life(Kilograms bag, Kilograms use_per_day);

}  // namespace rackwright::grain
