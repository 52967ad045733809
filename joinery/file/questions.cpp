#include "joinery/file/questions.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <set>

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

/// Which questions a bound hangs on, by way of the dimensions that it reads.
class Hanging {
 public:
  explicit Hanging(const Model& model) : model_(model) {}

  std::vector<std::string> on(const Expression& bound) {
    found_.clear();
    seen_.clear();
    follow(bound);
    return found_;
  }

 private:
  void follow(const Expression& expression) {
    const auto names = namesIn(expression);
    if (!names) return;
    for (const std::string& name : *names) {
      const auto dimension = std::ranges::find(model_.dimensions, name, &Dimension::name);
      if (dimension == model_.dimensions.end() || !seen_.insert(name).second) continue;
      const bool isAsked = dimension->question && !dimension->question->ask.empty();
      if (isAsked) {
        found_.push_back(name);
      } else {
        follow(dimension->value);
      }
    }
  }

  const Model& model_;
  std::vector<std::string> found_;
  std::set<std::string> seen_;
};

Result<AskedQuestion> asked(const Dimension& dimension, FixedNumbers& numbers, Hanging& hanging) {
  const Question& question = *dimension.question;
  AskedQuestion own;
  own.name = dimension.name;
  own.ask = question.ask;
  own.kind = kindOf(dimension);
  own.value = dimension.value.text;
  own.whyLeast = question.whyLeast;
  own.whyGreatest = question.whyGreatest;
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
    own.leastHangsOn = hanging.on(*question.least);
  }
  if (question.greatest) {
    const auto greatest = boundOf(*question.greatest, dimension, numbers, place + ".greatest");
    if (!greatest) return tl::unexpected(greatest.error());
    own.greatest = *greatest;
    own.greatestHangsOn = hanging.on(*question.greatest);
  }
  return own;
}

std::string bare(const AskedQuestion& question, double value, Unit unit) {
  return question.kind == Kind::length ? lengthText(Length::mm(value), unit)
                                       : fmt::format("{:.10g}", value);
}

std::string words(const AskedQuestion& question, double value, Unit unit) {
  if (question.kind != Kind::length) return bare(question, value, unit);
  return bare(question, value, unit) + " " + std::string(nameOf(unit));
}

std::string toldIn(const std::string& why, Unit unit) {
  return lengthsTold(why, unit).value_or(why);
}

bool isBelow(const AskedQuestion& question) {
  return question.least && *question.number < *question.least - kernel::kSnap;
}
bool isAbove(const AskedQuestion& question) {
  return question.greatest && *question.number > *question.greatest + kernel::kSnap;
}

/// "as long as height is 880 mm and drawers is 4"; empty where nothing narrows the bound.
std::string hangingWords(const std::vector<std::string>& names,
                         const std::vector<AskedQuestion>& all, Unit unit) {
  std::string text;
  for (const std::string& name : names) {
    const auto other = std::ranges::find(all, name, &AskedQuestion::name);
    if (other == all.end()) continue;
    text += text.empty() ? " as long as " : " and ";
    text += fmt::format(
        "{} is {}", name,
        other->kind == Kind::choice ? inQuotes(other->value) : words(*other, *other->number, unit));
  }
  return text;
}

std::string outOfBoundsWords(const AskedQuestion& question, const std::vector<AskedQuestion>& all,
                             Unit unit) {
  const bool low = isBelow(question);
  // Rounded so that what is told is within the bounds.
  const auto told = [&](double bound, Length (*rounded)(Length, Unit)) {
    return question.kind == Kind::length ? rounded(Length::mm(bound), unit).mm() : bound;
  };
  const double least = question.least ? told(*question.least, toldAtLeast) : 0;
  const double greatest = question.greatest ? told(*question.greatest, toldAtMost) : 0;
  const std::string bounds = question.least && question.greatest
                                 ? fmt::format("from {} to {}", bare(question, least, unit),
                                               words(question, greatest, unit))
                             : question.least
                                 ? fmt::format("{} or more", words(question, least, unit))
                                 : fmt::format("{} or less", words(question, greatest, unit));
  return fmt::format(
      "{} is too {}: it goes {}{}", words(question, *question.number, unit),
      low ? "little" : "much", bounds,
      hangingWords(low ? question.leastHangsOn : question.greatestHangsOn, all, unit));
}

/// All answers that are out of their bounds, told in one line; the first one's place and reason.
std::optional<Error> outOfBounds(const std::vector<AskedQuestion>& all, Unit unit) {
  std::optional<Error> error;
  for (const AskedQuestion& question : all) {
    if (!question.number || question.kind == Kind::choice) continue;
    if (!isBelow(question) && !isAbove(question)) continue;
    const std::string what = outOfBoundsWords(question, all, unit);
    if (error) {
      error->what += "; " + question.name + ": " + what;
      continue;
    }
    error = Error{ErrorCode::badDimension, what, question.name,
                  toldIn(isBelow(question) ? question.whyLeast : question.whyGreatest, unit)};
  }
  return error;
}

bool hasLetters(const std::string& text) {
  return std::ranges::any_of(text, [](unsigned char c) { return std::isalpha(c) != 0; });
}

/// A length that was typed in `unit`, as a file in another unit holds it.
std::string lengthAnswer(const std::string& text, double mm, Unit unit, Unit modelUnit) {
  if (unit == modelUnit) return text;
  const bool plain = text.find_first_not_of("0123456789./ ") == std::string::npos;
  if (plain) return text + " " + std::string(nameOf(unit));
  if (!hasLetters(text)) return "(" + text + ") " + std::string(nameOf(unit));
  // Some of its numbers have a unit and some may not: only the value means the same in the file.
  return fmt::format("{:.10g}", mm / millimetresIn(modelUnit));
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
  return length ? lengthAnswer(text, *value, unit, modelUnit) : text;
}

}  // namespace

std::string_view nameOf(AskedQuestion::Kind kind) {
  constexpr std::array<std::string_view, 5> kNames{"length", "angle", "number", "count", "choice"};
  return kNames[static_cast<std::size_t>(kind)];
}

std::string reasonWords(const AskedQuestion& question, Unit unit) {
  const std::string least = toldIn(question.whyLeast, unit);
  std::string greatest = toldIn(question.whyGreatest, unit);
  if (least.empty() || least == greatest) return greatest;
  return greatest.empty() ? least : least + "; " + greatest;
}

Result<std::vector<AskedQuestion>> questionsOf(const ModelFile& file) {
  const Model& model = file.model();
  auto document = parseJson(file.text());
  if (!document) return tl::unexpected(document.error());
  if (auto done = resolveChoices(*document); !done) return tl::unexpected(done.error());
  FixedNumbers numbers(*document);
  Hanging hanging(model);
  std::vector<AskedQuestion> all;
  for (const Dimension& dimension : model.dimensions) {
    if (!dimension.question) continue;
    auto own = asked(dimension, numbers, hanging);
    if (!own) return tl::unexpected(own.error());
    if (!own->ask.empty()) all.push_back(std::move(*own));
  }
  for (const WordChoice& choice : model.choices) {
    if (choice.ask.empty()) continue;
    AskedQuestion own;
    own.name = choice.name;
    own.ask = choice.ask;
    own.kind = Kind::choice;
    own.value = choice.value;
    own.options = choice.options;
    all.push_back(std::move(own));
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
  if (auto error = outOfBounds(*after, unit)) return tl::unexpected(std::move(*error));
  return changed;
}

}  // namespace dryfit::joinery
