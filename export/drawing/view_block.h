#pragma once

#include <map>
#include <optional>
#include <string>
#include <vector>

#include "export/drawing/gutter.h"
#include "export/drawing/projection.h"

namespace dryfit::exporting {

/// A view on paper with all that belongs to it: dimensions on its four sides, a row of balloons on
/// one side, its name, and marks on the wood. Coordinates: paper mm from where the solid's origin
/// falls.
class ViewBlock {
 public:
  ViewBlock(const Projection& view, double scale, std::optional<Box2> window = std::nullopt);

  /// Box of the drawn outline.
  [[nodiscard]] const Box2& box() const { return box_; }
  [[nodiscard]] double scale() const { return scale_; }
  Gutter& gutter(Side side) { return gutters_.at(side); }

  /// Hatches the wood (sections).
  void hatch() { ink_.add(hatchingOf(*view_, scale_, window_)); }
  void addInk(const Ink& ink) { ink_.add(ink); }

  /// The side on which balloons stand and the name is written. DEFAULT: bottom
  void setBalloonSide(Side side) { balloonSide_ = side; }
  /// An item letter that points at one of `anchors`: the first that is clear of the other items.
  /// Of equal items only those near the balloons' side get one each.
  void addBalloon(const std::string& item, const std::vector<Point2>& anchors);
  void setName(std::string name) { name_ = std::move(name); }

  /// Marks written on the wood, each where it is clear of lines.
  void setFaceSideMark() { faceSideMark_ = true; }
  void setFaceEdgeMark() { faceEdgeMark_ = true; }
  void setGrain(bool across) { grain_ = across ? Grain::across : Grain::along; }

  [[nodiscard]] Ink draw() const;

 private:
  enum class Grain { none, along, across };
  struct Balloon {
    std::string item;
    Point2 anchor;
  };
  struct Reach {
    double low = 0, high = 0;
  };
  [[nodiscard]] double depthOf(const Balloon& b) const;
  [[nodiscard]] std::vector<Balloon> neededBalloons() const;
  [[nodiscard]] std::vector<Balloon> balloonsInOrder() const;
  std::vector<Reach> drawBalloons(Ink& ink) const;
  void drawName(Ink& ink, const std::vector<Reach>& taken) const;
  void drawMarks(Ink& ink) const;
  void drawGrain(Ink& ink) const;

  const Projection* view_;
  double scale_;
  std::optional<Box2> window_;
  Box2 box_;
  Ink ink_;
  std::map<Side, Gutter> gutters_;
  Side balloonSide_ = Side::bottom;
  std::vector<Balloon> balloons_;
  std::string name_;
  bool faceSideMark_ = false, faceEdgeMark_ = false;
  Grain grain_ = Grain::none;
};

/// The middle of a free rectangle of `width` by `height` inside `box`, nearest to `wanted` and if
/// need be over hidden lines; none where the visible lines leave no room.
[[nodiscard]] std::optional<Point2> freeSpot(const Ink& ink, const Box2& box, double width,
                                             double height, Point2 wanted);

}  // namespace dryfit::exporting
