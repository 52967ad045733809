// Every starter is sound: whatever is answered within its bounds, the dry fit finds no error. Usual
// sizes come from the published figures that each starter's questions name beside their bounds.

#include <gtest/gtest.h>

#include <random>

#include "joinery/file/questions.h"
#include "joinery/fit/dry_fit.h"
#include "tests/support/random_answers.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"

namespace dryfit::test {
namespace {

using joinery::ModelFile;

TEST(Starters, AreSixteenOrMoreAndEachAsksForItsSizes) {
  const auto all = builtInStarters();
  EXPECT_GE(all.size(), 16U);
  for (const joinery::Starter& starter : all) {
    const ModelFile file = starterFile(starter);
    const auto questions = joinery::questionsOf(file);
    ASSERT_TRUE(questions) << questions.error().line();
    EXPECT_GE(questions->size(), 3U) << starter.name;
    EXPECT_FALSE(file.model().hardware.empty()) << starter.name;
    EXPECT_TRUE(file.model().finish.has_value()) << starter.name;
    EXPECT_TRUE(file.model().brief.height.has_value()) << starter.name;
  }
}

TEST(Starters, AreSoundWhateverIsAnsweredWithinTheBounds) {
  std::mt19937_64 random(seed());
  for (const joinery::Starter& starter : builtInStarters()) {
    const ModelFile plain = starterFile(starter);
    for (int i = 0; i < repetitions(60); ++i) {
      std::string answers = starter.name + ": ";
      const ModelFile file = i == 0 ? plain : answeredAtRandom(plain, random, answers);
      const auto fit = joinery::dryFit(file.model(), joinery::Basis::drawn, {}, joinery::Unit::mm);
      ASSERT_TRUE(fit) << answers << fit.error().line();
      for (const joinery::Finding& finding : fit->findings) {
        EXPECT_NE(finding.severity, joinery::Severity::error) << answers << finding.text;
      }
      if (::testing::Test::HasFailure()) return;
      if (i == 0) {
        EXPECT_TRUE(fit->findings.empty())
            << starter.name << (fit->findings.empty() ? std::string() : fit->findings.front().text);
      }
      EXPECT_EQ(ModelFile::parse(file.text(), "again")->text(), file.text());
    }
  }
}

}  // namespace
}  // namespace dryfit::test
