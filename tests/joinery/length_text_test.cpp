#include "joinery/formula/length_text.h"

#include "joinery/base/unit.h"

#include <gtest/gtest.h>

#include <cmath>
#include <random>

namespace dryfit::joinery {
namespace {

TEST(LengthText, WritesMillimetresToATenth) {
  EXPECT_EQ(lengthText(Length::mm(56.44), Unit::mm), "56.4");
  EXPECT_EQ(lengthText(Length::mm(58), Unit::mm), "58");
  EXPECT_EQ(lengthText(Length::mm(-0.01), Unit::mm), "0");
  EXPECT_EQ(lengthText(Length::mm(100), Unit::mm), "100");
}

TEST(LengthText, WritesANumberToTypeToAHundredthOfAMillimetre) {
  EXPECT_EQ(typedLengthText(Length::mm(41.25), Unit::mm), "41.25");
  EXPECT_EQ(typedLengthText(Length::mm(41.2), Unit::mm), "41.2");
  EXPECT_EQ(typedLengthText(Length::mm(1582.004), Unit::mm), "1582");
  EXPECT_EQ(typedLengthText(Length::mm(25.4 * 1.375), Unit::inch), "1.375");
}

TEST(LengthText, WritesCentimetresToAHundredth) {
  EXPECT_EQ(lengthText(Length::mm(56.44), Unit::cm), "5.64");
  EXPECT_EQ(lengthText(Length::mm(580), Unit::cm), "58");
}

TEST(LengthText, WritesInchesAsReducedFractions) {
  EXPECT_EQ(lengthText(Length::mm(25.4 * 1.375), Unit::inch), "1 3/8");
  EXPECT_EQ(lengthText(Length::mm(25.4 / 64), Unit::inch), "1/64");
  EXPECT_EQ(lengthText(Length::mm(25.4 * 12), Unit::inch), "12");
  EXPECT_EQ(lengthText(Length::mm(-25.4 * 2.25), Unit::inch), "-2 1/4");
  EXPECT_EQ(lengthText(Length::mm(25.4 * 0.999), Unit::inch), "1");
  EXPECT_EQ(lengthText(Length::mm(0), Unit::inch), "0");
}

TEST(LengthText, IsReadBackWithinItsRounding) {
  const unsigned seed = 20240401;
  SCOPED_TRACE(seed);
  std::mt19937 random(seed);
  std::uniform_real_distribution<double> lengths(0.2, 5000);
  // Half of the last place: 0.05 mm, 0.005 cm, 1/128 in.
  const std::pair<Unit, double> units[] = {
      {Unit::mm, 0.05}, {Unit::cm, 0.05}, {Unit::inch, 25.4 / 128}};
  for (int i = 0; i < 3000; ++i) {
    const double mm = lengths(random);
    for (const auto& [unit, rounding] : units) {
      const std::string text = lengthText(Length::mm(mm), unit);
      const auto read = parseLength(text, unit);
      ASSERT_TRUE(read) << text << ": " << read.error().line();
      EXPECT_NEAR(read->mm(), mm, rounding + 1e-9) << text << " " << nameOf(unit);
    }
  }
}

TEST(LengthTyped, TakesItsOwnUnitOrTheGivenOne) {
  EXPECT_DOUBLE_EQ(parseLength("58", Unit::mm)->mm(), 58);
  EXPECT_DOUBLE_EQ(parseLength("5.8 cm", Unit::mm)->mm(), 58);
  EXPECT_DOUBLE_EQ(parseLength("2 1/4 in", Unit::mm)->mm(), 57.15);
  EXPECT_DOUBLE_EQ(parseLength("3/8 in", Unit::cm)->mm(), 9.525);
  EXPECT_DOUBLE_EQ(parseLength("22mm", Unit::inch)->mm(), 22);
  EXPECT_DOUBLE_EQ(parseLength("1 3/8", Unit::inch)->mm(), 34.925);
  EXPECT_DOUBLE_EQ(parseLength("  22  ", Unit::inch)->mm(), 558.8);
}

TEST(LengthTyped, IsRefusedWhereItIsNoLength) {
  for (const char* text : {"", " ", "abc", "5,8", "1 2", "5 ft", "58 mm mm", "1/0", "3/8/", "in",
                           "oak.thickness", "1e999", "\xff\xfe", "5\n\n;"}) {
    const auto read = parseLength(text, Unit::mm);
    ASSERT_FALSE(read) << text;
    EXPECT_EQ(read.error().code, ErrorCode::badExpression) << text;
    EXPECT_EQ(read.error().line().find('\n'), std::string::npos) << text;
  }
}

TEST(Units, KnowTheirOwnNames) {
  for (const Unit unit : {Unit::mm, Unit::cm, Unit::inch}) {
    EXPECT_EQ(unitNamed(nameOf(unit)), unit);
  }
  EXPECT_FALSE(unitNamed("ft"));
  EXPECT_EQ(millimetresIn(Unit::inch), 25.4);  // exact: yard and pound agreement of 1959
}

}  // namespace
}  // namespace dryfit::joinery
