#include <array>

#include <fmt/format.h>

#include "models/base/expects.hpp"
#include "sim/report/parts.hpp"
#include "sim/report/words.hpp"
#include "sim/replication/columns.hpp"

namespace rackwright::report {
namespace {

using results::ResultFile;
using study::Estimate;

/// How a line's number is shown.
enum class As {
  year,    ///< a total, for 365 days
  value,   ///< as it is
  share,   ///< in per cent
  money,   ///< a total, for 365 days, in the currency
  price,   ///< currency by mass
};

struct Line {
  std::string_view quantity, label;  ///< no quantity: a heading
  As as = As::year;
};

constexpr std::array lines{
    Line{"", "Feeding"},
    Line{"served/wanted", "fill rate", As::share},
    Line{"short_days", "short days"},
    Line{"longest_short_run", "longest run of short days", As::value},
    Line{"short_feedings", "short feedings"},
    Line{"missed_rounds", "rounds the keeper missed"},
    Line{"", "Mats"},
    Line{"trays_fed", "mats fed"},
    Line{"spoiled_trays", "spoiled, thrown out"},
    Line{"spoiled_mould", "  by mould"},
    Line{"spoiled_sour", "  by souring"},
    Line{"spoiled_fed", "spoiled, fed unnoticed"},
    Line{"overdue_trays", "overdue"},
    Line{"composted_trays", "sound, but not needed"},
    Line{"", "Fodder"},
    Line{"fodder_fresh", "fresh"},
    Line{"fodder_dry_matter", "dry matter"},
    Line{"fodder_fresh/grain_used", "fresh, by grain sown", As::value},
    Line{"mat_height", "height of a mat", As::value},
    Line{"", "What goes in"},
    Line{"grain_used", "grain"},
    Line{"water_used", "water"},
    Line{"water_used/fodder_fresh", "water, by fresh fodder", As::value},
    Line{"energy_used", "power"},
    Line{"labour", "work"},
    Line{"reserve_feed", "reserve feed bought"},
    Line{"", "Cost"},
    Line{"cost_total", "in all", As::money},
    Line{"cost_capital", "  rack and equipment", As::money},
    Line{"cost_grain", "  grain", As::money},
    Line{"cost_water", "  water", As::money},
    Line{"cost_power", "  power", As::money},
    Line{"cost_labour", "  work", As::money},
    Line{"cost_reserve", "  reserve feed", As::money},
    Line{"cost_disposal", "  disposal", As::money},
    Line{"cost_per_kg_fresh", "fodder, fresh", As::price},
    Line{"cost_per_kg_dry_matter", "fodder, dry matter", As::price},
    Line{"dry_grain_per_kg_dry_matter", "same grain dry, dry matter", As::price},
};

/// The estimates of a file, as the page words them.
class Page {
 public:
  explicit Page(const ResultFile& file) : file_(file), us_(in_us_units(file)) {
    if (file.header.horizon_days > 0) per_year_ = 365.0 / static_cast<double>(file.header.horizon_days);
  }

  [[nodiscard]] Estimate get(std::string_view quantity) const {
    const auto found = file_.estimate(quantity);
    EXPECTS(found.has_value());  // every file of this format has every quantity named on this page
    return *found;
  }
  [[nodiscard]] Estimate year(std::string_view quantity) const {
    const Estimate e = get(quantity);
    return {e.mean * per_year_, e.low * per_year_,   e.high * per_year_,
            e.sd * per_year_,   e.least * per_year_, e.most * per_year_};
  }
  [[nodiscard]] Estimate as(std::string_view quantity, As how) const {
    return how == As::year || how == As::money ? year(quantity) : get(quantity);
  }

  [[nodiscard]] Shown shown(std::string_view quantity, As how) const {
    if (how == As::share) return {100.0, 0.0, "%"};
    if (how == As::money) return {1.0, 0.0, file_.header.currency};
    Shown s = shown_in(unit(quantity), us_);
    if (how == As::price) s.unit = file_.header.currency + s.unit;
    return s;
  }
  [[nodiscard]] std::string words(std::string_view quantity, As how) const {
    return with_interval(as(quantity, how), shown(quantity, how));
  }

  [[nodiscard]] std::string table() const {
    std::string out =
        left("", 32) + right("a year, mean", 18) + right("95 % interval", 22) + right("least to most", 24) + "\n";
    for (const Line& line : lines) {
      if (line.quantity.empty()) {
        out += fmt::format("{}\n", line.label);
        continue;
      }
      Cells c = cells(as(line.quantity, line.as), shown(line.quantity, line.as));
      if (counted(line)) {
        const Estimate e = get(line.quantity);
        c.range = plain(e.least, 0) + " to " + plain(e.most, 0);
      }
      std::string text =
          left("  " + std::string(line.label), 32) + right(c.mean, 18) + right(c.interval, 22) + right(c.range, 24);
      out += text.erase(text.find_last_not_of(' ') + 1) + "\n";
    }
    return out;
  }

 private:
  /// Single replications then have whole numbers of it.
  [[nodiscard]] bool counted(const Line& line) const {
    const Column* column = find_column(line.quantity);
    const Estimate e = get(line.quantity);
    return column != nullptr && column->type == ColumnType::whole && (line.as == As::value || per_year_ == 1.0) &&
           e.least < e.most;
  }
  [[nodiscard]] std::string_view unit(std::string_view quantity) const {
    const results::Array* names = file_.find("summary/quantity");
    for (std::size_t i = 0; names != nullptr && i < names->texts.size(); ++i)
      if (names->texts[i] == quantity) return file_.at("summary/unit").texts[i];
    return "1";
  }

  const ResultFile& file_;
  bool us_;
  double per_year_ = 1.0;
};

std::string answer(const ResultFile& file, const Page& page) {
  const std::string spoiled = fmt::format("{} mats a year spoil and are thrown out, {} are overdue.",
                                          page.words("spoiled_trays", As::year), page.words("overdue_trays", As::year));
  std::string out = fmt::format(
      "The animals get {} of the fodder they are due. {} days a year have a short feeding; the longest run of such "
      "days is {} on average "
      "and {} in the worst replication. {} It costs {} a year.",
      page.words("served/wanted", As::share), page.words("short_days", As::year),
      page.words("longest_short_run", As::value), plain(page.get("longest_short_run").most, 0), spoiled,
      page.words("cost_total", As::money));
  out = wrapped(out);
  if (const Estimate fed = page.year("spoiled_fed"); fed.mean > 0.0)
    out += wrapped(fmt::format("Grave: {} spoiled mats a year are fed because nobody saw them.",
                               page.words("spoiled_fed", As::year)));
  const std::string target = target_words(file);
  if (!target.empty()) {
    const Estimate met = page.get("success");
    const double asked = file.number("target/years").value_or(1.0);
    const char* verdict = met.low >= asked   ? "This design meets the target"
                          : met.high < asked ? "This design does not meet the target"
                                             : "Whether this design meets the target is too close to tell";
    const bool years = file.header.horizon_days == 365 || file.header.horizon_days == 366;
    out += wrapped(fmt::format("{} ({}): {} of {} meet it.", verdict, target, share_with_interval(met),
                               years ? "years" : "replications"));
  }
  return out;
}

std::string seasons(const ResultFile& file, const Page& page) {
  const results::Array* shares = file.find("summary/short_season");
  if (shares == nullptr || page.get("short_days").mean <= 0.0) return "No day was short.\n";
  const auto& names = file.at("summary/season").texts;
  std::string out = "Short days fall";
  for (std::size_t i = 0; i < names.size(); ++i)
    out += fmt::format("{} {:.0f} % in {}", i == 0 ? "" : ",", 100.0 * shares->numbers[i], names[i]);
  return wrapped(out + ".");
}

std::string comparison(const ResultFile& file, const Page& page) {
  const Shown price = page.shown("cost_per_kg_dry_matter", As::price);
  const double fodder = page.get("cost_per_kg_dry_matter").mean, grain = page.get("dry_grain_per_kg_dry_matter").mean;
  if (!(fodder > 0.0) || !(grain > 0.0)) return "";
  std::string out = fmt::format("By dry matter this fodder costs {}, {:.1f} times the same grain fed dry ({})",
                                page.words("cost_per_kg_dry_matter", As::price), fodder / grain,
                                page.words("dry_grain_per_kg_dry_matter", As::price));
  if (const auto hay = file.number("scenario/hay_cost_per_kg_dry_matter"); hay && *hay > 0.0) {
    const double shown = price.scale * *hay;
    out +=
        fmt::format(" and {:.1f} times hay ({} {})", fodder / *hay, plain(shown, decimals_for(0.0, shown)), price.unit);
  }
  return wrapped(out + ". Reserve feed is in neither.");
}

std::string footing(const ResultFile& file) {
  const auto& h = file.header;
  std::string out = fmt::format("\n{} replications of {} days from {}, random seed {}.", h.replications_completed,
                                h.horizon_days, h.start_date, h.random_seed);
  if (h.replications_completed + h.replications_failed < h.replications_asked)
    out += fmt::format(" Stopped early: {} were asked for.", h.replications_asked);
  if (h.replications_failed > 0)
    out += fmt::format(" {} broke off and are in none of these numbers; /failures in the file names them.",
                       h.replications_failed);
  return wrapped(out + " Intervals are those of the mean, at 95 %; least and most are of single replications.");
}

}  // namespace

std::string simulate_text(const ResultFile& file) {
  const Page page(file);
  if (file.header.replications_completed == 0)
    return file.header.title + "\n\nNo replication was completed: there is nothing to tell.\n";
  std::string out = file.header.title + "\n\n" + answer(file, page) + seasons(file, page) + comparison(file, page);
  return out + "\n" + page.table() + cautions_text(file) + "\n" + footing(file);
}

}  // namespace rackwright::report
