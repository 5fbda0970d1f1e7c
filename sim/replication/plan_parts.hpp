#pragma once
// The parts of make_plan that need a file of their own; each fills its fields of the plan from plan.scenario and the
// fields filled before it, in the order make_plan calls them.

#include "sim/replication/plan.hpp"

namespace rackwright {

void plan_lots(Plan& plan);
void plan_water(Plan& plan);
void plan_route(Plan& plan);
void plan_herd(Plan& plan);
void plan_money(Plan& plan);

}  // namespace rackwright
