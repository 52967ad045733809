#pragma once

#include <map>
#include <memory>
#include <string>

#include "joinery/file/json_document.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// The files of sub-assemblies that a model names, as they were read: by the name that the model
/// gives.
using AssemblyFiles = std::map<std::string, JsonNode>;

struct AssemblyTable;

/// A sub-assembly as it is described: once, to stand in the piece any number of times.
struct AssemblyDescription {
  const JsonNode* node = nullptr;
  std::string place;                    ///< where its author wrote it
  const AssemblyTable* home = nullptr;  ///< the descriptions that its own uses may name
};

/// The descriptions of one document by their names. Reads the document and the files, which must
/// outlive it.
struct AssemblyTable {
  std::map<std::string, AssemblyDescription> all;
  std::map<std::string, AssemblyTable> files;  ///< of the files' own sub-assemblies

  /// Finds and checks all descriptions: keys, names, and that none stands in itself. Errors:
  /// badModel, cycle.
  [[nodiscard]] static Result<std::unique_ptr<const AssemblyTable>> of(const JsonNode& document,
                                                                       const AssemblyFiles& files);
};

/// Checks the form of a document's `uses`. Error: badModel.
[[nodiscard]] Result<void> checkUses(const JsonNode& document);

/// Checks the names that an author gave: a dot stands only in the names of copies. Error: badModel.
[[nodiscard]] Result<void> checkAuthoredNames(const JsonNode& document);

/// A file of a sub-assembly, from its text. `unit` is that of the piece. Error: badModel.
[[nodiscard]] Result<JsonNode> parseAssemblyFile(const std::string& text, const std::string& unit);

}  // namespace dryfit::joinery
