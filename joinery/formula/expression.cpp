#include "joinery/formula/expression.h"

#include <algorithm>

#include "joinery/base/plain_text.h"
#include "joinery/formula/expression_cache.h"

namespace dryfit::joinery {
namespace {

/// Letters to change, add, leave out or swap with their neighbour, so that one word becomes the
/// other (optimal string alignment distance).
std::size_t editDistance(const std::string& a, const std::string& b) {
  std::vector<std::size_t> beforeLast(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
  for (std::size_t j = 0; j <= b.size(); ++j) row[j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    beforeLast.swap(last);
    last.swap(row);
    row[0] = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replaced = last[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
      row[j] = std::min({replaced, last[j] + 1, row[j - 1] + 1});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) row[j] = std::min(row[j], beforeLast[j - 2] + 1);
    }
  }
  return row[b.size()];
}

}  // namespace

Result<std::set<std::string>> namesIn(const Expression& expression) {
  return ExpressionCache().namesIn(expression);
}

Result<double> evaluateLength(const Expression& expression, Unit unit, const NameLookup& lookup) {
  return ExpressionCache().evaluateLength(expression, unit, lookup);
}

Result<double> evaluateNumber(const Expression& expression, Unit unit, const NameLookup& lookup) {
  return ExpressionCache().evaluateNumber(expression, unit, lookup);
}

std::string nearestName(const std::string& name, const std::vector<std::string>& candidates) {
  std::string nearest;
  std::size_t least = std::max<std::size_t>(1, (name.size() + 1) / 3) + 1;
  for (const std::string& candidate : candidates) {
    const std::size_t shorter = std::min(name.size(), candidate.size());
    if (std::max(name.size(), candidate.size()) - shorter >= least) continue;
    const std::size_t distance = editDistance(name, candidate);
    // A word with nothing in common with the candidate is no misspelling of it.
    if (distance < least && distance < std::max(name.size(), candidate.size())) {
      least = distance;
      nearest = candidate;
    }
  }
  return nearest;
}

std::string nearestMend(const std::string& name, const std::vector<std::string>& candidates) {
  const std::string nearest = nearestName(name, candidates);
  if (!nearest.empty()) return "did you mean " + inQuotes(nearest) + "?";
  const auto steps = std::count(name.begin(), name.end(), '.');
  std::vector<std::string> endings;
  for (const std::string& candidate : candidates) {
    auto dots = std::count(candidate.begin(), candidate.end(), '.');
    std::size_t start = 0;
    for (; dots > steps; --dots) start = candidate.find('.', start) + 1;
    endings.push_back(candidate.substr(start));
  }
  const std::string ending = nearestName(name, endings);
  if (ending.empty()) return {};
  const auto at = std::find(endings.begin(), endings.end(), ending) - endings.begin();
  return "did you mean " + inQuotes(ending) + ", as in " +
         inQuotes(candidates[static_cast<std::size_t>(at)]) + "?";
}

}  // namespace dryfit::joinery
