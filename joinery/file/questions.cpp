#include "joinery/file/questions.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "joinery/base/plain_text.h"
#include "joinery/file/choices.h"
#include "joinery/file/fixed_numbers.h"
#include "joinery/formula/expression.h"
#include "joinery/formula/length_text.h"
#include "joinery/trade/species.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

using Kind = AskedQuestion::Kind;

Kind kindOf(const Dimension& dimension) {
  if (!dimension.question->options.empty()) return Kind::choice;
  if (dimension.whole) return Kind::count;
  return dimension.quantity == Quantity::length  ? Kind::length
         : dimension.quantity == Quantity::angle ? Kind::angle
                                                 : Kind::number;
}

/// Angles and counts are as they are written, lengths in mm.
Result<double> boundOf(const Expression& bound, const Dimension& dimension, FixedNumbers& numbers,
                       const std::string& place) {
  const bool length = dimension.quantity == Quantity::length;
  return numbers.valueOf(bound, length, place);
}

Result<AskedQuestion> asked(const Dimension& dimension, FixedNumbers& numbers) {
  const Question& question = *dimension.question;
  AskedQuestion own{dimension.name,
                    question.ask,
                    kindOf(dimension),
                    dimension.value.text,
                    {},
                    {},
                    {},
                    question.why,
                    {}};
  const std::string place = "dimensions." + dimension.name;
  const auto value = boundOf(dimension.value, dimension, numbers, place + ".value");
  if (!value) return tl::unexpected(value.error());
  own.number = *value;
  for (const auto& [word, number] : question.options) {
    own.options.push_back(word);
    if (std::fabs(number - *value) <= kernel::kSnap) own.value = word;
  }
  if (question.least) {
    const auto least = boundOf(*question.least, dimension, numbers, place + ".least");
    if (!least) return tl::unexpected(least.error());
    own.least = *least;
  }
  if (question.greatest) {
    const auto greatest = boundOf(*question.greatest, dimension, numbers, place + ".greatest");
    if (!greatest) return tl::unexpected(greatest.error());
    own.greatest = *greatest;
  }
  return own;
}

std::string bare(const AskedQuestion& question, double value, Unit unit) {
  return question.kind == Kind::length ? lengthText(Length::mm(value), unit)
                                       : fmt::format("{:.6g}", value);
}

std::string words(const AskedQuestion& question, double value, Unit unit) {
  if (question.kind != Kind::length) return fmt::format("{:.6g}", value);
  return lengthText(Length::mm(value), unit) + " " + std::string(nameOf(unit));
}

tl::unexpected<Error> outOfBounds(const AskedQuestion& question, Unit unit) {
  const std::string given = words(question, *question.number, unit);
  const bool low = question.least && *question.number < *question.least;
  const std::string bounds =
      question.least && question.greatest
          ? fmt::format("from {} to {}", bare(question, *question.least, unit),
                        words(question, *question.greatest, unit))
      : question.least ? fmt::format("{} or more", words(question, *question.least, unit))
                       : fmt::format("{} or less", words(question, *question.greatest, unit));
  return fail(ErrorCode::badDimension,
              fmt::format("{} is too {}: it goes {}", given, low ? "little" : "much", bounds),
              question.name, question.why);
}

/// The text that a model holds for an answer.
Result<std::string> textOf(const AskedQuestion& question, const std::string& answer, Unit unit,
                           Unit modelUnit) {
  const std::string text = trimmed(answer);
  if (question.kind == Kind::choice) {
    const auto same = [&](const std::string& word) { return sameWood(word, text); };
    const auto word = std::ranges::find_if(question.options, same);
    if (word != question.options.end()) return *word;
    return fail(ErrorCode::badDimension, inQuotes(text) + " is not offered", question.name,
                fmt::format("choose from {}", fmt::join(question.options, ", ")));
  }
  const bool length = question.kind == Kind::length;
  const Expression expression{text, false};
  const auto noNames = [](const std::string&) { return std::optional<double>(); };
  const auto value = length ? evaluateLength(expression, unit, noNames)
                            : evaluateNumber(expression, modelUnit, noNames);
  if (!value) {
    return fail(ErrorCode::badDimension, inQuotes(text) + " is not a number", question.name,
                length ? "write it as 900, or \"35 1/2 in\"" : "write a plain number");
  }
  if (question.kind == Kind::count && std::fabs(*value - std::round(*value)) > kernel::kSnap) {
    return fail(ErrorCode::badDimension, inQuotes(text) + " is not a whole number", question.name,
                "write how many");
  }
  const bool plain = text.find_first_not_of("0123456789.") == std::string::npos;
  return length && plain && unit != modelUnit ? text + " " + std::string(nameOf(unit)) : text;
}

}  // namespace

std::string_view nameOf(AskedQuestion::Kind kind) {
  constexpr std::array<std::string_view, 5> kNames{"length", "angle", "number", "count", "choice"};
  return kNames[static_cast<std::size_t>(kind)];
}

Result<std::vector<AskedQuestion>> questionsOf(const ModelFile& file) {
  const Model& model = file.model();
  auto document = parseJson(file.text());
  if (!document) return tl::unexpected(document.error());
  if (auto done = resolveChoices(*document); !done) return tl::unexpected(done.error());
  FixedNumbers numbers(*document);
  std::vector<AskedQuestion> all;
  for (const Dimension& dimension : model.dimensions) {
    if (!dimension.question) continue;
    auto own = asked(dimension, numbers);
    if (!own) return tl::unexpected(own.error());
    all.push_back(std::move(*own));
  }
  for (const WordChoice& choice : model.choices) {
    if (choice.ask.empty()) continue;
    all.push_back(
        {choice.name, choice.ask, Kind::choice, choice.value, {}, {}, {}, {}, choice.options});
  }
  return all;
}

Result<ModelFile> answered(const ModelFile& file, const Answers& answers, Unit unit) {
  const auto before = questionsOf(file);
  if (!before) return tl::unexpected(before.error());
  Answers texts;
  for (const auto& [name, answer] : answers) {
    const auto question = std::ranges::find(*before, name, &AskedQuestion::name);
    if (question == before->end()) {
      std::vector<std::string> known;
      for (const AskedQuestion& own : *before) known.push_back(own.name);
      const std::string nearest = nearestName(name, known);
      return fail(ErrorCode::unknownName, inQuotes(name) + " is not asked for", name,
                  nearest.empty() ? fmt::format("there are {}", fmt::join(known, ", "))
                                  : "did you mean " + inQuotes(nearest) + "?");
    }
    const auto text = textOf(*question, answer, unit, file.model().unit);
    if (!text) return tl::unexpected(text.error());
    texts.emplace_back(name, *text);
  }
  ModelFile changed = file;
  if (auto set = changed.setAnswers(texts); !set) return tl::unexpected(set.error());
  const auto after = questionsOf(changed);
  if (!after) return tl::unexpected(after.error());
  for (const AskedQuestion& question : *after) {
    if (!question.number || question.kind == Kind::choice) continue;
    const double slack = kernel::kSnap;
    const bool low = question.least && *question.number < *question.least - slack;
    const bool high = question.greatest && *question.number > *question.greatest + slack;
    if (low || high) return outOfBounds(question, unit);
  }
  return changed;
}

}  // namespace dryfit::joinery
