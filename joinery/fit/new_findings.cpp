#include "joinery/fit/new_findings.h"

#include <set>
#include <string>
#include <tuple>
#include <utility>

namespace dryfit::joinery {
namespace {

/// What makes two findings the same one in two states of a design.
auto identityOf(const Piece& piece, const Finding& f) {
  std::vector<std::string> parts;
  for (const PartId id : f.parts) parts.push_back(piece.part(id).name);
  return std::tuple(f.kind, f.severity, std::move(parts),
                    f.joint ? piece.joint(*f.joint).name : std::string());
}

}  // namespace

std::vector<Finding> newFindings(const DryFit& before, const DryFit& after) {
  std::multiset<decltype(identityOf(before.piece, std::declval<const Finding&>()))> known;
  for (const Finding& f : before.findings) known.insert(identityOf(before.piece, f));
  std::vector<Finding> fresh;
  for (const Finding& f : after.findings) {
    if (const auto old = known.find(identityOf(after.piece, f)); old != known.end()) {
      known.erase(old);
    } else {
      fresh.push_back(f);
    }
  }
  return fresh;
}

}  // namespace dryfit::joinery
