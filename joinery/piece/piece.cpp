#include "joinery/piece/piece.h"

#include <algorithm>

namespace dryfit::joinery {
namespace {

int axisIndex(Axis axis) {
  return static_cast<int>(axis);
}

/// True when the part's thickness axis runs against the axis of the piece: length, width and
/// thickness taken in that order are then left-handed.
bool thicknessRunsBack(const std::array<Axis, 3>& along) {
  return (axisIndex(along[0]) + 1) % 3 != axisIndex(along[1]);
}

void addStep(kernel::Recipe& recipe, const std::vector<Feature>& features, Stage stage,
             kernel::Step::Kind kind) {
  kernel::Step step{kind, {}};
  for (const Feature& feature : features) {
    if (feature.stage == stage) step.tools.push_back(feature.tool);
  }
  if (!step.tools.empty()) recipe.steps.push_back(std::move(step));
}

}  // namespace

LocalFace PlacedPart::local(Face face) const {
  int axis = 0;
  while (axis < 2 && along[axis] != axisOf(face)) ++axis;
  const bool flipped = axis == 2 && thicknessRunsBack(along);
  return {axis, isFarFace(face) != flipped};
}

Face PlacedPart::named(LocalFace face) const {
  const bool flipped = face.axis == 2 && thicknessRunsBack(along);
  return faceOf(along[face.axis], face.far != flipped);
}

std::span<const Feature> PlacedPart::featuresOf(JointId joint) const {
  const auto from = std::ranges::lower_bound(features, joint, {}, &Feature::joint);
  const auto to = std::ranges::upper_bound(features, joint, {}, &Feature::joint);
  return {from, to};
}

kernel::Box3 PlacedPart::overall() const {
  kernel::Box3 box = blank();
  for (const Feature& feature : features) {
    if (feature.stage == Stage::extend || feature.stage == Stage::insert) {
      box = box.united(feature.extent);
    }
  }
  return box;
}

double PlacedTaper::depthAt(double x, double length) const {
  const double along = narrowFar ? x : length - x;
  return along <= from ? 0 : by * (along - from) / (length - from);
}

kernel::Recipe PlacedPart::recipe() const {
  using Kind = kernel::Step::Kind;
  kernel::Recipe recipe{kernel::Block{blank(), {}}, {}};
  addStep(recipe, features, Stage::extend, Kind::add);
  addStep(recipe, features, Stage::shape, Kind::remove);
  if (!tapers.empty()) {
    // Tapered with the shoulders, before tenons are there to be hurt.
    if (recipe.steps.empty() || recipe.steps.back().kind != Kind::remove) {
      recipe.steps.push_back({Kind::remove, {}});
    }
    for (const PlacedTaper& taper : tapers) recipe.steps.back().tools.push_back(taper.tool);
  }
  addStep(recipe, features, Stage::insert, Kind::add);
  addStep(recipe, features, Stage::cut, Kind::remove);
  return recipe;
}

std::string Piece::label(PartId id) const {
  const Part& p = part(id);
  std::string words = p.label.empty() ? p.name : p.label;
  if (p.label.empty()) std::replace(words.begin(), words.end(), '_', ' ');
  return words;
}

}  // namespace dryfit::joinery
