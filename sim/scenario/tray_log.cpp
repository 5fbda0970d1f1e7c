// Records of a tray log into trays.
#include "sim/scenario/tray_log.hpp"

#include <algorithm>
#include <array>
#include <iterator>

#include <fmt/format.h>

#include "sim/scenario/csv_records.hpp"
#include "sim/scenario/raw_text.hpp"
#include "sim/scenario/tray_columns.hpp"
#include "sim/scenario/weather_columns.hpp"
#include "sim/scenario/weather_csv.hpp"
#include "sim/scenario/whole_file.hpp"

namespace rackwright {
namespace {

using namespace trays;

constexpr std::size_t most_problems = 50, most_trays = 20000, longest_name = 60, longest_note = 2000;
constexpr std::size_t largest_file = 16;  // [MiB]
constexpr double heaviest_mat = 20.0;     // fresh mass over dry grain; published mats stay below 10
constexpr double lightest_mat = 0.5;      // the same; nine tenths of grain are dry matter, of which 12 days of growth leave seven tenths or more (assumed)
constexpr int first_year = 1980, last_year = 2200;

/// Of a date that begins with it; dates in other orders are told by the way they are written.
std::optional<int> stated_year(std::string_view written) {
  if (written.size() < 10 || written[4] != '-' || written.substr(0, 4).find_first_not_of("0123456789") != std::string_view::npos) return std::nullopt;
  return std::stoi(std::string(written.substr(0, 4)));
}

class LogReader {
 public:
  LogReader(std::string_view text, std::optional<Units> units) : records_(text), units_(units) {}

  TrayLogReading read(std::string_view text, const AlsoWrong& also) {
    while (const auto record = records_.next()) {
      if (!record->fault.empty()) complain(record->line, "", "", record->fault);
      else if (!header_) take_header(*record);
      else if (usable_) take_row(*record);
      if (log_.trays.size() > most_trays) {
        complain(record->line, "", "", fmt::format("is more than {} trays; give the log in parts", most_trays));
        break;
      }
    }
    if (!header_ && problems_.empty()) complain(0, "date sown", "", "the file is empty; its first line names the columns and their units");
    else if (log_.trays.empty() && problems_.empty()) complain(0, "date sown", "", "no tray is in it");
    if (!problems_.empty() && also) add(also(log_));
    if (dropped_ > 0) problems_.push_back({0, "", "", fmt::format("and {} more like these", dropped_), ""});
    if (!problems_.empty()) return {std::nullopt, std::move(problems_)};
    std::stable_sort(log_.trays.begin(), log_.trays.end(), [](const LoggedTray& a, const LoggedTray& b) { return a.sown < b.sown; });
    log_.set_aside = header_->set_aside;
    log_.hash = content_hash(text);
    return {std::move(log_), {}};
  }

 private:
  void complain(int line, std::string_view key, std::string_view value, std::string why, std::string suggestion = "") {
    if (problems_.size() >= most_problems) { ++dropped_; return; }
    problems_.push_back({line, std::string(key), one_line(value, longest_shown), std::move(why), std::move(suggestion)});
  }

  /// Those of the first lines are kept.
  void add(Problems more) {
    problems_.insert(problems_.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
    std::stable_sort(problems_.begin(), problems_.end(), [](const Problem& a, const Problem& b) { return a.line < b.line; });
    if (problems_.size() <= most_problems) return;
    dropped_ += problems_.size() - most_problems;
    problems_.resize(most_problems);
  }

  void take_header(const CsvRecord& record) {
    Problems found;
    header_ = read_header(record.cells, record.line, units_, found);
    usable_ = found.empty();
    columns_ = record.cells.size();
    for (Problem& problem : found) complain(problem.line, problem.key, problem.value, problem.why, problem.suggestion);
  }

  std::optional<double> number(const CsvRecord& record, Column column) {
    const auto read = read_number(*header_, record.cells, column, records_.separator() != ',');
    if (const auto* value = std::get_if<std::optional<double>>(&read)) return *value;
    const Wrong& wrong = std::get<Wrong>(read);
    complain(record.line, name_of(column), cell(*header_, record.cells, column), wrong.why, wrong.suggestion);
    return std::nullopt;
  }

  template <class Field>
  void number(const CsvRecord& record, Column column, std::optional<Field>& field) {
    if (const auto value = number(record, column)) field = Field(*value);
  }

  std::string words(const CsvRecord& record, Column column, std::size_t longest) {
    const std::string_view text = cell(*header_, record.cells, column);
    if (text.size() > longest) complain(record.line, name_of(column), text, fmt::format("is longer than {} letters", longest));
    else if (has_control(text)) complain(record.line, name_of(column), text, "holds a character that is no letter, figure or mark");
    else return std::string(text);
    return {};
  }

  std::optional<LoggedSpoil> spoil(const CsvRecord& record) {
    using enum LoggedSpoil;
    struct Word { std::string_view word; LoggedSpoil spoil; };
    static constexpr std::array all{Word{"no", sound}, Word{"n", sound}, Word{"0", sound}, Word{"false", sound}, Word{"sound", sound},
                                    Word{"yes", spoiled}, Word{"y", spoiled}, Word{"1", spoiled}, Word{"true", spoiled}, Word{"spoiled", spoiled},
                                    Word{"mould", mould}, Word{"mold", mould}, Word{"mouldy", mould}, Word{"moldy", mould}, Word{"sour", sour}};
    const std::string_view written = cell(*header_, record.cells, Column::spoiled);
    if (written.empty()) return std::nullopt;
    std::string lower(written);
    for (char& c : lower) c = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    const auto found = std::find_if(all.begin(), all.end(), [&](const Word& w) { return w.word == lower; });
    if (found != all.end()) return found->spoil;
    complain(record.line, "spoiled", written, "is not yes, no, mould or sour");
    return std::nullopt;
  }

  void take_row(const CsvRecord& record) {
    if (std::all_of(record.cells.begin(), record.cells.end(), [](const std::string& c) { return c.empty(); })) return;
    if (std::any_of(record.cells.begin() + static_cast<std::ptrdiff_t>(std::min(columns_, record.cells.size())), record.cells.end(),
                    [](const std::string& c) { return !c.empty(); }))
      return complain(record.line, "", record.cells[columns_], "has more cells than the first line names; notes with commas go in quotes");
    LoggedTray tray;
    tray.line = record.line;
    const std::string_view written = cell(*header_, record.cells, Column::sown);
    const auto moment = weather::read_moment(written);
    if (const auto year = stated_year(written); year && (*year < first_year || *year >= last_year))
      complain(record.line, "date sown", written, fmt::format("is of the year {}; a log may tell of {} to {}", *year, first_year, last_year - 1));
    else if (moment) {
      tray.sown = moment->date;
      if (written.size() > 10) tray.minute = moment->minute;
    }
    else complain(record.line, "date sown", written, written.empty() ? "is not stated" : weather::no_date(written, "2026-03-14"));
    tray.lot = words(record, Column::lot, longest_name);
    tray.species = words(record, Column::species, longest_name);
    number(record, Column::germination, tray.germination);
    if (tray.germination) *tray.germination /= 100.0;
    number(record, Column::grain, tray.grain);
    number(record, Column::soak, tray.soak);
    number(record, Column::area, tray.area);
    number(record, Column::room_max, tray.room_max);
    number(record, Column::room_min, tray.room_min);
    number(record, Column::days, tray.days);
    number(record, Column::fresh, tray.fresh);
    number(record, Column::height, tray.height_cm);
    tray.spoiled = spoil(record);
    tray.notes = words(record, Column::notes, longest_note);
    compare(record, tray);
    log_.trays.push_back(std::move(tray));
  }

  /// What no cell shows by itself.
  void compare(const CsvRecord& record, const LoggedTray& tray) {
    const auto shown = [&](Column column) { return cell(*header_, record.cells, column); };
    if (tray.room_max && tray.room_min && *tray.room_min > *tray.room_max)
      complain(record.line, "room min", shown(Column::room_min), fmt::format("lies above the maximum, {}", one_line(shown(Column::room_max), longest_shown)));
    if (tray.fresh && tray.grain && *tray.fresh / *tray.grain > heaviest_mat)
      complain(record.line, "fresh weight", shown(Column::fresh),
               fmt::format("is {:.3g} times its dry grain; no mat is {} times as heavy. Are both in the unit that is meant?", *tray.fresh / *tray.grain, heaviest_mat));
    const bool sound = !tray.spoiled || *tray.spoiled == LoggedSpoil::sound;
    if (sound && tray.fresh && tray.grain && *tray.fresh / *tray.grain < lightest_mat)
      complain(record.line, "fresh weight", shown(Column::fresh),
               fmt::format("is {:.2g} times its dry grain; no sound mat is lighter than {} times, its dry matter alone weighs more. Are both in the unit that is meant?", *tray.fresh / *tray.grain, lightest_mat));
  }

  CsvRecords records_;
  std::optional<Units> units_;
  std::optional<Header> header_;
  bool usable_ = false;
  std::size_t columns_ = 0, dropped_ = 0;
  Problems problems_;
  TrayLog log_;
};

}  // namespace

TrayLogReading read_tray_log(std::string_view text, std::optional<Units> units, const AlsoWrong& also) { return LogReader(text, units).read(text, also); }

TrayLogReading read_tray_log_file(const std::string& path, std::optional<Units> units, const AlsoWrong& also) {
  const auto text = whole_file(path, largest_file, FileKind::any);
  if (const auto* fault = std::get_if<FileFault>(&text)) return {std::nullopt, {{0, path, "", fault->why, ""}}};
  return read_tray_log(std::get<std::string>(text), units, also);
}

}  // namespace rackwright
