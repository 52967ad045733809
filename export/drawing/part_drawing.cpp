#include "export/drawing/part_drawing.h"
#include "export/drawing/field_part.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <optional>
#include <utility>

#include "export/drawing/draughting.h"
#include "export/drawing/part_details.h"
#include "export/drawing/part_views.h"
#include "export/drawing/sheet_layout.h"
#include "export/drawing/stop_banner.h"
#include "export/drawing/table.h"
#include "export/drawing/title_block.h"
#include "export/lists/cut_list.h"
#include "export/words/labels_together.h"
#include "joinery/formula/length_text.h"
#include "joinery/piece/true_lengths.h"

namespace dryfit::exporting {
namespace {

/// Scales of ISO 5455 that suit furniture.
constexpr std::array kScales{1.0, 0.5, 0.2, 0.1, 0.05, 0.02};
constexpr std::array kDetailScales{2.0, 1.0, 0.5, 0.2, 0.1};

const joinery::Material* materialOf(const PartContext& c) {
  const std::string& name = c.piece.part(c.part.id).material;
  const auto& all = c.piece.model.materials;
  const auto found = std::ranges::find(all, name, &joinery::Material::name);
  return found == all.end() ? nullptr : &*found;
}

std::string materialText(const PartContext& c) {
  const joinery::Material* material = materialOf(c);
  if (material == nullptr) return c.piece.part(c.part.id).material;
  return material->species.empty() ? material->name : material->species;
}

std::string sizeText(const PartContext& c) {
  return c.length(c.group.length.mm()) + " × " + c.length(c.group.width.mm()) + " × " +
         c.length(c.group.thickness.mm());
}

bool hasJointsOutside(const PartContext& c) {
  return !(c.part.overall() == c.part.blank());
}

Ink jointTable(const PartContext& c) {
  if (c.rows.empty()) return {};
  const std::vector<TableColumn> columns{{"", 8, TextAnchor::middle, TextStyle::bold},
                                         {"Joint", 36, TextAnchor::left},
                                         {"No.", 9, TextAnchor::middle},
                                         {"Size", 24, TextAnchor::left},
                                         {"Deep / long", 16, TextAnchor::left},
                                         {"From datum", 25, TextAnchor::left},
                                         {"From face edge", 17, TextAnchor::left},
                                         {"From face side", 17, TextAnchor::left},
                                         {"Other part", 28, TextAnchor::left}};
  std::vector<std::vector<std::string>> cells;
  for (const FeatureRow& row : c.rows) {
    cells.push_back({row.letter, row.name, std::to_string(countOf(c.part, row)), row.size,
                     row.depth, row.start, row.fromEdge, row.fromSide, row.mate});
  }
  return drawTable(columns, cells);
}

/// The group that this one mirrors, or that mirrors this one; 0 for none.
int mirrorPartner(const PartContext& c, const std::vector<joinery::PartGroup>& groups) {
  if (c.group.mirrorOf != 0) return c.group.mirrorOf;
  const auto found = std::ranges::find(groups, c.group.number, &joinery::PartGroup::mirrorOf);
  return found == groups.end() ? 0 : found->number;
}

/// What an end is called on the drawing, "left end", and in the piece where that is another word.
std::string endName(const PartContext& c, bool far, std::string_view noun) {
  const std::string_view drawn = (c.pose.right.x < 0) == far ? "left" : "right";
  const std::string_view inPiece = joinery::nameOf(c.part.named({0, far}));
  return drawn == inPiece ? fmt::format("{} {}", drawn, noun)
                          : fmt::format("{} {} ({} in the piece)", drawn, noun, inPiece);
}

Ink notesOf(const PartContext& c) {
  const bool square = joinery::shoulderLines(c.part).ends[0].isSquare();
  std::vector<std::string> lines{
      fmt::format("Datum: {}{}.",
                  endName(c, false, c.datumName() == "datum shoulder" ? "shoulder" : "end"),
                  square ? "" : ", where face side and face edge meet"),
      std::string("Mark out from face side and face edge. ") +
          (c.part.grain ? "Arrow: grain." : "No grain direction.") +
          " Fit each joint to the other part."};
  if (const int partner = mirrorPartner(c, joinery::groupParts(c.piece)); partner != 0) {
    lines.push_back(fmt::format("Mirror image of part {}: mark as a pair.", partner));
  }
  if (auto slant = slantNote(c.part)) {
    slant->endNames = {endName(c, false, "end"), endName(c, true, "end")};
    for (const std::string& text : slantTexts(*slant, c.unit)) {
      lines.push_back(sentenceCase(text) + ".");
    }
  }
  for (const TaperNote& taper : taperNotes(c.part)) {
    lines.push_back("Taper: " + taperText(taper, c.unit) + ".");
  }
  Ink ink;
  double y = 0;
  for (const std::string& line : lines) {
    ink.add(
        Text{{0, y}, line, kSmallTextHeight, TextAnchor::left, 0, TextStyle::regular, Layer::text});
    y -= 4.4;
  }
  return ink;
}

TitleBlock titleOf(const PartContext& c, const DrawingOptions& o, double scale) {
  TitleBlock block;
  block.owner = o.owner;
  block.creator = o.creator;
  block.approval = o.approval;
  block.title = sentenceCase(groupTitle(c.piece, c.group));
  block.supplement = c.piece.model.name;
  block.documentType = "Part drawing";
  block.number = fmt::format("Part {}", c.group.number);
  block.date = o.date;
  block.sheet = o.sheet;
  block.sheets = o.sheets;
  block.material = materialText(c);
  block.quantity = std::to_string(c.group.parts.size());
  block.sizeCaption =
      hasJointsOutside(c) ? "Finished L × W × T, with joints" : "Finished L × W × T";
  block.size = sizeText(c);
  block.scale = scaleText(scale);
  block.unit = joinery::nameOf(o.unit);
  return block;
}

/// The largest detail scale, not under the views', at which the detail keeps within the limit.
std::optional<double> detailScale(const Detail& detail, double viewScale, double limit) {
  const Box2 shown = detail.shown();
  for (const double scale : kDetailScales) {
    if (scale < viewScale) break;
    // Twice full size is only worth its paper for small work.
    const double most = scale > 1 ? limit * 0.6 : limit;
    if (shown.width() * scale <= most && shown.height() * scale <= most) return scale;
  }
  return std::nullopt;
}

/// How one drawing could be set on one sheet.
struct Attempt {
  const SheetFormat* format = nullptr;
  double scale = 1;
  double detailLimit = 100;  ///< mm of paper for the wood of a detail; 0: no details
  DetailRoom room = DetailRoom::row;
  BackPlace back = BackPlace::below;
};

/// Tries sheets and scales until one holds everything.
class PartDrawer {
 public:
  PartDrawer(const PartContext& context, const DrawingOptions& options)
      : c_(context), options_(options) {}

  Result<Sheet> draw() {
    auto pictures = picturesOf(c_);
    if (!pictures) return tl::unexpected(pictures.error());
    pictures_ = std::move(*pictures);
    auto details = detailsOf(c_);
    if (!details) return tl::unexpected(details.error());
    details_ = std::move(*details);
    for (const bool mustReadWell : {true, false}) {
      for (const SheetFormat& format : sheetFormats()) {
        if (!options_.format.empty() && format.name != options_.format) continue;
        if (auto sheet = onFormat(format, mustReadWell)) return std::move(*sheet);
      }
    }
    return fail(ErrorCode::badDimension, "the drawing does not fit on a sheet",
                c_.piece.part(c_.part.id).name, "choose a larger sheet");
  }

 private:
  /// The largest scale at which all fits on the format. Details stand in one row if they can, and
  /// shrink before they are left out.
  std::optional<Sheet> onFormat(const SheetFormat& format, bool mustReadWell) {
    for (const bool withDetails : {true, false}) {
      if (!withDetails && (mustReadWell || details_.empty())) return std::nullopt;
      for (const double scale : kScales) {
        if (mustReadWell && !readsWell(scale, format)) continue;
        for (const Attempt& a : attemptsAt(format, scale, withDetails)) {
          if (auto sheet = attempt(a)) return sheet;
        }
      }
    }
    return std::nullopt;
  }

  /// How all could be set at one scale, best first.
  [[nodiscard]] std::vector<Attempt> attemptsAt(const SheetFormat& format, double scale,
                                                bool withDetails) const {
    std::vector<Attempt> attempts;
    for (const BackPlace back : {BackPlace::below, BackPlace::beside}) {
      if (back == BackPlace::beside && !pictures_.back) break;
      for (const DetailRoom room : {DetailRoom::row, DetailRoom::anywhere}) {
        for (const double limit : {100.0, 80.0, 62.0, 45.0}) {
          attempts.push_back({&format, scale, withDetails ? limit : 0, room, back});
          if (!withDetails || details_.empty()) break;
        }
      }
    }
    return attempts;
  }

  /// A4 is for parts whose joints can be told apart on it; what is long and slender goes on A3 at
  /// the largest scale that fits. A small scale is for what is long at it.
  [[nodiscard]] bool readsWell(double scale, const SheetFormat& format) const {
    const kernel::Vec3 size = c_.part.overall().size();
    const double thin = std::min(size.y, size.z);
    if (scale >= 0.5 || (details_.empty() && scale >= 0.2)) return true;
    if (format.name == "A4") return thin * scale >= 8;
    return scale >= 0.2 || (scale >= 0.1 && size.x * scale >= kLong * format.width);
  }

  static constexpr double kLong = 0.4;  ///< of the sheet's width

  /// Drawn once for each scale and place of the back.
  const std::vector<Ink>& viewsAt(double scale, BackPlace back) {
    const std::pair key(scale, back);
    const auto known = views_.find(key);
    if (known != views_.end()) return known->second;
    return views_.emplace(key, drawPartViews(c_, pictures_, scale, back)).first->second;
  }

  std::optional<Sheet> attempt(const Attempt& a) {
    Sheet sheet = makeSheet(*a.format);
    sheet.title = c_.piece.label(c_.part.id);
    SheetContents contents;
    const kernel::Vec3 size = c_.part.overall().size();
    if (size.x * a.scale > sheet.drawingSpace().width()) return std::nullopt;
    contents.views = viewsAt(a.scale, a.back);
    contents.titleBlock = drawTitleBlock(titleOf(c_, options_, a.scale));
    contents.table = jointTable(c_);
    contents.notes = notesOf(c_);
    contents.banner = stopBanner(options_.errors, bannerWidth(sheet));
    for (const Detail& detail : details_) {
      if (a.detailLimit == 0) break;
      const auto scale = detailScale(detail, a.scale, a.detailLimit);
      if (!scale) return std::nullopt;
      contents.details.push_back(drawDetail(c_, detail, *scale));
    }
    if (!arrange(contents, a.room, sheet)) return std::nullopt;
    return sheet;
  }

  const PartContext& c_;
  const DrawingOptions& options_;
  PartPictures pictures_;
  std::vector<Detail> details_;
  std::map<std::pair<double, BackPlace>, std::vector<Ink>> views_;
};

}  // namespace

Result<Sheet> drawPart(const joinery::Piece& piece, const std::vector<kernel::Solid>& solids,
                       const joinery::PartGroup& group, const DrawingOptions& options) {
  const joinery::PartId id = group.parts.front();
  const FieldPart field = fieldPart(piece.parts[id.index()], solids[id.index()]);
  const joinery::PlacedPart& part = field.part;
  const PartContext context{piece,
                            part,
                            field.solid,
                            group,
                            options.unit,
                            poseOf(part),
                            featureRows(piece, part, options.unit),
                            options.memory};
  return PartDrawer(context, options).draw();
}

}  // namespace dryfit::exporting
