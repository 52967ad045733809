// Findings are told in the unit of whoever asks; what is found does not depend on it.

#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <regex>
#include <sstream>
#include <string>
#include <vector>

#include "joinery/base/unit.h"
#include "joinery/checks/words.h"
#include "joinery/file/model_file.h"
#include "joinery/fit/live_fit.h"
#include "joinery/formula/length_text.h"

namespace dryfit::joinery {
namespace {

constexpr std::array kUnits{Unit::mm, Unit::cm, Unit::inch};

Model mistakes() {
  const auto file = ModelFile::load(std::string(DRYFIT_MODELS) + "/mistakes.dryfit");
  EXPECT_TRUE(file) << file.error().line();
  return file->model();
}

std::vector<Finding> foundIn(Unit unit) {
  const auto fit = dryFit(mistakes(), Basis::drawn, {}, unit);
  EXPECT_TRUE(fit) << fit.error().line();
  return fit ? fit->findings : std::vector<Finding>{};
}

/// "2 1/4", "3/8", "12.5" as a number.
double numberOf(const std::string& text) {
  double sum = 0;
  std::istringstream words(text);
  for (std::string word; words >> word;) {
    const auto slash = word.find('/');
    sum += slash == std::string::npos
               ? std::stod(word)
               : std::stod(word.substr(0, slash)) / std::stod(word.substr(slash + 1));
  }
  return sum;
}

/// The lengths in a sentence that are followed by the unit's name, mm.
std::vector<double> lengthsIn(const std::string& text, Unit unit) {
  const std::regex length("((?:\\d+ )?\\d+/\\d+|\\d+(?:\\.\\d+)?) " + std::string(nameOf(unit)) +
                          "(?![a-z]|³)");
  std::vector<double> lengths;
  for (std::sregex_iterator at(text.begin(), text.end(), length), end; at != end; ++at) {
    lengths.push_back(numberOf((*at)[1].str()) * millimetresIn(unit));
  }
  return lengths;
}

TEST(FindingUnits, ChangeTheWordsAndNothingElse) {
  const std::vector<Finding> mm = foundIn(Unit::mm);
  ASSERT_GE(mm.size(), 10U);
  for (const Unit unit : {Unit::cm, Unit::inch}) {
    std::vector<Finding> others = foundIn(unit);
    ASSERT_EQ(others.size(), mm.size());
    for (std::size_t i = 0; i < mm.size(); ++i) {
      Finding& other = others[i];
      EXPECT_EQ(other.text.find(" mm"), std::string::npos) << other.text;
      EXPECT_EQ(other.mend.find(" mm"), std::string::npos) << other.mend;
      other.text = mm[i].text;
      other.mend = mm[i].mend;
      other.source = mm[i].source;
      // Numbers to change are rounded as the words are.
      ASSERT_EQ(other.changes.size(), mm[i].changes.size());
      for (std::size_t k = 0; k < mm[i].changes.size(); ++k) {
        EXPECT_EQ(other.changes[k].parameter, mm[i].changes[k].parameter);
        if (!mm[i].changes[k].value) continue;
        EXPECT_NEAR(*other.changes[k].value, *mm[i].changes[k].value, 25.4 / 64);
      }
      other.changes = mm[i].changes;
      EXPECT_EQ(other, mm[i]);
    }
  }
}

TEST(FindingUnits, SayTheSameLengthsInInches) {
  const std::vector<Finding> mm = foundIn(Unit::mm);
  const std::vector<Finding> inches = foundIn(Unit::inch);
  ASSERT_EQ(inches.size(), mm.size());
  int compared = 0;
  for (std::size_t i = 0; i < mm.size(); ++i) {
    for (const auto& [a, b] :
         {std::pair(mm[i].text, inches[i].text), std::pair(mm[i].mend, inches[i].mend)}) {
      SCOPED_TRACE(a + "\n" + b);
      const auto want = lengthsIn(a, Unit::mm);
      const auto have = lengthsIn(b, Unit::inch);
      ASSERT_EQ(have.size(), want.size());
      for (std::size_t k = 0; k < want.size(); ++k, ++compared) {
        // One is rounded to 0.1 mm, the other to 1/64 in, at worst either the other way.
        EXPECT_NEAR(have[k], want[k], 25.4 / 64 + 0.1);
      }
    }
  }
  EXPECT_GT(compared, 20);
}

TEST(FindingUnits, FollowASwitchThatNothingElseChanges) {
  LiveFit live;
  for (const Unit unit : {Unit::mm, Unit::inch, Unit::inch, Unit::cm, Unit::mm}) {
    const auto warm = live.update(mistakes(), Basis::drawn, {}, unit);
    ASSERT_TRUE(warm) << warm.error().line();
    EXPECT_EQ((*warm)->findings, foundIn(unit));
  }
  EXPECT_EQ(live.work().pairs, 0) << "a switch asks nothing of the geometry again";
}

TEST(FindingWords, RoundAwayFromWhatWouldBeWrong) {
  using namespace checking;
  for (const Unit unit : kUnits) {
    for (double mm = 0.02; mm < 60; mm += 0.37) {
      const double most = lengthsIn(atMostWords(mm, unit), unit).at(0);
      const double least = lengthsIn(atLeastWords(mm, unit), unit).at(0);
      EXPECT_LE(most, mm + 1e-6) << mm;
      EXPECT_GE(least, mm - 1e-6) << mm;
      EXPECT_LE(least - most, (mm < 25.4 ? 0.1 : 25.4 / 64) + 1e-6) << mm;
    }
  }
}

TEST(FindingWords, TellASmallLengthAsFineAsAFitIs) {
  using namespace checking;
  // Feeler gauges are marked to 0.05 mm and to a thousandth of an inch (common practice).
  for (const Unit unit : kUnits) {
    for (double mm = 0.05; mm < 9.99; mm += 0.0173) {
      EXPECT_NEAR(lengthsIn(lengthWords(mm, unit), unit).at(0), mm, 0.0005 * 25.4 + 1e-6);
    }
  }
  // 1 in is 25.4 mm: 1.5 mm is 0.05906 in, 1/16 in 1.5875 mm.
  EXPECT_EQ(lengthWords(1.5, Unit::inch), "0.059 in");
  EXPECT_EQ(lengthWords(1.5875, Unit::inch), "1/16 in");
  EXPECT_EQ(lengthWords(1.04, Unit::mm), "1.04 mm");
  EXPECT_EQ(lengthWords(0.00034, Unit::mm), "0.00034 mm") << "not nothing";
  EXPECT_EQ(atMostWords(1.5, Unit::inch), "0.059 in");
  EXPECT_EQ(atLeastWords(1.5, Unit::inch), "0.06 in");
  EXPECT_EQ(atLeastWords(1.58, Unit::inch), "1/16 in");
}

TEST(FindingWords, AreThoseOfTheUnit) {
  using namespace checking;
  EXPECT_EQ(lengthWords(12.5, Unit::mm), "12.5 mm");
  EXPECT_EQ(lengthWords(34.925, Unit::inch), "1 3/8 in");
  EXPECT_EQ(lengthWords(0.05, Unit::mm), "0.05 mm");
  EXPECT_EQ(lengthWords(0.05, Unit::inch), "0.002 in");
  EXPECT_EQ(lengthWords(12.5, Unit::cm), "1.25 cm");
  EXPECT_EQ(sizeWords({12, 20, 5}, Unit::mm), "12 x 20 x 5 mm");
  EXPECT_EQ(sizeWords({25.4, 12.7, 6.35}, Unit::inch), "1 x 1/2 x 1/4 in");
  EXPECT_EQ(volumeWords(1200, Unit::mm), "1200 mm³");
  EXPECT_EQ(volumeWords(16387.064, Unit::inch), "1 in³");  // 25.4³ exactly
  EXPECT_EQ(fitWords(0.1, Unit::mm), "0.10 mm");
  EXPECT_EQ(fitWords(0.1, Unit::inch), "0.004 in");
}

}  // namespace
}  // namespace dryfit::joinery
