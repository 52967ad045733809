#pragma once

#include <optional>
#include <string_view>

#include "joinery/model/model.h"

namespace dryfit::exporting {

/// A colour on the screen: sRGB components from 0 to 1.
struct Colour {
  double red = 0, green = 0, blue = 0;
  friend bool operator==(const Colour&, const Colour&) = default;
};

/// The colour of the planed face, by a word of the material's species; none where no word is known.
[[nodiscard]] std::optional<Colour> colourOfSpecies(const joinery::Material& material);

/// The colour in which a material is shown: by a word of its species, else by its kind. Freely
/// chosen to be told apart on a screen; real boards vary.
[[nodiscard]] Colour colourOf(const joinery::Material& material);

/// The colour of the material with this name; that of unknown solid timber where there is none.
[[nodiscard]] Colour colourOfMaterial(const joinery::Model& model, std::string_view name);

}  // namespace dryfit::exporting
