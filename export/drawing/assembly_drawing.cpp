#include "export/drawing/assembly_drawing.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "export/drawing/assembly_views.h"
#include "export/drawing/draughting.h"
#include "export/drawing/feature_rows.h"
#include "export/drawing/part_details.h"
#include "export/drawing/sheet_layout.h"
#include "export/drawing/table.h"
#include "export/drawing/title_block.h"
#include "export/drawing/view_block.h"
#include "joinery/formula/length_text.h"

namespace dryfit::exporting {
namespace {

constexpr std::array kScales{1.0, 0.5, 0.2, 0.1, 0.05, 0.02, 0.01};
constexpr double kViewGap = 6;

/// Draws the whole piece on the smallest sheet on which it reads well.
class AssemblyDrawer {
 public:
  AssemblyDrawer(const joinery::Piece& piece, const std::vector<joinery::PartGroup>& groups,
                 const DrawingOptions& options)
      : piece_(piece), groups_(groups), options_(options) {}

  Result<Sheet> draw(const std::vector<kernel::Solid>& solids) {
    std::vector<kernel::Solid> placed;
    for (const joinery::PlacedPart& part : piece_.parts) {
      placed.push_back(solids[part.id.index()].placed(part.frame));
    }
    for (std::size_t i = 0; i < views_.size(); ++i) {
      auto view = projectOnce(options_.memory, placed, assemblyEyes()[i]);
      if (!view) return tl::unexpected(view.error());
      // Hidden lines of a whole piece would bury it.
      std::erase_if(view->lines, [](const kernel::ViewLine& line) { return !line.visible; });
      views_[i] = std::move(*view);
    }
    pointers_ = partPointers(piece_, groups_);
    for (const double least : {kReadable, 0.0}) {
      for (const SheetFormat& format : sheetFormats()) {
        if (!options_.format.empty() && format.name != options_.format) continue;
        for (const double scale : kScales) {
          if (longest() * scale < least) break;
          if (auto sheet = attempt(format, scale)) return std::move(*sheet);
        }
      }
    }
    return fail(ErrorCode::badDimension, "the drawing does not fit on a sheet", piece_.model.name,
                "choose a larger sheet");
  }

 private:
  /// The longest side of the front view should be at least this long on paper, mm.
  static constexpr double kReadable = 70;

  [[nodiscard]] double longest() const {
    const Box2 front = views_[0].bounds();
    return std::max(front.width(), front.height());
  }

  [[nodiscard]] std::string length(double mm) const {
    return joinery::lengthText(Length::mm(mm), options_.unit);
  }

  void addBalloons(ViewBlock& block, std::size_t view) const {
    for (const PartPointer& pointer : pointers_) {
      if (pointer.view != view) continue;
      std::vector<Point2> anchors;
      for (const kernel::Point3& at : pointer.at) {
        const Point2 flat = views_[view].of(at);
        anchors.push_back({flat.x * block.scale(), flat.y * block.scale()});
      }
      block.addBalloon(std::to_string(pointer.number), anchors, pointer.hidden);
    }
  }

  void addWidth(ViewBlock& block, Side side) const {
    const Box2& box = block.box();
    block.gutter(side).add(
        SpanDimension{box.min.x, box.max.x, length(box.width() / block.scale()), 0, 0});
  }
  void addHeight(ViewBlock& block, Side side) const {
    const Box2& box = block.box();
    block.gutter(side).add(
        SpanDimension{box.min.y, box.max.y, length(box.height() / block.scale()), 0, 0});
  }

  [[nodiscard]] std::vector<Ink> drawViews(double scale) const {
    ViewBlock front(views_[0], scale);
    ViewBlock top(views_[1], scale);
    ViewBlock left(views_[2], scale);
    for (ViewBlock* block : {&front, &top, &left}) block->setLeadersApart(9);
    front.setBalloonSide(Side::top);
    addBalloons(front, 0);
    addHeight(front, Side::left);
    addWidth(front, Side::bottom);
    top.setBalloonSide(Side::bottom);
    addBalloons(top, 1);
    addHeight(top, Side::left);
    left.setBalloonSide(Side::top);
    addBalloons(left, 2);

    Ink all = front.draw();
    const Box2 bounds = all.bounds();
    Ink below = top.draw();
    below.move(0, bounds.min.y - kViewGap - below.bounds().max.y);
    Ink beside = left.draw();
    beside.move(bounds.max.x + kViewGap + 4 - beside.bounds().min.x, 0);
    return {all, below, beside};
  }

  [[nodiscard]] std::string materialText(joinery::PartId id) const {
    const std::string& name = piece_.part(id).material;
    const auto& all = piece_.model.materials;
    const auto found = std::ranges::find(all, name, &joinery::Material::name);
    return found == all.end() || found->species.empty() ? name : found->species;
  }

  [[nodiscard]] Ink partTable() const {
    const std::vector<TableColumn> columns{{"No.", 10, TextAnchor::middle, TextStyle::bold},
                                           {"Part", 52, TextAnchor::left},
                                           {"Count", 14, TextAnchor::middle},
                                           {"Finished L × W × T", 56, TextAnchor::left},
                                           {"Material", 48, TextAnchor::left}};
    std::vector<std::vector<std::string>> cells;
    for (const joinery::PartGroup& g : groups_) {
      std::string name = sentenceCase(piece_.label(g.parts.front()));
      if (g.mirrorOf != 0) name += fmt::format(" (mirror of {})", g.mirrorOf);
      cells.push_back(
          {std::to_string(g.number), name, std::to_string(g.parts.size()),
           length(g.length.mm()) + " × " + length(g.width.mm()) + " × " + length(g.thickness.mm()),
           materialText(g.parts.front())});
    }
    return drawTable(columns, cells);
  }

  [[nodiscard]] TitleBlock title(double scale) const {
    TitleBlock block;
    block.owner = options_.owner;
    block.creator = options_.creator;
    block.approval = options_.approval;
    block.title = piece_.model.name;
    block.supplement = "Whole piece with parts list";
    block.documentType = "Assembly drawing";
    block.number = "Assembly";
    block.date = options_.date;
    block.sheet = options_.sheet;
    block.sheets = options_.sheets;
    block.material = "see parts list";
    block.quantity = "1";
    block.sizeCaption = "Overall W × H × D";
    block.size = length(views_[0].bounds().width()) + " × " + length(views_[0].bounds().height()) +
                 " × " + length(views_[1].bounds().height());
    block.scale = scaleText(scale);
    block.unit = joinery::nameOf(options_.unit);
    return block;
  }

  [[nodiscard]] std::optional<Sheet> attempt(const SheetFormat& format, double scale) const {
    Sheet sheet = makeSheet(format);
    sheet.title = piece_.model.name;
    const Box2 space = sheet.drawingSpace();
    const Box2 room = views_[0].bounds();
    if (room.width() * scale > space.width() || room.height() * scale > space.height()) {
      return std::nullopt;
    }
    SheetContents contents;
    contents.views = drawViews(scale);
    contents.table = partTable();
    contents.titleBlock = drawTitleBlock(title(scale));
    if (std::ranges::any_of(pointers_, &PartPointer::hidden)) {
      contents.notes.add(Text{{0, 0},
                              "Dashed leader: the part is hidden behind others.",
                              kSmallTextHeight,
                              TextAnchor::left,
                              0,
                              TextStyle::regular,
                              Layer::text});
    }
    if (!arrange(contents, DetailRoom::row, sheet)) return std::nullopt;
    return sheet;
  }

  const joinery::Piece& piece_;
  const std::vector<joinery::PartGroup>& groups_;
  const DrawingOptions& options_;
  std::array<Projection, 3> views_;
  std::vector<PartPointer> pointers_;
};

}  // namespace

Result<Sheet> drawAssembly(const joinery::Piece& piece, const std::vector<kernel::Solid>& solids,
                           const std::vector<joinery::PartGroup>& groups,
                           const DrawingOptions& options) {
  return AssemblyDrawer(piece, groups, options).draw(solids);
}

}  // namespace dryfit::exporting
