#include "export/layout/layout_sheets.h"

#include "joinery/base/progress.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <optional>

#include "export/layout/draft_page.h"
#include "export/layout/layout_words.h"
#include "export/layout/stock_tables.h"
#include "export/layout/stock_view.h"
#include "joinery/formula/length_text.h"

namespace dryfit::exporting {

using joinery::StockItem;
using joinery::StockLayout;

namespace {

// 1:2, 1:5, 1:10, 1:20 and 1:50 are those of ISO 5455; the others between them are for sheets that
// would be too small or too large (common practice).
constexpr std::array kReductions{2, 4, 5, 8, 10, 15, 20, 25, 40, 50, 100, 200};
constexpr int kRowsMost = 4;
constexpr double kBoardShape = 5;  ///< length to width from which breaking into rows helps
constexpr double kSideRoom = 34;   ///< for dimensions and cut numbers at both ends

TitleBlock titleOf(const LayoutJob& job, std::string title, std::string type, std::string number) {
  TitleBlock block;
  block.title = std::move(title);
  block.supplement = job.piece;
  block.documentType = std::move(type);
  block.number = std::move(number);
  block.unit = joinery::nameOf(job.unit);
  block.firstAngle = false;
  return block;
}

/// One way to put a board or sheet on paper.
struct Attempt {
  std::vector<DraftPage> pages;
  double worth = 0;
};

class PatternDrawer {
 public:
  PatternDrawer(const LayoutJob& job, const Pattern& pattern, int number)
      : job_(job),
        pattern_(pattern),
        one_(job.layout.stock[pattern.copies.front()]),
        item_(job.itemOf(one_)),
        bounds_(boundsOfStock(item_)),
        steps_(cutStepsOf(job, one_)),
        number_(number) {}

  /// The way whose parts are lettered best on the fewest and smallest sheets.
  [[nodiscard]] std::vector<DraftPage> draw() const {
    std::optional<Attempt> best;
    for (const int format : {0, 1}) {
      for (const int reduction : kReductions) {
        auto one = attempt(format, reduction);
        if (one && (!best || one->worth > best->worth)) best = std::move(one);
      }
    }
    return best ? std::move(best->pages) : std::vector<DraftPage>{};
  }

 private:
  [[nodiscard]] std::optional<Attempt> attempt(int format, int reduction) const {
    const SheetFormat& paper = sheetFormats()[static_cast<std::size_t>(format)];
    const int columns = format == 0 ? 3 : 4;
    const Box2 space = makeSheet(paper).drawingSpace();
    const double long_ = bounds_.length / reduction;
    const int rows = static_cast<int>(std::ceil(long_ / (space.width() - kSideRoom)));
    const bool isLong = bounds_.length > kBoardShape * bounds_.width;
    if (rows > (isLong ? kRowsMost : 1)) return std::nullopt;
    const StockView view = drawStock(job_, one_, steps_, 1.0 / reduction, std::max(1, rows));
    const Box2 size = view.ink.bounds();
    if (size.width() > space.width() - 6 || size.height() > space.height() - 6) return std::nullopt;
    // Beside the title block there is room for the view only down to its top.
    if (size.height() > space.height() - kTitleBlockHeight - 8) return std::nullopt;
    const double width = PageFlow(space, columns, kTitleBlockHeight, {}).columnWidth();
    Attempt result;
    result.pages =
        flowPages(fmt::format("{:02}-{}", number_, fileWord(item_.name)), paper, columns, view.ink,
                  stockTables(job_, pattern_, steps_, width), title(reduction));
    const double parts = std::max<double>(1, view.named + view.sized + view.plain + view.called);
    const double lettered =
        (view.named + 0.85 * view.sized + 0.5 * view.plain + 0.1 * view.called) / parts;
    const auto more = static_cast<double>(result.pages.size() - 1);
    result.worth = lettered - 0.04 * (rows - 1) - 0.12 * format - 0.2 * more + 0.1 / reduction;
    return result;
  }

  [[nodiscard]] TitleBlock title(int reduction) const {
    TitleBlock block = titleOf(job_, item_.name, "Cutting layout", fmt::format("L{}", number_));
    block.material = namesOf(materialsOf(job_, one_));
    if (!item_.species.empty()) block.material += ", " + item_.species;
    block.quantity = std::to_string(pattern_.copies.size());
    block.sizeCaption =
        item_.form == joinery::StockForm::sheet ? "Sheet, L × W × T" : "Board, L × W × T";
    block.size = job_.size(bounds_.length, bounds_.width, item_.thickness);
    block.scale = fmt::format("1:{}", reduction);
    return block;
  }

  const LayoutJob& job_;
  const Pattern& pattern_;
  const StockLayout& one_;
  const StockItem& item_;
  joinery::FlatRect bounds_;
  std::vector<CutStep> steps_;
  int number_;
};

std::vector<DraftPage> summaryPages(const LayoutJob& job, const std::vector<Pattern>& patterns) {
  const SheetFormat& paper = sheetFormats().front();
  const double width =
      PageFlow(makeSheet(paper).drawingSpace(), 1, kTitleBlockHeight, {}).columnWidth();
  TitleBlock title = titleOf(job, "Cutting layouts", "Summary", "L0");
  title.quantity = std::to_string(job.layout.stock.size());
  title.material = "see materials";
  return flowPages("00-summary", paper, 1, {}, summaryTables(job, patterns, width), title);
}

}  // namespace

Result<std::vector<NamedSheet>> layoutSheets(const LayoutJob& job,
                                             const joinery::Progress& progress) {
  const std::vector<Pattern> patterns = patternsOf(job);
  std::vector<DraftPage> pages = summaryPages(job, patterns);
  for (std::size_t i = 0; i < patterns.size(); ++i) {
    if (progress && !progress(static_cast<int>(i), static_cast<int>(patterns.size()))) {
      return fail(ErrorCode::cancelled, "stopped", "layouts");
    }
    auto drawn = PatternDrawer(job, patterns[i], static_cast<int>(i) + 1).draw();
    if (drawn.empty()) {
      return fail(ErrorCode::badStock, "is too large to be drawn",
                  job.itemOf(job.layout.stock[patterns[i].copies.front()]).name);
    }
    for (DraftPage& page : drawn) pages.push_back(std::move(page));
  }
  finishPages(pages);
  std::vector<NamedSheet> sheets;
  sheets.reserve(pages.size());
  for (DraftPage& page : pages) sheets.push_back({page.name, std::move(page.sheet)});
  return sheets;
}

}  // namespace dryfit::exporting
