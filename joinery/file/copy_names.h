#pragma once

#include <map>
#include <string>
#include <vector>

#include "joinery/file/copies.h"
#include "joinery/file/flat_document.h"

namespace dryfit::joinery {

/// What the names of a document stand for once it is unfolded. Reads the flat document, which must
/// outlive it.
class CopyNames {
 public:
  explicit CopyNames(const FlatDocument& flat) : flat_(flat) {}

  /// How often a part is there; to be filled as parts are unfolded.
  [[nodiscard]] Copies& ofPart(const std::string& part) { return copies_[part]; }
  /// The names that a name of the author stands for: of what is repeated all copies, of a use that
  /// is repeated those in all its copies. None of what is left out.
  [[nodiscard]] std::vector<std::string> standsFor(const std::string& name) const;
  /// True where a name stands for numbered copies.
  [[nodiscard]] bool isRepeated(const std::string& name) const;
  /// True for what a condition or a count leaves out: a part or a use, a copy beyond the count of
  /// either, or what stands in one.
  [[nodiscard]] bool isLeftOut(const std::string& name) const;

 private:
  [[nodiscard]] Copies copiesOf(const std::string& part) const;
  [[nodiscard]] bool isLeftOutItself(const std::string& name) const;
  /// What one step of a name stands for, behind what the steps before it do.
  [[nodiscard]] std::vector<std::string> step(const std::string& whole, bool last) const;

  const FlatDocument& flat_;
  std::map<std::string, Copies> copies_;
};

}  // namespace dryfit::joinery
