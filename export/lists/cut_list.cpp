#include "export/lists/cut_list.h"

#include "joinery/base/unit.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "export/lists/part_table.h"
#include "export/lists/purchase_words.h"
#include "export/words/caution.h"
#include "export/words/head_text.h"
#include "export/words/labels_together.h"
#include "export/words/text_table.h"
#include "joinery/formula/length_text.h"
#include "joinery/piece/part_list.h"

namespace dryfit::exporting {

namespace {

using joinery::Piece;
using joinery::Unit;

std::string labelOf(const Piece& piece, const joinery::PartGroup& group) {
  std::vector<std::string> labels;
  for (const joinery::PartId id : group.parts) labels.push_back(piece.label(id));
  return labelsTogether(labels);
}

CutRow rowOf(const Piece& piece, const joinery::PartGroup& group) {
  CutRow row;
  row.number = group.number;
  row.mirrorOf = group.mirrorOf;
  row.label = labelOf(piece, group);
  for (const joinery::PartId id : group.parts) row.parts.push_back(piece.part(id).name);
  row.first = group.parts.front();
  row.length = group.length;
  row.width = group.width;
  row.thickness = group.thickness;
  row.shoulderLength = group.shoulderLength;
  row.shoulderShortest = group.shoulderShortest;
  row.slant = slantNote(piece.parts[group.parts.front().index()]);
  row.grain = nameOfGrain(piece.part(group.parts.front()).grain);
  row.tapers = taperNotes(piece.parts[group.parts.front().index()]);
  return row;
}

bool largerFirst(const CutRow& a, const CutRow& b) {
  // Rounded as on paper, so that a rounding error does not swap two lines.
  const auto key = [](const CutRow& row) {
    return std::tuple(-decimalLength(row.length, Unit::mm), -decimalLength(row.width, Unit::mm),
                      -decimalLength(row.thickness, Unit::mm), row.number);
  };
  return key(a) < key(b);
}

}  // namespace

namespace {

/// By the marks on the wood, which stay true of parts that lie turned in the piece.
std::string wedgePlace(const joinery::PlacedPart& part, const joinery::PlacedTaper& taper) {
  const bool width = taper.face.axis == 1;
  const joinery::LocalFace marked = width ? part.faceEdge : part.faceSide;
  return fmt::format("{} the face {}", taper.face == marked ? "off" : "opposite",
                     width ? "edge" : "side");
}

}  // namespace

std::vector<TaperNote> taperNotes(const joinery::PlacedPart& part) {
  std::vector<TaperNote> notes;
  for (const joinery::PlacedTaper& taper : part.tapers) {
    double left = part.size[taper.face.axis];
    for (const joinery::PlacedTaper& other : part.tapers) {
      const bool same = other.face.axis == taper.face.axis && other.narrowFar == taper.narrowFar;
      if (same) left -= other.by;
    }
    notes.push_back({taper.face.axis == 1, Length::mm(taper.by), Length::mm(taper.from),
                     Length::mm(left), Length::mm(part.size.x - taper.from),
                     wedgePlace(part, taper), std::string(nameOf(part.named({0, taper.narrowFar}))),
                     taper.measured});
  }
  return notes;
}

std::string taperText(const TaperNote& taper, Unit unit) {
  return fmt::format("{} to {} at the {} over {}, {}", taper.inWidth ? "narrows" : "thins",
                     joinery::lengthText(taper.to, unit), taper.narrowEnd,
                     joinery::lengthText(taper.over, unit), taper.place);
}

std::string remarkText(const CutRow& row, Unit unit) {
  std::string text;
  for (const TaperNote& taper : row.tapers) {
    text += (text.empty() ? "" : "; ") + taperText(taper, unit);
  }
  if (!row.slant) return text;
  for (const std::string& slant : slantTexts(*row.slant, unit)) {
    text += (text.empty() ? "" : "; ") + slant;
  }
  return text;
}

double decimalLength(Length length, Unit unit) {
  const double scale = unit == Unit::mm ? 100 : unit == Unit::cm ? 1000 : 10000;
  return std::round(length.mm() / joinery::millimetresIn(unit) * scale) / scale;
}

std::vector<CutRow> numberedRows(const Piece& piece) {
  std::vector<CutRow> rows;
  for (const auto& group : joinery::groupParts(piece)) rows.push_back(rowOf(piece, group));
  return rows;
}

CutList makeCutList(const Piece& piece) {
  CutList list{piece.model.name, piece.basis, {}, {}};
  for (const Caution& one : cautionsFor(piece)) list.safety.emplace_back(one.text);
  const auto groups = joinery::groupParts(piece);
  for (const auto& material : piece.model.materials) {
    CutSection section{material.name, material.species, {}};
    for (const auto& group : groups) {
      if (piece.part(group.parts.front()).material == material.name) {
        section.rows.push_back(rowOf(piece, group));
      }
    }
    std::sort(section.rows.begin(), section.rows.end(), largerFirst);
    if (!section.rows.empty()) list.sections.push_back(std::move(section));
  }
  return list;
}

std::string cutListText(const CutList& list, Unit unit) {
  std::string text;
  for (const CutSection& section : list.sections) {
    TextTable table = partTable(false);
    std::size_t pieces = 0;
    for (const CutRow& row : section.rows) {
      pieces += row.parts.size();
      addPart(table, row, unit);
    }
    if (!text.empty()) text += '\n';
    text += fmt::format("{}{}: {}\n", wordsOf(section.material),
                        section.species.empty() ? "" : " (" + section.species + ")",
                        counted(pieces, "part"));
    text += table.text();
  }
  return text;
}

}  // namespace dryfit::exporting
