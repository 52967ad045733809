#include "tests/support/random_answers.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <filesystem>

#include "joinery/file/questions.h"

namespace dryfit::test {

using joinery::AskedQuestion;
using joinery::ModelFile;
using Kind = AskedQuestion::Kind;

std::vector<joinery::Starter> builtInStarters() {
  return joinery::startersIn({std::filesystem::path(DRYFIT_MODELS) / "starters"});
}

ModelFile starterFile(const joinery::Starter& starter) {
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

}  // namespace dryfit::test
