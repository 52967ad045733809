#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "joinery/piece/finding.h"
#include "joinery/piece/piece.h"
#include "joinery/trade/shop_measures.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// A role a part plays in a joint.
struct Role {
  std::string_view name;  ///< key in the model file: "tenon", "mortise"
  bool many = false;      ///< takes a list of parts (the members of a frame)
};

/// A number or word that an author may set.
struct Parameter {
  enum class Type { length, number, word };
  std::string_view name;
  Type type = Type::length;
  std::string_view meaning;
  std::vector<std::string_view> words;  ///< allowed, for Type::word
};

/// A part in its role, as a joint finds it.
struct Mate {
  PlacedPart part;               ///< the bare blank: no features
  std::string name;              ///< in the model, for errors
  std::vector<Feature> grooves;  ///< that panels make in it, in its own frame, in the model's order
  friend bool operator==(const Mate&, const Mate&) = default;
};

/// All that a kind can read to cut one joint, as a value. What is remembered of a joint is looked
/// up by this, so that a kind reads nothing that the memory does not compare.
struct JointContext {
  JointId joint;
  std::vector<std::vector<Mate>> roles;  ///< in the order of the kind's roles, none of them empty
  std::vector<JointValue> numbers;       ///< that the joint's author gave
  std::vector<std::pair<std::string, std::string>> words;
  ShopMeasures shop;  ///< that numbers left to the rules are made to
  friend bool operator==(const JointContext&, const JointContext&) = default;

  [[nodiscard]] JointId id() const { return joint; }
  /// What fills the role with this index, at least one.
  [[nodiscard]] std::span<const Mate> mates(std::size_t role) const { return roles[role]; }
  /// The first of them.
  [[nodiscard]] const PlacedPart& mate(std::size_t role) const { return roles[role].front().part; }
  /// The grooves that panels make in the first of them, so that tenons keep clear of them or stand
  /// in line with them. None of a panel joint that cannot be cut: it reports its own error.
  [[nodiscard]] std::span<const Feature> groovesIn(std::size_t role) const {
    return roles[role].front().grooves;
  }
  /// The author's value, in mm or as a plain number; none where left to the rules.
  [[nodiscard]] std::optional<double> given(std::string_view name) const;
  [[nodiscard]] std::optional<std::string_view> word(std::string_view name) const;
};

/// What a joint does: features for all its mates, and its numbers.
struct JointCut {
  PlacedJoint joint;
  std::vector<Feature> features;
};

/// One kind of joint. Stateless; a new kind is one file in joints/kinds/ and one row in
/// joint_kinds.cpp.
class JointKind {
 public:
  virtual ~JointKind() = default;
  [[nodiscard]] virtual std::string_view name() const = 0;  ///< in the model file
  [[nodiscard]] virtual std::span<const Role> roles() const = 0;
  [[nodiscard]] virtual std::span<const Parameter> parameters() const = 0;
  /// True for a panel's joint, which is cut before the others and shows them the grooves that it
  /// makes in its mates. It is shown none itself. DEFAULT: false.
  [[nodiscard]] virtual bool leadsOthers() const { return false; }
  /// Both halves, from one set of numbers. Errors: those for which isJointError is true.
  [[nodiscard]] virtual Result<JointCut> cut(const JointContext& context) const = 0;
  /// What only this kind can know to be wrong with it. DEFAULT: nothing.
  virtual void check(const Piece& piece, const PlacedJoint& joint,
                     std::vector<Finding>& findings) const;
};

}  // namespace dryfit::joinery
