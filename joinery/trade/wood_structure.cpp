#include "joinery/trade/wood_structure.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <string>

namespace dryfit::joinery {
namespace {

struct WordOf {
  std::string_view word;
  WoodStructure structure;
};

/// The first word that a species has decides: "plywood" before the wood of its faces.
constexpr std::array kWords{
    WordOf{"ply", WoodStructure::plies},
    WordOf{"fibre", WoodStructure::none},
    WordOf{"mdf", WoodStructure::none},
    WordOf{"chip", WoodStructure::none},
    WordOf{"oak", WoodStructure::ringPorous},
    WordOf{"ash", WoodStructure::ringPorous},
    WordOf{"elm", WoodStructure::ringPorous},
    WordOf{"chestnut", WoodStructure::ringPorous},
    WordOf{"hickory", WoodStructure::ringPorous},
    WordOf{"locust", WoodStructure::ringPorous},
    WordOf{"teak", WoodStructure::ringPorous},
    WordOf{"walnut", WoodStructure::semiRingPorous},
    WordOf{"butternut", WoodStructure::semiRingPorous},
    WordOf{"pine", WoodStructure::conifer},
    WordOf{"spruce", WoodStructure::conifer},
    WordOf{"larch", WoodStructure::conifer},
    WordOf{"fir", WoodStructure::conifer},
    WordOf{"cedar", WoodStructure::conifer},
};

}  // namespace

WoodStructure structureOf(std::string_view species, bool isSheet) {
  std::string small(species);
  std::ranges::transform(small, small.begin(),
                         [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
  for (const auto& [word, structure] : kWords) {
    if (small.find(word) != std::string::npos) return structure;
  }
  return isSheet ? WoodStructure::none : WoodStructure::diffusePorous;
}

}  // namespace dryfit::joinery
