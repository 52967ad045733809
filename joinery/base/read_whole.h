#pragma once

#include <cstdint>
#include <filesystem>
#include <string>

#include "kernel/result.h"

namespace dryfit::joinery {

/// No file of ours is larger, in bytes.
inline constexpr std::uintmax_t kLargestFile = 20'000'000;

/// All bytes of a file. `kind` names what it should hold: "model". Error: fileNotRead, also where
/// it is larger than kLargestFile.
[[nodiscard]] Result<std::string> readWhole(const std::filesystem::path& path,
                                            const std::string& kind);

}  // namespace dryfit::joinery
