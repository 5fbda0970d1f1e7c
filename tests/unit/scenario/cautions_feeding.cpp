// What is told of rations, of young and pregnant animals, and of classes with a danger of their own; and what nobody can eat is refused.
#include <algorithm>
#include <string>
#include <vector>

#include "sim/scenario/cautions.hpp"
#include "sim/scenario/read.hpp"
#include "tests/catch.hpp"
#include "tests/unit/scenario/sample.hpp"

using namespace rackwright;

namespace {

/// The sample with one more group, of so many lines.
Reading reading(const std::string& more, const std::vector<std::string>& settings = {}) {
  std::vector<std::string> all{"run.start=2026-03-01", "run.length=365 d"};
  all.insert(all.end(), settings.begin(), settings.end());
  return read_scenario(sample::small + more, all);
}

std::string told(const std::string& more, const std::vector<std::string>& settings = {}) {
  const Reading found = reading(more, settings);
  for (const Problem& problem : found.problems) UNSCOPED_INFO(problem.key << ": " << problem.why);
  REQUIRE(found.scenario.has_value());
  std::string all;
  for (const std::string& one : cautions(*found.scenario)) all += one + "\n";
  return all;
}

std::string animals(const std::string& name, const std::string& kind, const std::string& lines) {
  return "\n[[group]]\nname = \"" + name + "\"\nclass = \"" + kind + "\"\ncount = 5\n" + lines;
}

bool has(const std::string& all, const std::string& part) { return all.find(part) != std::string::npos; }

}  // namespace

TEST_CASE("a ration above the limit of its class is told gravely, in one line for all groups") {
  CHECK_FALSE(has(told(""), "Grave"));
  const std::string pony = animals("pony", "horse", "weight = \"250 kg\"\nration = \"25 kg\"\n");
  CHECK(has(told(pony), "\nGrave: fodder is to be too much of what they eat: pony, 61 % of the dry matter (20 % is the usual upper limit for horse: 8.2 kg a head). Cut the ration.\n"));
  CHECK_FALSE(has(told(pony, {"group.pony.ration=8.2 kg"}), "Grave"));
  CHECK(has(told(pony, {"group.pony.ration=8.3 kg"}), "pony, 20.1 % of the dry matter (20 % is"));
  CHECK(has(told(pony, {"units=us"}), "is the usual upper limit for horse: 18 lb a head"));
  CHECK(has(told(pony, {"group.pony.ration=none", "group.pony.share=0.5"}), "pony, 50 % of the dry matter (20 % is the usual upper limit for horse: 8.2 kg a head). Cut the share.\n"));
  CHECK(has(told(pony + animals("hens", "laying-hen", "share = 0.4\n")), "8.2 kg a head); hens, 40 % of the dry matter (23 % is the usual upper limit for laying-hen: 0.15 kg a head). Cut the ration or the share.\n"));
}

TEST_CASE("a ration that is more than the animals eat in all is refused, with the largest that fits") {
  const auto why = [](const std::string& ration, const std::vector<std::string>& settings = {}) {
    std::string all;
    for (const Problem& problem : reading(animals("ewes", "ewe", "ration = \"" + ration + "\"\n"), settings).problems) all += problem.key + " " + problem.value + ": " + problem.why + "\n";
    return all;
  };
  CHECK(why("8.5 kg").empty());
  CHECK(why("9 kg") == "group.ewes.ration 9 kg: is 105 % of the dry matter that a head eats in all (class ewe of 65 kg): no more than 8.5 kg can be eaten, and 1.7 kg (21 %) is the usual upper limit\n");
  CHECK(why("9 kg", {"group.ewes.count=0"}).empty());  // nobody is fed
  CHECK(why("9 kg", {"group.ewes.weight=90 kg"}).empty());  // who eat more
  CHECK(has(why("20 lb", {"units=us"}), "no more than 18 lb can be eaten"));
  CHECK(why("8 kg", {"group.ewes.ration=none", "group.ewes.share=100 %"}).empty());
  CHECK_FALSE(has(why("30 kg", {"line.grains=wheat"}), "eaten in all"));  // what cannot be worked out yet is not judged
}

TEST_CASE("what too much wet fodder does is told by class: fibre for some, energy, protein and calcium for others") {
  const std::string thin = "with little energy and protein (lysine)";
  CHECK_FALSE(has(told("", {"group.goats.ration=10 kg"}), thin));
  CHECK_FALSE(has(told(animals("hens", "laying-hen", "share = 0.2\n")), thin));
  const std::string hens = told(animals("hens", "laying-hen", "share = 0.4\n"));
  CHECK(has(hens, "So much wet fodder fills hens with little energy and protein (lysine), and layers with too little calcium for shells: keep their compound feed before them."));
  CHECK(has(hens, "Keep hay or other long fibre before goats at all times"));
  const std::string both = told(animals("hogs", "growing-pig", "share = 0.3\n") + animals("ponies", "horse", "share = 0.3\n"));
  CHECK(has(both, "So much wet fodder fills hogs with little energy and protein (lysine): keep"));
  CHECK(has(both, "before goats and ponies at all times"));
}

TEST_CASE("weaned young are held against the limit of their own class") {
  const auto does = [](const std::string& share, const std::vector<std::string>& settings = {}) {
    return told(animals("does", "goat-milking", "first_births = 2026-05-20\nshare = " + share + "\n"), settings);
  };
  const std::string said = "the dry matter that young eat once weaned, for they get it by weight as their dams do: does, ";
  CHECK(has(does("0.2"), said + "27 % (25 % is the usual upper limit for goat-kid)."));
  CHECK_FALSE(has(does("0.2"), "Grave"));
  CHECK_FALSE(has(does("0.18"), "once weaned"));
  CHECK_FALSE(has(does("0.2", {"group.does.first_births=none"}), "once weaned"));
  CHECK_FALSE(has(told(animals("ewes", "ewe", "first_births = 2026-05-20\nshare = 0.2\n")), "once weaned"));
  CHECK(has(told(animals("cows", "dairy-cow", "first_births = 2026-05-20\nshare = 0.3\n")), "limit for beef-growing"));
}

TEST_CASE("that young get their full share on the day they are weaned is told where any are") {
  const std::string said = "Young of does get their full share from the very day they are weaned: bring it in by hand over 7 to 14 days.";
  const auto does = [](const std::vector<std::string>& settings) {
    return told(animals("does", "goat-milking", "first_births = 2026-05-20\nshare = 0.1\n"), settings);
  };
  const std::vector<std::string> introduced{"group.goats.introduction=10 d", "group.does.introduction=10 d"};
  CHECK(has(does(introduced), said));
  CHECK_FALSE(has(does(introduced), "Bring a new feed in"));
  CHECK_FALSE(has(does({"group.does.first_births=none"}), said));
  CHECK_FALSE(has(does({"group.does.first_births=2027-01-20"}), said));  // weaned after the run
  CHECK(has(does({"group.does.first_births=2027-01-20", "group.does.births_before=true"}), said));
  CHECK_FALSE(has(does({"group.does.young_death=1"}), said));
  CHECK_FALSE(has(does({"group.does.leaves=2026-06-01"}), said));
}

TEST_CASE("those with births in the run are named for abortion and the last weeks") {
  const auto group = [](const char* kind, const std::vector<std::string>& settings) {
    return told(animals("mothers", kind, "first_births = 2026-05-20\nshare = 0.1\n"), settings);
  };
  const std::string ewes = group("ewe", {});
  CHECK(has(ewes, "Births are due among mothers: Listeria in spoiled feed makes animals abort, so give the pregnant none but sound mats."));
  CHECK(has(ewes, "in the last six weeks, when bulky wet feed takes up the room that energy needs (twin-lamb disease, pregnancy toxaemia). People who are pregnant do not handle spoiled mats."));
  CHECK(has(group("sow", {}), "Births are due among mothers"));
  CHECK_FALSE(has(group("sow", {}), "twin-lamb"));
  for (const char* none : {"first_births=none", "first_births=2027-03-20", "share=0", "count=0", "leaves=2026-04-01"}) {
    INFO(none);
    CHECK_FALSE(has(group("ewe", {std::string("group.mothers.") + none}), "Births are due"));
  }
  CHECK(has(group("ewe", {"group.mothers.leaves=2026-04-20"}), "Births are due"));  // fed a month before
}

TEST_CASE("laminitis is named for horses") {
  CHECK_FALSE(has(told(""), "laminitis"));
  CHECK(has(told(animals("pony", "horse", "share = 0.1\n")), "bring on laminitis (founder): ask a veterinarian before you feed any to pony, above all to ponies, fat animals and any that have foundered."));
}
