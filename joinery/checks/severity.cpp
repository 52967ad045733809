#include "joinery/checks/severity.h"

#include <array>
#include <string_view>

namespace dryfit::joinery::checking {
namespace {

struct Row {
  FindingKind kind;
  Severity usual;
  Severity special;
  std::string_view specialWhen;
};

// An error cannot be put together or will fail; a warning can be made but is poor work.
constexpr std::array kRows{
    Row{FindingKind::interference, Severity::error, Severity::error, ""},
    Row{FindingKind::clash, Severity::error, Severity::error, ""},
    Row{FindingKind::breakout, Severity::warning, Severity::error, "no wall is left"},
    Row{FindingKind::gap, Severity::error, Severity::error, ""},
    Row{FindingKind::loose, Severity::warning, Severity::error,
        "glued, and the play is beyond the rule hopelessPlayTimes"},
    Row{FindingKind::tight, Severity::warning, Severity::error, "the parts would overlap"},
    Row{FindingKind::shortGrain, Severity::warning, Severity::error, "a tenon across the grain"},
    Row{FindingKind::crossGrain, Severity::warning, Severity::warning, ""},
    Row{FindingKind::weak, Severity::warning, Severity::warning, ""},
    Row{FindingKind::locked, Severity::error, Severity::warning,
        "the part can still be worked to size"},
    Row{FindingKind::envelope, Severity::error, Severity::note, "approved by the client"},
    Row{FindingKind::notCut, Severity::error, Severity::error, ""},
    Row{FindingKind::unsupported, Severity::error, Severity::error, ""},
    Row{FindingKind::binds, Severity::warning, Severity::error, "it strikes before it is open"},
    Row{FindingKind::unsuited, Severity::warning, Severity::error,
        "one of the findings that it stands for is an error"},
};

}  // namespace

Severity severityOf(FindingKind kind, Case c) {
  for (const Row& row : kRows) {
    if (row.kind == kind) return c == Case::special ? row.special : row.usual;
  }
  return Severity::warning;
}

}  // namespace dryfit::joinery::checking
