#pragma once

#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "joinery/fit/dry_fit.h"
#include "joinery/piece/piece.h"
#include "kernel/solid.h"

namespace dryfit::test {

/// One span of a part: axis, where it begins, how long it is (numbers or expressions).
struct SpanOf {
  std::string along;
  nlohmann::ordered_json from, size;
};

/// A model being put together for a test, as its file would state it.
class ModelText {
 public:
  ModelText();
  /// A solid part of a material of its own, in the group "all".
  ModelText& part(const std::string& name, const SpanOf& length, const SpanOf& width,
                  const SpanOf& thickness);
  ModelText& joint(const std::string& name, const nlohmann::ordered_json& joint);
  /// Turns one part about an axis of the piece through a point.
  ModelText& turn(const std::string& part, const std::string& axis, std::array<double, 3> at,
                  double degrees);
  /// Turns all parts together.
  ModelText& turnAll(const std::string& axis, std::array<double, 3> at, double degrees);
  ModelText& withoutJoints();
  [[nodiscard]] const nlohmann::ordered_json& json() const { return json_; }

 private:
  nlohmann::ordered_json json_;
};

/// The piece with every joint cut. Fails the running test, naming the error, when it cannot be.
[[nodiscard]] joinery::Piece pieceOf(const ModelText& text);
/// The error of a model that must not be cut; fails the running test when it can be.
[[nodiscard]] Error errorOf(const ModelText& text);

/// A part's solid by general Boolean operations, in its own frame.
[[nodiscard]] kernel::Solid solidOf(const joinery::PlacedPart& part);
[[nodiscard]] const joinery::PlacedPart& partNamed(const joinery::Piece& piece,
                                                   const std::string& name);
/// Wood shared by all pairs of parts, mm³; the pairs are named in `who`.
[[nodiscard]] double sharedWood(const joinery::Piece& piece, std::string& who);

/// The joint's number of this name; fails the running test where there is none.
[[nodiscard]] double valueOf(const joinery::PlacedJoint& joint, const std::string& name);
/// The first feature of a part with this purpose.
[[nodiscard]] const joinery::Feature& featureOf(const joinery::PlacedPart& part,
                                                joinery::Purpose purpose);

/// The dry fit of a model as drawn. Fails the test, and gives none, where it cannot be read or
/// worked out.
[[nodiscard]] std::optional<joinery::DryFit> dryFitOf(const nlohmann::ordered_json& model);

}  // namespace dryfit::test
