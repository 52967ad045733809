// Every starter is sound: whatever is answered within its bounds, the dry fit finds no error. Usual
// sizes come from the published figures that each starter's questions name beside their bounds.

#include <gtest/gtest.h>

#include <fmt/format.h>

#include <cmath>
#include <filesystem>
#include <random>
#include <set>

#include "joinery/file/questions.h"
#include "joinery/file/starters.h"
#include "joinery/fit/dry_fit.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"

namespace dryfit::test {
namespace {

using joinery::AskedQuestion;
using joinery::ModelFile;
using Kind = AskedQuestion::Kind;

std::vector<joinery::Starter> starters() {
  return joinery::startersIn({std::filesystem::path(DRYFIT_MODELS) / "starters"});
}

ModelFile load(const joinery::Starter& starter) {
  auto file = ModelFile::load(starter.file);
  if (file) return std::move(*file);
  ADD_FAILURE() << file.error().line();
  std::abort();
}

/// Answers each question in turn within the bounds that hold by then: at a bound as often as not.
ModelFile answeredAtRandom(ModelFile file, std::mt19937_64& random, std::string& answers) {
  const auto first = joinery::questionsOf(file);
  if (!first) ADD_FAILURE() << first.error().line();
  std::uniform_real_distribution<double> part(0, 1);
  for (std::size_t i = 0; first && i < first->size(); ++i) {
    const auto now = joinery::questionsOf(file);
    if (!now) {
      ADD_FAILURE() << now.error().line();
      break;
    }
    const AskedQuestion& question = now->at(i);
    std::string text;
    if (question.kind == Kind::choice) {
      text = question.options[random() % question.options.size()];
    } else {
      const double least = question.least.value_or(*question.number);
      const double greatest = std::max(least, question.greatest.value_or(*question.number));
      const double where = part(random);
      double value = where < 0.2   ? least
                     : where > 0.8 ? greatest
                                   : least + part(random) * (greatest - least);
      if (question.kind == Kind::count) value = std::floor(value);
      text = fmt::format("{:.4f}", value);
    }
    answers += fmt::format("{} {} ", question.name, text);
    // An answer that leaves a later question's own bounds is answered again further on.
    ModelFile next = file;
    if (auto set = next.setAnswers({{question.name, text}}); !set) {
      ADD_FAILURE() << answers << set.error().line();
      break;
    }
    file = std::move(next);
  }
  const auto fine = joinery::answered(file, {}, joinery::Unit::mm);
  EXPECT_TRUE(fine) << answers << fine.error().line();
  return file;
}

TEST(Starters, AreSixteenOrMoreAndEachAsksForItsSizes) {
  const auto all = starters();
  EXPECT_GE(all.size(), 16U);
  for (const joinery::Starter& starter : all) {
    const ModelFile file = load(starter);
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
  for (const joinery::Starter& starter : starters()) {
    const ModelFile plain = load(starter);
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
