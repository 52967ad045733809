#include "export/drawing/assembly_drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>
#include <optional>

#include "export/drawing/assembly_views.h"
#include "export/drawing/balloon_ring.h"
#include "export/drawing/draughting.h"
#include "export/drawing/feature_rows.h"
#include "export/drawing/gutter.h"
#include "export/drawing/part_details.h"
#include "export/drawing/parts_in_sight.h"
#include "export/drawing/sheet_layout.h"
#include "export/drawing/stop_banner.h"
#include "export/drawing/table.h"
#include "export/drawing/text_measure.h"
#include "export/drawing/title_block.h"
#include "export/words/labels_together.h"
#include "joinery/formula/length_text.h"

namespace dryfit::exporting {
namespace {

/// Scales of ISO 5455.
constexpr std::array kScales{1.0, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01};
constexpr double kViewGap = 6;
constexpr double kRowGap = 8;
constexpr std::size_t kInProjection = 3;

/// A sheet size and how many of it.
struct Paper {
  std::string_view format;
  std::size_t sheets = 1;
};

/// What is tried, in this order. A3 is what workshops print; two of it are handier than one A2.
constexpr std::array kPapers{Paper{"A4", 1}, Paper{"A3", 1}, Paper{"A3", 2},
                             Paper{"A2", 1}, Paper{"A2", 2}, Paper{"A1", 1},
                             Paper{"A1", 2}, Paper{"A0", 1}, Paper{"A0", 2}};

/// One view at one scale.
struct DrawnView {
  Ink ink;
  Box2 outline;
};

/// Draws the views of a piece.
class ViewPen {
 public:
  ViewPen(const AssemblyView& view, const Projection& picture, double scale)
      : view_(view), picture_(picture), scale_(scale) {
    const Box2 true_ = picture.bounds();
    drawn_.outline.add(Point2{true_.min.x * scale, true_.min.y * scale});
    drawn_.outline.add(Point2{true_.max.x * scale, true_.max.y * scale});
    drawn_.ink = inkOf(picture, scale);
  }

  void addBalloons() {
    std::vector<RingItem> items;
    for (const PartPointer& pointer : view_.pointers) {
      RingItem item{std::to_string(pointer.number), {}, pointer.hidden};
      for (const PointerEnd& end : pointer.ends) {
        const Point2 flat = picture_.of(end.at);
        constexpr double kOffMiddle = 12;
        item.ends.push_back({{flat.x * scale_, flat.y * scale_}, kOffMiddle * end.off});
      }
      items.push_back(std::move(item));
    }
    for (const RingBalloon& b : ringOf(drawn_.outline, items)) {
      addBalloon(drawn_.ink, b.centre, b.item, b.end,
                 b.behind ? LineClass::hidden : LineClass::dimension);
    }
  }

  /// An overall size along one side, outside the balloons there.
  void addSize(Side side, const std::string& text) {
    const Box2& box = drawn_.outline;
    const Box2 all = drawn_.ink.bounds();
    const bool wide = side == Side::top || side == Side::bottom;
    const double depth = side == Side::left ? box.min.x - all.min.x : box.min.y - all.min.y;
    Gutter gutter(side, box.grown(depth));
    gutter.startAt(depth > 2 ? 6.5 : 8);
    gutter.add(SpanDimension{wide ? box.min.x : box.min.y, wide ? box.max.x : box.max.y, text,
                             depth, depth});
    gutter.draw(drawn_.ink);
  }

  /// The name under the view, with what is taken away.
  void addName(const std::string& name) {
    const double middle = drawn_.outline.centre().x;
    const double room = std::max(60.0, drawn_.ink.bounds().width());
    double y = drawn_.ink.bounds().min.y - 3 - kTextHeight;
    drawn_.ink.add(Text{{middle, y},
                        name + "  " + scaleText(scale_),
                        kTextHeight,
                        TextAnchor::middle,
                        0,
                        TextStyle::bold,
                        Layer::text});
    if (view_.without.empty()) return;
    const std::string note = (view_.without.size() == 1 ? "without part " : "without parts ") +
                             numberRanges(view_.without);
    for (const std::string& line : wrapText(note, room, kSmallTextHeight)) {
      y -= 2.2 + kSmallTextHeight;
      drawn_.ink.add(Text{{middle, y},
                          line,
                          kSmallTextHeight,
                          TextAnchor::middle,
                          0,
                          TextStyle::regular,
                          Layer::text});
    }
  }

  DrawnView take() { return std::move(drawn_); }

 private:
  const AssemblyView& view_;
  const Projection& picture_;
  double scale_;
  DrawnView drawn_;
};

/// Draws the whole piece on the least paper on which it reads well.
class AssemblyDrawer {
 public:
  AssemblyDrawer(const joinery::Piece& piece, const std::vector<joinery::PartGroup>& groups,
                 const DrawingOptions& options)
      : piece_(piece), groups_(groups), options_(options) {}

  Result<std::vector<Sheet>> draw(const std::vector<kernel::Solid>& solids) {
    auto views = assemblyViews(piece_, solids, groups_);
    if (!views) return tl::unexpected(views.error());
    views_ = std::move(*views);
    if (auto looked = look(solids); !looked) return tl::unexpected(looked.error());
    table_ = partTable();
    for (const bool mustReadWell : {true, false}) {
      for (const Paper& paper : kPapers) {
        if (!options_.format.empty() && paper.format != options_.format) continue;
        for (std::size_t i = 0; i < kScales.size(); ++i) {
          if (mustReadWell && !readsWell(kScales[i])) break;
          if (auto sheets = onPaper(paper, i)) return std::move(*sheets);
        }
      }
    }
    return fail(ErrorCode::badDimension, "the drawing does not fit on a sheet", piece_.model.name,
                "choose a larger sheet");
  }

 private:
  using Inks = std::vector<Ink>;

  Result<void> look(const std::vector<kernel::Solid>& solids) {
    const auto picture = [&](const kernel::Viewpoint& eye,
                             const std::vector<int>& without) -> Result<Projection> {
      std::vector<bool> away(piece_.parts.size(), false);
      for (const joinery::PartGroup& group : groups_) {
        if (std::ranges::find(without, group.number) == without.end()) continue;
        for (const joinery::PartId id : group.parts) away[id.index()] = true;
      }
      // What nobody sees need not be looked at: hidden lines are the dear part of a drawing.
      const std::vector<bool> inSight = partsInSight(piece_, eye, away);
      std::vector<kernel::Solid> placed;
      for (const joinery::PlacedPart& part : piece_.parts) {
        if (inSight[part.id.index()]) placed.push_back(solids[part.id.index()].placed(part.frame));
      }
      auto projected = projectOnce(options_.memory, placed, eye);
      // Hidden lines of a whole piece would bury it.
      if (projected) {
        std::erase_if(projected->lines, [](const kernel::ViewLine& line) { return !line.visible; });
      }
      return projected;
    };
    for (const AssemblyView& view : views_) {
      auto projected = picture(view.eye, view.without);
      if (!projected) return tl::unexpected(projected.error());
      pictures_.push_back(std::move(*projected));
    }
    auto projected = picture(isometricEye(), {});
    if (!projected) return tl::unexpected(projected.error());
    isometric_ = std::move(*projected);
    return {};
  }

  /// The front view is long enough on paper for what there is to tell apart in it, and the sides
  /// of each view hold its balloons.
  [[nodiscard]] bool readsWell(double scale) const {
    const Box2 front = pictures_.front().bounds();
    const double longest = std::max(front.width(), front.height()) * scale;
    if (longest < std::clamp(3.5 * static_cast<double>(groups_.size()), 70.0, 150.0)) return false;
    for (std::size_t i = 0; i < views_.size(); ++i) {
      Box2 box = pictures_[i].bounds();
      box.max = {box.min.x + box.width() * scale, box.min.y + box.height() * scale};
      if (ringRoom(box) < views_[i].pointers.size()) return false;
    }
    return true;
  }

  [[nodiscard]] std::string length(double mm) const {
    return joinery::lengthText(Length::mm(mm), options_.unit);
  }

  [[nodiscard]] DrawnView drawView(std::size_t i, double scale) const {
    ViewPen pen(views_[i], pictures_[i], scale);
    pen.addBalloons();
    const Box2 box = pictures_[i].bounds();
    if (i <= 1) pen.addSize(Side::left, length(box.height()));
    if (i == 0) pen.addSize(Side::bottom, length(box.width()));
    if (i >= kInProjection) pen.addName(views_[i].name);
    return pen.take();
  }

  /// All views at one scale: those in projection in their places, then the others. Drawn once.
  const Inks& viewsAt(double scale) {
    const auto known = drawn_.find(scale);
    if (known != drawn_.end()) return known->second;
    Inks inks;
    for (std::size_t i = 0; i < views_.size(); ++i) inks.push_back(drawView(i, scale).ink);
    const Box2 front = inks[0].bounds();
    inks[1].move(0, front.min.y - kViewGap - inks[1].bounds().max.y);
    inks[2].move(front.max.x + kViewGap - inks[2].bounds().min.x, 0);
    return drawn_.emplace(scale, std::move(inks)).first->second;
  }

  [[nodiscard]] Ink isometricAt(double scale) const {
    static const AssemblyView kPlain;
    ViewPen pen(kPlain, isometric_, scale);
    pen.addName("Isometric");
    return pen.take().ink;
  }

  [[nodiscard]] std::string materialText(joinery::PartId id) const {
    const std::string& name = piece_.part(id).material;
    const auto& all = piece_.model.materials;
    const auto found = std::ranges::find(all, name, &joinery::Material::name);
    return found == all.end() || found->species.empty() ? name : found->species;
  }

  [[nodiscard]] Ink partTable() const {
    const std::vector<TableColumn> columns{{"No.", 10, TextAnchor::middle, TextStyle::bold},
                                           {"Part", 66, TextAnchor::left},
                                           {"Count", 15, TextAnchor::middle},
                                           {"Finished L × W × T", 49, TextAnchor::left},
                                           {"Material", 40, TextAnchor::left}};
    std::vector<std::vector<std::string>> cells;
    for (const joinery::PartGroup& g : groups_) {
      std::string name = sentenceCase(groupTitle(piece_, g));
      if (g.mirrorOf != 0) name += fmt::format(" (mirror of {})", g.mirrorOf);
      cells.push_back(
          {std::to_string(g.number), name, std::to_string(g.parts.size()),
           length(g.length.mm()) + " × " + length(g.width.mm()) + " × " + length(g.thickness.mm()),
           materialText(g.parts.front())});
    }
    constexpr std::size_t kLong = 20;
    return cells.size() > kLong ? drawTable(columns, cells, 0.8) : drawTable(columns, cells);
  }

  [[nodiscard]] Ink titleAt(double scale, std::size_t sheet, std::size_t sheets) const {
    TitleBlock block;
    block.owner = options_.owner;
    block.creator = options_.creator;
    block.approval = options_.approval;
    block.title = piece_.model.name;
    block.supplement = sheet == 0 ? "Whole piece with parts list" : "Whole piece, continued";
    block.documentType = "Assembly drawing";
    block.number = "Assembly";
    block.date = options_.date;
    block.sheet = options_.sheet;
    block.sheets = options_.sheets;
    if (sheets > 1) block.sheetPart = sheet == 0 ? "a" : "b";
    block.material = "see parts list";
    block.quantity = "1";
    block.sizeCaption = "Overall W × H × D";
    block.size = length(pictures_[0].bounds().width()) + " × " +
                 length(pictures_[0].bounds().height()) + " × " +
                 length(pictures_[1].bounds().height());
    block.scale = scaleText(scale);
    block.unit = joinery::nameOf(options_.unit);
    return drawTitleBlock(block);
  }

  [[nodiscard]] Ink notes() const {
    Ink ink;
    if (std::ranges::any_of(views_.front().pointers, &PartPointer::hidden)) {
      ink.add(Text{{0, 0},
                   "Dashed leader: the part is hidden behind others.",
                   kSmallTextHeight,
                   TextAnchor::left,
                   0,
                   TextStyle::regular,
                   Layer::text});
    }
    return ink;
  }

  /// Views side by side, with their lower ends level.
  static Inks inARow(Inks inks) {
    double right = 0;
    for (Ink& ink : inks) {
      const Box2 box = ink.bounds();
      ink.move(right - box.min.x, -box.min.y);
      right += box.width() + kRowGap;
    }
    return inks;
  }

  [[nodiscard]] std::optional<Sheet> sheetOf(const SheetFormat& format,
                                             const SheetContents& contents) const {
    Sheet sheet = makeSheet(format);
    sheet.title = piece_.model.name;
    SheetContents all = contents;
    all.banner = stopBanner(options_.errors, bannerWidth(sheet));
    for (const DetailRoom room : {DetailRoom::row, DetailRoom::anywhere}) {
      if (arrange(all, room, sheet)) return sheet;
    }
    return std::nullopt;
  }

  /// The views that are not in projection on a sheet of their own, in a row if they fit so.
  [[nodiscard]] std::optional<Sheet> furtherSheet(const SheetFormat& format, Inks further,
                                                  const Ink& title, const Ink& table) const {
    SheetContents contents{inARow(further), {}, table, title, {}};
    if (auto sheet = sheetOf(format, contents)) return sheet;
    contents.views.clear();
    contents.details = std::move(further);
    return sheetOf(format, contents);
  }

  /// All on the paper at one scale; the isometric view shrinks by one scale before it is left out.
  std::optional<std::vector<Sheet>> onPaper(const Paper& paper, std::size_t scaleIndex) {
    const double scale = kScales[scaleIndex];
    const SheetFormat& format =
        *std::ranges::find(sheetFormats(), paper.format, &SheetFormat::name);
    const Box2 front = pictures_.front().bounds();
    const Box2 space = makeSheet(format).drawingSpace();
    if (front.width() * scale > space.width() || front.height() * scale > space.height()) {
      return std::nullopt;
    }
    const Inks& all = viewsAt(scale);
    std::vector<std::optional<Ink>> isometrics{isometricAt(scale)};
    if (scaleIndex + 1 < kScales.size()) isometrics.push_back(isometricAt(kScales[scaleIndex + 1]));
    isometrics.push_back(std::nullopt);
    for (const auto& isometric : isometrics) {
      Inks further(all.begin() + kInProjection, all.end());
      if (isometric) further.push_back(*isometric);
      auto sheets =
          paper.sheets == 1 ? onOne(format, scale, further) : onTwo(format, scale, further);
      if (sheets) return sheets;
    }
    return std::nullopt;
  }

  std::optional<std::vector<Sheet>> onOne(const SheetFormat& format, double scale,
                                          const Inks& further) {
    const Inks& all = viewsAt(scale);
    const Inks projected(all.begin(), all.begin() + kInProjection);
    auto sheet = sheetOf(format, {projected, further, table_, titleAt(scale, 0, 1), notes()});
    if (!sheet) return std::nullopt;
    return std::vector<Sheet>{std::move(*sheet)};
  }

  /// The list stands on the sheet on which there is room for it.
  std::optional<std::vector<Sheet>> onTwo(const SheetFormat& format, double scale,
                                          const Inks& further) {
    const Inks& all = viewsAt(scale);
    const Inks projected(all.begin(), all.begin() + kInProjection);
    for (const bool listFirst : {true, false}) {
      if (listFirst && further.empty()) continue;
      const Ink nothing;
      auto first = sheetOf(
          format, {projected, {}, listFirst ? table_ : nothing, titleAt(scale, 0, 2), notes()});
      if (!first) continue;
      auto second =
          furtherSheet(format, further, titleAt(scale, 1, 2), listFirst ? nothing : table_);
      if (second) return std::vector<Sheet>{std::move(*first), std::move(*second)};
    }
    return std::nullopt;
  }

  const joinery::Piece& piece_;
  const std::vector<joinery::PartGroup>& groups_;
  const DrawingOptions& options_;
  std::vector<AssemblyView> views_;
  std::vector<Projection> pictures_;  ///< one a view
  Projection isometric_;
  Ink table_;
  std::map<double, Inks> drawn_;
};

}  // namespace

Result<std::vector<Sheet>> drawAssembly(const joinery::Piece& piece,
                                        const std::vector<kernel::Solid>& solids,
                                        const std::vector<joinery::PartGroup>& groups,
                                        const DrawingOptions& options) {
  return AssemblyDrawer(piece, groups, options).draw(solids);
}

}  // namespace dryfit::exporting
