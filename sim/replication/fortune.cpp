#include "sim/replication/fortune.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "models/base/expects.hpp"
#include "models/climate/record_blocks.hpp"
#include "models/herd/animals.hpp"
#include "sim/random/beta_gamma.hpp"
#include "sim/random/laws.hpp"
#include "sim/random/normal_score.hpp"
#include "sim/random/philox_lanes.hpp"

namespace rackwright {
namespace {

using random::Purpose;

// Entity of Purpose::weather, besides 0: blocks of a measured record.
constexpr std::uint32_t the_record = 1;

// Entities of Purpose::failure.
constexpr std::uint32_t the_pump = 0, the_power = 1, the_emitters = 2;  // of the lowest level; those of the next follow

// Entities of Purpose::tray: places of a batch, by session; above them, whether the tray is looked at well.
constexpr std::uint32_t notice_entity = 1U << 20;
std::uint32_t tray_entity(int session, int place) { return static_cast<std::uint32_t>(session * 65536 + place); }

}  // namespace

random::StreamRow Fortune::daily(random::Purpose purpose, std::uint32_t entity, int day) const {
  return {key_, purpose, entity, 0, day_word(day), 1};
}

void Fortune::draw(const Plan& plan, std::uint64_t random_seed, std::uint32_t replication, std::optional<std::uint32_t> assumptions) {
  key_ = random::make_key(random_seed, replication);
  usual_ = plan.opening && plan.opening->usual_luck;
  ignorance_ = plan.scenario.run.ignorance ? draw_ignorance(plan.scenario, random::make_key(random_seed, assumptions.value_or(replication)))
                                           : central(plan.scenario);
  horizon_ = plan.horizon_days;
  days_ = static_cast<std::size_t>(std::int64_t{lead_days} + horizon_ + 1);
  draw_weather(plan);
  if (plan.opening) lay_known_weather(plan);
  draw_herd(plan);
  draw_slips(plan);
  const WaterSystem& water = plan.scenario.water;
  draw_outages(pump_, the_pump, water.pump_between_failures, water.pump_repair);
  draw_outages(power_, the_power, water.power_between_cuts, water.power_cut);
  draw_clogs(plan);
  lay_hard_times(plan);
}

namespace {

// Day after day of a measured record, in blocks. The first is of random length, so that joins fall on no fixed date.
class RecordedDays {
 public:
  RecordedDays(random::Key key, const climate::RecordedWeather* weather, int length) : key_(key), weather_(weather), length_(length) {}

  std::size_t next(int day_of_year) {
    if (left_ == 0) {
      random::Stream luck{key_, Purpose::weather, the_record, number_};
      const double which = random::uniform01(luck);
      left_ = number_++ == 0 ? 1 + static_cast<int>(length_ * random::uniform01(luck)) : length_;
      at_ = static_cast<int>(climate::next_block(*weather_, day_of_year, left_, at_, which));
    } else {
      at_ = static_cast<int>(climate::day_after(*weather_, static_cast<std::size_t>(at_)));
    }
    --left_;
    return static_cast<std::size_t>(at_);
  }

 private:
  random::Key key_;
  const climate::RecordedWeather* weather_;
  int length_, left_ = 0, at_ = -1;
  std::uint32_t number_ = 0;
};

}  // namespace

void Fortune::draw_weather(const Plan& plan) {
  weather_.resize(days_);
  blocks_.resize(2 * days_);
  const std::span<random::Block> temperature(blocks_.data(), days_), moisture(blocks_.data() + days_, days_);
  random::first_blocks(daily(Purpose::weather, 0, -lead_days), temperature);
  random::first_blocks(daily(Purpose::humidity, 0, -lead_days), moisture);
  const climate::Parameters& site = plan.scenario.climate;
  const bool spells = !plan.spells.empty();
  const climate::RecordedWeather* measured = plan.scenario.weather.record.get();
  RecordedDays record{key_, measured, static_cast<int>(in_days(plan.scenario.weather.block))};
  climate::Straying straying(site);
  const random::NormalScore& score = random::NormalScore::table();
  int of_year = plan.day_of_year(-lead_days);
  for (int day = -lead_days; day <= horizon_; ++day) {
    const std::size_t i = index(day);
    // A block holds two draws: warmth and how the daily range strays, dampness and what of a spell lasts for months.
    const double fast = score(temperature[i].first), range = score(temperature[i].second);
    const double dew = score(moisture[i].first), slow = score(moisture[i].second);
    const climate::Straying::Strayed strayed = straying.next({fast, slow, range});
    const Kelvins rise = spells ? climate::overlay_rise(plan.spells, day) : Kelvins(0.0);
    const climate::Normal& usual = plan.days[static_cast<std::size_t>(of_year)].normal;
    weather_[i] = measured ? climate::day_of(*measured, record.next(of_year), site, usual, dew, rise)
                           : climate::day_from(site, usual, {strayed.anomaly, dew, strayed.range}, rise);
    of_year = of_year == 365 ? 1 : of_year + 1;
  }
}

namespace {

/// For so many days a group has had this feed on that day.
double days_known(const herd::Presence& presence, const Fodder& fodder, int day) {
  const bool since_it_came = presence.since != herd::since_ever && (fodder.before || presence.since > fodder.from);
  return std::max(0.0, day - (since_it_came ? presence.since : fodder.from));
}

}  // namespace

void Fortune::draw_herd(const Plan& plan) {
  wanted_.assign(plan.groups.size() * days_, 0.0);
  expected_.assign(plan.scenario.line.sow == SowRule::as_wanted ? days_ - lead_days : 0, 0.0);
  herd_events_.clear();
  const random::NormalScore& score_of = random::NormalScore::table();
  const std::span<random::Block> appetite(blocks_.data(), days_ - lead_days);
  for (std::size_t g = 0; g < plan.groups.size(); ++g) {
    const Group& group = plan.scenario.groups[g];
    usual_ ? expect_births(plan, g) : draw_births(plan, g);
    const auto entity = static_cast<std::uint32_t>(g);
    random::first_blocks(daily(Purpose::demand, entity, 0), appetite);
    const double introduction = in_days(group.introduction), ration = plan.groups[g].ration;
    double* wanted = wanted_.data() + g * days_ + lead_days;
    int grown = group.count, lost = 0;
    double grown_want = grown * ration;
    const bool stays = !herd::comes_or_goes(group.stay);
    for (int day = 0; day <= horizon_; ++day) {
      const herd::Presence presence = stays ? herd::Presence{true, group.stay.came} : herd::presence(group.stay, day);
      // Grown animals die by the month and are replaced on the run's anniversary; the herd grows by the month.
      if (day > 0 && (day % 365 == 0 || day % 30 == 0)) {
        const int died = day % 365 == 0 || !presence.here ? 0 : deaths_of_a_month(group, entity, day, grown);
        befell(day, g, HerdEvent::Kind::died, died);
        lost = day % 365 == 0 ? 0 : lost + died;
        const double kept_up = group.growth == 0.0 ? group.count : group.count * std::pow(1.0 + group.growth, day / 365.0);
        grown = std::max(0, static_cast<int>(std::lround(kept_up)) - lost);
        grown_want = grown * ration;
      }
      const double score = score_of(appetite[static_cast<std::size_t>(day)].first);
      const double hunger = std::max(0.5, 1.0 + group.demand_sd * score);
      const double known = days_known(presence, plan.fodder, day);
      // The first day has its share, too: a tenth of the way after the first of ten.
      const double introduced = known < introduction ? herd::introduction_share(days(known + 1.0), group.introduction + days(1)) : 1.0;
      const double usual = presence.here ? (wanted[day] + grown_want) * introduced : 0.0;
      wanted[day] = usual * hunger;
      if (!expected_.empty()) expected_[static_cast<std::size_t>(day)] += usual;
    }
    const bool here = stays || herd::presence(group.stay, 0.0).here;
    for (int day = -lead_days; day < 0; ++day) wanted[day] = here ? wanted[day] + group.count * ration : 0.0;
  }
}

int Fortune::deaths_of_a_month(const Group& group, std::uint32_t entity, int day, int grown) const {
  if (grown <= 0) return 0;
  auto luck = stream(Purpose::death, entity, day);
  return random::binomial(luck, grown, 1.0 - std::pow(1.0 - group.yearly_death, 30.0 / 365.0));
}

// As many as are kept up; those that die are replaced.
int Fortune::dams_at(const Group& group, double day) {
  if (group.growth == 0.0 || day <= 0.0) return group.count;
  return std::max(0, static_cast<int>(std::lround(group.count * std::pow(1.0 + group.growth, day / 365.0))));
}

void Fortune::draw_births(const Plan& plan, std::size_t g) {
  const Group& group = plan.scenario.groups[g];
  const GroupPlan& want = plan.groups[g];
  if (!want.litter || want.young.empty()) return;
  const herd::Breeding& breeding = group.breeding;
  const double every = std::max(1.0, in_days(breeding.every));
  double first = want.first_birth;
  int season = 0;
  while (first < horizon_) {
    const int dams = dams_at(group, first);
    for (int dam = 0; dam < dams; ++dam) {
      random::Stream luck{key_, Purpose::birth, static_cast<std::uint32_t>(g * 100000 + static_cast<std::size_t>(dam)),
                          static_cast<std::uint32_t>(season)};
      if (random::uniform01(luck) >= breeding.conception * std::min(1.0, want.litter_mean)) continue;
      const int born_on = static_cast<int>(std::floor(first + breeding.spread_days * random::uniform01(luck)));
      const int reared = random::binomial(luck, (*want.litter)(luck), 1.0 - breeding.neonatal_death);
      const double young = reared * more_young(plan, g, born_on);
      const int told = static_cast<int>(std::lround(young));
      befell(born_on, g, HerdEvent::Kind::born, told);
      befell(born_on + static_cast<int>(in_days(breeding.weaning)), g, HerdEvent::Kind::weaned, told);
      befell(born_on + static_cast<int>(in_days(breeding.sale)), g, HerdEvent::Kind::sold, told);
      const double ration = young * want.ration;
      double* wanted = wanted_.data() + g * days_ + lead_days;
      const int last = std::min(horizon_ + 1, born_on + static_cast<int>(want.young.size()));
      for (int day = std::max(-lead_days, born_on); day < last; ++day) {
        wanted[day] += ration * static_cast<double>(want.young[static_cast<std::size_t>(day - born_on)]);
      }
    }
    first += every;
    ++season;
  }
}

void Fortune::draw_slips(const Plan& plan) {
  missed_.assign(2 * days_, 0);
  const std::span<random::Block> luck(blocks_.data(), days_ - lead_days);
  random::first_blocks(daily(Purpose::chore, 0, 0), luck);
  // A second keeper fails to come no less often than the first, and independently.
  const double one = plan.scenario.keeper.miss_chance, chance = plan.scenario.keeper.second_keeper ? one * one : one;
  for (int day = 0; day <= horizon_; ++day) {
    const random::Block& chore = luck[static_cast<std::size_t>(day)];
    const auto slips = [chance](std::uint64_t draw) { return static_cast<char>(static_cast<double>(draw >> 11U) * 0x1p-53 < chance); };
    char* missed = missed_.data() + 2 * index(day);
    missed[0] = slips(chore.first);
    missed[1] = slips(chore.second);
  }
}

Hours Fortune::between_clogs(const Plan& plan) {
  return plan.scenario.water.emitter_between_clogs / std::max(1, plan.scenario.rack.tiers);
}

namespace {

// A Poisson count stays below mean + 9 sd + 16 in all but one of 10^12 runs or so.
std::size_t more_than_come(double hours, Hours between) {
  const double mean = between.value() > 0.0 ? hours / between.value() : hours;
  return static_cast<std::size_t>(std::min(mean + 9.0 * std::sqrt(mean) + 16.0, 1e6));
}

}  // namespace

std::size_t Fortune::most_outages(const Plan& plan) {
  const WaterSystem& water = plan.scenario.water;
  const double hours = 24.0 * (lead_days + plan.horizon_days);
  return more_than_come(hours, water.pump_between_failures) + more_than_come(hours, water.power_between_cuts) +
         more_than_come(hours, between_clogs(plan)) + plan.scenario.hard_times.size();
}

void Fortune::draw_outages(std::vector<Outage>& outages, std::uint32_t entity, Hours between, Hours lasting) {
  outages.clear();
  outages.reserve(more_than_come(24.0 * (lead_days + horizon_), between));
  add_outages(outages, entity, between, lasting);
}

// A clog is there until somebody looks: its end is set by the next round, so only its start is luck.
void Fortune::draw_clogs(const Plan& plan) {
  clogs_.clear();
  clogs_.reserve(more_than_come(24.0 * (lead_days + horizon_), between_clogs(plan)));
  for (int tier = 0; tier < plan.scenario.rack.tiers; ++tier)
    add_outages(clogs_, the_emitters + static_cast<std::uint32_t>(tier), plan.scenario.water.emitter_between_clogs, Hours(0.0), tier);
}

void Fortune::add_outages(std::vector<Outage>& outages, std::uint32_t entity, Hours between, Hours lasting, int tier) const {
  double hour = -24.0 * lead_days;
  for (std::uint32_t number = 0;; ++number) {
    random::Stream luck{key_, Purpose::failure, entity, number};
    hour += random::exponential(luck, between.value());
    if (hour >= 24.0 * horizon_) return;
    const double lasts = random::exponential(luck, lasting.value());
    outages.push_back({static_cast<std::int64_t>(60.0 * hour), static_cast<std::int64_t>(60.0 * (hour + lasts)) + 1, tier});
    hour += lasts;
  }
}

grain::Lot Fortune::lot(const Plan& plan, int grain, std::uint32_t number, double living, const Bought& bought) const {
  const auto g = static_cast<std::size_t>(grain);
  grain::Grade grade = bought.in_shortage ? plan.lots[g].instead : plan.scenario.grains[g].grade;
  if (const double spread = plan.scenario.grains[g].harvest_spread; spread > 0.0)
    grade = grain::in_harvest(grade, spread, harvest_score(plan, grain, bought.day));
  random::Stream luck{key_, Purpose::lot, static_cast<std::uint32_t>(grain), number};
  grain::Lot lot;
  if (usual_) {
    lot.germinable = living * grade.germination_mean;
    lot.vigour = 1.0;
    lot.inoculum = grade.inoculum;
    return lot;
  }
  lot.germinable = living * random::beta(luck, grade.germination_mean, grade.germination_rho);
  // Vigour follows germination in part: a normal score shares the correlation asked for.
  const double sd = std::sqrt(grade.germination_rho * grade.germination_mean * (1.0 - grade.germination_mean));
  const double score = sd > 0.0 ? std::clamp((lot.germinable - grade.germination_mean) / sd, -3.0, 3.0) : 0.0;
  const double r = grade.vigour_correlation;
  lot.vigour = std::exp(grade.vigour_sd * (r * score + std::sqrt(1.0 - r * r) * random::normal(luck)));
  lot.inoculum = grade.inoculum;
  return lot;
}

double Fortune::delivery_hours(const Plan& plan, int grain, std::uint32_t number) const {
  const GrainSupply& supply = plan.scenario.grains[static_cast<std::size_t>(grain)];
  random::Stream luck{key_, Purpose::delivery, static_cast<std::uint32_t>(grain), number};
  const double mean = supply.store.delivery.value(), sd = supply.delivery_sd.value();
  if (mean <= 0.0) return 0.0;
  if (sd <= 0.0) return mean;
  return random::gamma(luck, mean * mean / (sd * sd), sd * sd / mean);
}

void Fortune::trays(int day, int session, double germinable, const random::BetaTable& scatter, std::span<TrayLuck> trays) const {
  if (usual_) {  // a mat spoils when it is more likely to than not
    std::fill(trays.begin(), trays.end(), TrayLuck{germinable, 0.5, 0.5});
    return;
  }
  constexpr std::size_t at_once = 16;
  std::array<random::Block, at_once> blocks;
  const random::BetaTable::Row about = scatter.row(germinable);
  const random::NormalScore& score = random::NormalScore::table();
  for (std::size_t from = 0; from < trays.size(); from += at_once) {
    const std::size_t count = std::min(at_once, trays.size() - from);
    const std::uint32_t entity = tray_entity(session, static_cast<int>(from));
    random::first_blocks({key_, Purpose::tray, entity, 1, day_word(day), 0}, {blocks.data(), count});
    for (std::size_t i = 0; i < count; ++i) {
      TrayLuck& tray = trays[from + i];
      // Two uniforms of 32 bits from one draw: a tray's whole luck is one block of the generator.
      const std::uint64_t both = blocks[i].first;
      tray.mould = static_cast<double>(both >> 32U) * 0x1p-32;
      tray.sour = static_cast<double>(both & 0xffffffffU) * 0x1p-32;
      tray.germinable = about(score(blocks[i].second));
    }
  }
}

double Fortune::notice(int day, int session, int place) const {
  auto luck = stream(Purpose::tray, notice_entity + tray_entity(session, place), day);
  return random::uniform01(luck);
}

}  // namespace rackwright
