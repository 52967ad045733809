#include "export/layout/draft_page.h"

namespace dryfit::exporting {
namespace {

constexpr double kInside = 3;  ///< from the frame
constexpr int kPagesMost = 500;

/// At the top, in the left corner where a column finds room beside it, else in the middle.
Box2 putView(Sheet& sheet, Ink view, double columnWidth) {
  if (view.marks.empty()) return {};
  const Box2 room = sheet.drawingSpace().grown(-kInside);
  const Box2 bounds = view.bounds();
  const double spare = room.width() - bounds.width();
  const double left = room.min.x + (spare > columnWidth + 4 ? 0 : spare / 2);
  view.move(left - bounds.min.x, room.max.y - bounds.max.y);
  sheet.ink.add(view);
  return view.bounds();
}

}  // namespace

std::vector<DraftPage> flowPages(const std::string& name, const SheetFormat& format, int columns,
                                 const Ink& view, const std::vector<FlowBlock>& blocks,
                                 const TitleBlock& title) {
  std::vector<DraftPage> pages;
  std::size_t block = 0;
  std::size_t row = 0;
  do {
    DraftPage page{name, makeSheet(format), title};
    page.sheet.title = title.title;
    if (!pages.empty()) page.name += "-" + std::to_string(pages.size() + 1);
    const Box2 space = page.sheet.drawingSpace();
    const double columnWidth = PageFlow(space, columns, kTitleBlockHeight, {}).columnWidth();
    const Box2 shown = pages.empty() ? putView(page.sheet, view, columnWidth) : Box2{};
    PageFlow flow(space, columns, kTitleBlockHeight, shown);
    while (block < blocks.size()) {
      row = flow.put(blocks[block], row);
      if (row < blocks[block].rows.size()) break;
      ++block;
      row = 0;
    }
    page.sheet.ink.add(flow.take());
    pages.push_back(std::move(page));
  } while (block < blocks.size() && static_cast<int>(pages.size()) < kPagesMost);
  return pages;
}

void finishPages(std::vector<DraftPage>& pages) {
  for (std::size_t i = 0; i < pages.size(); ++i) {
    DraftPage& page = pages[i];
    page.title.sheet = static_cast<int>(i) + 1;
    page.title.sheets = static_cast<int>(pages.size());
    Ink block = drawTitleBlock(page.title);
    const Box2 bounds = block.bounds();
    const Box2 space = page.sheet.drawingSpace();
    // The outlines of title block and frame lie over each other.
    constexpr double kHalfLine = 0.35;
    block.move(space.max.x + kHalfLine - bounds.max.x, space.min.y - kHalfLine - bounds.min.y);
    page.sheet.ink.add(block);
  }
}

}  // namespace dryfit::exporting
