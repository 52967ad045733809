#include "joinery/joints/rule_value.h"

#include <algorithm>
#include <string>

#include "joinery/joints/joint_table.h"

namespace dryfit::joinery {

std::optional<JointValue> valueByRule(const Piece& piece, JointId joint,
                                      std::string_view parameter) {
  std::string words(parameter);
  std::ranges::replace(words, '_', ' ');
  const auto among = [&](const PlacedJoint& placed) -> std::optional<JointValue> {
    const auto own = std::ranges::find(placed.values, words, &JointValue::name);
    if (own == placed.values.end() || own->given) return std::nullopt;
    return *own;
  };
  const auto& given = piece.joint(joint).parameters;
  const bool written =
      std::ranges::any_of(given, [&](const auto& one) { return one.first == parameter; });
  if (!written) return among(piece.joints[joint.index()]);
  auto record = jointRecord(piece, joint);
  if (!record) return std::nullopt;
  std::erase_if(record->context.numbers,
                [&](const JointValue& value) { return value.name == parameter; });
  const auto cut = record->kind->cut(record->context);
  return cut ? among(cut->joint) : std::nullopt;
}

}  // namespace dryfit::joinery
