#include "joinery/making/fit_changes.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <functional>
#include <optional>
#include <utility>

#include "joinery/base/unit.h"
#include "joinery/formula/expression.h"
#include "joinery/joints/evaluate.h"
#include "joinery/joints/joint_kinds.h"
#include "joinery/making/marks.h"
#include "joinery/trade/rules.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

/// How far a number is moved to see what follows it, mm.
constexpr double kProbe = 0.5;
/// What moves less than this for one mm of change does not follow it.
constexpr double kFollows = 1e-3;
/// Numbers that follow others in steps need a second look, seldom a third.
constexpr int kTries = 4;
/// A change of more than this is another design, mm.
constexpr double kMost = 1000;

/// Rounded to 0.001 mm or finer, as the file takes it.
std::string textOf(double mm, Unit unit) {
  const int decimals = unit == Unit::mm ? 3 : unit == Unit::cm ? 4 : 5;
  std::string text = fmt::format("{:.{}f}", mm / millimetresIn(unit), decimals);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

std::optional<double> plainLength(const Expression& expression, Unit unit) {
  if (!expression.isNumber) return std::nullopt;
  const auto noNames = [](const std::string&) { return std::optional<double>(); };
  const auto value = evaluateLength(expression, unit, noNames);
  if (!value) return std::nullopt;
  return *value;
}

NumberChange changeTo(const FreeNumber& number, double after, Unit unit) {
  NumberChange change{number, number.value, after, textOf(after, unit)};
  change.after = std::strtod(change.text.c_str(), nullptr) * millimetresIn(unit);
  return change;
}

double largestOf(const std::vector<double>& numbers) {
  double largest = 0;
  for (const double n : numbers) largest = std::fmax(largest, std::fabs(n));
  return largest;
}

long jointsNotCut(const Piece& piece) {
  return std::ranges::count_if(piece.joints,
                               [](const PlacedJoint& joint) { return joint.notCut.has_value(); });
}

/// Looks for the value of one number at which no made part is out.
class Search {
 public:
  /// `goOn` is asked before the piece is worked out with another number; false stops the search.
  Search(const Piece& piece, NumberMemory& memory, std::function<bool()> goOn)
      : piece_(piece), memory_(memory), goOn_(std::move(goOn)), now_(misfits(piece)) {}

  [[nodiscard]] bool stopped() const { return stopped_; }
  [[nodiscard]] bool needed() const {
    return largestOf(now_) > lengthBy(RuleId::markTolerance).mm();
  }

  [[nodiscard]] std::optional<NumberChange> solve(const FreeNumber& number) {
    // The number that is farthest out decides how far to go; the others must agree.
    std::size_t pivot = 0;
    for (std::size_t i = 1; i < now_.size(); ++i) {
      if (std::fabs(now_[i]) > std::fabs(now_[pivot])) pivot = i;
    }
    double x0 = number.value, y0 = now_[pivot];
    double x1 = x0 + (x0 + kProbe > 0 ? kProbe : -kProbe);
    for (int i = 0; i < kTries; ++i) {
      const auto there = misfitsAt(number, x1);
      if (!there) return std::nullopt;
      if (largestOf(*there) <= lengthBy(RuleId::markTolerance).mm() / 10) break;
      const double y1 = (*there)[pivot];
      const double slope = (y1 - y0) / (x1 - x0);
      if (std::fabs(slope) < kFollows) return std::nullopt;
      x0 = x1;
      y0 = y1;
      x1 -= y1 / slope;
      if (!allowed(number, x1)) return std::nullopt;
      if (std::fabs(x1 - x0) < kernel::kSettled) break;
    }
    const NumberChange change = changeTo(number, x1, piece_.model.unit);
    const auto there = misfitsAt(number, change.after);
    if (!there || largestOf(*there) > lengthBy(RuleId::markTolerance).mm()) return std::nullopt;
    if (std::fabs(change.by()) < kernel::kLeastChange) return std::nullopt;
    return change;
  }

 private:
  /// A length keeps its sign, and a change stays a change of the same design.
  static bool allowed(const FreeNumber& number, double value) {
    if (!std::isfinite(value) || std::fabs(value - number.value) > kMost) return false;
    return number.value < 0 ? value <= 0 : value >= 0;
  }

  [[nodiscard]] std::optional<std::vector<double>> misfitsAt(const FreeNumber& number,
                                                             double value) {
    stopped_ = stopped_ || !goOn_();
    if (stopped_) return std::nullopt;
    NumberChange change{number, number.value, value,
                        fmt::format("{:.17g}", value / millimetresIn(piece_.model.unit))};
    const auto piece = evaluate(with(piece_.model, change), piece_.basis, memory_);
    if (!piece || jointsNotCut(*piece) > jointsNotCut(piece_)) return std::nullopt;
    auto found = misfits(*piece);
    if (found.size() != now_.size()) return std::nullopt;
    return found;
  }

  const Piece& piece_;
  NumberMemory& memory_;
  std::function<bool()> goOn_;
  std::vector<double> now_;
  bool stopped_ = false;
};

}  // namespace

std::vector<FreeNumber> freeNumbers(const Model& model) {
  std::vector<FreeNumber> numbers;
  // What is written once for several copies would change in all of them.
  const auto ofCopies = [&](const std::string& place) {
    return model.authoredPlace && model.authoredPlace(place) != place;
  };
  for (const Dimension& d : model.dimensions) {
    if (ofCopies("dimensions." + d.name)) continue;
    const auto value = plainLength(d.value, model.unit);
    if (value && d.quantity == Quantity::length) numbers.push_back({d.name, "", "", *value});
  }
  for (const Joint& joint : model.joints) {
    const JointKind* kind = jointKindNamed(joint.kind);
    if (kind == nullptr || ofCopies("joints." + joint.name)) continue;
    for (const auto& [name, expression] : joint.parameters) {
      const auto parameter = std::ranges::find(kind->parameters(), name, &Parameter::name);
      if (parameter == kind->parameters().end() || parameter->type != Parameter::Type::length) {
        continue;
      }
      const auto value = plainLength(expression, model.unit);
      if (value) numbers.push_back({joint.name + "." + name, joint.name, name, *value});
    }
  }
  return numbers;
}

Model with(const Model& model, const NumberChange& change) {
  Model changed = model;
  const Expression value{change.text, true};
  if (change.what.joint.empty()) {
    std::ranges::find(changed.dimensions, change.what.name, &Dimension::name)->value = value;
    return changed;
  }
  auto& parameters = std::ranges::find(changed.joints, change.what.joint, &Joint::name)->parameters;
  for (auto& [name, expression] : parameters) {
    if (name == change.what.parameter) expression = value;
  }
  return changed;
}

Result<std::vector<NumberChange>> changesThatFit(const Piece& piece, const Progress& progress) {
  const std::vector<FreeNumber> numbers = freeNumbers(piece.model);
  std::vector<NumberChange> changes;
  NumberMemory memory;
  int done = 0;
  Search search(piece, memory,
                [&] { return !progress || progress(done, static_cast<int>(numbers.size())); });
  if (!search.needed()) return changes;
  for (const FreeNumber& number : numbers) {
    if (auto change = search.solve(number)) changes.push_back(std::move(*change));
    if (search.stopped()) return fail(ErrorCode::cancelled, "stopped");
    ++done;
  }
  std::ranges::stable_sort(changes, {}, [](const NumberChange& c) {
    return std::round(std::fabs(c.by()) * 1000);  // equal ones stay in the model's order
  });
  return changes;
}

}  // namespace dryfit::joinery
