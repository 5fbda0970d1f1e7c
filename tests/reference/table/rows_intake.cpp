// Dry-matter intake and usual fodder limits against handbooks and trials.
#include <fmt/core.h>

#include "models/herd/animals.hpp"
#include "tests/reference/table/models.hpp"

namespace rackwright::validation {
namespace {

double intake_of(const char* name) {
  const auto animal = herd::find_class(name).value();
  return herd::intake(animal, animal.weight).value();
}
double limit_of(const char* name) { return herd::find_class(name)->fodder_limit; }

void equations(Sheet& sheet) {
  sheet.from("NRC 2001 dairy, table 14-7: 680 kg, 3.5 % fat, 90 days in milk. The printed figures come out at week 11.6; at "
             "90/7 weeks the equation gives 1.2 % more", Standing::memory, Bound::rounding);
  for (const auto& [milk, intake] : {std::pair{25.0, 20.3}, std::pair{35.0, 23.6}, std::pair{45.0, 26.9}, std::pair{54.4, 30.0}}) {
    sheet.bounds(Bound::rounding);
    sheet.near(fmt::format("cow giving {} kg of milk, week 11.6", milk), "kg/d", intake, 0.1,
               herd::dairy_intake(Kilograms(680), Kilograms(milk), 3.5, 11.6).value());
    sheet.bounds(Bound::ours);
    sheet.near(fmt::format("cow giving {} kg of milk, day 90", milk), "kg/d", intake, 0.02 * intake,
               herd::dairy_intake(Kilograms(680), Kilograms(milk), 3.5, 90.0 / 7.0).value());
  }
  sheet.from("Langston University's goat calculators, worked example of intake in milk (Luo et al. 2004): 50 kg, 3 kg of milk of 3.5 % fat, weight kept, diet "
             "of 11 MJ/kg; another equation than the model's; 5 % (our reading)", Standing::found, Bound::ours);
  sheet.near("goat of 50 kg giving 3 kg of milk", "kg/d", 2.08, 0.05 * 2.08, herd::goat_milk_intake(Kilograms(50), Kilograms(3)).value());
  sheet.from("NRC 2012 swine, table 16-1: as fed, mean over a weight step; 5 % (our reading), the curve is of straight lines", Standing::memory, Bound::ours);
  const struct { double from, to, feed; } steps[] = {{5, 7, 0.280},   {7, 11, 0.493},   {11, 25, 0.953},  {25, 50, 1.582},
                                                     {50, 75, 2.229}, {75, 100, 2.636}, {100, 135, 2.933}};
  for (const auto& row : steps) {
    double sum = 0.0;
    for (int i = 0; i < 100; ++i)
      sum += herd::growing_pig_feed(Kilograms(row.from + (row.to - row.from) * (i + 0.5) / 100)).value();
    sheet.near(fmt::format("pig of {} to {} kg", row.from, row.to), "kg/d", row.feed, 0.05 * row.feed, sum / 100);
  }
}

void shares(Sheet& sheet) {
  sheet.from("NRC 1985 sheep: ewes at maintenance, dry matter a day, printed to 0.1 kg; a tenth more is our reading", Standing::memory, Bound::ours);
  for (const auto& [weight, eaten] : {std::pair{50.0, 1.0}, std::pair{60.0, 1.1}, std::pair{70.0, 1.2}})
    sheet.near(fmt::format("ewe of {} kg at maintenance", weight), "kg/d", eaten, 0.1 * eaten + 0.05,
               herd::intake(*herd::find_class("ewe"), Kilograms(weight)).value());
  sheet.from("handbooks of the species: dry matter eaten a day to live weight", Standing::memory, Bound::source);
  const struct { const char* animal; double least, most; } rows[] = {
      {"ewe", 0.018, 0.020},      {"ewe-milking", 0.03, 0.04},    {"lamb", 0.035, 0.05},  {"dairy-cow", 0.03, 0.04},
      {"beef-cow", 0.018, 0.025}, {"beef-growing", 0.022, 0.03}, {"horse", 0.015, 0.025}};
  for (const auto& row : rows)
    sheet.within(fmt::format("intake to weight, {}", row.animal), "1/d", row.least, row.most,
                 intake_of(row.animal) / herd::find_class(row.animal)->weight.value());
  sheet.from("swine and poultry handbooks: as fed, 90 % dry matter", Standing::memory, Bound::source);
  sheet.within("feed of a sow with young inside", "kg/d", 2.0, 2.6, intake_of("sow") / 0.9);
  sheet.within("feed of a sow in milk", "kg/d", 5.0, 6.5, intake_of("sow-milking") / 0.9);
  sheet.within("feed of a laying hen", "kg/d", 0.10, 0.12, intake_of("laying-hen") / 0.9);
}

void limits(Sheet& sheet) {
  sheet.from("sheep trial (lst.uk.ac.ir 2042): up to 21 % of the diet in place of barley", Standing::found, Bound::rounding);
  sheet.near("fodder's usual limit, ewe", "1", 0.21, 1e-9, limit_of("ewe"));
  sheet.from("Abdel-Wareth et al. 2023, Sci. Rep. 13:943: 25 % best, 20 to 40 % good", Standing::found, Bound::source);
  sheet.within("fodder's usual limit, rabbit", "1", 0.20, 0.40, limit_of("rabbit"));
  sheet.from("Alinaitwe et al. 2019, IOSR-JAVS 12(2): best growth of chickens at 23 %", Standing::found, Bound::rounding);
  sheet.near("fodder's usual limit, laying hen", "1", 0.23, 1e-9, limit_of("laying-hen"));
}

}  // namespace

Sheet intake_rows() {
  Sheet sheet("herd: intake");
  equations(sheet);
  shares(sheet);
  limits(sheet);
  return sheet;
}

}  // namespace rackwright::validation
