#pragma once
// A Plan is a scenario worked out once: tables, graph answers and constants that every replication shares, read-only.

#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <vector>

#include "models/climate/climate.hpp"
#include "models/germination/germination.hpp"
#include "models/grain/viability.hpp"
#include "models/growth/mat.hpp"
#include "models/herd/animals.hpp"
#include "models/room/heat_balance.hpp"
#include "models/route/stations.hpp"
#include "models/soak/uptake.hpp"
#include "models/water/network.hpp"
#include "sim/random/beta_table.hpp"
#include "sim/random/litter.hpp"
#include "sim/replication/mat_table.hpp"
#include "sim/replication/opening.hpp"
#include "sim/replication/response.hpp"
#include "sim/scenario/scenario.hpp"

namespace rackwright {

/// Days before day 0 for which luck is drawn: the line may be run in over at most this long.
inline constexpr int lead_days = 60;
inline constexpr std::int64_t minutes_per_day = 1440;

/// Share of its soak that a batch must still get for it to wait for a bucket (assumed).
inline constexpr double least_soak = 0.75;

/// One grain of the scenario with everything its trays need.
struct GrainPlan {
  int supply = 0;                    ///< index into Scenario::grains
  double charge = 1.0;               ///< grain on a tray, of the usual [1]
  double per_tray = 0.0;             ///< [kg as bought]
  int species = 0;                   ///< index into Plan::species
  double dry_matter = 0.88;          ///< of the grain as bought [1]
  double protein = 0.12;             ///< crude protein of dry matter [1]
  soak::Parameters soak;
  soak::DipEffect dip;
  MatTable mats;
  std::shared_ptr<const random::BetaTable> trays;  ///< scatter of trays within a lot
};

/// Buying and trying lots of one grain of the scenario.
struct LotPlan {
  grain::StorePolicy store;          ///< with what is kept back until a new lot has been tried
  grain::Grade instead;              ///< what comes when it is short
  double dear = 1.0;                 ///< what it costs then, against the usual price [1]
  double trial = 0.0;                ///< grain that a trial takes [kg]
  grain::Ageing ageing;              ///< in store
  double scatter = 0.0;              ///< of a trial's trays taken together (over-dispersion) [1]
};

/// One species in use.
struct SpeciesPlan {
  germination::Parameters germination;
  growth::Parameters growth;
};

/// One group with what its animals want.
struct GroupPlan {
  double ration = 0.0;               ///< grown animal, fresh [kg/d]
  double diet_share = 0.0;           ///< fodder's share of the diet's dry matter [1]
  double limit = 0.3;                ///< usual upper share [1]
  std::optional<random::Litter> litter{};
  double litter_mean = 0.0;          ///< young born to each
  double first_birth = -1.0;         ///< day of the run of the first birth season; may lie before it where `litter` is set
  std::vector<float> young;          ///< want of one young by age in days, as a share of `ration`; empty: no births
};

/// The shape of one day of the year, and its usual weather.
struct DayPlan {
  climate::Normal normal;
  std::array<float, 24> today_max{}, today_min{}, yesterday_max{}, yesterday_min{}, sun{};
};

/// Days without fodder after which it is a new feed again, as the list of a day has it (assumed).
inline constexpr int new_feed_days = 7;

/// From when on there are mats to feed, and a new feed is brought in.
struct Fodder {
  int from = 0;                      ///< day of the run
  bool before = true;                ///< were there before it as well, nobody knows since when?
};

/// Everything a replication reads.
struct Plan {
  Scenario scenario;
  std::vector<climate::Overlay> spells;  ///< of the scenario, with the heat waves and cold snaps of its hard times
  int horizon_days = 365;
  int warm_up_days = 0;              ///< run in before day 0, not counted
  Fodder fodder;
  std::shared_ptr<const Opening> opening{};  ///< what the run opens with; nothing: the line runs in by itself
  std::vector<double> charges{1.0};  ///< of the usual; the grains of Scenario::grains follow one another once a charge
  int most_trays = 1;                ///< of any batch
  int first_day_of_year = 60;        ///< of day 0, 1 January = 1, in a year of 365 days (plain_day_of_year)
  int positions = 0;
  double tray_area = 0.0;            ///< [m2]
  double grain_per_tray = 0.0;       ///< [kg as bought]
  std::vector<SpeciesPlan> species;
  std::vector<GrainPlan> grains;
  std::vector<LotPlan> lots;         ///< by grain of the scenario
  std::vector<int> batch_grain;      ///< grain index by batch of the day
  std::vector<GroupPlan> groups;
  std::vector<double> tier_offset;   ///< tier air minus room air, lowest tier first [K]
  std::vector<double> tier_water;    ///< share of the mats' need at 20 degC that each tier's water covers, at most 1 [1]
  double tank_hours = 0.0;           ///< how long a full tank lasts by the trays that the line is to hold [h]
  ResponseTable response;
  std::vector<float> saturation;     ///< saturation humidity ratio by the same temperature rows [1]
  std::vector<DayPlan> days;         ///< by day of the year, 0 .. 366
  water::Network network;
  water::Solution water;
  route::LineShape shape;
  route::Plan route;
  double evening_share = 0.0;        ///< of a usual day's fodder, what the evening's meals want [1]
  double standard_dry_matter = 0.14; ///< of a ripe, well-sprouted mat of the first grain [1]
  double standard_mat = 0.0;         ///< fresh mass of such a mat [kg]
  double capital_per_day = 0.0;      ///< [currency/d]

  /// Of that day of the run, 1 to 365; years of a run have 365 days.
  [[nodiscard]] int day_of_year(int day) const { return ((first_day_of_year + day - 1) % 365 + 365) % 365 + 1; }
};

/// The room with the trays of this share of the rack's places wet, its doors and windows open or not; `course`: heated as the opening's
/// course has it.
room::Step room_step(const Plan& plan, double share, bool open, bool course = false);

/// Day of the run on which the first batch that is put to soak from minute `now` on is due.
int first_due(const Scenario& scenario, std::int64_t now);

/// Works a scenario out. The scenario has passed check_scenario; a fault here is ours and throws std::logic_error.
Plan make_plan(const Scenario& scenario);

/// The same for a run that opens with that. Its days, sessions, grains and trays must be possible ones.
Plan make_plan(const Scenario& scenario, const Opening& opening);

/// Growth of a group's young: towards their own dams' weight.
herd::GrowthCurve young_curve(const Group& group);

/// Young born to each female: as stated, else usual for the class.
double litter_of(const Group& group);

}  // namespace rackwright
