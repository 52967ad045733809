#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <map>
#include <optional>
#include <string>
#include <utility>

#include "joinery/checks/all.h"
#include "joinery/checks/severity.h"
#include "joinery/checks/trial.h"
#include "joinery/checks/words.h"

namespace dryfit::joinery::checking {
namespace {

/// True where every number of the joint is left to the rules, so that what is found of it tells of
/// its wood, not of what its author chose.
bool isByRule(const PlacedJoint& joint) {
  return std::ranges::none_of(joint.values, &JointValue::given);
}

std::string asClause(std::string text) {
  if (!text.empty() && text.back() == '.') text.pop_back();
  if (!text.empty())
    text.front() = static_cast<char>(std::tolower(static_cast<unsigned char>(text.front())));
  return text;
}

/// One finding in place of all that the joint's own numbers brought about.
Finding findingOf(const Piece& piece, const std::vector<Finding>& all, JointId id,
                  const Trials::StandIn& instead) {
  Finding f = all.front();
  const bool bad =
      std::ranges::any_of(all, [](const Finding& g) { return g.severity == Severity::error; });
  f.kind = FindingKind::unsuited;
  f.severity = severityOf(f.kind, bad ? Case::special : Case::usual);
  f.parts = piece.joints[id.index()].mates;
  f.changes.clear();
  const bool wide = f.unit == "mm" && f.measured > f.limit;
  f.text = sentence(fmt::format("the wood at {} is too {} for {}: {}", nameOf(piece, id),
                                wide ? "wide or thick" : "thin or narrow", piece.joint(id).kind,
                                asClause(all.front().text)));
  const std::string numbers = "give the joint numbers of its own";
  f.mend =
      sentence(instead.kind == nullptr
                   ? fmt::format("use stock of another size there, or {}", numbers)
                   : fmt::format("make it {}, which would do, or use stock of another size, or {}",
                                 nameOf(instead), numbers));
  return f;
}

}  // namespace

Result<void> unsuited(const CheckInput& input, std::vector<Finding>& findings) {
  const Piece& piece = input.piece;
  std::map<JointId, std::vector<Finding>> own;
  for (const Finding& finding : findings) {
    if (!finding.joint || !finding.ofOneJoint) continue;
    if (isByRule(piece.joints[finding.joint->index()])) own[*finding.joint].push_back(finding);
  }
  std::erase_if(
      own, [](const auto& entry) { return std::ranges::all_of(entry.second, Trials::isOfWidth); });
  if (own.empty()) return {};
  Trials trials(input);
  for (auto& [id, all] : own) {
    std::ranges::stable_sort(all, {}, Trials::isOfWidth);
    const auto record = jointRecord(piece, id);
    if (!record) continue;  // told where the piece is worked out
    const auto instead = trials.kindFor(*record);
    if (!instead) return tl::unexpected(instead.error());
    std::erase_if(findings,
                  [&, joint = id](const Finding& f) { return f.joint == joint && f.ofOneJoint; });
    findings.push_back(findingOf(piece, all, id, *instead));
  }
  return {};
}

}  // namespace dryfit::joinery::checking
