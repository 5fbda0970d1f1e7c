#include "sim/scenario/key_table.hpp"

#include <set>
#include <string>

#include "sim/scenario/key_text.hpp"
#include "sim/scenario/unit_text.hpp"
#include "sim/scenario/units.hpp"
#include "tests/catch.hpp"
#include "tests/unit/scenario/field_count.hpp"

using namespace rackwright;
using namespace rackwright::keys;

namespace {

/// What every key must be, whatever it belongs to.
template <class T>
void check_table(const Table<T>& table, const T& fresh) {
  const Scenario scenario;
  std::set<std::string> names;
  for (const Key<T>& key : table) {
    INFO(key.name);
    CHECK(names.insert(key.name).second);
    CHECK(key.sentence.size() > 4);
    CHECK(key.sentence.back() == '.');
    CHECK_FALSE(key.source.empty());
    REQUIRE(key.get != nullptr);
    REQUIRE(key.set != nullptr);
    if (key.kind == Kind::real || key.kind == Kind::whole) CHECK(key.least < key.most);
    if (key.kind == Kind::real && key.unit != "1") {
      REQUIRE(unit_words(key.unit).has_value());
      CHECK_NOTHROW(convert(1.0, key.unit, unit_words(key.unit)->us));
      if (!key.shown.empty()) CHECK_NOTHROW(convert(1.0, key.unit, key.shown));
    }
    if (key.required && key.kind == Kind::text) continue;  // no default to check
    const Value value = key.get(fresh, scenario);
    if (std::holds_alternative<std::monostate>(value) || (key.required && key.kind == Kind::real)) continue;
    // The default is inside the range the key states, and reads back.
    const auto read = read_value(key, Raw{Raw::Shape::loose, plain_text(key, value, false), {}});
    INFO((std::holds_alternative<Why>(read) ? std::get<Why>(read).text : ""));
    REQUIRE(std::holds_alternative<Value>(read));
    CHECK(std::get<Value>(read) == value);
  }
}

template <class T>
std::size_t keys_under(const Table<T>& table, const std::string& prefix) {
  std::size_t count = 0;
  for (const Key<T>& key : table) count += key.name.starts_with(prefix) && key.instead_of.empty() ? 1 : 0;
  return count;
}

}  // namespace

TEST_CASE("every key is fully declared and its default fits its range") {
  check_table(scenario_keys(), Scenario{});
  for_each_list([](const auto& list) {
    using Item = std::remove_cvref_t<decltype(list.items(std::declval<Scenario&>()).front())>;
    INFO(list.path);
    check_table(list.keys(), fresh_item<Item>());
  });
}

TEST_CASE("every field of a model's parameters has its key") {
  // A field added to a struct without a key would be out of the keeper's reach and lost by resolved_text.
  const auto& all = scenario_keys();
  CHECK(keys_under(all, "run.") == field_count<Run>());
  CHECK(keys_under(all, "climate.") == field_count<climate::Parameters>() - 3 + field_count<climate::YearlyWave>() +
                                                2 * field_count<climate::Leaning>() +
                                                field_count<MeasuredWeather>());
  CHECK(keys_under(all, "room.") == field_count<room::Parameters>() - 1 + 1 + 2 * field_count<YearPart>() + 1);  // wet area is derived; tier gradient; when shade is up, doors open, and their air
  CHECK(keys_under(all, "rack.") == field_count<design::Rack>());
  CHECK(keys_under(all, "line.") == field_count<Line>() - 1 + field_count<soak::Dip>());
  CHECK(keys_under(all, "spoilage.") ==
        field_count<spoilage::Parameters>() - 2 + 2 * field_count<spoilage::Cardinal>() + field_count<frost::Parameters>());
  CHECK(keys_under(all, "water.") == field_count<WaterSystem>() - 5 + field_count<water::Pump>() +
                                         field_count<water::Emitter>() + field_count<water::Schedule>());
  CHECK(keys_under(all, "keeper.") == field_count<Keeper>() - 1 + field_count<route::Times>());
  CHECK(keys_under(all, "feed.") ==
        field_count<Feed>() - 2 + field_count<feed::HayValue>() + field_count<feed::GrainValue>() - 1);  // protein of grain is the species', or feed.grain_protein
  CHECK(keys_under(all, "prices.") == field_count<cost::Prices>());
  CHECK(keys_under(all, "target.") == field_count<Target>());
  CHECK(keys_under(all, "choose.") == field_count<Choose>() - 1);
  CHECK(keys_under(species_keys(), "soak.") == field_count<soak::Parameters>() - 1);  // not their origin
  CHECK(keys_under(species_keys(), "germination.") == field_count<germination::Parameters>() - 1);
  CHECK(keys_under(species_keys(), "growth.") == field_count<growth::Parameters>() - 1);
  CHECK(keys_under(grain_keys(), "") ==
        field_count<GrainSupply>() - 5 + field_count<grain::Grade>() + field_count<grain::StorePolicy>() +
            field_count<ShortSeason>() + field_count<LotPolicy>());  // of what is stated only the trace is kept
  CHECK(keys_under(group_keys(), "") == field_count<Group>() - 2 + field_count<herd::Breeding>() + field_count<herd::Stay>() - 1);  // of what came before the run only moving its start tells
  CHECK(keys_under(spell_keys(), "") == field_count<climate::Overlay>());
  CHECK(keys_under(hard_time_keys(), "") == field_count<HardTime>());
  CHECK(keys_under(node_keys(), "") == field_count<water::Node>());
  CHECK(keys_under(pipe_keys(), "") == field_count<water::Pipe>());
}
