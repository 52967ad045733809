#pragma once

#include <gtest/gtest.h>

#include <filesystem>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include "joinery/file/model_file.h"

namespace dryfit::test {

/// The demo pieces that are meant to fit. The piece of mistakes is not among them.
inline const std::vector<std::string>& soundPieces() {
  static const std::vector<std::string> names{"periodicals-cupboard", "reading-table", "step-stool",
                                              "wall-rack", "chart-chest"};
  return names;
}

/// A demo piece by name. A piece that cannot be read fails the test and ends it.
inline joinery::ModelFile demoPiece(const std::string& name) {
  auto file = joinery::ModelFile::load(std::filesystem::path(DRYFIT_MODELS) / (name + ".dryfit"));
  if (!file) throw std::runtime_error(file.error().line());
  return std::move(*file);
}

}  // namespace dryfit::test
