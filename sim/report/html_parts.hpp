#pragma once
// The parts of the page, each a string of HTML; empty when the file has nothing for it.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "sim/report/html_page.hpp"
#include "sim/report/html_scenario.hpp"
#include "sim/report/words.hpp"
#include "sim/results/result_file.hpp"

namespace rackwright::report::html {

/// How a number is shown: a total for 365 days, as it is, in per cent, money for 365 days, or money by mass.
enum class As { year, value, share, money, price };

/// All the page is made from.
class Sheet {
 public:
  Sheet(const results::ResultFile& file, const DesignFacts& facts);

  const results::ResultFile& file;
  const DesignFacts& facts;
  const StoredScenario scenario;  ///< with the settings of the design on the page
  const int design;               ///< candidate on the page, -1 for none
  const bool us;

  [[nodiscard]] bool sized() const { return file.header.kind == "size"; }
  [[nodiscard]] bool swept() const { return file.header.kind == "sweep"; }
  [[nodiscard]] bool stressed() const { return file.header.kind == "stress"; }
  [[nodiscard]] bool recommended() const;
  /// As many trays are sown as are to be wanted: what is planned is then the most.
  [[nodiscard]] bool as_wanted() const { return scenario.text("line.sow") == "as-wanted"; }
  /// Water goes through a network that the keeper drew: the keys of the usual one say nothing of it.
  [[nodiscard]] bool own_network() const { return !scenario.names("water.node").empty(); }
  /// The figures of the design on the page are those of the search of `size`: the file has no replications of it, or fewer.
  [[nodiscard]] bool searched() const;
  /// How often the search of `size` played the design on the page; 0 where it did not, and of other files.
  [[nodiscard]] double in_search() const;
  /// The file holds replications of the design on the page: always after simulate, after size where there is one.
  [[nodiscard]] bool played() const { return file.estimate("success").has_value(); }
  /// Scaled to a year where `how` says so, in the units of the file.
  [[nodiscard]] std::optional<study::Estimate> estimate(std::string_view quantity, As how) const;
  [[nodiscard]] Shown shown(std::string_view quantity, As how) const;
  [[nodiscard]] Cells cells(std::string_view quantity, As how) const;
  /// "98.1 % (97.6 to 98.5)"; "not in the file" where it is not.
  [[nodiscard]] std::string words(std::string_view quantity, As how) const;
  /// A length, mass... in native units as the reader writes it.
  [[nodiscard]] std::string amount(double value, std::string_view unit) const;
  /// A key of the scenario likewise; empty where there is none.
  [[nodiscard]] std::string amount(std::string_view key, std::string_view unit) const;
  /// A key that is a length, in the unit one measures such a length in: 13 mm, 60 cm, 4 m; 23.6 in, 6.73 ft.
  [[nodiscard]] std::string length(std::string_view key) const;
  /// A value of the stored scenario, which is written to the last digit in native units, as a reader takes it in.
  [[nodiscard]] std::string readable(const std::string& value) const;
  [[nodiscard]] const DesignSection* section(std::string_view key) const;
  /// A fact by its section and key, as text; empty where there is none.
  [[nodiscard]] std::string fact(std::string_view section_key, std::string_view key) const;
};

/// "degC" as °C, "m2" as m²: the program's spelling of units in words for people.
std::string with_signs(std::string text);

/// Days of the run as a calendar.
struct Calendar {
  explicit Calendar(const std::string& start_date);
  [[nodiscard]] std::string date(int day) const;  ///< "3 March"
  [[nodiscard]] int month(int day) const;         ///< 1 to 12
  [[nodiscard]] bool first_of_month(int day) const;
  int start = 0;  ///< days since 1970-01-01
};
std::string_view month_name(int month);  ///< "March"

/// A table of labelled estimates: label, quantity, how.
struct Line {
  std::string_view label, quantity;
  As how;
};
std::string estimates_table(const Sheet& sheet, std::string_view caption, const std::vector<Line>& lines);
/// The lines of one section of the facts as a table.
std::string facts_table(const Sheet& sheet, std::string_view key);

std::string style_sheet();
std::string lead(const Sheet& sheet);
std::string key_figures(const Sheet& sheet);
std::string rack_part(const Sheet& sheet);
std::string chance_part(const Sheet& sheet);
std::string choice_part(const Sheet& sheet);
std::string frontier_part(const Sheet& sheet);
std::string year_part(const Sheet& sheet);
std::string short_part(const Sheet& sheet);
std::string stress_part(const Sheet& sheet);
std::string hard_times_part(const Sheet& sheet);
std::string lead_of_sweep(const Sheet& sheet);
std::string sweep_part(const Sheet& sheet);
std::string sweep_keys_part(const Sheet& sheet);
std::string against_part(const Sheet& sheet);
std::string money_part(const Sheet& sheet);
std::string build_part(const Sheet& sheet);
std::string work_part(const Sheet& sheet);
std::string grain_part(const Sheet& sheet);
/// Of the design on the page, with signs for units.
std::vector<std::string> cautions_of(const Sheet& sheet);
std::string care_part(const Sheet& sheet);
std::string assumptions_part(const Sheet& sheet);
/// Which assumptions matter most, from /assumption; empty where the file has none.
std::string weights_part(const Sheet& sheet);
std::string record_part(const Sheet& sheet);

}  // namespace rackwright::report::html
