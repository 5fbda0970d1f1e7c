// The ready farms, and what the names of places stand for.
#include <algorithm>

#include "sim/app/starter.hpp"

namespace rackwright::app {

const std::vector<Place>& places() {
  static const std::vector<Place> all{{"stone barn", 1.4, 1100.0, 1.0, 0.03}, {"shed", 2.2, 300.0, 2.0, 0.08},
                                      {"barn", 2.2, 400.0, 2.0, 0.05},        {"greenhouse", 5.0, 120.0, 3.0, 0.20},
                                      {"house", 0.8, 600.0, 0.7, 0.03},       {"cellar", 1.0, 1500.0, 0.5, 0.0},
                                      {"container", 0.6, 200.0, 1.0, 0.02}};
  return all;
}

const std::vector<std::string>& starter_kinds() {
  static const std::vector<std::string> all{"goats", "hens", "sheep", "cows", "rabbits", "mixed"};
  return all;
}

std::optional<Starter> starter_kind(std::string_view kind) {
  Starter farm;
  farm.place = places().front();
  if (kind == "goats") {
    farm.title = "Fodder for the goats";
    farm.groups = {{"milkers", "goat-milking", 12, {}}};
  } else if (kind == "hens") {
    farm.title = "Greens for the hens";
    farm.groups = {{"hens", "laying-hen", 150, {}}};
    farm.grain = "wheat";
    farm.grain_price = "10 / 25 kg";
    farm.feed = "layer feed";
    farm.feed_price = "0.45 /kg";
    farm.place = places()[1];
    farm.minutes = 60.0;
  } else if (kind == "sheep") {
    farm.title = "Fodder for the ewes";
    farm.groups = {{"ewes", "ewe", 20, {}}};
  } else if (kind == "cows") {
    farm.title = "Fodder for the cows";
    farm.groups = {{"cows", "dairy-cow", 6, {}}};
    farm.minutes = 150.0;
  } else if (kind == "rabbits") {
    farm.title = "Greens for the rabbits";
    farm.groups = {{"does", "rabbit", 12, {}}, {"young rabbits", "rabbit-growing", 40, {}}};
    farm.minutes = 60.0;
  } else if (kind == "mixed") {
    farm.title = "Fodder for goats, hens and ewes";
    farm.groups = {{"milkers", "goat-milking", 10, {}}, {"hens", "laying-hen", 40, {}}, {"ewes", "ewe", 5, {}}};
  } else {
    return std::nullopt;
  }
  return farm;
}

}  // namespace rackwright::app
