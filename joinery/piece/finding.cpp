#include "joinery/piece/finding.h"

namespace dryfit::joinery {

std::string_view nameOf(FindingKind kind) {
  switch (kind) {
    case FindingKind::interference:
      return "interference";
    case FindingKind::clash:
      return "clash";
    case FindingKind::breakout:
      return "breakout";
    case FindingKind::gap:
      return "gap";
    case FindingKind::loose:
      return "loose";
    case FindingKind::tight:
      return "tight";
    case FindingKind::shortGrain:
      return "short-grain";
    case FindingKind::crossGrain:
      return "cross-grain";
    case FindingKind::weak:
      return "weak";
    case FindingKind::locked:
      return "locked";
    case FindingKind::envelope:
      return "envelope";
    case FindingKind::notCut:
      return "not-cut";
    case FindingKind::unsupported:
      return "unsupported";
    case FindingKind::unsuited:
      return "unsuited";
    case FindingKind::binds:
      return "binds";
  }
  return "";
}

std::string_view nameOf(Severity severity) {
  switch (severity) {
    case Severity::error:
      return "error";
    case Severity::warning:
      return "warning";
    case Severity::note:
      return "note";
  }
  return "";
}

}  // namespace dryfit::joinery
