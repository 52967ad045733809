#include "export/words/caution.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <optional>

namespace dryfit::exporting {

namespace {

constexpr std::array<Caution, 4> kCautions{{
    {Hazard::machines,
     "Keep guards on and blades sharp, protect eyes, ears and lungs from chips, noise and dust, "
     "and measure the wood again before each cut. Machine manuals and local codes come first.",
     "common practice"},
    {Hazard::tipOver,
     "Tall piece: fix it to the wall so that it cannot tip over, with a fixing that suits the "
     "wall. Local codes come first.",
     "16 CFR 1261 covers clothing storage units from 27 in (686 mm) tall (from memory)"},
    {Hazard::lid,
     "Lid: fit a stay or support that holds it open in any position and leaves room for fingers. "
     "Local codes for chests and toy boxes come first.",
     "common practice"},
    {Hazard::oilyRags,
     "Rags with drying oil can set themselves alight: spread them flat outdoors to dry or keep "
     "them under water in a closed metal can. The finish maker's sheet comes first.",
     "common practice"},
}};

/// True where `word` stands in `text` as a word of its own, in any case of letters.
bool hasWord(std::string text, std::string_view word) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](unsigned char c) { return std::isalpha(c) ? std::tolower(c) : ' '; });
  return (" " + text + " ").find(" " + std::string(word) + " ") != std::string::npos;
}

double heightOf(const joinery::Piece& piece) {
  std::optional<kernel::Box3> all;
  for (const auto& part : piece.parts) {
    const kernel::Box3 box = kernel::boundsOf(part.frame, part.blank());
    all = all ? all->united(box) : box;
  }
  return all ? all->size().z : 0;
}

bool hasLid(const joinery::Piece& piece) {
  return std::any_of(piece.model.parts.begin(), piece.model.parts.end(), [](const auto& part) {
    return hasWord(part.name, "lid") || hasWord(part.label, "lid");
  });
}

}  // namespace

std::span<const Caution> cautions() {
  return kCautions;
}

const Caution& caution(Hazard hazard) {
  return kCautions[static_cast<std::size_t>(hazard)];
}

std::vector<Caution> cautionsFor(const joinery::Piece& piece) {
  std::vector<Caution> chosen{caution(Hazard::machines)};
  if (heightOf(piece) >= kTipOverHeight) chosen.push_back(caution(Hazard::tipOver));
  if (hasLid(piece)) chosen.push_back(caution(Hazard::lid));
  chosen.push_back(caution(Hazard::oilyRags));
  return chosen;
}

std::string safetyText(const joinery::Piece& piece) {
  std::string text = "Safety:\n";
  for (const Caution& one : cautionsFor(piece)) text += "  " + std::string(one.text) + "\n";
  return text;
}

}  // namespace dryfit::exporting
