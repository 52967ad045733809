#include "kernel/src/bars_in_line.h"

#include <algorithm>
#include <cmath>
#include <optional>
#include <utility>

#include "kernel/square_work.h"
#include "kernel/src/convert.h"
#include "kernel/tolerance.h"

namespace dryfit::kernel {
namespace {

/// A round tool and where in its recipe it stands.
struct Bar {
  Cylinder tool;
  std::size_t step = 0, number = 0;
};

/// Whether the library would make a solid of it. Written so that a value that is not a number
/// fails.
bool isSound(const Cylinder& c) {
  const auto within = [](double size) { return size >= kContact && size <= kLargest; };
  return within(c.radius) && within(c.height) && isFinite(c.base) && isUnit(c.axis);
}

/// How far a point is from the middle line of a bar.
double offLine(const Cylinder& bar, Point3 p) {
  const Vec3 away = p - bar.base;
  return (away - bar.axis * away.dot(bar.axis)).norm();
}

/// The bar that two make together; nothing where they are not stretches of one.
std::optional<Cylinder> joined(const Cylinder& a, const Cylinder& b) {
  const Point3 ends[] = {b.base, b.base + b.axis * b.height};
  if (!(std::fabs(a.radius - b.radius) <= kSnap)) return {};
  if (!(offLine(a, ends[0]) <= kSnap && offLine(a, ends[1]) <= kSnap)) return {};
  const double p = (ends[0] - a.base).dot(a.axis);
  const double q = (ends[1] - a.base).dot(a.axis);
  const double low = std::fmin(p, q);
  const double high = std::fmax(p, q);
  if (low > a.height + kSnap || high < -kSnap) return {};
  Cylinder both = a;
  if (low < 0) both.base = a.base + a.axis * low;
  both.height = std::fmax(a.height, high) - std::fmin(0, low);
  if (both.height > kLargest) return {};
  return both;
}

/// Whether `late` may as well be done in the step of `early`.
bool mayMove(const Recipe& recipe, const Bar& late, const Bar& early) {
  const Step::Kind kind = recipe.steps[late.step].kind;
  if (recipe.steps[early.step].kind != kind) return false;
  const Box3 reach = boundsOf(late.tool).grown(kContact);
  for (std::size_t s = early.step + 1; s < late.step; ++s) {
    if (recipe.steps[s].kind == kind) continue;
    const auto& tools = recipe.steps[s].tools;
    const bool meets = std::any_of(tools.begin(), tools.end(), [&](const Tool& tool) {
      return !boundsOf(tool).common(reach).empty();
    });
    if (meets) return false;
  }
  return true;
}

/// The two as one bar in the place of the earlier; nothing where they have to stay apart.
std::optional<Bar> joined(const Recipe& recipe, const Bar& a, const Bar& b) {
  const bool inOrder = std::pair(a.step, a.number) < std::pair(b.step, b.number);
  const Bar& early = inOrder ? a : b;
  const Bar& late = inOrder ? b : a;
  const auto tool = joined(early.tool, late.tool);
  if (!tool || !mayMove(recipe, late, early)) return {};
  return Bar{*tool, early.step, early.number};
}

std::vector<Bar> joinedBars(const Recipe& recipe, const std::vector<Bar>& bars) {
  std::vector<Bar> all;
  for (Bar bar : bars) {
    // A bar that grew may reach one that it did not reach before.
    for (auto other = all.begin(); other != all.end();) {
      const auto both = joined(recipe, *other, bar);
      if (!both) {
        ++other;
        continue;
      }
      bar = *both;
      all.erase(other);
      other = all.begin();
    }
    all.push_back(bar);
  }
  return all;
}

/// The sound round tools of a recipe, in order.
std::vector<Bar> barsOf(const Recipe& recipe) {
  std::vector<Bar> bars;
  for (std::size_t s = 0; s < recipe.steps.size(); ++s) {
    for (std::size_t t = 0; t < recipe.steps[s].tools.size(); ++t) {
      const auto* bar = std::get_if<Cylinder>(&recipe.steps[s].tools[t]);
      if (bar != nullptr && isSound(*bar)) bars.push_back({*bar, s, t});
    }
  }
  return bars;
}

const Bar* barAt(const std::vector<Bar>& bars, std::size_t step, std::size_t number) {
  const auto found = std::find_if(bars.begin(), bars.end(), [&](const Bar& bar) {
    return bar.step == step && bar.number == number;
  });
  return found == bars.end() ? nullptr : &*found;
}

}  // namespace

JoinedRecipe withBarsJoined(const Recipe& recipe) {
  const std::vector<Bar> bars = barsOf(recipe);
  const std::vector<Bar> kept = joinedBars(recipe, bars);
  JoinedRecipe result{{recipe.blank, {}}, {}};
  for (std::size_t s = 0; s < recipe.steps.size(); ++s) {
    Step step{recipe.steps[s].kind, {}};
    std::vector<std::size_t> numbers;
    for (std::size_t t = 0; t < recipe.steps[s].tools.size(); ++t) {
      const Bar* bar = barAt(kept, s, t);
      const bool wentIntoAnother = bar == nullptr && barAt(bars, s, t) != nullptr;
      if (wentIntoAnother) continue;
      step.tools.push_back(bar == nullptr ? recipe.steps[s].tools[t] : Tool(bar->tool));
      numbers.push_back(t);
    }
    result.recipe.steps.push_back(std::move(step));
    result.numbers.push_back(std::move(numbers));
  }
  return result;
}

}  // namespace dryfit::kernel
