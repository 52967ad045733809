#include "export/step/wood_colour.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <string>

namespace dryfit::exporting {

namespace {

struct WoodColour {
  std::string_view word;
  int red, green, blue;  // sRGB, 0 to 255
};

// The first row whose word is found in the species counts, so the narrower word comes first.
constexpr std::array<WoodColour, 25> kWoods{{
    {"bog oak", 91, 75, 62},     {"red oak", 196, 150, 112},  {"oak", 193, 160, 116},
    {"walnut", 101, 73, 55},     {"cherry", 172, 108, 72},    {"maple", 226, 203, 168},
    {"ash", 218, 198, 164},      {"beech", 209, 168, 131},    {"birch", 224, 199, 160},
    {"pine", 227, 194, 141},     {"spruce", 231, 209, 168},   {"fir", 217, 176, 128},
    {"larch", 200, 148, 102},    {"cedar", 181, 116, 84},     {"mahogany", 137, 77, 56},
    {"sapele", 130, 76, 55},     {"teak", 163, 118, 72},      {"elm", 176, 138, 99},
    {"chestnut", 186, 151, 108}, {"alder", 200, 152, 116},    {"poplar", 206, 200, 158},
    {"lime", 228, 209, 175},     {"basswood", 228, 209, 175}, {"mdf", 176, 152, 124},
    {"hardboard", 118, 88, 64},
}};
constexpr WoodColour kOtherSolid{"", 202, 166, 122};
constexpr WoodColour kOtherSheet{"", 214, 190, 150};

Colour asColour(const WoodColour& wood) {
  return {wood.red / 255.0, wood.green / 255.0, wood.blue / 255.0};
}

}  // namespace

std::optional<Colour> colourOfSpecies(const joinery::Material& material) {
  std::string species = material.species;
  std::transform(species.begin(), species.end(), species.begin(),
                 [](unsigned char c) { return std::tolower(c); });
  for (const WoodColour& wood : kWoods) {
    if (species.find(wood.word) != std::string::npos) return asColour(wood);
  }
  return std::nullopt;
}

Colour colourOf(const joinery::Material& material) {
  if (const auto colour = colourOfSpecies(material)) return *colour;
  return asColour(material.kind == joinery::MaterialKind::sheet ? kOtherSheet : kOtherSolid);
}

Colour colourOfMaterial(const joinery::Model& model, std::string_view name) {
  for (const auto& material : model.materials) {
    if (material.name == name) return colourOf(material);
  }
  return asColour(kOtherSolid);
}

}  // namespace dryfit::exporting
