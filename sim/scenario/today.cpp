#include "sim/scenario/today.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>

#include <fmt/format.h>

#include "models/design/rack.hpp"
#include "sim/scenario/document.hpp"
#include "sim/scenario/key.hpp"
#include "sim/scenario/key_text.hpp"
#include "sim/scenario/raw_text.hpp"
#include "sim/scenario/suggest.hpp"
#include "sim/scenario/weather_columns.hpp"
#include "sim/scenario/whole_file.hpp"

namespace rackwright {
namespace {

using keys::Key;
using keys::Table;
constexpr std::string_view yours = "yours";
constexpr double most_trays = 100000.0;

template <class T, class At>
Key<T> when(std::string_view name, At, std::string_view sentence) {
  Key<T> key = keys::declare<T>(name, keys::Kind::text, sentence, yours);
  key.set = [](T& owner, const keys::Value& value, const Scenario&) -> std::optional<std::string> {
    const auto read = read_when(std::get<std::string>(value));
    if (!read) return "is no day: write 2026-07-14, or 2026-07-14T18:30";
    At{}(owner) = *read;
    return std::nullopt;
  };
  return key;
}

template <class T, class At>
Key<T> grain_key(At at) {
  Key<T> key = keys::text<T>("grain", at, "A grain of the scenario.", yours);
  key.set = [](T& owner, const keys::Value& value, const Scenario& scenario) -> std::optional<std::string> {
    const std::string& name = std::get<std::string>(value);
    At{}(owner) = name;
    const auto& all = scenario.grains;
    if (std::any_of(all.begin(), all.end(), [&](const GrainSupply& grain) { return grain.name == name; })) return std::nullopt;
    std::string names;
    for (const GrainSupply& grain : all) names += (names.empty() ? "" : ", ") + grain.name;
    return fmt::format("is no grain of the scenario: it has {}", one_line(names));
  };
  return key;
}

#define HERE(field) ([](auto& owner) -> auto& { return owner.field; })

const Table<Today>& today_keys() {
  static const Table<Today> table{when<Today>("at", HERE(at), "The day, and the time of it.").must()};
  return table;
}
const Table<Today::Batch>& batch_keys() {
  using B = Today::Batch;
  static const Table<B> table{
      when<B>("sown", HERE(sown), "When it was sown.").must(),
      keys::whole<B>("trays", {1.0, most_trays}, HERE(trays), "What is left of it.", yours).must(),
      grain_key<B>(HERE(grain)),
      keys::real<B>("germination", {0.02, 0.999}, HERE(germination), "Share of its kernels that germinate.", yours),
      keys::real<B>("soak", {0.0, 96.0}, HERE(soak), "How long it was soaked.", yours)};
  return table;
}
const Table<Today::Soaking>& soaking_keys() {
  using S = Today::Soaking;
  static const Table<S> table{when<S>("since", HERE(since), "When it was put to soak.").must(),
                              keys::whole<S>("trays", {1.0, most_trays}, HERE(trays), "For so many trays.", yours).must(),
                              grain_key<S>(HERE(grain))};
  return table;
}
const Table<Today::Lot>& store_keys() {
  using L = Today::Lot;
  static const Table<L> table{
      grain_key<L>(HERE(grain)).must(),
      keys::real<L>("amount", {0.0, 1e5}, HERE(amount), "What is there.", yours).must(),
      keys::real<L>("germination", {0.02, 0.999}, HERE(germination), "Share of its kernels that germinate today.", yours),
      when<L>("came", HERE(came), "When it came.")};
  return table;
}
const Table<Today::Order>& order_keys() {
  using O = Today::Order;
  static const Table<O> table{grain_key<O>(HERE(grain)).must(),
                              keys::real<O>("amount", {0.0, 1e5}, HERE(amount), "What was ordered.", yours).must(),
                              when<O>("due", HERE(due), "When it is to come.").must()};
  return table;
}

class Reader {
 public:
  Reader(Document document, const Scenario& scenario) : document_(std::move(document)), scenario_(scenario) {
    problems_ = std::move(document_.problems);
    fill(today_keys(), document_.leaves, today_, "", 0);
    entries("batch", batch_keys(), today_.batches);
    entries("soaking", soaking_keys(), today_.soaking);
    entries("store", store_keys(), today_.store);
    entries("order", order_keys(), today_.orders);
    if (!problems_.empty()) return;
    batches();
    wet();
    kept();
  }
  Today& today() { return today_; }
  Problems& problems() { return problems_; }

 private:
  template <class T>
  void fill(const Table<T>& table, std::vector<Leaf>& leaves, T& into, const std::string& head, int line) {
    std::vector<std::string> known;
    for (const Key<T>& key : table) {
      known.push_back(key.name);
      const auto leaf = std::find_if(leaves.begin(), leaves.end(), [&](const Leaf& l) { return l.path == key.name; });
      if (leaf == leaves.end()) {
        if (key.required) complain(line, head + key.name, "", fmt::format("is missing: {}", key.sentence));
        continue;
      }
      leaf->used = true;
      keys::Raw raw = leaf->raw;
      if (key.kind == keys::Kind::text && raw.shape == keys::Raw::Shape::date) raw.shape = keys::Raw::Shape::text;
      const auto read = keys::read_value(key, raw, scenario_.units == Units::us);
      std::optional<std::string> why;
      if (const keys::Why* bad = std::get_if<keys::Why>(&read)) why = bad->text;
      else why = key.set(into, std::get<keys::Value>(read), scenario_);
      if (why) complain(leaf->line, head + key.name, shown(leaf->raw), *why);
    }
    for (const Leaf& leaf : leaves) {
      if (!leaf.used) complain(leaf.line, head + leaf.path, shown(leaf.raw), "is not a known key", nearest(leaf.path, known));
    }
  }

  template <class T>
  void entries(std::string_view list, const Table<T>& table, std::vector<T>& into) {
    for (Entry& entry : document_.entries) {
      if (entry.list != list) continue;
      T item{};
      const std::string head = fmt::format("{}.{}.", list, into.size() + 1);
      lines_.push_back({head, entry.line});
      fill(table, entry.leaves, item, head, entry.line);
      into.push_back(std::move(item));
    }
  }

  [[nodiscard]] long now() const { return minutes_of(today_.at); }

  void batches() {
    long places = design::positions(scenario_.rack), trays = 0;
    for (std::size_t i = 0; i < today_.batches.size(); ++i) {
      Today::Batch& batch = today_.batches[i];
      batch.session = nearest_session(scenario_, batch.sown.minute);
      if (batch.grain.empty()) batch.grain = grain_of_turn(scenario_, batch.session);
      const long at = minutes_of({batch.sown.day, round_minute(scenario_, batch.session)});
      const std::string key = fmt::format("batch.{}.sown", i + 1);
      if (at >= now() || minutes_of(batch.sown) > now())
        about(key, "is not before the time the file speaks of; a batch sown in that day's round is on the rack after it only");
      else if (now() - at > 1440L * oldest_mat_days) about(key, fmt::format("is more than {} days ago", oldest_mat_days));
      trays += batch.trays;
    }
    if (trays > places)
      complain(0, "batch", fmt::format("{} trays", trays), fmt::format("are more than the rack has places: {}", places));
    std::stable_sort(today_.batches.begin(), today_.batches.end(), [](const Today::Batch& a, const Today::Batch& b) {
      return a.sown.day != b.sown.day ? a.sown.day < b.sown.day : a.session < b.session;
    });
  }

  void wet() {
    for (std::size_t i = 0; i < today_.soaking.size(); ++i) {
      Today::Soaking& tub = today_.soaking[i];
      const long since = minutes_of(tub.since);
      const std::string key = fmt::format("soaking.{}.since", i + 1);
      if (!tub.since.minute) about(key, "needs its time: 2026-07-14T20:30");
      else if (since > now()) about(key, "is after the time the file speaks of");
      else if (now() - since > 1440L * longest_wet_days) about(key, "is more than two days ago: that grain is dead");
      if (tub.trays > design::positions(scenario_.rack))
        about(fmt::format("soaking.{}.trays", i + 1), "are more than the rack has places");
    }
  }

  void kept() {
    for (std::size_t i = 0; i < today_.store.size(); ++i) {
      Today::Lot& lot = today_.store[i];
      if (lot.came.day == std::chrono::sys_days{}) lot.came = today_.at;
      if (minutes_of(lot.came) > now()) about(fmt::format("store.{}.came", i + 1), "is after the time the file speaks of");
    }
    for (std::size_t i = 0; i < today_.orders.size(); ++i) {
      const When& due = today_.orders[i].due;
      if (due.day < today_.at.day || due.day > today_.at.day + std::chrono::days(365))
        about(fmt::format("order.{}.due", i + 1), "must lie within the year that comes; what has come belongs into [[store]]");
    }
  }

  /// A complaint about a key of an entry, at the entry's line.
  void about(const std::string& key, std::string why) {
    int line = 0;
    for (const auto& [head, at] : lines_)
      if (key.starts_with(head)) line = at;
    complain(line, key, "", std::move(why));
  }
  void complain(int line, const std::string& key, std::string value, std::string why, std::string suggestion = "") {
    problems_.push_back({line, one_line(key), std::move(value), std::move(why), std::move(suggestion)});
  }

  Document document_;
  const Scenario& scenario_;
  Today today_;
  Problems problems_;
  std::vector<std::pair<std::string, int>> lines_;
};

#undef HERE

/// Times without seconds, which TOML wants and nobody writes, get them: 2026-07-14T18:30 outside quotes.
std::string with_seconds(std::string_view text) {
  constexpr std::string_view shape = "dddd-dd-ddTdd:dd";
  const auto matches = [&](std::size_t at) {
    if (at + shape.size() > text.size()) return false;
    for (std::size_t i = 0; i < shape.size(); ++i) {
      const char c = text[at + i];
      const bool fits = shape[i] == 'd' ? c >= '0' && c <= '9' : shape[i] == 'T' ? c == 'T' || c == ' ' || c == 't' : c == shape[i];
      if (!fits) return false;
    }
    return at + shape.size() == text.size() || text[at + shape.size()] != ':';
  };
  std::string out;
  char quote = '\0';
  for (std::size_t at = 0; at < text.size(); ++at) {
    const char c = text[at];
    if (c == '\n' || (c == quote && c != '#')) quote = '\0';
    else if (quote == '\0' && (c == '"' || c == '\'' || c == '#')) quote = c;
    if (quote != '\0' || !matches(at)) {
      out += c;
      continue;
    }
    out += text.substr(at, shape.size());
    out += ":00";
    at += shape.size() - 1;
  }
  return out;
}

}  // namespace

std::optional<When> read_when(std::string_view text) {
  if (text.size() < 10 || text.find_first_not_of("0123456789-:T .Zz") != std::string_view::npos) return std::nullopt;
  const auto moment = weather::read_moment(text);
  if (!moment) return std::nullopt;
  return When{std::chrono::sys_days(moment->date), text.size() > 10 ? std::optional(moment->minute) : std::nullopt};
}

int nearest_session(const Scenario& scenario, std::optional<int> minute) {
  if (scenario.line.batches_per_day < 2 || !minute) return 0;
  const Keeper& keeper = scenario.keeper;
  return std::abs(*minute - 60.0 * keeper.evening.value()) < std::abs(*minute - 60.0 * keeper.morning.value()) ? 1 : 0;
}

int round_minute(const Scenario& scenario, int session) {
  const Keeper& keeper = scenario.keeper;
  return static_cast<int>(std::lround(60.0 * (session == 0 ? keeper.morning : keeper.evening).value()));
}

const std::string& grain_of_turn(const Scenario& scenario, int session) {
  const auto& turns = scenario.line.grains;
  const auto turn = static_cast<std::size_t>(session);
  return turns.empty() ? scenario.grains[turn % scenario.grains.size()].name : turns[turn % turns.size()];
}

long minutes_of(const When& when) { return 1440L * static_cast<long>(when.day.time_since_epoch().count()) + when.minute.value_or(0); }

TodayReading read_today(std::string_view text, const Scenario& scenario) {
  static const DocumentShape shape{{}, {"batch", "soaking", "store", "order"}};
  Document document = parse_document(with_seconds(text), &shape);
  const bool unreadable = !document.problems.empty() && document.leaves.empty() && document.entries.empty();
  TodayReading reading;
  if (unreadable) {
    reading.problems = std::move(document.problems);
    return reading;
  }
  Reader reader(std::move(document), scenario);
  reading.problems = std::move(reader.problems());
  if (reading.problems.empty()) reading.today = std::move(reader.today());
  return reading;
}

TodayReading read_today_file(const std::string& path, const Scenario& scenario) {
  const auto text = whole_file(path, 1, FileKind::any);
  if (const auto* fault = std::get_if<FileFault>(&text)) return {{}, {{0, path, "", fault->why, ""}}};
  return read_today(std::get<std::string>(text), scenario);
}

}  // namespace rackwright
