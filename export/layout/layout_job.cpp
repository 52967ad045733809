#include "export/layout/layout_job.h"

#include "export/drawing/stop_banner.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string_view>
#include <utility>

#include "export/drawing/feature_rows.h"
#include "joinery/formula/length_text.h"
#include "joinery/piece/part_list.h"

namespace dryfit::exporting {

using joinery::FlatRect;
using joinery::PlacedBlank;
using joinery::StockLayout;

namespace {

/// A part's name and what follows it: "lid_panel" and "strip 2 of 4".
std::pair<std::string, std::string> nameAndShare(const std::string& text) {
  const auto comma = text.find(", ");
  return comma == std::string::npos ? std::pair{text, std::string()}
                                    : std::pair{text.substr(0, comma), text.substr(comma + 2)};
}

std::string labelOf(const joinery::Piece& piece, const std::string& part) {
  const auto found = std::ranges::find(piece.model.parts, part, &joinery::Part::name);
  if (found == piece.model.parts.end()) return part;
  return sentenceCase(
      piece.label(joinery::PartId(static_cast<std::size_t>(found - piece.model.parts.begin()))));
}

/// What a blank is beside the part that it is named after: "strip 2 of 4" of "lid_panel, strip 2 of
/// 4"; "and Right panel" of "left_panel and right_panel", which are sawn from one board.
std::string shareOf(const joinery::Piece& piece, const std::string& blankName) {
  constexpr std::string_view kAnd = " and ";
  std::string text;
  std::string first;
  for (std::size_t at = 0; at <= blankName.size();) {
    const std::size_t end = std::min(blankName.find(kAnd, at), blankName.size());
    const auto [part, share] = nameAndShare(blankName.substr(at, end - at));
    if (at == 0) {
      first = part;
      text = share;
    } else {
      text += text.empty() ? "and " : " and ";
      if (part != first || share.empty()) text += labelOf(piece, part);
      if (part != first && !share.empty()) text += ", ";
      text += share;
    }
    at = end + kAnd.size();
  }
  return text;
}

BlankFacts factsOf(const joinery::Piece& piece, const joinery::PartGroup& group, joinery::PartId id,
                   const std::string& blankName) {
  const joinery::PlacedPart& part = piece.parts[id.index()];
  BlankFacts facts;
  facts.number = group.number;
  facts.label = sentenceCase(piece.label(id));
  facts.share = shareOf(piece, blankName);
  facts.finished = {group.length.mm(), group.width.mm(), group.thickness.mm()};
  facts.faceSide = nameOf(part.named(part.faceSide));
  facts.faceEdge = nameOf(part.named(part.faceEdge));
  if (part.faceSide.axis == 2 && part.faceEdge.axis == 1) {
    // Seen from the side of greater z, y runs upward; from the other side, downward.
    facts.faceEdgeAbove = part.faceEdge.far == part.faceSide.far;
  }
  return facts;
}

std::string rectText(const FlatRect& r) {
  return fmt::format("{:.2f} {:.2f} {:.2f} {:.2f}", r.x, r.y, r.length, r.width);
}

/// Equal for boards and sheets that are drawn alike.
std::string signatureOf(const LayoutJob& job, const StockLayout& one) {
  std::vector<std::string> lines;
  for (const PlacedBlank& placed : one.blanks) {
    const std::string number =
        job.factsOf(placed.blank).number > 0
            ? fmt::format("{} {}", job.numberOf(placed.blank), job.factsOf(placed.blank).share)
            : job.blankOf(placed.blank).name;
    lines.push_back(fmt::format("{}|{}|{}", number, rectText(placed.at), placed.turned));
  }
  std::ranges::sort(lines);
  std::string text = fmt::format("{}\n{}\n", one.item, fmt::join(lines, "\n"));
  for (const joinery::Cut& cut : one.cuts) {
    text += fmt::format("{} {} {:.2f}\n", cut.piece, cut.across, cut.at);
  }
  return text;
}

}  // namespace

std::string LayoutJob::length(double mm) const {
  return joinery::lengthText(Length::mm(mm), unit);
}

std::string LayoutJob::size(double a, double b) const {
  return length(a) + " × " + length(b);
}

std::string LayoutJob::size(double a, double b, double c) const {
  return size(a, b) + " × " + length(c);
}

std::string LayoutJob::roughSizeOf(int index) const {
  const joinery::Blank& blank = blankOf(index);
  // A sheet is called by its thickness, not by the least that it may measure.
  const double called = factsOf(index).finished[2];
  const bool sheet = blank.form == joinery::StockForm::sheet && called > 0;
  return size(blank.length, blank.width, sheet ? called : blank.thickness);
}

std::string LayoutJob::nameOfStock(const StockLayout& one) const {
  const joinery::StockItem& item = itemOf(one);
  return item.count > 1 ? fmt::format("{}, no. {}", item.name, one.copy + 1) : item.name;
}

std::string LayoutJob::nameOfBlank(int index) const {
  const BlankFacts& one = factsOf(index);
  if (one.share.empty()) return one.label;
  return one.label + (one.share.starts_with("and ") ? " " : ", ") + one.share;
}

std::string LayoutJob::numberOf(int index) const {
  const int number = factsOf(index).number;
  return number > 0 ? std::to_string(number) : "–";
}

std::string LayoutJob::markOf(int index) const {
  return numberOf(index) + (factsOf(index).error.empty() ? "" : " DO NOT CUT");
}

std::vector<int> errorsIn(const LayoutJob& job) {
  std::vector<int> blanks;
  for (std::size_t i = 0; i < job.facts.size(); ++i) {
    if (!job.facts[i].error.empty()) blanks.push_back(static_cast<int>(i));
  }
  return blanks;
}

LayoutJob makeLayoutJob(const joinery::Piece& piece, joinery::Layout layout,
                        joinery::StockList stock, joinery::Unit unit,
                        const std::vector<joinery::Finding>& findings) {
  LayoutJob job{piece.model.name, piece.basis, unit, std::move(layout), std::move(stock), {}};
  const auto groups = joinery::groupParts(piece);
  std::map<joinery::PartId, const joinery::PartGroup*> groupOf;
  for (const auto& group : groups) {
    for (const joinery::PartId id : group.parts) groupOf[id] = &group;
  }
  for (const joinery::Blank& blank : job.layout.blanks) {
    const auto group = blank.part ? groupOf.find(*blank.part) : groupOf.end();
    if (group == groupOf.end()) {
      BlankFacts facts;
      facts.label = blank.name;
      job.facts.push_back(std::move(facts));
    } else {
      job.facts.push_back(factsOf(piece, *group->second, *blank.part, blank.name));
      const auto errors = errorsOf(findings, {*blank.part});
      if (!errors.empty()) job.facts.back().error = errors.front();
    }
  }
  return job;
}

std::vector<Pattern> patternsOf(const LayoutJob& job) {
  std::vector<Pattern> patterns;
  std::map<std::string, std::size_t> known;
  for (std::size_t i = 0; i < job.layout.stock.size(); ++i) {
    const auto [at, isNew] =
        known.try_emplace(signatureOf(job, job.layout.stock[i]), patterns.size());
    if (isNew) patterns.emplace_back();
    patterns[at->second].copies.push_back(i);
  }
  return patterns;
}

double useOf(const LayoutJob& job, const StockLayout& one) {
  double used = 0;
  for (const PlacedBlank& placed : one.blanks) used += placed.at.length * placed.at.width;
  const double whole = job.itemOf(one).area();
  return whole > 0 ? used / whole : 0;
}

FlatRect boundsOfStock(const joinery::StockItem& item) {
  const auto shape = item.shape();
  if (shape.empty()) return {};
  FlatRect box{shape.front().x, shape.front().y, 0, 0};
  double farX = box.x;
  double farY = box.y;
  for (const joinery::FlatPoint& p : shape) {
    box.x = std::min(box.x, p.x);
    box.y = std::min(box.y, p.y);
    farX = std::max(farX, p.x);
    farY = std::max(farY, p.y);
  }
  box.length = farX - box.x;
  box.width = farY - box.y;
  return box;
}

std::optional<bool> grainAlongX(const joinery::Blank& blank, const PlacedBlank& placed) {
  if (blank.grain == joinery::Grain::none) return std::nullopt;
  return (blank.grain == joinery::Grain::length) != placed.turned;
}

}  // namespace dryfit::exporting
