#include <fmt/format.h>

#include <algorithm>

#include "joinery/checks/all.h"
#include "joinery/checks/words.h"

namespace dryfit::joinery::checking {

Result<void> setAside(const CheckInput& input, std::vector<Finding>& findings) {
  const Model& model = input.piece.model;
  if (model.setAside.empty()) return {};
  std::vector<std::string> names = model.setAside;
  for (std::string& name : names) std::ranges::replace(name, '_', ' ');
  Finding f;
  f.kind = FindingKind::locked;
  // A slip of the pen or fewer copies than there were: either way nothing here is made wrong.
  f.severity = Severity::note;
  f.source = "the model";
  f.text =
      sentence(fmt::format("measured or marked, but not in the piece: {}", fmt::join(names, ", ")));
  f.mend = "Correct the name, or leave it until the piece has so many copies again.";
  findings.push_back(std::move(f));
  return {};
}

}  // namespace dryfit::joinery::checking
