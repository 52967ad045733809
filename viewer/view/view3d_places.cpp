// Faces, edges and corners in the view: pointed at by mouse, walked by keys, taken.

#include <SelectMgr_ViewerSelector.hxx>
#include <algorithm>

#include "joinery/piece/joint_at.h"
#include "viewer/view/view3d.h"
#include "viewer/view/view3d_impl.h"

namespace dryfit::viewer {

using joinery::PlaceOnPart;

joinery::PlaceKind View3d::placeKind() const {
  return pointing_ == Pointing::edges     ? joinery::PlaceKind::edge
         : pointing_ == Pointing::corners ? joinery::PlaceKind::corner
                                          : joinery::PlaceKind::face;
}

void View3d::setPointing(Pointing pointing) {
  if (pointing_ == pointing) return;
  pointing_ = pointing;
  crossing_.clear();
  if (impl_->ready()) {
    impl_->scene->pointToNothing();
    Q_EMIT partPointedAt(std::nullopt);
  }
  pointAtPlace(std::nullopt);
  if (pointing == Pointing::parts) takePlaces({});
  drawPointed();
}

std::optional<PlaceOnPart> View3d::placeUnder(QPoint at) {
  const auto shown = impl_->scene->shown();
  const Handle(AIS_InteractiveContext)& context = impl_->scene->context();
  impl_->scene->pointTo(impl_->view, at.x(), at.y());
  const auto part = impl_->scene->pointedAt();
  if (!part || !shown || context->MainSelector()->NbPicked() < 1) return std::nullopt;
  const SelectMgr_SortCriterion& hit = context->MainSelector()->PickedData(1);
  kernel::Vec3 outward{hit.Normal.x(), hit.Normal.y(), hit.Normal.z()};
  const gp_Dir away = impl_->view->Camera()->Direction();
  if (outward.dot({away.X(), away.Y(), away.Z()}) > 0) outward = -outward;
  return joinery::placeAt(shown->fit->piece, *part, {hit.Point.X(), hit.Point.Y(), hit.Point.Z()},
                          outward, placeKind());
}

int View3d::lightJoint(std::optional<joinery::JointId> joint) {
  const auto shown = impl_->scene ? impl_->scene->shown() : nullptr;
  if (!shown) return 0;
  if (opened_ > 0 || (joint && joint->index() >= shown->fit->piece.joints.size())) joint.reset();
  const int lit = impl_->scene->lights().showJoint(*shown, joint);
  drawPointed();
  return lit;
}

std::optional<joinery::JointId> View3d::jointUnder(QPoint at) {
  const auto shown = impl_->scene ? impl_->scene->shown() : nullptr;
  if (!shown || !impl_->ready()) return std::nullopt;
  const Handle(AIS_InteractiveContext)& context = impl_->scene->context();
  impl_->scene->pointTo(impl_->view, at.x(), at.y());
  const auto part = impl_->scene->pointedAt();
  if (!part || context->MainSelector()->NbPicked() < 1) return std::nullopt;
  const gp_Pnt hit = context->MainSelector()->PickedData(1).Point;
  const kernel::Point3 seen{hit.X(), hit.Y(), hit.Z()};
  return joinery::jointAt(shown->fit->piece, *part, seen - offsetOf(*part));
}

void View3d::lightPlaces() {
  const auto shown = impl_->scene ? impl_->scene->shown() : nullptr;
  if (!shown) return;
  impl_->scene->lights().show(shown->fit->piece, pointed_, taken_);
  drawPointed();
}

void View3d::pointAtPlace(const std::optional<PlaceOnPart>& place) {
  // Places are told by where they are when all is together.
  if (pointed_ == place || (place && opened_ > 0)) return;
  pointed_ = place;
  // Light and ghost change together, in one drawing: it takes longer than all else.
  gathers_ = true;
  lightPlaces();
  Q_EMIT placePointedAt(place);
  gathers_ = false;
  drawPointed();
}

void View3d::takePlaces(const std::vector<PlaceOnPart>& places) {
  if (taken_.empty() && places.empty()) return;  // a face taken again is told again
  taken_ = places;
  lightPlaces();
  Q_EMIT placesTaken(places);
}

void View3d::takePointed(bool beside) {
  std::vector<PlaceOnPart> places;
  if (beside) places = taken_;
  if (pointed_) {
    const auto had = std::ranges::find(places, *pointed_);
    if (had == places.end()) {
      places.push_back(*pointed_);
    } else {
      places.erase(had);
    }
  }
  takePlaces(places);
}

void View3d::walk(int steps) {
  const auto shown = impl_->scene ? impl_->scene->shown() : nullptr;
  if (!shown || shown->fit->piece.parts.empty()) return;
  crossing_.clear();
  const auto chosen = impl_->scene->chosen();
  const joinery::PartId part = pointed_          ? pointed_->part
                               : !chosen.empty() ? chosen.front()
                                                 : joinery::PartId(0);
  const auto places = joinery::placesOf(part, placeKind());
  const auto now = pointed_ ? std::ranges::find(places, *pointed_) : places.end();
  const auto count = static_cast<int>(places.size());
  // The first step of all lights the first place, or from the other end the last.
  const int from = now == places.end() ? (steps > 0 ? -1 : 0) : int(now - places.begin());
  pointAtPlace(places[static_cast<std::size_t>(((from + steps) % count + count) % count)]);
}

bool View3d::cross() {
  const auto shown = impl_->scene ? impl_->scene->shown() : nullptr;
  if (!shown || !pointed_) return false;
  if (crossing_.empty() || crossing_[crossed_] != *pointed_) {
    crossing_ = joinery::touching(shown->fit->piece, *pointed_);
    const auto unseen = impl_->scene->hidden();
    std::erase_if(crossing_, [&](const PlaceOnPart& place) {
      return std::ranges::find(unseen, place.part) != unseen.end();
    });
    crossing_.push_back(*pointed_);
    crossed_ = crossing_.size() - 1;
  }
  if (crossing_.size() == 1) {
    crossing_.clear();
    return false;
  }
  crossed_ = (crossed_ + 1) % crossing_.size();
  pointAtPlace(crossing_[crossed_]);
  return true;
}

void View3d::walkToNextPart() {
  const auto shown = impl_->scene ? impl_->scene->shown() : nullptr;
  if (!shown || shown->fit->piece.parts.empty()) return;
  if (!pointed_) return walk(1);
  crossing_.clear();
  const auto unseen = impl_->scene->hidden();
  const std::size_t count = shown->fit->piece.parts.size();
  PlaceOnPart next = *pointed_;
  do {
    next.part = joinery::PartId((next.part.index() + 1) % count);
  } while (next.part != pointed_->part && std::ranges::find(unseen, next.part) != unseen.end());
  pointAtPlace(next);
}

void View3d::showGhost(const std::optional<kernel::Box3>& box) {
  if (!impl_->scene) return;
  impl_->scene->lights().showGhost(box);
  drawPointed();
}

void View3d::grab(QPoint at) {
  grabbed_.reset();
  if (pointing_ != Pointing::faces || taken_.empty()) return;
  const auto place = placeUnder(at);
  if (place && std::ranges::find(taken_, *place) != taken_.end()) grabbed_ = place;
}

double View3d::along(const PlaceOnPart& face, QPoint pixels) const {
  const auto shown = impl_->scene->shown();
  if (!shown) return 0;
  kernel::Vec3 middle{};
  const auto corners = joinery::outlineOf(shown->fit->piece, face);
  for (const kernel::Point3& corner : corners) {
    middle = middle + (corner - kernel::Point3{}) * (1.0 / static_cast<double>(corners.size()));
  }
  constexpr double kStep = 100;  // mm, to see which way the face looks in the picture
  const kernel::Vec3 further = middle + joinery::outwardOf(shown->fit->piece, face) * kStep;
  Standard_Integer x0 = 0, y0 = 0, x1 = 0, y1 = 0;
  impl_->view->Convert(middle.x, middle.y, middle.z, x0, y0);
  impl_->view->Convert(further.x, further.y, further.z, x1, y1);
  const double dx = x1 - x0, dy = y1 - y0;
  constexpr double kLeast = 16;  // square pixels: a face that is seen head on cannot be dragged
  if (dx * dx + dy * dy < kLeast) return 0;
  return (pixels.x() * dx + pixels.y() * dy) / (dx * dx + dy * dy) * kStep;
}

void View3d::forgetLostPlaces(const Assembled* before) {
  const auto now = impl_->scene->shown();
  const auto named = [](const Assembled& one, joinery::PartId part) {
    const auto& parts = one.fit->piece.model.parts;
    return part.index() < parts.size() ? parts[part.index()].name : std::string();
  };
  const auto lost = [&](const PlaceOnPart& place) {
    return before == nullptr || !now || named(*before, place.part) != named(*now, place.part);
  };
  crossing_.clear();
  if (pointed_ && lost(*pointed_)) {
    pointed_.reset();
    Q_EMIT placePointedAt(pointed_);
  }
  if (grabbed_ && lost(*grabbed_)) grabbed_.reset();
  if (std::erase_if(taken_, lost) > 0) Q_EMIT placesTaken(taken_);
  lightPlaces();
}

}  // namespace dryfit::viewer
