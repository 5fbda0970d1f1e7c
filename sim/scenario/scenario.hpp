#pragma once
// The scenario: what the keeper decides and what the farm is. One regular value, native units only.
//
//   Scenario
//   ├─ run      how long, from when, how often            ├─ water    network, pump, timer, failures
//   ├─ climate  outdoors, spells of heat or cold          ├─ keeper   hours, minutes, slips
//   ├─ room     the barn room                             ├─ groups   who is fed, and how they breed
//   ├─ rack     tiers and trays                           ├─ feed     hay, reserve, values
//   ├─ line     days, batches, density, soak              ├─ prices   money
//   ├─ grains   what is bought, and how it is stored      ├─ target   what must be met
//   ├─ species  the keeper's own species                  └─ choose   what may vary in sizing
//   ├─ spoilage assumed, open parameters                ├─ ignorance how unsure the uncertain ones are
//   └─ own_line what differs from what is published

#include <array>
#include <chrono>
#include <cstdint>
#include <iosfwd>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "models/climate/climate.hpp"
#include "models/climate/record.hpp"
#include "models/cost/ledger.hpp"
#include "models/design/rack.hpp"
#include "models/feed/value.hpp"
#include "models/frost/frost.hpp"
#include "models/germination/germination.hpp"
#include "models/grain/grades.hpp"
#include "models/grain/lot.hpp"
#include "models/grain/store.hpp"
#include "models/growth/mat.hpp"
#include "models/herd/breeding.hpp"
#include "models/herd/stay.hpp"
#include "models/room/heat_balance.hpp"
#include "models/route/stations.hpp"
#include "models/soak/uptake.hpp"
#include "models/spoilage/hazard.hpp"
#include "models/water/demand.hpp"
#include "models/water/network.hpp"
#include "sim/scenario/hard_time.hpp"
#include "sim/scenario/ignorance_laws.hpp"

namespace rackwright {

enum class Units { metric, us };
/// How long the line is run in before a run counts: as long as its trays need, or as long as a pilot run shows.
enum class WarmUp { usual, automatic };

struct Run {
  std::chrono::year_month_day start{std::chrono::year(2026), std::chrono::month(3), std::chrono::day(1)};
  Hours length = days(365);
  int replications = 400;
  std::uint64_t random_seed = 1;
  WarmUp warm_up = WarmUp::usual;
  std::optional<Hours> warm_up_length{};  ///< run in for so long; else as `warm_up` says
  bool ignorance = false;          ///< replications differ in uncertain model parameters too, not in luck alone
  bool rack_full_at_start = true;  ///< the run opens with a line already turning over, not an empty rack
};

/// How many trays a batch gets: all it may have, or as many as the animals are to want on the day it is ripe.
enum class SowRule { all, as_wanted };

struct Line {
  int days_on_rack = 8;
  int batches_per_day = 1;               ///< 1: mornings; 2: mornings and evenings
  int trays_per_batch = 4;               ///< at most, where sown as wanted
  SowRule sow = SowRule::all;
  double margin = 0.15;                  ///< as wanted: sown beyond what is to be wanted, as a share of it [1]
  KilogramsPerSquareMetre sowing_density{5.0};
  Hours soak{10.0};
  Celsius soak_water{16.0};
  soak::Dip dip;                         ///< of the grain, before the soak
  soak::Dip tray_dip{0.0, Hours(1.0 / 6.0)};  ///< of trays, after washing
  std::vector<std::string> grains{};     ///< names from `grains`, used by batch of the day in turn
  double wash = 0.9;                     ///< share of tray inoculum a wash removes [1]
  int grace_days = 2;                    ///< a mat not needed on its day may stay this long, then is composted
  double ready = 0.75;                   ///< share of ripe growth at which a mat may be fed [1]
  double drainage = 0.95;                ///< 1 drains freely .. 0 stands in water
};

/// A season in which a grain is short: it begins in so many years in a hundred. Orders placed in it come late, dear or in another
/// grade.
struct ShortSeason {
  int from = 0, until = 0;               ///< day of the year, 1 to 365, both included; 0: none. May run over New Year
  double chance = 0.0;                   ///< a year [1]
  Hours delay{0.0};
  double dearer = 0.0;                   ///< share of the usual price [1]
  grain::GradeName instead = grain::GradeName::own;  ///< own: as ordered
};

/// How a new lot is tried before it is sown.
struct LotPolicy {
  int trial = 0;                         ///< kernels laid out of each new lot; 0: none
  double accept = 0.8;                   ///< least share that must sprout [1]
  Hours trial_time{24.0 * 5.0};
  double trial_minutes = 15.0;           ///< the keeper's, for laying out and counting
  double refused_worth = 0.8;            ///< of its price, what a refused lot still brings [1]
  Kilograms keep_back{0.0};              ///< of tried grain, beyond the reorder point, to last until the new lot has been tried
};

/// One grain the keeper buys.
struct GrainSupply {
  std::string name;
  std::string species = "barley";
  grain::GradeName bought = grain::GradeName::own;
  grain::StatedGrade stated{};           ///< what the keeper says himself of its grade
  grain::Grade grade;                    ///< what follows from both
  double price_multiple = 1.0;           ///< likewise
  double harvest_spread = 0.0;           ///< sd of the logit of mean germination between harvests
  ShortSeason shortage{};
  LotPolicy policy{};
  grain::StorePolicy store;
  double price_per_kg = 0.35;            ///< [currency/kg]
  double moisture = 0.12;                ///< in store, wet basis [1]
  std::optional<Celsius> store_temperature{};  ///< of a store that keeps steady; else it follows the weather
  Hours delivery_sd{24.0};
  Kilograms on_hand{200.0};              ///< at the start

  /// What a kilogram of its grade costs when it is not short [currency/kg].
  [[nodiscard]] double price() const { return price_per_kg * price_multiple; }
};

/// A species of the keeper's own, copied from a preset and changed.
struct OwnSpecies {
  std::string name;
  std::string like = "barley";
  KilogramsPerCubicMetre bulk_density{};
  soak::Parameters soak;
  germination::Parameters germination;
  growth::Parameters growth;
};

/// How the tank is kept full.
enum class TopUp { float_valve, by_hand };

struct WaterSystem {
  water::Feed feed = water::Feed::parallel;
  water::Pump pump;
  water::Emitter emitter;
  int emitters_per_tier = 2;
  Metres riser_diameter{0.020};
  Metres pipe_roughness{1.5e-6};
  Metres branch_diameter{0.013};
  Metres run_length{4.0};
  double tank_litres = 100.0;
  TopUp top_up = TopUp::float_valve;
  Hours top_up_every{24.0};              ///< by hand: at the first round kept when so much time has passed
  water::Schedule schedule;
  std::vector<water::Node> nodes{};      ///< the keeper's own network; empty: the usual one
  std::vector<water::Pipe> pipes{};
  Hours pump_between_failures{24.0 * 400.0};
  Hours pump_repair{20.0};
  Hours power_between_cuts{24.0 * 120.0};
  Hours power_cut{5.0};
  Hours emitter_between_clogs{24.0 * 300.0};  ///< one tier's emitters
  bool spare_pump = false;               ///< on the shelf: put in at the next round
  Hours battery{0.0};                    ///< it keeps the pump running in a power cut
  Hours header_tank{0.0};                ///< it keeps water coming without pump or power
};

struct Keeper {
  Hours morning{7.0};                    ///< clock time of the morning feeding
  Hours evening{18.0};
  double minutes_per_day = 120.0;
  std::optional<double> evening_minutes{};  ///< so many of them in the evening and the rest in the morning; else as the work falls
  double miss_chance = 0.004;            ///< of one feeding's whole round [1]
  bool second_keeper = false;            ///< somebody else holds the round when the keeper cannot
  double notice_spoiled = 0.95;          ///< chance a spoiled mat is seen and thrown out [1]
  route::Times times;
  route::Handling handling = route::Handling::ladder;
  Metres store_to_soak{6.0}, soak_to_rack{4.0}, rack_to_animals{30.0}, animals_to_wash{20.0};
  int soak_buckets = 3;
  double trays_per_bucket = 3.0;
  double wash_trays_per_day = 60.0;      ///< that the washing place takes
};

/// Weather measured on the spot, taken in blocks in place of weather drawn.
struct MeasuredWeather {
  std::string file{};                    ///< as written, beside the scenario; empty: weather is drawn
  std::string hash{};                    ///< of the file as read
  Hours block = days(28);                ///< days in a row that are taken from one year
  std::shared_ptr<const climate::RecordedWeather> record{};  ///< nothing until the file has been read
};

/// Animals fed alike.
struct Group {
  std::string name;
  std::string animal_class = "goat-milking";
  int count = 10;
  std::optional<Kilograms> ration{};     ///< fresh fodder a head a day; else `share` decides
  double share = 0.2;                    ///< of dry-matter intake, as sprouted fodder [1]
  std::optional<Kilograms> weight{};     ///< else the class's usual
  std::optional<Kilograms> milk{};       ///< a head a day, where the class milks; else the class's usual
  int feedings = 2;                      ///< 1: mornings only, 2: mornings and evenings
  double demand_sd = 0.05;               ///< day-to-day spread of appetite [1]
  Hours introduction{0.0};               ///< over which the ration is brought in once there is fodder, and each time the group arrives
  herd::Stay stay;
  herd::Breeding breeding;
  std::optional<double> litter{};        ///< young born to each, mean; else the class's usual
  double yearly_death = 0.02;            ///< of grown animals [1/yr]
  double growth = 0.0;                   ///< of the number of grown animals, kept up by rearing or buying [1/yr]
};

struct Feed {
  feed::HayValue hay;
  feed::GrainValue grain;                ///< its protein is the species'
  std::optional<double> grain_protein{}; ///< else the species' [1]
  double tolerance = 0.02;               ///< a feeding is short when it misses more than this share of its ration [1]
};

/// A year (replication) succeeds when every stated limit holds, but for those with their own share of years; the design
/// succeeds when enough years do, when each of those limits holds in its own share of years, and when the means hold.
struct Target {
  double fill_rate = 0.97;               ///< least kg served / kg wanted [1]
  std::optional<double> short_days{};    ///< most days a year with a short feeding
  std::optional<double> longest_short_run{};  ///< most short days in a row
  std::optional<double> season_fill_rate{};   ///< least of the worst season
  std::optional<double> spoiled_fed{};   ///< most spoiled mats fed unnoticed a year
  double unripe_fed = 0.1;               ///< most mats fed unripe, of all fed [1]: they are soaked grain rather than fodder; 1: no limit
  std::optional<double> yearly_cost{};   ///< most money a year
  std::optional<double> mean_fill_rate{};     ///< least mean over years
  std::optional<double> mean_yearly_cost{};   ///< most, mean over years
  double years = 0.9;                    ///< share of years that must succeed [1]
  std::optional<double> fill_rate_years{}, short_days_years{}, longest_short_run_years{}, season_fill_rate_years{},
      spoiled_fed_years{}, unripe_fed_years{}, yearly_cost_years{};  ///< a limit's own share of years [1]
  double confidence = 0.95;
};

/// One key that sizing may vary, with its values as text; the grid is their product.
struct Choice {
  std::string key;
  std::vector<std::string> values;
};

struct Choose {
  std::vector<Choice> choices{};
  double indifference = 0.02;            ///< cost differences below this share are not worth a decision [1]
  int most_replications = 2000;
  Hours look_ahead = days(5.0 * 365.0);  ///< how far ahead a growing herd is followed on the chosen rack
};

/// Things bought together, as one choice of sizing; see kits.hpp.
struct Kit {
  std::string part{}, name{};
  std::vector<std::string> sets{};  ///< "KEY = VALUE" each
};

/// From one day of the year up to another, round the turn of the year where it begins later than it ends.
struct YearPart {
  int from = 0, until = 0;               ///< first day of the year [1..365] that is in it, and first that is not; 0: not stated

  [[nodiscard]] bool stated() const { return from > 0 && until > 0; }
  /// Never where it is not stated.
  [[nodiscard]] bool holds(int day_of_year) const {
    return from <= until ? day_of_year >= from && day_of_year < until : day_of_year >= from || day_of_year < until;
  }
};

struct Scenario {
  std::string title = "A sprouting line";
  Units units = Units::metric;
  std::string currency = "EUR";
  Run run;
  climate::Parameters climate;
  std::vector<climate::Overlay> spells{};
  std::vector<HardTime> hard_times{};
  MeasuredWeather weather;
  room::Parameters room;
  YearPart shaded{};                     ///< when room.shade is up; the whole year where it is not stated
  YearPart opened{};                     ///< when doors and windows stand open
  double open_air_changes = 0.0;         ///< meanwhile, instead of room.air_changes [1/h]
  Kelvins tier_gradient{0.8};            ///< air is this much warmer per metre of height
  design::Rack rack;
  Line line;
  std::vector<GrainSupply> grains{};
  std::vector<OwnSpecies> species{};
  spoilage::Parameters spoilage;
  frost::Parameters frost;
  OwnLine own_line;                      ///< what differs from what is published
  Doubts ignorance;
  WaterSystem water;
  Keeper keeper;
  std::vector<Group> groups{};
  Feed feed;
  cost::Prices prices;
  Target target;
  Choose choose;
  std::vector<Kit> kits{};

  /// Equal when every input key is (derived fields such as the room's wet area do not count).
  friend bool operator==(const Scenario& a, const Scenario& b);
  /// Prints resolved_text.
  friend std::ostream& operator<<(std::ostream& out, const Scenario& scenario);
};

}  // namespace rackwright
