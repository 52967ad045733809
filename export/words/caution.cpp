#include "export/words/caution.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <optional>

namespace dryfit::exporting {

namespace {

// Standards and laws are quoted through summaries; none is claimed to be met.
constexpr std::array<Caution, 9> kCautions{{
    {Hazard::machines,
     "Keep guards on, the riving knife fitted and blades sharp. Use a push stick wherever a hand "
     "would come within 300 mm (12 in) of the blade. Protect eyes, ears and lungs from chips, "
     "noise and dust, and measure the wood again before each cut. Machine manuals and local codes "
     "come first.",
     "common practice; push stick: saw manuals say 152 mm (manualslib.es/117942, p. 21) to 305 mm "
     "(powertool.manualsonline.com, w1819, p. 60)"},
    {Hazard::roughBoards,
     "Rough boards: flatten one face and straighten one edge before planing to thickness or "
     "ripping. Never "
     "put a twisted, cupped or waney board against the rip fence or saw it freehand: flatten and "
     "straighten it by hand, or screw it to a sled with a straight edge. Machine manuals and "
     "local codes come first.",
     "common practice"},
    {Hazard::smallParts,
     "Short or thin parts (under 300 mm or 12 in long, timber under 6 mm or 1/4 in thick): keep "
     "them off jointer, planer and thicknesser. Work them by hand, or machine several in one "
     "length and cut "
     "to length last. The machine's manual gives its own least sizes; it and local codes come "
     "first.",
     "jointer: 12 in by shop rules (wiki.makeitlabs.com, champaignwoodworkers.club), push block "
     "or another way under 300 mm (hse.gov.uk/woodworking), 1/4 in thick by one maker's manual; "
     "planer: 300 mm, from memory"},
    {Hazard::tipOver,
     "Tall piece: fix it to the wall so that it cannot tip over, with fixings that suit the wall. "
     "Local codes come first.",
     "16 CFR 1261 covers clothing storage units from 27 in (686 mm) tall (cpsc.gov, summary)"},
    {Hazard::wallFixing,
     "Fixed to a wall: use fixings rated for the loaded weight and made for that wall, into studs "
     "or solid masonry where you can, and more than one of them. What the fixings' maker says and "
     "local codes come first.",
     "published loads differ widely: 8 kg for a plug and 40 kg for a toggle in plasterboard "
     "(fischer.group, 2026); a stud from 11 to 14 kg (engineerfix.com)"},
    {Hazard::fallingLid,
     "Lid: fit a stay or support that holds it open in any position and leaves room for fingers. "
     "Local codes for chests and toy boxes come first.",
     "advice of the CPSC on chests (parentingtoddlers.com, summary); ASTM F834 was written after "
     "21 deaths by falling lids (standards.iteh.ai, summary)"},
    {Hazard::closedBox,
     "Box with a lid that a child could get into: leave air holes that cannot be covered (toy "
     "rules ask for two of 650 mm² or 1 in², 150 mm or 6 in apart), and fit no latch or lock that "
     "catches by itself. Local codes for chests and toy boxes come first.",
     "a national toy standard, for boxes over 0.03 m³ and 150 mm each way "
     "(docs.cntd.ru/document/1200086022); lid supports, closures and locks of chests from 1.1 ft³: "
     "ASTM F2598 (standards.iteh.ai, summary)"},
    {Hazard::oilyRags,
     "Rags with drying oil can set themselves alight: spread them flat outdoors to dry, or keep "
     "them under water in a closed metal can. What the maker of the finish says and local codes "
     "come first.",
     "clevelandheights.gov, page on oily rags"},
    {Hazard::clamps,
     "Tighten clamps a little at a time and measure again after each turn. Keep fingers out of the "
     "joints and stay out of line with a loaded clamp, which can slip. Pad the corners. Do not "
     "force a joint that will not close: find what is holding it. The clamp maker's limits come "
     "first.",
     "common practice"},
}};

constexpr bool inOrder() {
  for (std::size_t i = 0; i < kCautions.size(); ++i) {
    if (static_cast<std::size_t>(kCautions[i].hazard) != i) return false;
  }
  return true;
}
static_assert(inOrder(), "one row a Hazard, in their order");

/// True where `word` stands in `text` as a word of its own, in any case of letters.
bool hasWord(std::string text, std::string_view word) {
  std::transform(text.begin(), text.end(), text.begin(),
                 [](unsigned char c) { return std::isalpha(c) ? std::tolower(c) : ' '; });
  return (" " + text + " ").find(" " + std::string(word) + " ") != std::string::npos;
}

kernel::Vec3 sizeOf(const joinery::Piece& piece) {
  std::optional<kernel::Box3> all;
  for (const auto& part : piece.parts) {
    const kernel::Box3 box = kernel::boundsOf(part.frame, part.blank());
    all = all ? all->united(box) : box;
  }
  return all ? all->size() : kernel::Vec3{};
}

bool canTipOver(const kernel::Vec3& size) {
  return size.z >= kTipOverHeight && size.z >= kTipOverSlenderness * std::min(size.x, size.y);
}

bool isTimber(const joinery::Piece& piece, const joinery::PlacedPart& part) {
  const auto& materials = piece.model.materials;
  const auto found =
      std::ranges::find(materials, piece.part(part.id).material, &joinery::Material::name);
  return found == materials.end() || found->kind == joinery::MaterialKind::solid;
}

bool hasTimber(const joinery::Piece& piece) {
  return std::ranges::any_of(piece.parts, [&](const auto& part) { return isTimber(piece, part); });
}

bool hasSmallParts(const joinery::Piece& piece) {
  return std::ranges::any_of(piece.parts, [&](const joinery::PlacedPart& part) {
    const kernel::Vec3 size = part.overall().size();
    const joinery::Grain grain = piece.part(part.id).grain;
    const double along = grain == joinery::Grain::length  ? size.x
                         : grain == joinery::Grain::width ? size.y
                                                          : std::max(size.x, size.y);
    return isSmall(along, size.z, isTimber(piece, part));
  });
}

bool hasPartCalled(const joinery::Piece& piece, std::string_view word) {
  return std::ranges::any_of(piece.model.parts, [&](const joinery::Part& part) {
    return hasWord(part.name, word) || hasWord(part.label, word);
  });
}

bool isFixedToWall(const joinery::Piece& piece) {
  const auto speaksOfIt = [](const std::string& text) {
    constexpr std::array<std::string_view, 7> kWords{"wall",    "walls", "hang",   "hangs",
                                                     "hanging", "hung",  "hangers"};
    return std::ranges::any_of(kWords, [&](std::string_view word) { return hasWord(text, word); });
  };
  return speaksOfIt(piece.model.name) || hasPartCalled(piece, "wall") ||
         std::ranges::any_of(piece.model.hardware, [&](const joinery::HardwareGoods& one) {
           return speaksOfIt(one.name) || speaksOfIt(one.note);
         });
}

bool hasRoomForAChild(const joinery::Piece& piece) {
  const kernel::Vec3 size = sizeOf(piece);
  return std::min({size.x, size.y, size.z}) >= kChildWidth && size.x * size.y * size.z > kChildRoom;
}

}  // namespace

std::span<const Caution> cautions() {
  return kCautions;
}

const Caution& caution(Hazard hazard) {
  return kCautions[static_cast<std::size_t>(hazard)];
}

bool isSmall(double length, double thickness, bool timber) {
  return length < kShortestMachined || (timber && thickness < kThinnestMachined);
}

std::vector<Caution> cautionsFor(const joinery::Piece& piece) {
  std::vector<Caution> chosen;
  const auto add = [&](Hazard hazard, bool applies) {
    if (applies) chosen.push_back(caution(hazard));
  };
  const bool lid = hasPartCalled(piece, "lid");
  add(Hazard::machines, true);
  add(Hazard::roughBoards, hasTimber(piece));
  add(Hazard::smallParts, hasSmallParts(piece));
  add(Hazard::tipOver, canTipOver(sizeOf(piece)));
  add(Hazard::wallFixing, isFixedToWall(piece));
  add(Hazard::fallingLid, lid);
  add(Hazard::closedBox, lid && hasRoomForAChild(piece));
  add(Hazard::oilyRags, true);
  return chosen;
}

std::string safetyText(const joinery::Piece& piece) {
  std::string text = "Safety:\n";
  for (const Caution& one : cautionsFor(piece)) text += "  " + std::string(one.text) + "\n";
  return text;
}

}  // namespace dryfit::exporting
