#pragma once

#include <string>
#include <vector>

#include "joinery/file/model_file.h"

namespace dryfit::joinery {

/// What an author wrote of the piece as a whole under `section` ("brief", "finish") and `key`;
/// empty where nothing stands.
[[nodiscard]] std::string pieceText(const ModelFile& file, const std::string& section,
                                    const std::string& key);
/// Gives it a new entry; an empty text takes it away, and the section with its last. Errors:
/// badModel, badExpression: what cannot stand there; nothing changes then.
[[nodiscard]] Result<void> setPieceText(ModelFile& file, const std::string& section,
                                        const std::string& key, const std::string& text);

/// Bought items as their author wrote them, in order.
[[nodiscard]] std::vector<std::string> hardwareNames(const ModelFile& file);
[[nodiscard]] std::string hardwareText(const ModelFile& file, const std::string& item,
                                       const std::string& key);
/// One of an item, to be changed. Error: badModel (a name that is taken or none).
[[nodiscard]] Result<void> addHardware(ModelFile& file, const std::string& item);
/// "count", "price" or "note" of an item. Errors: unknownName, badModel, badExpression.
[[nodiscard]] Result<void> setHardware(ModelFile& file, const std::string& item,
                                       const std::string& key, const std::string& text);
/// Error: unknownName.
[[nodiscard]] Result<void> eraseHardware(ModelFile& file, const std::string& item);

}  // namespace dryfit::joinery
