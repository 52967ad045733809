#include "tests/support/joint_bench.h"

#include "joinery/joints/evaluate.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "joinery/file/model_file.h"
#include "kernel/recipe.h"

namespace dryfit::test {
namespace {

using nlohmann::ordered_json;

ordered_json spanText(const SpanOf& span) {
  return {{"along", span.along}, {"from", span.from}, {"size", span.size}};
}

ordered_json turnText(const std::string& axis, std::array<double, 3> at, double degrees) {
  return {{"about", axis}, {"at", at}, {"angle", degrees}};
}

/// A joint that cannot be cut counts as an error here.
Result<joinery::Piece> evaluated(const ModelText& text) {
  const auto file = joinery::ModelFile::parse(text.json().dump(2), "test");
  if (!file) return tl::unexpected(file.error());
  auto piece = joinery::evaluate(file->model(), joinery::Basis::drawn);
  if (!piece) return piece;
  for (const joinery::PlacedJoint& joint : piece->joints) {
    if (!joint.notCut) continue;
    return tl::unexpected(joint.notCut->within("joints." + piece->joint(joint.id).name));
  }
  return piece;
}

}  // namespace

ModelText::ModelText()
    : json_({{"format", "dryfit-model"},
             {"version", 1},
             {"name", "Test bench"},
             {"unit", "mm"},
             {"materials",
              {{"wood", {{"kind", "solid"}, {"species", "white oak"}, {"thickness", 20}}}}},
             {"groups", {{"all", ordered_json::object()}}},
             {"parts", ordered_json::object()},
             {"joints", ordered_json::object()}}) {}

ModelText& ModelText::part(const std::string& name, const SpanOf& length, const SpanOf& width,
                           const SpanOf& thickness) {
  json_["parts"][name] = {{"material", "wood"},
                          {"group", "all"},
                          {"length", spanText(length)},
                          {"width", spanText(width)},
                          {"thickness", spanText(thickness)}};
  return *this;
}

ModelText& ModelText::joint(const std::string& name, const ordered_json& joint) {
  json_["joints"][name] = joint;
  return *this;
}

ModelText& ModelText::turn(const std::string& part, const std::string& axis,
                           std::array<double, 3> at, double degrees) {
  json_["parts"][part]["turn"] = turnText(axis, at, degrees);
  return *this;
}

ModelText& ModelText::turnAll(const std::string& axis, std::array<double, 3> at, double degrees) {
  json_["groups"]["all"]["turn"] = turnText(axis, at, degrees);
  return *this;
}

ModelText& ModelText::withoutJoints() {
  json_["joints"] = ordered_json::object();
  return *this;
}

joinery::Piece pieceOf(const ModelText& text) {
  auto piece = evaluated(text);
  if (piece) return std::move(*piece);
  ADD_FAILURE() << piece.error().line() << "\n" << text.json().dump(2);
  return {};
}

Error errorOf(const ModelText& text) {
  const auto piece = evaluated(text);
  if (!piece) return piece.error();
  ADD_FAILURE() << "this model was cut without complaint:\n" << text.json().dump(2);
  return {};
}

std::optional<joinery::DryFit> dryFitOf(const ordered_json& model) {
  const auto file = joinery::ModelFile::parse(model.dump(), "test");
  if (!file) {
    ADD_FAILURE() << file.error().line();
    return std::nullopt;
  }
  auto fit = joinery::dryFit(file->model(), joinery::Basis::drawn);
  if (fit) return std::move(*fit);
  ADD_FAILURE() << fit.error().line();
  return std::nullopt;
}

kernel::Solid solidOf(const joinery::PlacedPart& part) {
  auto solid = kernel::buildGeneral(part.recipe());
  if (solid) return *solid;
  ADD_FAILURE() << solid.error().line();
  return *kernel::makeBox({{0, 0, 0}, {1, 1, 1}});
}

const joinery::PlacedPart& partNamed(const joinery::Piece& piece, const std::string& name) {
  static const joinery::PlacedPart none;
  for (const joinery::PlacedPart& part : piece.parts) {
    if (piece.part(part.id).name == name) return part;
  }
  ADD_FAILURE() << "no part " << name;
  return none;
}

double sharedWood(const joinery::Piece& piece, std::string& who) {
  std::vector<kernel::Solid> solids;
  for (const joinery::PlacedPart& part : piece.parts) {
    solids.push_back(solidOf(part).placed(part.frame));
  }
  double shared = 0;
  for (std::size_t i = 0; i < solids.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      const auto overlap = kernel::overlap(solids[i], solids[j]);
      if (!overlap) ADD_FAILURE() << overlap.error().line();
      if (!overlap || overlap->volume == 0) continue;
      shared += overlap->volume;
      who += piece.model.parts[i].name + " and " + piece.model.parts[j].name + " share " +
             std::to_string(overlap->volume) + " mm3\n";
    }
  }
  return shared;
}

double valueOf(const joinery::PlacedJoint& joint, const std::string& name) {
  const auto found = std::ranges::find(joint.values, name, &joinery::JointValue::name);
  if (found != joint.values.end()) return found->value;
  ADD_FAILURE() << "the joint has no number '" << name << "'";
  return 0;
}

const joinery::Feature& featureOf(const joinery::PlacedPart& part, joinery::Purpose purpose) {
  static const joinery::Feature none;
  const auto found = std::ranges::find(part.features, purpose, &joinery::Feature::purpose);
  if (found != part.features.end()) return *found;
  ADD_FAILURE() << "the part has no " << nameOf(purpose);
  return none;
}

}  // namespace dryfit::test
