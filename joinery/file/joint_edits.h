#pragma once

#include <string>
#include <vector>

#include "joinery/file/model_file.h"

namespace dryfit::joinery {

// A joint changed in place. A joint of copies, or one in a sub-assembly, is written once: what is
// read and set here is what its author wrote, the same for all that are made of it; of a mirror
// image, what was written for its original. On error nothing changes.

/// What a joint's author wrote under `key`: a number of its kind, a word, "when" or "note"; empty
/// where it is left to the rule.
[[nodiscard]] std::string jointText(const ModelFile& file, const std::string& joint,
                                    const std::string& key);
/// Gives it a new entry; an empty text takes it away. Errors: unknownName, badModel, badExpression.
[[nodiscard]] Result<void> setJointText(ModelFile& file, const std::string& joint,
                                        const std::string& key, const std::string& text);

/// Makes a joint one of another kind. Its mates keep their order in the roles of the new kind;
/// numbers and words that the new kind has stay, the names of the others are returned. Errors:
/// unknownName; badModel (roles that do not fit).
[[nodiscard]] Result<std::vector<std::string>> setJointKind(ModelFile& file,
                                                            const std::string& joint,
                                                            const std::string& kind);

/// Calls a joint something else, wherever it is named. Errors: unknownName, badModel (a name that
/// is taken or none).
[[nodiscard]] Result<void> renameJoint(ModelFile& file, const std::string& joint,
                                       const std::string& name);

/// True where either mate could take the other's role.
[[nodiscard]] bool canSwapMates(const ModelFile& file, const std::string& joint);
/// Lets the two mates change roles. Errors: unknownName; roleUnfit (roles that differ in how many
/// parts they take).
[[nodiscard]] Result<void> swapMates(ModelFile& file, const std::string& joint);

}  // namespace dryfit::joinery
