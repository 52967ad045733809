#pragma once

#include "joinery/base/atomic_write.h"

namespace dryfit::exporting {

/// Files go out the way models are saved: see joinery::writeAtomically.
[[nodiscard]] inline Result<void> writeFileAtomically(const std::filesystem::path& path,
                                                      std::string_view bytes) {
  return joinery::writeAtomically(path, bytes);
}

}  // namespace dryfit::exporting
