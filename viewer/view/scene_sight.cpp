// How the scene shows its parts: off their places, seen through.

#include <algorithm>

#include "viewer/view/part_shapes.h"
#include "viewer/view/scene.h"

namespace dryfit::viewer {

kernel::Vec3 Scene::offsetOf(std::size_t index) const {
  return index < offsets_.size() ? offsets_[index] : kernel::Vec3{};
}

gp_Trsf Scene::placeOf(std::size_t index) const {
  const kernel::Vec3 by = offsetOf(index);
  gp_Trsf off;
  off.SetTranslation(gp_Vec(by.x, by.y, by.z));
  return off * assembled_->shapes->parts[index].place;
}

void Scene::standOff(std::vector<kernel::Vec3> offsets) {
  if (!assembled_) return;
  offsets_ = std::move(offsets);
  for (std::size_t i = 0; i < parts_.size(); ++i) {
    context_->SetLocation(parts_[i], TopLoc_Location(placeOf(i)));
  }
  bounds_ = boxRound();
  outlineChosen();
  pointToNothing();
}

Bnd_Box Scene::boxRound() const {
  Bnd_Box box;
  for (std::size_t i = 0; i < assembled_->fit->solids.size(); ++i) {
    kernel::Box3 one = assembled_->fit->placed(joinery::PartId(i)).bounds();
    one.min = one.min + offsetOf(i);
    one.max = one.max + offsetOf(i);
    box.Add(bndOf(one, 0));
  }
  return box;
}

void Scene::seeThrough(const std::vector<joinery::PartId>& parts) {
  seeThrough_.assign(parts_.size(), false);
  for (const joinery::PartId id : parts) {
    if (id.index() < seeThrough_.size()) seeThrough_[id.index()] = true;
  }
  applyGlass();
}

void Scene::applyGlass() {
  for (std::size_t i = 0; i < parts_.size(); ++i) {
    const bool glass = aside_[i] || (i < seeThrough_.size() && seeThrough_[i]);
    if (glass_[i] != glass) setGlass(i, glass);
  }
}

}  // namespace dryfit::viewer
