#include "export/report/json_report.h"

#include <nlohmann/json.hpp>

#include "export/report/report_text.h"
#include "export/words/caution.h"
#include "export/words/json_head.h"
#include "joinery/making/marks.h"
#include "joinery/piece/true_lengths.h"
#include "joinery/stock/rough_sizes.h"

namespace dryfit::exporting {

using nlohmann::ordered_json;

namespace {

ordered_json tapersJson(const std::vector<TaperNote>& tapers) {
  ordered_json list = ordered_json::array();
  for (const TaperNote& taper : tapers) {
    list.push_back({{"size", taper.inWidth ? "width" : "thickness"},
                    {"by_mm", taper.by.mm()},
                    {"from_mm", taper.from.mm()},
                    {"to_mm", taper.to.mm()},
                    {"over_mm", taper.over.mm()},
                    {"place", taper.place},
                    {"narrow_end", taper.narrowEnd},
                    {"measured", taper.measured}});
  }
  return list;
}

ordered_json rowJson(const CutRow& row) {
  ordered_json json{{"number", row.number},
                    {"label", row.label},
                    {"parts", row.parts},
                    {"count", row.parts.size()},
                    {"length_mm", row.length.mm()},
                    {"width_mm", row.width.mm()},
                    {"thickness_mm", row.thickness.mm()},
                    {"shoulder_length_mm", row.shoulderLength.mm()},
                    {"shoulder_shortest_mm", row.shoulderShortest.mm()},
                    {"grain", row.grain}};
  if (row.mirrorOf > 0) json["mirror_of"] = row.mirrorOf;
  if (!row.tapers.empty()) json["tapers"] = tapersJson(row.tapers);
  return json;
}

ordered_json pointJson(const kernel::Point3& p) {
  return ordered_json::array({p.x, p.y, p.z});
}

/// Kind, severity and words alone, of findings of a state that is not shown whole.
ordered_json shortFindings(const std::vector<joinery::Finding>& findings) {
  ordered_json list = ordered_json::array();
  for (const joinery::Finding& f : findings) {
    list.push_back({{"kind", nameOf(f.kind)},
                    {"severity", nameOf(f.severity)},
                    {"text", f.text},
                    {"mend", f.mend}});
  }
  return list;
}

ordered_json safetyJson(const joinery::Piece& piece) {
  ordered_json lines = ordered_json::array();
  for (const Caution& one : cautionsFor(piece)) lines.push_back(one.text);
  return lines;
}

ordered_json findingJson(const joinery::Piece& piece, const joinery::Finding& finding) {
  ordered_json names = ordered_json::array();
  for (const joinery::PartId id : finding.parts) names.push_back(piece.part(id).name);
  ordered_json json{
      {"kind", nameOf(finding.kind)}, {"severity", nameOf(finding.severity)}, {"parts", names}};
  if (finding.joint) json["joint"] = piece.joint(*finding.joint).name;
  json["at_mm"] = pointJson(finding.at);
  json["box_mm"] = ordered_json::array({pointJson(finding.box.min), pointJson(finding.box.max)});
  json["measured"] = finding.measured;
  json["limit"] = finding.limit;
  json["unit"] = finding.unit;
  json["source"] = finding.source;
  json["text"] = finding.text;
  json["mend"] = finding.mend;
  return json;
}

}  // namespace

std::string partsJson(const joinery::DryFit& fit) {
  const joinery::Piece& piece = fit.piece;
  ordered_json json = headJson("parts", piece.model.name, piece.basis);
  ordered_json parts = ordered_json::array();
  const auto rough = joinery::roughSizes(piece);
  for (const CutRow& row : numberedRows(piece)) {
    ordered_json one = rowJson(row);
    one["material"] = piece.part(row.first).material;
    one["volume_mm3"] = fit.solids[row.first.index()].volume();
    if (rough) {
      const auto size = joinery::roughPart(*rough, piece, row.first);
      one["rough_pieces"] = size.pieces;
      one["rough_mm"] = {size.length, size.width, size.thickness};
    }
    parts.push_back(std::move(one));
  }
  json["parts"] = std::move(parts);
  return dumped(json);
}

std::string findingsJson(const joinery::DryFit& fit) {
  ordered_json json = headJson("findings", fit.piece.model.name, fit.piece.basis);
  ordered_json findings = ordered_json::array();
  for (const auto& finding : fit.findings) findings.push_back(findingJson(fit.piece, finding));
  json["findings"] = std::move(findings);
  json["safety"] = safetyJson(fit.piece);
  return dumped(json);
}

std::string cutListJson(const CutList& list) {
  ordered_json json = headJson("cut list", list.piece, list.basis);
  ordered_json sections = ordered_json::array();
  for (const CutSection& section : list.sections) {
    ordered_json rows = ordered_json::array();
    for (const CutRow& row : section.rows) rows.push_back(rowJson(row));
    sections.push_back(
        {{"material", section.material}, {"species", section.species}, {"rows", std::move(rows)}});
  }
  json["materials"] = std::move(sections);
  json["safety"] = list.safety;
  return dumped(json);
}

std::string changesJson(const joinery::ChangeReport& report, const joinery::Piece& after,
                        const std::vector<joinery::Finding>& fresh, bool saved) {
  ordered_json json = headJson("changes", after.model.name, after.basis);
  json["saved"] = saved;
  ordered_json sizes = ordered_json::array();
  for (const auto& change : report.sizes) {
    sizes.push_back({{"part", after.part(change.part).name},
                     {"size", change.size},
                     {"before_mm", change.before.mm()},
                     {"after_mm", change.after.mm()}});
  }
  ordered_json joints = ordered_json::array();
  for (const auto& change : report.joints) {
    joints.push_back({{"joint", after.joint(change.joint).name},
                      {"value", change.value},
                      {"before_mm", change.before.mm()},
                      {"after_mm", change.after.mm()}});
  }
  json["sizes"] = std::move(sizes);
  json["joints"] = std::move(joints);
  json["new_findings"] = shortFindings(fresh);
  return dumped(json);
}

std::string bothSizesJson(const joinery::Piece& drawn, const joinery::Piece& measured) {
  ordered_json json = headJson("sizes", measured.model.name, measured.basis);
  ordered_json parts = ordered_json::array();
  const auto sizes = [](const joinery::PlacedPart& part) {
    const kernel::Vec3 overall = part.overall().size();
    return ordered_json{{"length_mm", overall.x},
                        {"width_mm", overall.y},
                        {"thickness_mm", overall.z},
                        {"shoulder_length_mm", joinery::shoulderLines(part).longest()}};
  };
  for (const joinery::PlacedPart& part : measured.parts) {
    const std::string& name = measured.part(part.id).name;
    ordered_json one{
        {"part", name}, {"drawn", sizes(drawn.parts[part.id.index()])}, {"measured", sizes(part)}};
    if (const joinery::Mark* mark = joinery::markOf(measured.model, name)) {
      one["mark"] = nameOf(mark->state);
    }
    if (const auto percent = joinery::moistureOf(measured.model, part.id)) {
      one["moisture_percent"] = *percent;
    }
    if (!part.tapers.empty()) one["tapers"] = tapersJson(taperNotes(part));
    parts.push_back(std::move(one));
  }
  json["parts"] = std::move(parts);
  return dumped(json);
}

std::string marksJson(const joinery::Model& model, const std::vector<joinery::Finding>& fresh,
                      bool saved) {
  ordered_json json = headJson("marks", model.name, joinery::Basis::measured);
  json["saved"] = saved;
  ordered_json marks = ordered_json::array();
  for (const joinery::Mark& mark : model.marks) {
    ordered_json one{{"part", mark.part},
                     {"state", nameOf(mark.state)},
                     {"fixed", joinery::fixedBy(mark.state)}};
    if (mark.state != joinery::MarkState::rough) {
      one["length_mm"] = mark.overall.x;
      one["width_mm"] = mark.overall.y;
      one["thickness_mm"] = mark.overall.z;
    }
    marks.push_back(std::move(one));
  }
  json["marks"] = std::move(marks);
  json["new_findings"] = shortFindings(fresh);
  return dumped(json);
}

std::string absorptionsJson(const joinery::Absorptions& all, const joinery::Model& model,
                            joinery::Basis basis, const joinery::Absorption* chosen, bool saved) {
  ordered_json json = headJson("absorb", model.name, basis);
  json["saved"] = chosen != nullptr && saved;
  if (chosen != nullptr) json["chosen"] = chosen->what.name;
  const auto listed = [](const std::vector<joinery::Absorption>& choices) {
    ordered_json list = ordered_json::array();
    for (const joinery::Absorption& one : choices) {
      list.push_back({{"number", one.what.name},
                      {"before_mm", one.before},
                      {"after_mm", one.after},
                      {"parts_changed", one.partsChanged},
                      {"new_findings", shortFindings(one.resultingFindings)}});
    }
    return list;
  };
  json["changes"] = listed(all.sound);
  json["changes_with_errors"] = listed(all.unsound);
  return dumped(json);
}

std::string readingsJson(const joinery::Piece& piece, const std::string& frame,
                         const joinery::FrameShape& shape, const std::vector<std::string>& advice) {
  ordered_json json = headJson("readings", piece.model.name, piece.basis);
  json["frame"] = frame;
  json["rack_mm"] = shape.rack;
  json["rack_degrees"] = shape.rackAngle;
  json["more_at_top_mm"] = shape.moreAtTop();
  json["more_at_left_mm"] = shape.moreAtLeft();
  json["corners_degrees"] = {{"top_left", shape.angle[0]},
                             {"top_right", shape.angle[1]},
                             {"bottom_right", shape.angle[2]},
                             {"bottom_left", shape.angle[3]}};
  json["disagreement_mm"] = shape.disagreement;
  json["readings_agree"] = shape.readingsAgree;
  json["advice"] = advice;
  json["safety"] = ordered_json::array({caution(Hazard::clamps).text});
  return dumped(json);
}

std::string filesJson(const std::vector<std::filesystem::path>& files) {
  ordered_json names = ordered_json::array();
  for (const auto& file : files) names.push_back(file.string());
  return dumped({{"report", "files"}, {"version", 1}, {"files", std::move(names)}});
}

}  // namespace dryfit::exporting
