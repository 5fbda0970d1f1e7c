#pragma once
// A small sound scenario and one that uses every list, as text.

#include <string>

namespace rackwright::sample {

/// Line numbers of tests refer to this text: keep its order.
inline const std::string small = R"(title = "Sample"
[rack]
tiers = 4
[line]
soak = "10 h"
[[grain]]
name = "barley"
[[group]]
name = "goats"
class = "goat-milking"
count = 6
ration = "1.5 kg"
)";

/// The least there is, its group last, so that its keys may follow.
inline const std::string goats_and_barley = R"([[grain]]
name = "barley"
species = "barley"
[[group]]
name = "goats"
class = "goat-milking"
count = 4
ration = "1.2 kg"
)";

inline const std::string every_list = small + R"(
[[species]]
name = "bere"
like = "barley"
soak.skin = 0.05
germination.base = "2 degC"
growth.ripe = "8 d"
[[grain]]
name = "old barley"
species = "bere"
[[group]]
name = "ewes"
class = "ewe"
count = 4
weight = "150 lb"
first_births = 2026-12-20
[[spell]]
start = 2026-07-10
length = "9 d"
rise = "16 degF"
[[spell]]
day = "300 d"
length = "5 d"
rise = "-6 K"
[[hard_time]]
name = "the pump"
kind = "pump-stop"
start = 2026-07-10
at = "14:30"
length = "30 h"
[[hard_time]]
name = "dear grain"
kind = "price-jump"
day = "90 d"
share = "20 %"
grain = "barley"
[[kit]]
part = "pump"
name = "large"
sets = ["water.pump_power = 90 W", "prices.pump = 140"]
[[water.node]]
name = "tank"
kind = "source"
[[water.node]]
name = "foot"
height = "0.2 m"
[[water.node]]
name = "low"
kind = "tier"
height = "0.3 m"
[[water.node]]
name = "second"
kind = "tier"
height = "0.65 m"
[[water.node]]
name = "third"
kind = "tier"
height = "1 m"
[[water.node]]
name = "top"
kind = "tier"
height = "1.35 m"
[[water.node]]
name = "floor"
kind = "drain"
[[water.pipe]]
from = "tank"
to = "foot"
diameter = "20 mm"
length = "4 m"
[[water.pipe]]
from = "foot"
to = "low"
[[water.pipe]]
from = "foot"
to = "second"
[[water.pipe]]
from = "foot"
to = "third"
[[water.pipe]]
from = "foot"
to = "top"
[[water.pipe]]
from = "top"
to = "floor"
gravity_drop = true
[[water.pipe]]
from = "third"
to = "floor"
gravity_drop = true
[[water.pipe]]
from = "second"
to = "floor"
gravity_drop = true
[[water.pipe]]
from = "low"
to = "floor"
gravity_drop = true
[target]
short_days = 20
spoiled_fed = 3
yearly_cost = 3000
[choose]
"line.days_on_rack" = [7, 8]
"line.soak" = ["8 h", "12 h"]
)";

}  // namespace rackwright::sample
