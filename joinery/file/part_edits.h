#pragma once

#include <map>
#include <string>
#include <utility>
#include <vector>

#include "joinery/file/model_file.h"

namespace dryfit::joinery {

/// One span of a part to be made: two of from, to, size and centre; the thickness may have one.
struct NewSpan {
  std::string along;  ///< "x", "y" or "z"
  std::string from, to, size, centre;
};

/// A part to be made.
struct NewPart {
  std::string name, material;
  NewSpan length, width, thickness;
};

/// A joint to be made: its kind, its parts by role, and what its author gives of its numbers.
struct NewJoint {
  std::string name, kind;
  std::vector<std::pair<std::string, std::vector<std::string>>> roles;
  std::vector<std::pair<std::string, std::string>> numbers = {};
};

/// What names a part, and so hangs on it.
struct HangsOn {
  std::vector<std::string> joints;       ///< that go with it
  std::vector<std::string> expressions;  ///< places: "parts.shelf.length.from"
  std::vector<std::string> records;  ///< places that only lose its name: hardware, tapers, marks
};

/// All edits either leave a model that reads, or change nothing.

/// Adds a part behind the others. Errors: badModel (a name that is taken or none), badExpression,
/// unknownName.
[[nodiscard]] Result<void> addPart(ModelFile& file, const NewPart& part);

/// Adds a joint behind the others. Errors: badModel, unknownName, badExpression.
[[nodiscard]] Result<void> addJoint(ModelFile& file, const NewJoint& joint);
/// Takes a joint out; of a joint of copies, or in a sub-assembly, all of it. Error: unknownName.
[[nodiscard]] Result<void> eraseJoint(ModelFile& file, const std::string& joint);

/// A name that nothing has: "rail", "rail_2", ...
[[nodiscard]] std::string freeName(const ModelFile& file, const std::string& wish);

// A part of a sub-assembly ("drawer_2.front") is changed in its description, once for all copies;
// what names it in the piece and in other descriptions follows.

/// What hangs on a part, as its author named it ("shelf" of "shelf_2"). Error: unknownName (no such
/// part, or one that a file of its own describes).
[[nodiscard]] Result<HangsOn> hangingOn(const ModelFile& file, const std::string& part);
/// Takes a part out with all its copies. Its joints go with it; expressions that name it get the
/// number that stands for it now (`values`, mm), those of its own description what its spans say;
/// lists lose its name. Errors: unknownName; badModel.
[[nodiscard]] Result<void> erasePart(ModelFile& file, const std::string& part,
                                     const std::map<std::string, double>& values);
/// Calls a part something else, wherever it is named. Errors: unknownName, badModel (a
/// name that is taken or none).
[[nodiscard]] Result<void> renamePart(ModelFile& file, const std::string& part,
                                      const std::string& name);

/// How a part is there several times: by a count, spread evenly between two faces or not; or as
/// itself and its mirror image across a plane.
struct NewRepeat {
  std::string count;     ///< an expression; empty where it is mirrored
  std::string along;     ///< "x", "y" or "z": of the spread, or square to the mirror's plane
  std::string from, to;  ///< of a spread; empty without
  std::string plane;     ///< of the mirror
};
/// Repeats a part; of its span along a spread only the size is kept. Without count and
/// plane it stands alone again, the spread's beginning its place. Errors: unknownName, badModel (a
/// size of the part is named elsewhere: which copy is meant?), badExpression, countUnfit.
[[nodiscard]] Result<void> repeatPart(ModelFile& file, const std::string& part,
                                      const NewRepeat& repeat);

/// Gives a part a new entry under `key` ("material", "label", "note", "batch", "match", "grain",
/// "face_side", "face_edge", "group"); an empty text takes it away. Of a copy or in a sub-assembly
/// that is written once for all. Errors: unknownName, badModel.
[[nodiscard]] Result<void> setPartText(ModelFile& file, const std::string& part,
                                       const std::string& key, const std::string& text);
/// What a part's author wrote under `key`, or as its `span`'s `key`; empty where nothing stands.
[[nodiscard]] std::string partText(const ModelFile& file, const std::string& part,
                                   const std::string& key);
[[nodiscard]] std::string spanText(const ModelFile& file, const std::string& part,
                                   const std::string& span, const std::string& key);
/// Gives one number of a part's span ("length", "width", "thickness") a new expression: its "from",
/// "to", "size" or "centre"; an empty text takes it away. Errors: unknownName, badExpression,
/// badModel.
[[nodiscard]] Result<void> setPartSpan(ModelFile& file, const std::string& part,
                                       const std::string& span, const std::string& key,
                                       const std::string& expression);
/// The same for several of them at once.
[[nodiscard]] Result<void> setPartSpan(
    ModelFile& file, const std::string& part, const std::string& span,
    const std::vector<std::pair<std::string, std::string>>& entries);

}  // namespace dryfit::joinery
