#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>

#include <fmt/format.h>

#include "sim/report/build_words.hpp"
#include "sim/report/parts.hpp"
#include "sim/report/simulate_page.hpp"
#include "sim/report/words.hpp"

namespace rackwright::report {
namespace {

using results::ResultFile;
using study::Estimate;

/// "years", or what a run of another length is called.
std::string played(const ResultFile& file) {
  return whole_years(file) ? "years" : fmt::format("runs of {} days, each judged as a whole,", file.header.horizon_days);
}

std::string verdict(const ResultFile& file, const Page& page) {
  const std::string target = target_words(file);
  if (target.empty()) return "";
  const Met met = met_target(file);
  const char* words = met == Met::yes  ? "This design meets the target"
                      : met == Met::no ? "This design does not meet the target"
                                       : "Whether this design meets the target is too close to tell";
  const std::string share = fmt::format("{} of {}", share_with_interval(page.get("success")), played(file)), more = kept_words(file, -1, years_or_runs(file));
  if (more.empty()) return wrapped(fmt::format("{} ({}): {} meet it.", words, target, share));
  const std::string together = asks_together(file) ? share + " keep the limits taken together; " : "";
  return wrapped(fmt::format("{} ({}): {}{}.", words, target, together, more));
}

/// What a keeper should act on.
std::string remarks(const Page& page) {
  std::string out;
  if (const std::string grave = page.grave(); !grave.empty()) out += wrapped(grave);
  if (const std::string unripe = page.unripe(); !unripe.empty()) out += wrapped(unripe);
  if (const std::string time = page.too_little_time(); !time.empty()) out += wrapped(time);
  if (const std::string stale = page.stale_grain(); !stale.empty()) out += wrapped(stale);
  return out;
}

std::string answer(const ResultFile& file, const Page& page) {
  std::string out;
  for (const std::string& first : {page.short_runs(), page.absent()})
    if (!first.empty()) out += wrapped(first);
  out += wrapped(fmt::format(
      "The animals get {} of the fodder they want. On {} days a year a meal is short; the longest run of such days is {} days "
      "on average and {} at worst. {} mats a year spoil and are thrown out; {} grow past their best before they are fed or "
      "composted.",
      page.words("served/wanted", Told::share), page.words("short_days", Told::year),
      page.words("longest_short_run", Told::value), plain(page.get("longest_short_run").most, 0),
      page.words("spoiled_trays", Told::year), page.words("overdue_trays", Told::year)));
  return out + grave_text(file) + remarks(page) + verdict(file, page);
}

std::string share_only(double share) { return plain(100.0 * share, 0) + " %"; }

std::string bad_years(const ResultFile& file) {
  const results::Array* shares = file.find("summary/bad_year");
  if (shares == nullptr) return "";
  std::string out;
  for (std::size_t i = 0; i < shares->numbers.size(); ++i) {
    const Estimate fill{file.at("summary/bad_year_fill_rate").numbers[i], file.at("summary/bad_year_fill_rate_low").numbers[i],
                        file.at("summary/bad_year_fill_rate_high").numbers[i], 0.0, 0.0, 0.0};
    // Too few years give the worst of them no lower end.
    out += fmt::format("{}in one {} of {:.0f} no more than {}", i == 0 ? "" : ", ", whole_years(file) ? "year" : "run", 1.0 / shares->numbers[i],
                       fill.low > 0.0 ? share_with_interval(fill)
                                      : fmt::format("{} (at most {}; so few {} tell no lower end)", share_only(fill.mean),
                                                    share_only(fill.high), years_or_runs(file)));
  }
  return wrapped("Of the fodder wanted they get, " + out + ".");
}

std::string seasons(const ResultFile& file, const Page& page) {
  const results::Array* shares = file.find("summary/short_season");
  if (shares == nullptr || page.get("short_days").mean <= 0.0) return "No meal was short.\n";
  const auto& names = file.at("summary/season").texts;
  std::string out = "Short days fall";
  for (std::size_t i = 0; i < names.size(); ++i)
    out += fmt::format("{} {:.0f} % in {}", i == 0 ? "" : ",", 100.0 * shares->numbers[i], names[i]);
  return wrapped(out + ".");
}

/// "Without the reserve feed, ..., 2.7 times that of the same grain fed dry (...) and 4.4 times that of hay (...)."
std::string price_words(const ResultFile& file, const Page& page) {
  const double fodder = page.get("cost_per_kg_dry_matter").mean, grain = page.get("dry_grain_per_kg_dry_matter").mean;
  std::string out = fmt::format("Without the reserve feed, fresh fodder comes to {}; its dry matter to {}, {:.1f} times that of the same "
                                "grain fed dry ({})",
                                page.words("cost_per_kg_fresh", Told::price), page.words("cost_per_kg_dry_matter", Told::price),
                                fodder / grain, page.words("dry_grain_per_kg_dry_matter", Told::price));
  if (const auto hay = file.number("scenario/hay_cost_per_kg_dry_matter"); hay && *hay > 0.0) {
    const Shown price = page.shown("cost_per_kg_dry_matter", Told::price);
    const double shown = price.scale * *hay;
    out += fmt::format(" and {:.1f} times that of hay ({} {})", fodder / *hay, plain(shown, decimals_for(0.0, shown)), price.unit);
  }
  out += ". Beware of the price of dry matter: soaked grain that never sprouted counts in it as well as green mats do.";
  if (page.has("grain_dry_matter") && page.has("cost_equal_hay"))
    out += fmt::format(" Of the {} of dry matter in the grain {} reach the animals. Hay with the energy of that fodder would cost {} "
                       "a year.",
                       page.words("grain_dry_matter", Told::year), page.words("fodder_dry_matter", Told::year),
                       page.words("cost_equal_hay", Told::money));
  return out;
}

/// " Plainly: sprouting costs more than ...", where it does.
std::string dearer_words(const Page& page) {
  const bool grain = page.get("cost_per_kg_dry_matter").mean > page.get("dry_grain_per_kg_dry_matter").mean;
  bool hay = false;
  if (page.has("cost_equal_hay") && page.has("cost_total") && page.has("cost_reserve")) {
    const double equal = page.get("cost_equal_hay").mean;
    hay = equal > 0.0 && page.get("cost_total").mean - page.get("cost_reserve").mean > equal;
  }
  if (!grain && !hay) return "";
  return fmt::format(" Plainly: sprouting costs more than {}{}{}.", grain ? "feeding the grain dry" : "", grain && hay ? " and more than " : "",
                     hay ? "hay of the same energy" : "");
}

/// Money a year for one user of electricity, which has one price.
std::optional<Estimate> power_cost(const Page& page, std::string_view energy) {
  if (!page.has(energy) || !page.has("energy_used") || !page.has("cost_power")) return std::nullopt;
  const double used = page.get("energy_used").mean;
  if (!(used > 0.0)) return std::nullopt;
  const double price = page.get("cost_power").mean / used;
  const Estimate e = page.year(energy);
  return Estimate{e.mean * price, e.low * price, e.high * price, e.sd * price, e.least * price, e.most * price};
}

/// What a year costs, then what a kilogram does.
std::string money(const ResultFile& file, const Page& page) {
  std::string out = fmt::format("All of it costs {} a year", page.words("cost_total", Told::money));
  if (page.year("cost_reserve").mean > 0.0)
    out += fmt::format(", {} of it for reserve feed (bought when the rack falls short, as much dry matter as is missing)", page.words("cost_reserve", Told::money));
  return wrapped(out + ". " + worth_words(file));
}

std::string footing(const ResultFile& file) {
  const auto& h = file.header;
  std::string out = fmt::format("\n{} replication{} of {} days from {}, random seed {}.", h.replications_completed, h.replications_completed == 1 ? "" : "s",
                                h.horizon_days, h.start_date, h.random_seed);
  if (h.replications_completed + h.replications_failed < h.replications_asked)
    out += fmt::format(" Stopped early: {} were asked for.", h.replications_asked);
  if (h.replications_failed > 0)
    out += fmt::format(" {} broke off and are in none of these numbers; /failures in the result file names them.",
                       h.replications_failed);
  return wrapped(out + (h.replications_completed == 1
                            ? " One replication (the line played once): no interval of a mean."
                            : " A replication is the line played once, each time with other luck. The 95 % intervals say how well so many "
                              "tell the mean; least and most are of single replications."));
}

/// What the search of `size` found the design on the page to cost a year, where its figures are the search's; not a number where they are not.
double searched_cost(const ResultFile& file) {
  const auto shown = design_shown(file);
  return shown && !told_by_replications(file) ? file.design("cost_year", *shown).mean : std::numeric_limits<double>::quiet_NaN();
}

}  // namespace

std::string worth_words(const ResultFile& file) {
  const Page page(file);
  std::string out;
  if (page.has("cost_per_kg_fresh") && page.has("cost_per_kg_dry_matter") && page.has("dry_grain_per_kg_dry_matter") &&
      page.get("cost_per_kg_dry_matter").mean > 0.0 && page.get("dry_grain_per_kg_dry_matter").mean > 0.0)
    out = price_words(file, page) + dearer_words(page);
  const auto heater = power_cost(page, "energy_heater"), cooler = power_cost(page, "energy_cooler");
  const std::string warmth = heating_words(file, heater ? heater->mean : 0.0, cooler ? cooler->mean : 0.0);
  return out + (out.empty() || warmth.empty() ? "" : " ") + warmth;
}

std::string cost_parts_text(const ResultFile& file) {
  const Page page(file);
  if (!page.has("cost_total") || !(page.year("cost_total").mean > 0.0)) return "";
  const double total = page.year("cost_total").mean;
  const int decimals = std::max(0, decimals_for(0.0, total));  // of the sum, so that the parts can be added by eye
  std::string out;
  const auto line = [&](const char* label, const std::optional<Estimate>& part) {
    if (!part || !(part->mean > 0.0)) return;
    const double share = 100.0 * part->mean / total;
    out += "    " + left(label, 26) + right(plain(part->mean, decimals) + " " + file.header.currency, 14) +
           right(share < 1.0 ? "< 1 %" : fmt::format("{:.0f} %", share), 8) + "\n";
  };
  const auto part = [&](const char* quantity) {
    return page.has(quantity) ? std::optional(page.year(quantity)) : std::nullopt;
  };
  line("grain", part("cost_grain"));
  line("electricity of the heater", power_cost(page, "energy_heater"));
  line("electricity of the cooler", power_cost(page, "energy_cooler"));
  line("electricity of the pump", power_cost(page, "energy_pump"));
  line("the keeper's work", part("cost_labour"));
  line("water", part("cost_water"));
  line("reserve feed", part("cost_reserve"));
  line("rack and equipment", part("cost_capital"));
  line("disposal of spoiled mats", part("cost_disposal"));
  if (out.empty()) return "";
  const bool unpriced = page.has("cost_labour") && !(page.get("cost_labour").mean > 0.0);
  const double searched = searched_cost(file);
  const std::string built = build_words(file);
  std::string beside;
  if (std::isfinite(searched) && plain(searched, decimals) != plain(total, decimals))
    beside = wrapped(fmt::format("These are of the {} replications that were played to the end, which cost {} {} in all; the figure above is of those that the search "
                                 "played.", file.header.replications_completed, plain(total, decimals), file.header.currency), 4);
  return "\n  what a year's cost is made of" + std::string(unpriced ? " (the keeper's work has no price)" : "") + "\n" + out + beside + (built.empty() ? "" : "\n" + wrapped(built));
}

std::string simulate_text(const ResultFile& file) {
  const Page page(file);
  if (file.header.replications_completed == 0)
    return file.header.title + "\n\nNo replication was completed: there is nothing to tell.\n";
  std::string out = file.header.title + "\n\n" + answer(file, page) + bad_years(file) + doubt_text(file) + seasons(file, page) + shortage_text(file) + money(file, page);
  return out + "\n" + page.table() + against_text(file) + cautions_text(file) + "\n" + footing(file);
}

}  // namespace rackwright::report
