#pragma once
// The sheets, one a model, in rows_<model>.cpp.

#include "tests/reference/table/sheet.hpp"

namespace rackwright::validation {

Sheet soak_rows();
Sheet germination_rows();
Sheet mat_rows();
Sheet spoilage_rows();
Sheet climate_rows();
Sheet room_rows();
Sheet water_rows();
Sheet route_rows();
Sheet herd_rows();
Sheet intake_rows();
Sheet feed_rows();
Sheet cost_rows();
Sheet design_rows();
Sheet grain_rows();
Sheet viability_rows();
Sheet lot_rows();
Sheet queue_rows();
Sheet statistics_rows();
Sheet random_rows();
Sheet sensitivity_rows();
Sheet unit_rows();

}  // namespace rackwright::validation
