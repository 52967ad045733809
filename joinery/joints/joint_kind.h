#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "joinery/piece/finding.h"
#include "joinery/piece/piece.h"
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

class JointTable;

/// The mates and numbers a kind works from. Lives as long as the piece and the table it came from.
class JointContext {
 public:
  JointContext(const Piece& piece, JointId joint, std::vector<std::vector<PartId>> mates,
               std::vector<JointValue> given,
               std::vector<std::pair<std::string, std::string>> words,
               const JointTable* table = nullptr);

  [[nodiscard]] const Piece& piece() const { return *piece_; }
  [[nodiscard]] JointId id() const { return joint_; }
  /// Parts that fill the role with this index, at least one.
  [[nodiscard]] std::span<const PartId> mates(std::size_t role) const { return mates_[role]; }
  [[nodiscard]] const PlacedPart& mate(std::size_t role) const {
    return piece_->parts[mates_[role].front().index()];
  }
  /// The author's value, in mm or as a plain number; none where left to the rules.
  [[nodiscard]] std::optional<double> given(std::string_view name) const;
  [[nodiscard]] std::optional<std::string_view> word(std::string_view name) const;
  /// Everything the joint's author wrote, and the parts by role.
  [[nodiscard]] const std::vector<JointValue>& given() const { return given_; }
  [[nodiscard]] const std::vector<std::pair<std::string, std::string>>& words() const {
    return words_;
  }
  [[nodiscard]] const std::vector<std::vector<PartId>>& roles() const { return mates_; }
  /// All joints of the piece, so that a joint can keep clear of its neighbours; may be null.
  [[nodiscard]] const JointTable* table() const { return table_; }

 private:
  const Piece* piece_;
  JointId joint_;
  std::vector<std::vector<PartId>> mates_;
  std::vector<JointValue> given_;
  std::vector<std::pair<std::string, std::string>> words_;
  const JointTable* table_;
};

/// What a joint does: features for all its mates, and its numbers.
struct JointCut {
  PlacedJoint joint;
  std::vector<Feature> features;
};

/// One kind of joint. Stateless; a new kind is one file in joints/ and one row in joint_kinds.cpp.
class JointKind {
 public:
  virtual ~JointKind() = default;
  [[nodiscard]] virtual std::string_view name() const = 0;  ///< in the model file
  [[nodiscard]] virtual std::span<const Role> roles() const = 0;
  [[nodiscard]] virtual std::span<const Parameter> parameters() const = 0;
  /// Both halves, from one set of numbers. Error: badJoint (mates that cannot meet, sizes that
  /// leave no wood).
  [[nodiscard]] virtual Result<JointCut> cut(const JointContext& context) const = 0;
  /// What only this kind can know to be wrong with it. DEFAULT: nothing.
  virtual void check(const Piece& piece, const PlacedJoint& joint,
                     std::vector<Finding>& findings) const;
};

}  // namespace dryfit::joinery
