#pragma once

#include <map>
#include <string>
#include <vector>

#include "joinery/file/part_edits.h"

namespace dryfit::joinery {

/// Edits of several parts at once: all of them are done, or none. Copies of one repeated part are
/// written once, and so changed once.

/// Makes all of them of one material. Errors: unknownName, badModel.
[[nodiscard]] Result<void> setMaterialOf(ModelFile& file, const std::vector<std::string>& parts,
                                         const std::string& material);
/// Puts them into a group, which is made where it is not there; an empty name takes them out of
/// theirs. Errors: unknownName, badModel (a name that is none).
[[nodiscard]] Result<void> putIntoGroup(ModelFile& file, const std::vector<std::string>& parts,
                                        const std::string& group);
/// What hangs on any of them and is not one of them. Errors: as hangingOn.
[[nodiscard]] Result<HangsOn> hangingOnAll(const ModelFile& file,
                                           const std::vector<std::string>& parts);
/// Takes them all out; as erasePart does. Errors: the same.
[[nodiscard]] Result<void> eraseParts(ModelFile& file, const std::vector<std::string>& parts,
                                      const std::map<std::string, double>& values);

}  // namespace dryfit::joinery
