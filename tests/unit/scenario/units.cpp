#include "sim/scenario/units.hpp"

#include <cmath>
#include <stdexcept>
#include <string>
#include <thread>
#include <utility>
#include <vector>

#include "tests/catch.hpp"

using namespace rackwright;

namespace {

double read(const std::string& text, const std::string& native) {
  const auto result = read_quantity(text, native);
  const auto* fault = std::get_if<UnitFault>(&result);
  INFO(text << " as " << native << ": " << (fault != nullptr ? fault->why : ""));
  REQUIRE(fault == nullptr);
  return std::get<double>(result);
}

std::string why(const std::string& text, const std::string& native) {
  const auto result = read_quantity(text, native);
  INFO(text << " as " << native);
  REQUIRE(std::holds_alternative<UnitFault>(result));
  return std::get<UnitFault>(result).why;
}

}  // namespace

TEST_CASE("quantities in the units keepers write") {
  CHECK(read("25 lb", "kg") == Approx(11.33980925).epsilon(1e-12));
  CHECK(read("25lbs", "kg") == read("25 lb", "kg"));
  CHECK(read("8 oz", "kg") == Approx(0.22679618500).epsilon(1e-6));  // a weight ounce, not a fluid one
  CHECK(read("14 gal/h", "L/h") == Approx(14 * 3.785411784).epsilon(1e-9));
  CHECK(read("14 gph", "L/h") == read("14 gal/h", "L/h"));
  CHECK(read("7 cups", "L") == Approx(7 * 0.2365882365).epsilon(1e-9));
  CHECK(read("4 lb/ft2", "kg/m2") == Approx(4 * 4.88242764).epsilon(1e-8));
  CHECK(read("4 lb/ft^2", "kg/m2") == read("4 lb per sqft", "kg/m2"));
  CHECK(read("35 cm", "m") == 0.35);
  CHECK(read("0.25 /kWh", "1/kWh") == 0.25);
  CHECK(read("8 / 25 kg", "1/kg") == Approx(0.32).epsilon(1e-12));
  CHECK(read("8 per 25 kg", "1/kg") == read("8 / 25 kg", "1/kg"));
  CHECK(read("0.16 /lb", "1/kg") == Approx(0.16 / 0.45359237).epsilon(1e-12));
  CHECK(read("  +4   kg ", "kg") == 4.0);
  CHECK(read("3", "h") == 3.0);
  CHECK_FALSE(std::signbit(read("-0 kg", "kg")));
}

TEST_CASE("shares and percentages") {
  CHECK(read("90 %", "1") == Approx(0.9).epsilon(1e-15));
  CHECK(read("0.9", "1") == 0.9);
  CHECK(read("0.5 %", "%") == 0.5);
}

TEST_CASE("temperatures are points, differences are differences") {
  CHECK(read("293.15 K", "degC") == Approx(20.0).epsilon(1e-10));  // a point on the absolute scale
  CHECK(read("100 degF", "degC") == Approx(37.7777777778).epsilon(1e-10));
  CHECK(read("38 degF", "degC") == Approx(3.3333333333).epsilon(1e-10));
  CHECK(read("20 °C", "degC") == Approx(20.0).epsilon(1e-12));
  CHECK(read("68 F", "degC") == Approx(20.0).epsilon(1e-12));
  CHECK(read("9 degF", "K") == Approx(5.0).epsilon(1e-12));
  CHECK(read("5 degC", "K") == Approx(5.0).epsilon(1e-12));
  CHECK(read("9 K", "K") == 9.0);
  CHECK(read("1.8 degF d", "K d") == Approx(1.0).epsilon(1e-12));
  CHECK(read("1 degF/ft", "K/m") == Approx(5.0 / 9.0 / 0.3048).epsilon(1e-12));
}

TEST_CASE("wrong dimensions say what was wanted") {
  CHECK(why("7 cups", "kg").find("not a mass") != std::string::npos);
  CHECK(why("3 kg", "h").find("not a length of time") != std::string::npos);
  CHECK(why("3 kg", "h").find("10 h") != std::string::npos);
  // UDUNITS would convert reciprocals and logarithms.
  CHECK(why("10 Hz", "h").find("not a length of time") != std::string::npos);
  why("12 lg(re 1 mW)", "W");
}

TEST_CASE("what is no finite quantity is refused") {
  for (const char* text : {"nan", "nan kg", "inf", "-inf kg", "1e999 kg", "kg", "", " ", "5 5 kg", "1,5 kg", "5 foo",
                           "5 kg kg/kg2 @ 3", "10 kg since 2000-01-01", "5 kg;", "5 (kg", "--5 kg", "0x10 kg"}) {
    why(text, "kg");
  }
  why("1e308 tonne", "g");
}

TEST_CASE("conversion between known units") {
  CHECK(convert(1.0, "lb", "kg") == 0.45359237);
  CHECK(convert(5.0, "K", "degF") == Approx(9.0));
  CHECK(convert(5.0, "degC", "degF") == Approx(41.0));
  CHECK_THROWS_AS(convert(1.0, "kg", "h"), std::logic_error);
  CHECK_THROWS_AS(convert(1.0, "no such unit", "h"), std::logic_error);
}

TEST_CASE("writing for people") {
  CHECK(write_quantity(11.33980925, "kg", true) == "25 lb");
  CHECK(write_quantity(11.33980925, "kg", false) == "11.34 kg");
  CHECK(write_quantity(20.0, "degC", true) == "68 degF");
  CHECK(write_quantity(5.0, "K", true) == "9 degF");
  CHECK(write_quantity(0.35, "1/kg", false) == "0.35 /kg");
  CHECK(write_quantity(0.9, "1", true) == "0.9");
  CHECK(write_quantity(617.849269, "kg/m3", true) == "48 lb/bushel");
  CHECK(write_quantity(12345.6, "kg", false, 3) == "12300 kg");  // never 1.23e+04
  CHECK(write_quantity(-997.0, "L", false, 2) == "-1000 L");
  CHECK(write_quantity(1.5e-6, "m", false, 3) == "1.5e-06 m");
}

TEST_CASE("many threads may read units at once") {
  std::vector<std::thread> threads;
  std::vector<int> wrong(4, 0);
  for (std::size_t t = 0; t < wrong.size(); ++t) {
    threads.emplace_back([&wrong, t] {
      for (int i = 0; i < 2000; ++i) {
        const auto value = read_quantity(std::to_string(i) + " lb", "kg");
        if (std::abs(std::get<double>(value) - 0.45359237 * i) > 1e-9 * (i + 1)) ++wrong[t];
      }
    });
  }
  for (std::thread& thread : threads) thread.join();
  for (const int count : wrong) CHECK(count == 0);
}

TEST_CASE("degrees in two words are temperatures, not angles") {
  for (const char* text : {"100 deg F", "100 degrees F", "100 degree F", "100 \xC2\xB0 F", "100 \xC2\xB0" "F", "100 deg. F"})
    CHECK(read(text, "degC") == Approx(37.7777777778).epsilon(1e-10));
  CHECK(read("20 deg C", "degC") == 20.0);
  CHECK(read("9 deg F", "K") == Approx(5.0).epsilon(1e-12));
  CHECK(read("30 deg", "degree") == 30.0);
}

TEST_CASE("kitchen fractions, shares with their unit, and what only looks like a unit") {
  CHECK(read("1/2 lb", "kg") == Approx(0.226796185).epsilon(1e-9));
  CHECK(read("1 1/2 lb", "kg") == Approx(0.680388555).epsilon(1e-9));
  CHECK(read("3/4 in", "m") == Approx(0.01905).epsilon(1e-12));
  CHECK(read("8/25 kg", "1/kg") == Approx(0.32).epsilon(1e-12));  // a price stays a price
  CHECK(read("0.5 1", "1") == 0.5);
  CHECK(read("0.5 1", "%") == 50.0);
  CHECK(read("2 / week", "1/d") == Approx(2.0 / 7.0).epsilon(1e-12));
  CHECK(why("9 / bag", "1/kg").find("write it like") != std::string::npos);  // UDUNITS: 94 lb of cement
  CHECK(why("$9 / 25 kg", "1/kg").find("sign of money") != std::string::npos);
  why("3/0 lb", "kg");
}

TEST_CASE("bags in any spelling, currencies, fractions that are none and units nobody means are refused with what was wanted") {
  for (const char* bag : {"9 / bag", "9 /bag", "9 per bag", "9 bag", "9 bags"}) {
    INFO(bag);
    CHECK(why(bag, "1/kg").find("has a unit that cannot be read") != std::string::npos);
  }
  for (const char* money : {"$9 / 25 kg", "\xE2\x82\xAC" "9 / 25 kg", "\xC2\xA3" "9 / 25 kg"}) CHECK(why(money, "1/kg").find("sign of money") != std::string::npos);
  CHECK(why("9 EUR / 25 kg", "1/kg").find("money is a plain number") != std::string::npos);
  for (const char* fraction : {"1/0 lb", "65/65 lb", "1/65 lb", "1 3/2 lb", "1 1/x lb"}) {
    INFO(fraction);
    why(fraction, "kg");
  }
  CHECK(read("1/2", "kg") == 0.5);  // a number alone is in the unit that is meant
  CHECK(read("2 3/4", "h") == 2.75);
  for (const char* odd : {"3 .5 kg", "3 +2 kg", "3 -2 kg", "3 2 kg", "3 kg @ 2", "3 h since 2020", "3 re kg"}) {
    INFO(odd);
    CHECK(why(odd, "kg").find("has a unit that cannot be read") != std::string::npos);
  }
  CHECK(why("3, 5 kg", "kg").find("decimals take a point") != std::string::npos);
  CHECK(why("3 " + std::string(61, 'k'), "kg").find("has a unit that cannot be read") != std::string::npos);
  CHECK(why("1 h", "1/s").find("is not") != std::string::npos);   // not turned upside down
  CHECK(why("1e400 kg", "kg").find("beyond what a number can hold") != std::string::npos);
  CHECK(why("1e308 t", "kg").find("beyond what a number can hold") != std::string::npos);
  CHECK(why("\t", "kg").find("is empty") != std::string::npos);
  CHECK(read("\t5 kg\t", "kg") == 5.0);
  CHECK(read("300 \xC2\xB0" "K", "degC") == Approx(26.85).epsilon(1e-10));
  why("30 \xC2\xB0" "Fx", "degC");  // no scale by that name
  why("30 deg Z", "degC");
}

TEST_CASE("halves and thirds of any size, a share written as one, and rates as 1/h") {
  CHECK(read("3/2 lb", "kg") == Approx(1.5 * 0.45359237).epsilon(1e-12));
  CHECK(read("1/2lb", "kg") == Approx(0.5 * 0.45359237).epsilon(1e-12));
  CHECK(read("1/50", "%") == 2.0);
  CHECK(read("1/65", "%") == Approx(100.0 / 65.0).epsilon(1e-14));
  CHECK(read("2/100", "%") == read("1/50", "%"));
  CHECK(read("1 / 4", "%") == read("1/4", "%"));
  CHECK(read("1/2 %", "%") == 0.5);
  CHECK(read("60 1/h", "1/d") == 1440.0);
}

TEST_CASE("two quantities in one are refused, not multiplied") {
  const std::vector<std::pair<std::string, const char*>> all{{"14 h 30 min", "h"}, {"40\xC2\xB0 30'", "degree"}, {"40\xC2\xB0" "30'", "degree"}, {"40 deg 30 arcmin", "degree"},
                                                             {"50 % 50 %", "%"}, {"1. %4'", "1"}, {"5 %2", "1"}, {"50 % 8", "1"}, {"1 lb 8 oz", "kg"}, {"2 ft 6 in", "m"}, {"12 ft 10 in", "m2"}};
  for (const auto& [text, native] : all) CHECK(why(text, native).find("more than one quantity") != std::string::npos);
  // A full stop multiplies, and a slash divides, for UDUNITS: ranges are no such thing.
  for (const char* text : {"0 %..60 %/4", "5 %.2", "5 %/2"}) CHECK(why(text, "1").find("more than one quantity") != std::string::npos);
  CHECK(read("3 m2", "m2") == 3.0);
  CHECK(read("1.8 W m-2 K-1", "W/m2/K") == Approx(1.8));
  CHECK(read("2 /(100 ft3)", "1/m3") == Approx(0.02 / 0.028316846592).epsilon(1e-9));
  CHECK(read("2 per 100 ft3", "1/m3") == Approx(0.02 / 0.028316846592).epsilon(1e-9));
}

TEST_CASE("signs that look like a blank, a minus or a degree are those, and a message repeats no text without end") {
  CHECK(read("20\xC2\xA0\xC2\xBA" "C", "degC") == 20.0);
  CHECK(read("\xE2\x88\x92" "5 degC", "degC") == -5.0);
  CHECK(read("20\xE2\x80\xAF" "kg", "kg") == 20.0);
  CHECK(why(std::string(100000, 'x'), "kg").size() < 200);
  CHECK(why("5 " + std::string(100000, 'x'), "kg").size() < 200);
}
