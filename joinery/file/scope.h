#pragma once

#include <map>
#include <set>
#include <string>
#include <string_view>

#include "joinery/file/json_document.h"
#include "joinery/file/mirrored.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// What the names in one copy of a sub-assembly stand for in the piece.
class Scope {
 public:
  /// `prefix` is the copy's name and a dot. Own names, neighbours and materials as the description
  /// and the use say; coordinates of parts are told as the description would have them.
  Scope(std::string prefix, const JsonNode& description, const JsonNode& use,
        const MirrorPlacing& placing);

  /// A name of a part, group or joint mate.
  [[nodiscard]] std::string partName(std::string_view name) const;
  [[nodiscard]] std::string materialName(const std::string& name) const;
  /// An expression or condition in the names of the piece.
  [[nodiscard]] std::string expression(const std::string& text) const;
  /// The same of a node that is a number or text; others are left alone.
  void rewrite(JsonNode* node) const;
  [[nodiscard]] const MirrorPlacing& placing() const { return placing_; }
  [[nodiscard]] const std::string& prefix() const { return prefix_; }
  /// True for a name of its own: a dimension, part or use, or a copy of one.
  [[nodiscard]] bool isOwn(std::string_view first) const;

 private:
  [[nodiscard]] std::string word(std::string_view name) const;
  /// The face `FACE` of a part of the piece, as a coordinate of the description.
  [[nodiscard]] std::string reflected(const std::string& name) const;

  std::string prefix_;
  MirrorPlacing placing_;
  std::set<std::string, std::less<>> own_;
  std::map<std::string, std::string, std::less<>> neighbours_, materials_;
};

}  // namespace dryfit::joinery
