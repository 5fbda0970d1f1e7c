#include "sim/report/simulate_page.hpp"

#include <algorithm>
#include <array>

#include <fmt/format.h>

#include "models/base/expects.hpp"
#include "sim/replication/columns.hpp"
#include "sim/report/parts.hpp"

namespace rackwright::report {

struct Line {
  std::string_view quantity, label;  ///< no quantity: a heading
  Told as = Told::year;
  bool seldom = false;               ///< not shown where it never happened
};

namespace {

constexpr std::array lines{
    Line{"", "Feeding"},
    Line{"served/wanted", "served of what is wanted", Told::share},
    Line{"short_days", "days with a short meal"},
    Line{"longest_short_run", "longest run of such days", Told::value},
    Line{"short_feedings", "meals short, group by group"},
    Line{"missed_rounds", "rounds the keeper missed"},
    Line{"", "Mats"},
    Line{"trays_fed", "fed"},
    Line{"unripe_fed", "  of them unripe", Told::year, true},
    Line{"spoiled_trays", "spoiled, thrown out"},
    Line{"spoiled_mould", "  mouldy"},
    Line{"spoiled_sour", "  sour"},
    Line{"frost_killed", "killed by frost", Told::year, true},
    Line{"spoiled_fed", "spoiled, fed unnoticed"},
    Line{"composted_trays", "sound, but composted"},
    Line{"composted_surplus", "  ripe, not needed", Told::year, true},
    Line{"composted_overdue", "  past their best", Told::year, true},
    Line{"composted_unripe", "  unripe, place wanted", Told::year, true},
    Line{"overdue_trays", "past their best in all"},
    Line{"", "Left undone", Told::year, true},
    Line{"unsoaked_trays", "not soaked: no bucket", Told::year, true},
    Line{"frost_unsown", "not soaked or sown: frost", Told::year, true},
    Line{"unsown_trays", "not sown: no grain", Told::year, true},
    Line{"blocked_sowings", "not sown: no place", Told::year, true},
    Line{"untimely_trays", "not sown: no time", Told::year, true},
    Line{"unattended_trays", "not soaked or sown: nobody there", Told::year, true},
    Line{"hurried_harvests", "rounds short of time to cut", Told::year, true},
    Line{"unmoved_days", "days trays were not moved", Told::year, true},
    Line{"unwashed_trays", "trays not washed", Told::year, true},
    Line{"", "Fodder"},
    Line{"fodder_fresh", "fresh"},
    Line{"fodder_dry_matter", "dry matter in it"},
    Line{"fodder_fresh/grain_used", "fresh, times the grain sown", Told::value},
    Line{"mat_height", "height of a mat when fed", Told::value},
    Line{"", "What goes in"},
    Line{"grain_used", "grain put to soak"},
    Line{"grain_bought", "grain bought"},
    Line{"grain_aged_out", "  thrown out, too old", Told::year, true},
    Line{"grain_refused", "  given back after a trial", Told::year, true},
    Line{"grain_tried", "  laid out in trials", Told::year, true},
    Line{"water_used", "water"},
    Line{"water_used/fodder_fresh", "water for fresh fodder", Told::value},
    Line{"energy_used", "electricity"},
    Line{"labour", "the keeper's work"},
    Line{"reserve_feed", "reserve feed bought"},
    Line{"", "Cost"},
    Line{"cost_total", "in all", Told::money},
    Line{"cost_capital", "  rack and equipment", Told::money},
    Line{"cost_grain", "  grain", Told::money},
    Line{"cost_water", "  water", Told::money},
    Line{"cost_power", "  electricity", Told::money},
    Line{"cost_labour", "  the keeper's work", Told::money},
    Line{"cost_reserve", "  reserve feed", Told::money},
    Line{"cost_disposal", "  disposal of spoiled mats", Told::money},
    Line{"cost_per_kg_fresh", "fresh fodder", Told::price},
    Line{"cost_per_kg_dry_matter", "dry matter in it", Told::price},
    Line{"dry_grain_per_kg_dry_matter", "the same, of grain fed dry", Told::price},
};

}  // namespace

using results::ResultFile;
using study::Estimate;

std::string unvaried_words(const ResultFile& file, const std::vector<std::string_view>& quantities) {
  const auto played = file.header.replications_completed;
  const bool any = std::any_of(quantities.begin(), quantities.end(), [&](std::string_view quantity) {
    const Column* column = find_column(quantity);
    const auto e = file.estimate(quantity);
    return column != nullptr && column->type == ColumnType::whole && e && e->least == e->most;
  });
  if (!any || played < 3) return "";
  const double in_100 = 300.0 / static_cast<double>(played);
  return fmt::format("A count without an interval was the same in all {} replications; up to {} in 100 may still be otherwise (rule of three).", played,
                     plain(in_100, in_100 >= 10.0 ? 0 : in_100 >= 1.0 ? 1 : 2));
}

std::string range_words(const ResultFile& file) {
  const auto days = file.header.horizon_days;
  if (days == 0 || whole_years(file)) return "";
  return days % 365 == 0 ? fmt::format("of {} years each", days / 365) : fmt::format("of {} days each", days);
}

Page::Page(const ResultFile& file) : file_(file), us_(in_us_units(file)) {
  if (file.header.horizon_days > 0) per_year_ = 365.0 / static_cast<double>(file.header.horizon_days);
}

bool Page::has(std::string_view quantity) const { return file_.estimate(quantity).has_value(); }

Estimate Page::get(std::string_view quantity) const {
  const auto found = file_.estimate(quantity);
  EXPECTS(found.has_value());
  return *found;
}

std::string Page::too_little_time() const {
  if (!has("overloaded_days") || !(get("overloaded_days").mean > 0.0)) return {};
  Shown days = shown("overloaded_days", Told::year);
  days.unit.clear();
  const std::string when = fmt::format("n {} days a year the keeper's minutes are too few, and work is left undone", with_interval(year("overloaded_days"), days));
  if (!often_too_little_time()) return "O" + when + ".";
  return "Beware: o" + when + ": washing first, then moving, sowing and cutting. It takes more minutes (keeper.minutes_per_day; keeper.evening_minutes are a part of them, which the morning then lacks: check tells which of the two is short) or fewer trays to run this line as it is meant.";
}

bool Page::often_too_little_time() const {
  constexpr double often = 36.5;  // days a year: one in ten, our choice
  return has("overloaded_days") && year("overloaded_days").mean >= often;
}

std::string Page::stale_grain() const {
  if (!has("grain_aged_out") || !has("grain_used")) return {};
  if (!(get("grain_aged_out").mean > 0.02 * get("grain_used").mean)) return {};
  return fmt::format("{} of grain a year are thrown out because they are older than use_by allows, beside {} that are put to soak: order less at a time (order_up_to), or grain that keeps longer.",
                     words("grain_aged_out", Told::year), words("grain_used", Told::year));
}

std::string Page::short_runs() const {
  const auto days = file_.header.horizon_days;
  if (days >= 365 || days <= 0) return {};
  return fmt::format("The runs are of {} day{} from {}. What is told \"a year\" is for 365 such days ({} times a run), not for the four seasons.", days, days == 1 ? "" : "s",
                     file_.header.start_date, plain(per_year_, per_year_ < 10.0 ? 1 : 0));
}

std::string Page::absent() const {
  const results::Array* groups = file_.find("scenario/absent_group");
  if (groups == nullptr || groups->texts.empty()) return {};
  return fmt::format("Not in any figure here: the fodder of {}, here on no day of the runs.", fmt::join(groups->texts, " and "));
}

std::string Page::grave() const {
  if (!has("spoiled_fed") || !(get("spoiled_fed").mean > 0.0)) return {};
  return fmt::format("Grave: {} spoiled mats a year are fed because nobody saw them.", words("spoiled_fed", Told::year));
}

std::string Page::unripe() const {
  if (!has("unripe_fed") || !has("trays_fed")) return {};
  const double fed = get("trays_fed").mean, unripe = get("unripe_fed").mean;
  if (!(unripe > 0.01 * fed)) return {};
  return fmt::format("{} mats a year, {:.0f} % of those fed, are fed unripe: more soaked grain than green fodder. Warmth helps, where they have all the water they drink; more days on the rack do with the places that those take.",
                     words("unripe_fed", Told::year), 100.0 * unripe / fed);
}

Estimate Page::year(std::string_view quantity) const {
  const Estimate e = get(quantity);
  return {e.mean * per_year_, e.low * per_year_,   e.high * per_year_,
          e.sd * per_year_,   e.least * per_year_, e.most * per_year_};
}

Estimate Page::as(std::string_view quantity, Told how) const {
  return how == Told::year || how == Told::money ? year(quantity) : get(quantity);
}

Shown Page::shown(std::string_view quantity, Told how) const {
  if (how == Told::share) return as_share();
  if (how == Told::money) return {1.0, 0.0, file_.header.currency};
  Shown s = shown_in(unit(quantity), us_);
  s.top = most_possible(quantity, how == Told::year ? 365.0 : static_cast<double>(file_.header.horizon_days));
  if (how == Told::price) s.unit = file_.header.currency + s.unit;
  return s;
}

std::string Page::words(std::string_view quantity, Told how) const {
  return with_interval(as(quantity, how), shown(quantity, how));
}

std::string Page::table() const {
  const std::string_view interval = file_.header.replications_completed == 1 ? "" : "95 % interval";
  std::string out = left("", 32) + right("mean of a year", 18) + right(interval, 22) + right("least to most", 24) + "\n";
  std::vector<std::string_view> told;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (lines[i].seldom && !happened(i)) continue;
    out += lines[i].quantity.empty() ? fmt::format("{}\n", lines[i].label) : row(lines[i]);
    told.push_back(lines[i].quantity);
  }
  if (const std::string runs = range_words(file_); !runs.empty()) out += wrapped(fmt::format("Least to most are of replications {}, told for a year as the mean is.", runs));
  return out + wrapped(unvaried_words(file_, told));
}

std::string Page::row(const Line& line) const {
  Cells c = cells(as(line.quantity, line.as), shown(line.quantity, line.as));
  if (counted(line)) {
    const Estimate e = get(line.quantity);
    c.range = plain(e.least, 0) + " to " + plain(e.most, 0);
  }
  std::string text =
      left("  " + std::string(line.label), 32) + right(c.mean, 18) + right(c.interval, 22) + right(c.range, 24);
  return text.erase(text.find_last_not_of(' ') + 1) + "\n";
}

// Did it happen, or for a heading anything below it? A file of an earlier version may not tell.
bool Page::happened(std::size_t line) const {
  if (!lines[line].quantity.empty()) return has(lines[line].quantity) && get(lines[line].quantity).most > 0.0;
  for (std::size_t k = line + 1; k < lines.size() && !lines[k].quantity.empty(); ++k)
    if (happened(k)) return true;
  return false;
}

// Single replications then have whole numbers of it.
bool Page::counted(const Line& line) const {
  const Column* column = find_column(line.quantity);
  const Estimate e = get(line.quantity);
  return column != nullptr && column->type == ColumnType::whole && (line.as == Told::value || per_year_ == 1.0) &&
         e.least < e.most;
}

std::string_view Page::unit(std::string_view quantity) const {
  const results::Array* names = file_.find("summary/quantity");
  for (std::size_t i = 0; names != nullptr && i < names->texts.size(); ++i)
    if (names->texts[i] == quantity) return file_.at("summary/unit").texts[i];
  return "1";
}

}  // namespace rackwright::report
