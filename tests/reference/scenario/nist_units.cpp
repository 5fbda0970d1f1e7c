// Unit conversions against NIST: Special Publication 811 (2008 edition), Appendix B.8, and Handbook 44, Appendix C.
// Rows marked exact are definitions; the others are printed to seven digits.
#include <string>
#include <vector>

#include "sim/scenario/units.hpp"
#include "tests/catch.hpp"

using namespace rackwright;

namespace {

struct Row {
  std::string text, native;
  double expected;
  double relative;  ///< tolerance: 1e-12 for exact rows, half a unit of the seventh digit for printed ones
  std::string source;
};

const double exact = 1e-12;
const double printed = 5e-7;

const std::vector<Row> rows{
    {"1 lb", "kg", 0.45359237, exact, "SP 811 B.8, pound (avoirdupois), exact"},
    {"1 oz", "kg", 0.02834952, printed, "SP 811 B.8, ounce (avoirdupois)"},
    {"1 ton", "kg", 907.1847, printed, "SP 811 B.8, ton, short"},
    {"1 ft", "m", 0.3048, exact, "SP 811 B.8, foot, exact"},
    {"1 inch", "m", 0.0254, exact, "SP 811 B.8, inch, exact"},
    {"1 ft2", "m2", 0.09290304, exact, "SP 811 B.8, square foot, exact"},
    {"1 acre", "m2", 4046.873, printed, "SP 811 B.8, acre (based on the US survey foot)"},
    {"1 gal", "L", 3.785411784, exact, "Handbook 44 App. C, gallon = 231 cubic inches, exact"},
    {"1 quart", "L", 0.946352946, exact, "Handbook 44 App. C, liquid quart = 57.75 cubic inches, exact"},
    {"1 cup", "L", 0.2365882365, exact, "Handbook 44 App. C, cup = 8 fluid ounces = gallon/16, exact"},
    {"1 bushel", "L", 35.23907016688, exact, "Handbook 44 App. C, bushel = 2150.42 cubic inches, exact"},
    {"1 gal/min", "L/h", 227.1247, printed, "SP 811 B.8, gallon per minute = 6.309020 E-05 m3/s, times 3.6 E+06"},
    {"1 lb/ft2", "kg/m2", 4.882428, printed, "SP 811 B.8, pound per square foot"},
    {"1 psi", "Pa", 6894.757, printed, "SP 811 B.8, pound-force per square inch"},
    {"1 BTU", "kWh", 1055.05585262 / 3.6e6, 1e-9, "SP 811 B.8 footnote, Btu (International Table) = 1055.055 852 62 J"},
    {"1 BTU/h", "W", 0.2930711, printed, "SP 811 B.8, Btu(IT) per hour"},
    {"1 BTU/h/ft2/degF", "W/m2/K", 5.678263, printed, "SP 811 B.8, Btu(IT) per hour square foot degree Fahrenheit"},
    {"1 horsepower", "W", 745.6999, printed, "SP 811 B.8, horsepower (550 foot pound-force per second)"},
    {"-40 degF", "degC", -40.0, exact, "SP 811 B.8, t/degC = (t/degF - 32)/1.8, exact"},
    {"212 degF", "degC", 100.0, exact, "the same"},
    {"100 degF", "degC", 68.0 / 1.8, exact, "the same"},
    {"1.8 degF", "K", 1.0, exact, "SP 811 B.8, temperature interval of 1 degF = 1/1.8 K, exact"},
};

}  // namespace

TEST_CASE("unit conversions agree with NIST") {
  for (const Row& row : rows) {
    const auto read = read_quantity(row.text, row.native);
    INFO(row.text << " in " << row.native << ": " << row.source);
    REQUIRE(std::holds_alternative<double>(read));
    CHECK(std::get<double>(read) == Approx(row.expected).epsilon(row.relative));
  }
}

TEST_CASE("legal bushel weights as densities") {
  // Winchester bushel of 2150.42 cubic inches: kg/hL = 1.2872 lb/bu (rounded to five digits).
  for (const double pounds : {60.0, 48.0, 32.0, 56.0, 50.0}) {
    const auto read = read_quantity(std::to_string(pounds) + " lb/bushel", "kg/m3");
    INFO(pounds << " lb/bu");
    REQUIRE(std::holds_alternative<double>(read));
    CHECK(std::get<double>(read) == Approx(12.872 * pounds).epsilon(5e-5));
  }
}
