#include "sim/study/day_signs.hpp"

#include <vector>

#include "tests/catch.hpp"

using namespace rackwright;
using namespace rackwright::study;

namespace {

// A line that serves all it is asked, four mats of 7 kg a day.
std::vector<DailyRow> calm(std::size_t days = 60) {
  DailyRow row;
  row.wanted = row.served = 28.0F;
  row.signs.cut = 4.0F;
  row.signs.cut_fresh = 28.0F;
  return std::vector<DailyRow>(days, row);
}

Sign sign_of(float DaySigns::*member, float value) {
  auto struck = calm();
  struck[20].signs.*member = value;
  const auto found = first_sign(calm(), struck, 10, 59);
  REQUIRE(found);
  CHECK(found->day == 20);
  return found->sign;
}

}  // namespace

TEST_CASE("each sign is told by its own trace") {
  CHECK(sign_of(&DaySigns::missed, 1.0F) == Sign::no_hands);
  CHECK(sign_of(&DaySigns::frost, 1.0F) == Sign::frost);
  CHECK(sign_of(&DaySigns::frozen, 1.0F) == Sign::frost);
  CHECK(sign_of(&DaySigns::dry_hours, 30.0F) == Sign::no_water);
  CHECK(sign_of(&DaySigns::unsown, 1.0F) == Sign::no_grain);
  CHECK(sign_of(&DaySigns::blocked, 1.0F) == Sign::no_room);
  CHECK(sign_of(&DaySigns::sour, 2.0F) == Sign::sour);
  CHECK(sign_of(&DaySigns::mould, 3.0F) == Sign::mould);
  CHECK(sign_of(&DaySigns::cut_fresh, 24.0F) == Sign::thin_mats);
  auto struck = calm();
  struck[12].signs.cut = 3.0F;
  struck[12].signs.cut_fresh = 21.0F;
  CHECK_FALSE(first_sign(calm(), struck, 10, 59));  // fewer are cut, but nobody lacks anything
  struck[12].served = 21.0F;
  CHECK(first_sign(calm(), struck, 10, 59)->sign == Sign::slow_mats);
  struck = calm();
  struck[12].wanted = 30.0F;
  CHECK(first_sign(calm(), struck, 10, 59)->sign == Sign::more_wanted);
}

TEST_CASE("where the animals get less on a day, less tells why: what gives way is not told after they are worse fed") {
  auto struck = calm();
  struck[12].wanted = struck[12].served = 29.0F;  // 3 % more
  CHECK_FALSE(first_sign(calm(), struck, 10, 59));
  struck[12].served = 28.0F;  // and it is not there
  REQUIRE(first_short(calm(), struck, 10, 0.02) == 12);
  REQUIRE(first_sign(calm(), struck, 10, 59));
  CHECK(first_sign(calm(), struck, 10, 59)->sign == Sign::more_wanted);
  CHECK(first_sign(calm(), struck, 10, 59)->day == 12);
  struck = calm();
  struck[12].signs.cut_fresh = 26.5F;  // 5 % lighter mats
  CHECK_FALSE(first_sign(calm(), struck, 10, 59));
  struck[12].served = 26.5F;
  REQUIRE(first_sign(calm(), struck, 10, 59));
  CHECK(first_sign(calm(), struck, 10, 59)->sign == Sign::thin_mats);
}

TEST_CASE("one mat more is luck, two since the start are a sign, what comes before or after the hard time is none") {
  auto struck = calm();
  struck[15].signs.sour = 1.0F;
  CHECK_FALSE(first_sign(calm(), struck, 10, 59));
  struck[18].signs.sour = 1.0F;
  CHECK(first_sign(calm(), struck, 10, 59)->day == 18);
  CHECK_FALSE(first_sign(calm(), struck, 16, 59));
  CHECK_FALSE(first_sign(calm(), struck, 10, 17));
  struck[18].signs.missed = 1.0F;
  CHECK(first_sign(calm(), struck, 10, 59)->sign == Sign::no_hands);  // on one day, the order of Sign
}

TEST_CASE("nothing struck, nothing to recover from") {
  CHECK_FALSE(first_short(calm(), calm(), 10, 0.02));
  const Recovery none = recovery(calm(), calm(), 10, 20, 0.02);
  CHECK(none.days == 0);
  CHECK(none.over);
}

TEST_CASE("recovery counts from the start to the day after the last worse one, also when a quiet spell lies between") {
  auto struck = calm();
  for (const std::size_t day : {14U, 15U, 24U}) struck[day].served = 14.0F;
  CHECK(first_short(calm(), struck, 10, 0.02) == 14);
  const Recovery back = recovery(calm(), struck, 10, 20, 0.02);
  CHECK(back.days == 15);
  CHECK(back.over);
  struck[45].served = 14.0F;  // more than a fortnight after: something else
  CHECK(recovery(calm(), struck, 10, 20, 0.02).days == 15);
  CHECK(recovery(calm(), struck, 10, 40, 0.02).days == 36);  // but not while the hard time may still show
}

TEST_CASE("a day's lack made good within the week is no harm, a run that ends too soon says it is not over") {
  auto undisturbed = calm(), struck = calm();
  undisturbed[20].served = 14.0F;  // the same lack, two days later
  struck[22].served = 14.0F;
  CHECK(recovery(undisturbed, struck, 10, 20, 0.02).days == 0);
  struck[55].served = 14.0F;
  CHECK_FALSE(recovery(calm(), struck, 50, 52, 0.02).over);
  CHECK_FALSE(recovery(calm(), calm(), 10, 70, 0.02).over);  // it may still show after the run
}
