#pragma once

#include "export/drawing/gutter.h"
#include "export/layout/free_room.h"
#include "export/layout/stock_view.h"

namespace dryfit::exporting {

/// What all rows of one board or sheet share.
struct RowContext {
  const LayoutJob& job;
  const joinery::StockLayout& one;
  const std::vector<CutStep>& steps;
  joinery::FlatRect whole;  ///< bounds of the board or sheet
  double scale = 1;
};

/// The stretch of a board or sheet from `from` to `to` mm from its near end.
class StockRow {
 public:
  StockRow(const RowContext& context, double from, double to);

  /// Draws it and counts its parts; those lettered on another row are only numbered here.
  [[nodiscard]] Ink draw(StockView& counts);

 private:
  struct Callout {
    std::string text;
    Point2 anchor;
  };
  enum class Lettered { name, size, number, outside };

  [[nodiscard]] Point2 paper(double x, double y) const;
  [[nodiscard]] Box2 box(const joinery::FlatRect& rect) const;  ///< clipped to the row
  void drawOutline();
  void drawBreak(double x);
  [[nodiscard]] bool meets(Side side, const joinery::FlatRect& piece) const;
  void drawTrimLine();
  void drawCuts();
  void drawCutNumber(const CutStep& step, const Box2& line);
  void drawDefects();
  void drawParts(StockView& counts);
  void drawGrain(const joinery::PlacedBlank& placed, const Box2& room);
  void drawFaceMark(const joinery::PlacedBlank& placed, const Box2& room);
  [[nodiscard]] Lettered letter(const joinery::PlacedBlank& placed, const Box2& room, bool isHere);
  [[nodiscard]] bool putLines(const std::vector<std::string>& lines, const Box2& room);
  void drawOffcuts();
  void drawCallouts();
  void drawCalloutRow(std::vector<Callout> callouts, bool above);
  void drawScales();
  void drawHead();
  [[nodiscard]] bool isWhole() const;
  [[nodiscard]] bool mainlyHere(const joinery::FlatRect& rect) const;

  const RowContext& c_;
  double from_, to_;
  Box2 view_;
  Ink ink_;
  FreeRoom room_;
  std::vector<Callout> callouts_;
  double above_ = 0, below_ = 0;  ///< how far ink reaches past the view
};

}  // namespace dryfit::exporting
