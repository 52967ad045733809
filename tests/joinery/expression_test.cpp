#include "joinery/formula/expression.h"

#include <gtest/gtest.h>

#include <clocale>
#include <cmath>
#include <functional>
#include <map>
#include <random>
#include "tests/support/repetitions.h"

namespace dryfit::joinery {
namespace {

std::optional<double> noNames(const std::string&) {
  return std::nullopt;
}

NameLookup namesFrom(std::map<std::string, double> values) {
  return [values = std::move(values)](const std::string& name) -> std::optional<double> {
    const auto it = values.find(name);
    if (it == values.end()) return std::nullopt;
    return it->second;
  };
}

double mm(const std::string& text, Unit unit = Unit::mm, const NameLookup& names = noNames) {
  const Result<double> value = evaluateLength({text, false}, unit, names);
  EXPECT_TRUE(value) << text << ": " << (value ? "" : value.error().line());
  return value.value_or(std::nan(""));
}

TEST(Expression, DoesArithmeticAsAtSchool) {
  EXPECT_EQ(mm("2 + 3 * 4"), 14);
  EXPECT_EQ(mm("(2 + 3) * 4"), 20);
  EXPECT_EQ(mm("100 - 20 - 30"), 50);
  EXPECT_EQ(mm("2 ^ 3 ^ 2"), 512);
  EXPECT_EQ(mm("-2 ^ 2"), -4);
  EXPECT_EQ(mm("2 - -3"), 5);
  EXPECT_EQ(mm("2 * -3"), -6);
  EXPECT_EQ(mm("+7"), 7);
  EXPECT_EQ(mm(".5"), 0.5);
  EXPECT_EQ(mm("1.5e2"), 150);
  EXPECT_EQ(mm("min(4, 2, 9) + max(1, 5)"), 7);
  EXPECT_EQ(mm("round(3.6) + abs(-2)"), 6);
}

TEST(Expression, KnowsTheAnglesOfALean) {
  // Exact values of the tables; a rise of 8 in 70 leans 6.52 degrees.
  EXPECT_EQ(mm("sin(0) + sin(180) + cos(90) + cos(-270)"), 0);
  EXPECT_EQ(mm("sin(90) + sin(-90) + cos(180) + cos(720)"), 0);
  EXPECT_NEAR(mm("sin(30)"), 0.5, 1e-15);
  EXPECT_NEAR(mm("cos(60)"), 0.5, 1e-15);
  EXPECT_NEAR(mm("tan(45)"), 1, 1e-15);
  EXPECT_NEAR(mm("asin(0.5) + acos(0.5) + atan(1)"), 135, 1e-12);
  EXPECT_NEAR(mm("atan(8 / 70)"), 6.5198, 1e-4);
  EXPECT_NEAR(mm("700 * tan(6)"), 73.5730, 1e-4);
  for (double lean = -80; lean <= 80; lean += 7) {
    EXPECT_NEAR(mm("atan(tan(" + std::to_string(lean) + "))"), lean, 1e-9);
  }
}

TEST(Expression, LeansAreTheSameInEveryUnit) {
  const auto names = namesFrom({{"rise", 700}, {"lean", 6}});
  const auto inInches = namesFrom({{"rise", 700}, {"lean", 6 * 25.4}});
  EXPECT_NEAR(mm("rise * tan(lean)", Unit::inch, inInches), mm("rise * tan(lean)", Unit::mm, names),
              1e-9);
}

TEST(Expression, RoundsUpAndDown) {
  EXPECT_EQ(mm("floor(3.9) + ceil(3.1)"), 7);
  EXPECT_EQ(mm("floor(-0.5)"), -1);
  EXPECT_EQ(mm("ceil(1000 / 600)"), 2);
  EXPECT_EQ(mm("floor(3.3 / 1.1)"), 3) << "not 2 by the last bit";
  EXPECT_EQ(mm("ceil(8.4 / 1.2)"), 7);
  for (int n = 1; n < 400; ++n) {
    const auto names = namesFrom({{"shelves", n * 25.4}});
    EXPECT_NEAR(mm("floor(shelves)", Unit::inch, names), n * 25.4, 1e-9);
    EXPECT_NEAR(mm("ceil(shelves)", Unit::inch, names), n * 25.4, 1e-9);
  }
}

TEST(Expression, LeavesNamesThatAreFunctionsOnlyBeforeABracket) {
  const auto names = namesFrom({{"floor", 80}, {"tan", 3}});
  EXPECT_EQ(mm("floor + tan", Unit::mm, names), 83);
  EXPECT_EQ(mm("floor (3.5) + floor", Unit::mm, names), 83);
}

TEST(Expression, TellsAnAngleThatThereIsNot) {
  for (const char* text : {"tan(90)", "asin(1.01)", "acos(-2)"}) {
    const Result<double> value = evaluateLength({text, false}, Unit::mm, noNames);
    ASSERT_FALSE(value) << text;
    EXPECT_EQ(value.error().code, ErrorCode::badExpression) << text;
  }
}

TEST(Expression, ReadsADecimalPointWhereTheUserWritesCommas) {
  const std::string before = std::setlocale(LC_NUMERIC, nullptr);
  const char* taken = nullptr;
  for (const char* name : {"de_DE.UTF-8", "fr_FR.UTF-8", "nl_NL.UTF-8", "sv_SE.UTF-8"}) {
    if (taken == nullptr) taken = std::setlocale(LC_NUMERIC, name);
  }
  if (taken == nullptr) GTEST_SKIP() << "no locale with a decimal comma is installed";
  const Result<double> asNumber = evaluateLength({"60.8", true}, Unit::mm, noNames);
  const double asText = mm("12.5");
  const double inFormula = mm("2 * 12.5 + 0.25 in");
  std::setlocale(LC_NUMERIC, before.c_str());
  ASSERT_TRUE(asNumber);
  EXPECT_EQ(*asNumber, 60.8);
  EXPECT_EQ(asText, 12.5);
  EXPECT_DOUBLE_EQ(inFormula, 31.35);
}

TEST(Expression, TellsNumbersTooGreatFromNumbersTooSmall) {
  EXPECT_FALSE(evaluateLength({"1e999", true}, Unit::mm, noNames));
  EXPECT_EQ(mm("1e-999"), 0);
}

TEST(Expression, CountsBareNumbersInTheUnitOfTheFile) {
  EXPECT_DOUBLE_EQ(mm("22", Unit::inch), 558.8);
  EXPECT_DOUBLE_EQ(mm("22", Unit::cm), 220);
  EXPECT_DOUBLE_EQ(mm("2 * stock", Unit::inch, namesFrom({{"stock", 22}})), 44);
  EXPECT_DOUBLE_EQ(mm("stock + 1", Unit::cm, namesFrom({{"stock", 22}})), 32);
}

TEST(Expression, TakesUnitsBehindNumbersAndBrackets) {
  EXPECT_DOUBLE_EQ(mm("5 cm + 3 mm"), 53);
  EXPECT_DOUBLE_EQ(mm("5cm", Unit::inch), 50);
  EXPECT_DOUBLE_EQ(mm("(1 + 2) in"), 76.2);
  EXPECT_DOUBLE_EQ(mm("max(1, 2) cm"), 20);
  EXPECT_DOUBLE_EQ(mm("2 * (1 + (2 - 1) in)"), 2 * 26.4);
  EXPECT_DOUBLE_EQ(mm("100 - 1 in"), 74.6);
}

TEST(Expression, ReadsFractionsOfAnInch) {
  EXPECT_DOUBLE_EQ(mm("1 3/8 in"), 34.925);
  EXPECT_DOUBLE_EQ(mm("3/8 in"), 9.525);
  EXPECT_DOUBLE_EQ(mm("-1 3/8 in"), -34.925);
  EXPECT_DOUBLE_EQ(mm("2 * 1 1/2 in"), 76.2);
  EXPECT_DOUBLE_EQ(mm("100 mm - 3/4 in"), 80.95);
  EXPECT_DOUBLE_EQ(mm("1 3/8", Unit::inch), 34.925);
  EXPECT_DOUBLE_EQ(mm("stock - 1 1/4 in", Unit::mm, namesFrom({{"stock", 50}})), 18.25);
  EXPECT_DOUBLE_EQ(mm("min(3/4 in, 1 1/2 in)"), 19.05);
}

TEST(Expression, ReadsNamesOfDimensionsAndFaces) {
  const NameLookup names = namesFrom(
      {{"left_stile.right", 58}, {"oak.thickness", 22}, {"e5", 7}, {"v0", 3}, {"inset", 2}});
  EXPECT_DOUBLE_EQ(mm("left_stile.right - oak.thickness", Unit::mm, names), 36);
  EXPECT_DOUBLE_EQ(mm("e5 * v0 + inset", Unit::mm, names), 23);
}

TEST(Expression, NamesWhatItReads) {
  const auto names = namesIn({"min(b.left, a) + 2 in * c - a", false});
  ASSERT_TRUE(names);
  EXPECT_EQ(*names, (std::set<std::string>{"a", "b.left", "c"}));
  EXPECT_TRUE(namesIn({"58", true})->empty());
}

TEST(Expression, LeavesPlainNumbersUnscaled) {
  EXPECT_DOUBLE_EQ(*evaluateNumber({"12", true}, Unit::inch, noNames), 12);
  EXPECT_DOUBLE_EQ(*evaluateNumber({"2 * tilt", false}, Unit::inch, namesFrom({{"tilt", 254}})),
                   20);
}

TEST(Expression, RefusesWhatIsNoArithmetic) {
  for (const char* text :
       {"",       "   ",     "1 +",   "* 2",      "1 2",       "a b",       "(1",
        "1)",     "()",      "min",   "min()",    "min(1,)",   "abs(1, 2)", "1, 2",
        "a = 3",  "a == 3",  "1 < 2", "1 > 2",    "a ? 1 : 2", "1 && 2",    "1 || 2",
        "!1",     "\"a\"",   "'a'",   "sinh(1)",  "sqrt(4)",   "sum(1,2)",  "rint(2)",
        "_pi(1)", "2 in in", "mm",    "stock in", "1..2",      "1.2.3",     "5 % 2",
        "a;b",    "a\\b",    "{1}",   "[1]",      "#",         "\xc3\xa9",  "\xff",
        "---1",   "in 5",    "2 (3)", "(2)(3)",   "5,8",       "1 / / 2"}) {
    const auto value =
        evaluateLength({text, false}, Unit::mm, namesFrom({{"a", 1}, {"b", 2}, {"stock", 3}}));
    ASSERT_FALSE(value) << text << " gives " << *value;
    EXPECT_EQ(value.error().code, ErrorCode::badExpression) << text;
    EXPECT_FALSE(value.error().what.empty()) << text;
    EXPECT_EQ(value.error().line().find('\n'), std::string::npos) << text;
  }
}

TEST(Expression, KnowsNoNamesOfItsOwn) {
  for (const char* text : {"pi", "_pi", "_e", "e", "true", "nan", "inf", "rnd", "if"}) {
    const auto value = evaluateLength({text, false}, Unit::mm, noNames);
    ASSERT_FALSE(value) << text;
    EXPECT_EQ(value.error().code, ErrorCode::unknownName) << text;
  }
}

TEST(Expression, GivesOnlyFiniteNumbers) {
  for (const char* text :
       {"1 / 0", "0 / 0", "-1 / 0", "10 ^ 400", "(-8) ^ 0.5", "1e999", "1e308 in"}) {
    const auto value = evaluateLength({text, false}, Unit::mm, noNames);
    ASSERT_FALSE(value) << text;
    EXPECT_EQ(value.error().code, ErrorCode::badExpression) << text;
  }
}

TEST(Expression, SurvivesLongAndDeepText) {
  const std::string deep = std::string(499, '(') + "1" + std::string(499, ')');
  EXPECT_EQ(mm(deep), 1);
  std::string sum = "1";
  while (sum.size() < 990) sum += "+1";
  EXPECT_GT(mm(sum), 400);
  for (const std::string& text :
       {std::string(1001, '1'), std::string(2'000'000, '('), std::string(999, '('),
        std::string(999, '-'), std::string(500, '-') + "1"}) {
    EXPECT_FALSE(evaluateLength({text, false}, Unit::mm, noNames));
  }
}

// What the arithmetic library makes of a formula is held against a walk over the same tree.
struct RandomFormula {
  std::mt19937& random;
  std::map<std::string, double>& names;

  int pick(int count) { return std::uniform_int_distribution<int>(0, count - 1)(random); }

  std::pair<std::string, double> make(int depth) {
    if (depth == 0 || pick(4) == 0) return leaf();
    const auto [leftText, left] = make(depth - 1);
    const auto [rightText, right] = make(depth - 1);
    switch (pick(6)) {
      case 0:
        return {"(" + leftText + " + " + rightText + ")", left + right};
      case 1:
        return {"(" + leftText + " - " + rightText + ")", left - right};
      case 2:
        return {"(" + leftText + ") * " + std::to_string(2), left * 2};
      case 3:
        return {"(" + leftText + ") / 4", left / 4};
      case 4:
        return {"max(" + leftText + ", " + rightText + ")", std::max(left, right)};
      default:
        return {"abs(" + leftText + ")", std::fabs(left)};
    }
  }
  std::pair<std::string, double> leaf() {
    const int whole = pick(40) + 1;
    switch (pick(4)) {
      case 0:
        return {std::to_string(whole) + " " + std::to_string(pick(7) + 1) + "/8 in", 0};
      case 1:
        return {std::to_string(whole) + " cm", whole * 10.0};
      case 2: {
        const std::string name = "part_" + std::to_string(pick(5)) + ".left";
        return {name, names[name]};
      }
      default:
        return {std::to_string(whole), static_cast<double>(whole)};
    }
  }
};

TEST(Expression, AgreesWithAWalkOverItsTree) {
  const unsigned seed = 7;
  SCOPED_TRACE(seed);
  std::mt19937 random(seed);
  std::map<std::string, double> names;
  for (int i = 0; i < 5; ++i) names["part_" + std::to_string(i) + ".left"] = 11.5 * i - 20;
  RandomFormula formulas{random, names};
  int compared = 0;
  const int count = test::repetitions(3000);
  for (int i = 0; i < count; ++i) {
    auto [text, value] = formulas.make(3);
    if (text.find("/8 in") != std::string::npos || text.size() > 1000) continue;
    EXPECT_NEAR(mm(text, Unit::mm, namesFrom(names)), value, 1e-9 * (1 + std::fabs(value))) << text;
    ++compared;
  }
  EXPECT_GT(compared, count / 6);
}

TEST(Expression, NeverCrashesOnRandomText) {
  const unsigned seed = 99;
  SCOPED_TRACE(seed);
  std::mt19937 random(seed);
  const std::string letters =
      "0123456789.+-*/^(),abe_ in mm cm min max round abs = <&|?:;\"'\xc3\xa9\t";
  for (int i = 0; i < test::repetitions(30000); ++i) {
    std::string text;
    const int length = std::uniform_int_distribution<int>(0, 24)(random);
    for (int k = 0; k < length; ++k) text += letters[random() % letters.size()];
    const auto value =
        evaluateLength({text, false}, Unit::inch, [](const std::string&) { return 3.5; });
    if (value) {
      EXPECT_TRUE(std::isfinite(*value)) << text;
      EXPECT_TRUE(namesIn({text, false})) << text;
    } else {
      EXPECT_EQ(value.error().line().find('\n'), std::string::npos) << text;
    }
  }
}

TEST(NearestName, FindsTheSlipOfAKey) {
  const std::vector<std::string> known{"width", "thickness", "length", "left_stile.right"};
  EXPECT_EQ(nearestName("widht", known), "width");
  EXPECT_EQ(nearestName("lenght", known), "length");
  EXPECT_EQ(nearestName("left_stile.rigth", known), "left_stile.right");
  EXPECT_EQ(nearestName("oka", {"ply", "oak"}), "oak");
  EXPECT_EQ(nearestName("elm", {"ply", "oak"}), "");
  EXPECT_EQ(nearestName("species", known), "");
  EXPECT_EQ(nearestName("x", {"y"}), "");
  EXPECT_EQ(nearestName("", known), "");
  EXPECT_EQ(nearestName("width", {}), "");
}

TEST(NearestMend, FindsANameInACopyOfASubAssembly) {
  const std::vector<std::string> known{"top.left", "drawer_1.front.left", "drawer_1.opening.left"};
  EXPECT_EQ(nearestMend("tpo.left", known), "did you mean 'top.left'?");
  EXPECT_EQ(nearestMend("frnt.left", known),
            "did you mean 'front.left', as in 'drawer_1.front.left'?");
  EXPECT_EQ(nearestMend("opning.left", known),
            "did you mean 'opening.left', as in 'drawer_1.opening.left'?");
  EXPECT_EQ(nearestMend("width", known), "");
}

}  // namespace
}  // namespace dryfit::joinery
