#include "export/report/report_text.h"

#include "joinery/base/unit.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "export/words/caution.h"
#include "export/words/text_table.h"
#include "joinery/fit/dry_fit.h"
#include "joinery/formula/length_text.h"
#include "joinery/making/marks.h"
#include "joinery/trade/rules.h"

namespace dryfit::exporting {

using joinery::Finding;
using joinery::Piece;
using joinery::Severity;
using joinery::Unit;

namespace {

std::size_t countOf(const std::vector<Finding>& findings, Severity severity) {
  return static_cast<std::size_t>(
      std::count_if(findings.begin(), findings.end(),
                    [severity](const Finding& f) { return f.severity == severity; }));
}

/// A measure of a finding with its unit; lengths in the reader's unit.
std::string measureText(double value, const std::string& findingUnit, Unit unit) {
  if (findingUnit == "mm") {
    return fmt::format("{} {}", joinery::fineLengthText(Length::mm(value), unit),
                       joinery::nameOf(unit));
  }
  const std::string number = std::fabs(value) >= 100 && std::fabs(value) < 1e15
                                 ? fmt::format("{:.0f}", value)
                                 : fmt::format("{:.4g}", value);
  return findingUnit.empty() ? number : number + " " + findingUnit;
}

std::string findingText(const Piece& piece, const Finding& finding, Unit unit) {
  std::vector<std::string> names;
  for (const joinery::PartId id : finding.parts) names.push_back(piece.label(id));
  std::string text =
      fmt::format("{} {}: {}", joinery::nameOf(finding.severity), joinery::nameOf(finding.kind),
                  names.empty() ? piece.model.name : fmt::format("{}", fmt::join(names, ", ")));
  if (finding.joint) text += fmt::format(" (joint {})", piece.joint(*finding.joint).name);
  text += fmt::format("\n  {}\n", finding.text);
  const auto coordinate = [unit](double mm) { return joinery::lengthText(Length::mm(mm), unit); };
  const bool counts = finding.measured != 0 || finding.limit != 0;
  text += fmt::format("  at x {}, y {}, z {} {}{}{}\n", coordinate(finding.at.x),
                      coordinate(finding.at.y), coordinate(finding.at.z), joinery::nameOf(unit),
                      counts ? fmt::format("; found {}, limit {}",
                                           measureText(finding.measured, finding.unit, unit),
                                           measureText(finding.limit, finding.unit, unit))
                             : "",
                      finding.source.empty() ? "" : " (" + finding.source + ")");
  if (!finding.mend.empty()) text += fmt::format("  to fix: {}\n", finding.mend);
  return text;
}

/// The first few names; tables must fit on a screen.
std::string someOf(const std::vector<std::string>& names) {
  constexpr std::size_t kNamed = 3;
  if (names.empty()) return "none";
  const std::size_t named = names.size() > kNamed + 1 ? kNamed : names.size();
  const auto last = names.begin() + static_cast<std::ptrdiff_t>(named);
  std::string text = fmt::format("{}", fmt::join(names.begin(), last, ", "));
  if (names.size() > named) text += fmt::format(" and {} more", names.size() - named);
  return text;
}

std::string absorptionTable(const std::vector<joinery::Absorption>& all, Unit unit) {
  using Side = TextTable::Side;
  TextTable table({{"Number"},
                   {"Now", Side::right},
                   {"Then", Side::right},
                   {"Other parts that change"},
                   {"New findings"}});
  for (const joinery::Absorption& one : all) {
    table.add({one.what.name, joinery::typedLengthText(Length::mm(one.before), unit),
               joinery::typedLengthText(Length::mm(one.after), unit), someOf(one.partsChanged),
               one.resultingFindings.empty()
                   ? "none"
                   : counted(countOf(one.resultingFindings, Severity::warning), "warning") + ", " +
                         counted(countOf(one.resultingFindings, Severity::note), "note")});
  }
  std::string text = table.text();
  for (const joinery::Absorption& one : all) {
    for (const Finding& f : one.resultingFindings) {
      text += fmt::format("\n{}: {}", one.what.name, f.text);
    }
  }
  return text + (text.back() == '\n' ? "" : "\n");
}

}  // namespace

std::string findingsText(const joinery::DryFit& fit, Unit unit) {
  const auto& findings = fit.findings;
  std::string text =
      fmt::format("{}, {}, {}\n", counted(countOf(findings, Severity::error), "error"),
                  counted(countOf(findings, Severity::warning), "warning"),
                  counted(countOf(findings, Severity::note), "note"));
  for (const Finding& finding : findings) text += "\n" + findingText(fit.piece, finding, unit);
  return text;
}

std::string checkReport(const joinery::DryFit& fit, Unit unit) {
  const Piece& piece = fit.piece;
  return headText("Dry fit", piece.model.name, piece.basis, unit) + findingsText(fit, unit) + "\n" +
         safetyText(piece);
}

std::string cutListReport(const CutList& list, Unit unit) {
  std::string text = headText("Cut list", list.piece, list.basis, unit);
  text += "Finished sizes, tenons and tongues included\n\n" + cutListText(list, unit);
  text += "\nSafety:\n";
  for (const std::string& line : list.safety) text += "  " + line + "\n";
  return text;
}

std::string changesText(const joinery::ChangeReport& report, const Piece& after, Unit unit) {
  if (report.sizes.empty() && report.joints.empty()) return "No size changes.\n";
  const auto size = [unit](Length length) { return joinery::lengthText(length, unit); };
  using Side = TextTable::Side;
  const auto columns = [](const char* first) {
    return std::vector<TextTable::Column>{
        {first}, {"Size"}, {"Before", Side::right}, {"After", Side::right}};
  };
  TextTable parts(columns("Part"));
  for (const auto& change : report.sizes) {
    parts.add({after.label(change.part), change.size, size(change.before), size(change.after)});
  }
  TextTable joints(columns("Joint"));
  for (const auto& change : report.joints) {
    joints.add(
        {after.joint(change.joint).name, change.value, size(change.before), size(change.after)});
  }
  std::string text = parts.empty() ? "" : parts.text();
  if (!joints.empty()) text += (text.empty() ? "" : "\n") + joints.text();
  return text;
}

std::string bothSizesText(const Piece& drawn, const Piece& measured, Unit unit) {
  using Side = TextTable::Side;
  TextTable table({{"Part"},
                   {"Length drawn", Side::right},
                   {"measured", Side::right},
                   {"Width drawn", Side::right},
                   {"measured", Side::right},
                   {"Thickness drawn", Side::right},
                   {"measured", Side::right},
                   {"Mark"},
                   {"Moisture", Side::right},
                   {"Taper"}});
  const auto size = [unit](double mm) { return joinery::lengthText(Length::mm(mm), unit); };
  for (const joinery::PlacedPart& part : measured.parts) {
    const kernel::Vec3 before = drawn.parts[part.id.index()].overall().size();
    const kernel::Vec3 after = part.overall().size();
    const joinery::Mark* mark = joinery::markOf(measured.model, measured.part(part.id).name);
    const auto moisture = joinery::moistureOf(measured.model, part.id);
    std::string tapers;
    for (const TaperNote& taper : taperNotes(part)) {
      tapers += (tapers.empty() ? "" : "; ") + taperText(taper, unit);
      if (taper.measured) tapers += " (measured)";
    }
    table.add({measured.label(part.id), size(before.x), size(after.x), size(before.y),
               size(after.y), size(before.z), size(after.z),
               mark == nullptr ? "" : std::string(nameOf(mark->state)),
               moisture ? fmt::format("{:g} %", *moisture) : "", tapers});
  }
  return table.text();
}

std::string marksText(const joinery::Model& model, Unit unit) {
  if (model.marks.empty()) return "No part is marked.\n";
  using Side = TextTable::Side;
  TextTable table({{"Part"},
                   {"State"},
                   {"Length", Side::right},
                   {"Width", Side::right},
                   {"Thickness", Side::right},
                   {"Fixed"}});
  for (const joinery::Mark& mark : model.marks) {
    const auto part = std::ranges::find(model.parts, mark.part, &joinery::Part::name);
    const auto size = [&](int axis) {
      return mark.state == joinery::MarkState::rough
                 ? std::string("-")
                 : joinery::lengthText(Length::mm(mark.overall[axis]), unit);
    };
    std::string label = part == model.parts.end() || part->label.empty() ? mark.part : part->label;
    if (label == mark.part) std::replace(label.begin(), label.end(), '_', ' ');
    table.add({label, std::string(nameOf(mark.state)), size(0), size(1), size(2),
               std::string(joinery::fixedBy(mark.state))});
  }
  return table.text();
}

std::string absorptionsText(const joinery::Absorptions& all, const joinery::Absorption* chosen,
                            Unit unit) {
  std::string text;
  std::vector<joinery::Absorption> shown = all.sound;
  if (chosen != nullptr) shown = {*chosen};
  if (shown.empty()) {
    text = !all.unsound.empty() ? "No single number puts it right without a new error.\n"
           : all.needed         ? "No single number would put it right.\n"
                                : "Every part already made still fits.\n";
  } else {
    text = absorptionTable(shown, unit);
  }
  if (chosen != nullptr || all.unsound.empty()) return text;
  text += "\nThese would bring the parts already made together, but make an error:\n";
  for (const joinery::Absorption& one : all.unsound) {
    text +=
        fmt::format("  {} {} instead of {} {}\n", one.what.name,
                    joinery::typedLengthText(Length::mm(one.after), unit),
                    joinery::typedLengthText(Length::mm(one.before), unit), joinery::nameOf(unit));
    for (const Finding& f : one.resultingFindings) {
      if (f.severity == Severity::error) text += "    " + f.text + "\n";
    }
  }
  return text;
}

std::string newFindingsText(const Piece& piece, const std::vector<Finding>& fresh, Unit unit) {
  if (fresh.empty()) return {};
  std::string text = fmt::format("This makes {}, {}, {} that were not there before:\n",
                                 counted(countOf(fresh, Severity::error), "error"),
                                 counted(countOf(fresh, Severity::warning), "warning"),
                                 counted(countOf(fresh, Severity::note), "note"));
  for (const Finding& finding : fresh) text += "\n" + findingText(piece, finding, unit);
  return text;
}

std::string readingsText(const std::string& frame, const joinery::FrameLook& look,
                         const joinery::FrameShape& shape, const std::vector<std::string>& advice,
                         Unit unit) {
  const auto size = [unit](double mm) { return joinery::lengthText(Length::mm(mm), unit); };
  std::string text = fmt::format(
      "{}, designed {} wide and {} high\n"
      "  corners: top left {:.2f}°, top right {:.2f}°, bottom right {:.2f}°, bottom left {:.2f}°\n"
      "  the readings agree to within {} {}; a tape is read to {}\n\n",
      frame, size(look.width), size(look.height), shape.angle[0], shape.angle[1], shape.angle[2],
      shape.angle[3], joinery::fineLengthText(Length::mm(shape.disagreement), unit),
      joinery::nameOf(unit),
      joinery::fineLengthText(Length::mm(joinery::lengthBy(joinery::RuleId::tapeStep).mm()), unit));
  bool pulls = false;
  for (const std::string& line : advice) {
    text += line + "\n";
    pulls = pulls || line.find("clamp") != std::string::npos;
  }
  if (pulls) text += "\nSafety:\n  " + std::string(caution(Hazard::clamps).text) + "\n";
  return text;
}

}  // namespace dryfit::exporting
