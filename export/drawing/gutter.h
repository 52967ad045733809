#pragma once

#include <string>
#include <vector>

#include "export/drawing/sheet.h"

namespace dryfit::exporting {

/// A side of a view. Along it, places are paper coordinates (x at the top and bottom, y at the
/// left and right); away from it they count outward.
enum class Side { top, bottom, left, right };

/// A dimension between two places along a side.
struct SpanDimension {
  double from = 0, to = 0;
  std::string text;
  double insetFrom = 0, insetTo = 0;  ///< how far inside the side each extension line may begin
};

/// One value of a running dimension (ISO 129-1, superimposed running dimensioning).
struct RunningValue {
  double at = 0;
  std::string text;
  double inset = 0;
};

/// The strip along one side of a view that holds its dimensions. Shorter ones lie nearer to the
/// view. No text meets another, be it of this strip or in the ink before it, nor a line of its own
/// strip where that can be avoided.
class Gutter {
 public:
  Gutter(Side side, const Box2& view) : side_(side), view_(view) {}

  /// A dimension that says the same as an earlier one is left out.
  void add(SpanDimension span);
  /// Running values are counted from `origin`. Only for the top and the bottom.
  void setOrigin(double origin) { origin_ = origin; }
  void add(RunningValue value);
  /// How far from the side the first line lies. DEFAULT: 8 mm
  void startAt(double distance) { start_ = distance; }

  [[nodiscard]] bool empty() const { return spans_.empty() && running_.empty(); }
  void draw(Ink& ink) const;

 private:
  struct Placed;
  [[nodiscard]] double drawRunning(Ink& ink) const;
  void drawSpan(Ink& ink, const Placed& placed) const;
  [[nodiscard]] std::vector<double> fixedLines() const;
  [[nodiscard]] std::vector<double> runningPlaces(const std::vector<RunningValue>& sorted) const;
  [[nodiscard]] std::vector<Placed> placeSpans(double start, const std::vector<Box2>& texts) const;
  [[nodiscard]] Text textOf(const Placed& placed) const;
  [[nodiscard]] bool horizontal() const { return side_ == Side::top || side_ == Side::bottom; }
  [[nodiscard]] Point2 at(double along, double away) const;

  Side side_;
  Box2 view_;
  double origin_ = 0;
  double start_ = 8;
  std::vector<SpanDimension> spans_;
  std::vector<RunningValue> running_;
};

}  // namespace dryfit::exporting
