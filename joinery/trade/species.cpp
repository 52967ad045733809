#include "joinery/trade/species.h"

#include <algorithm>
#include <array>

namespace dryfit::joinery {
namespace {

constexpr std::string_view kGravity = "USDA Wood Handbook (FPL-GTR-190), table 5-3";
constexpr std::string_view kGravityMemory =
    "USDA Wood Handbook (FPL-GTR-190), table 5-3, from memory";
constexpr std::string_view kBasicMemory =
    "basic specific gravity (green volume), USDA Wood Handbook (FPL-GTR-190), from memory";
constexpr std::string_view kHardwoods = "USDA Wood Handbook (FPL-GTR-190), table 13-5";
constexpr std::string_view kCommercial =
    "USDA Wood Handbook (FPL-GTR-190), table 13-5, commercial species group";
constexpr std::string_view kMemory = "USDA Wood Handbook (FPL-GTR-190), table 13-5, from memory";
constexpr std::string_view kComputed =
    "computed as S / (3000 - 20 S) from the shrinkage, as table 13-5 is";
constexpr std::string_view kDouglas =
    "tangential: published flooring tables; radial: computed as S / (3000 - 20 S)";
constexpr std::string_view kImported = "tangential: published flooring tables; radial: from memory";
constexpr std::string_view kShrinkage = "USDA Wood Handbook (FPL-GTR-190), table 4-3";
constexpr std::string_view kShrinkageMemory =
    "USDA Wood Handbook (FPL-GTR-190), table 4-3, from memory";
constexpr std::string_view kImportedMemory =
    "USDA Wood Handbook (FPL-GTR-190), table 4-4, from memory";

// The shrinkage of the oaks is that of the single species named in table 4-3, their coefficients
// are those of the commercial group: the two do not follow from each other.
constexpr std::string_view kTablesMemory = "published tables of shrinkage and density, from memory";

/// Coefficients as table 13-5 computes them, for woods that it does not list.
constexpr double coefficientOf(double shrinkage) {
  return shrinkage / (3000 - 20 * shrinkage);
}
constexpr Species byShrinkage(std::string_view name, std::string_view alsoNamed, double gravity,
                              double radial, double tangential, std::string_view source) {
  return {name,
          alsoNamed,
          gravity,
          coefficientOf(radial),
          coefficientOf(tangential),
          radial,
          tangential,
          source,
          kComputed,
          source};
}

constexpr std::array<Species, 17> kHandbook{{
    {"white oak", "", 0.68, 0.00180, 0.00365, 5.6, 10.5, kGravityMemory, kCommercial, kShrinkage},
    {"red oak", "", 0.63, 0.00158, 0.00369, 4.0, 8.6, kGravityMemory, kCommercial,
     kShrinkageMemory},
    {"hard maple", "sugar maple", 0.63, 0.00165, 0.00353, 4.8, 9.9, kGravityMemory, kHardwoods,
     kShrinkageMemory},
    {"soft maple", "red maple", 0.54, 0.00137, 0.00289, 4.0, 8.2, kGravity, kHardwoods,
     kShrinkageMemory},
    {"black walnut", "walnut", 0.55, 0.00190, 0.00274, 5.5, 7.8, kGravityMemory, kHardwoods,
     kShrinkage},
    {"black cherry", "cherry", 0.50, 0.00126, 0.00248, 3.7, 7.1, kGravity, kHardwoods, kShrinkage},
    {"white ash", "ash", 0.60, 0.00169, 0.00274, 4.9, 7.8, kGravity, kHardwoods, kShrinkage},
    {"yellow birch", "birch", 0.62, 0.00256, 0.00338, 7.3, 9.5, kGravity, kHardwoods, kShrinkage},
    {"american beech", "beech", 0.64, 0.00190, 0.00431, 5.5, 11.9, kGravity, kHardwoods,
     kShrinkage},
    {"yellow-poplar", "tulipwood", 0.42, 0.00158, 0.00289, 4.6, 8.2, kGravityMemory, kComputed,
     kShrinkage},
    {"red alder", "alder", 0.41, 0.00151, 0.00256, 4.4, 7.3, kGravity, kHardwoods, kShrinkage},
    {"american basswood", "basswood", 0.37, 0.00230, 0.00330, 6.6, 9.3, kGravity, kHardwoods,
     kShrinkage},
    {"eastern white pine", "white pine", 0.35, 0.00071, 0.00212, 2.1, 6.1, kGravityMemory, kMemory,
     kShrinkageMemory},
    {"douglas-fir", "douglas fir", 0.48, 0.00165, 0.00267, 4.8, 7.6, kGravityMemory, kDouglas,
     kShrinkage},
    {"sitka spruce", "spruce", 0.40, 0.00148, 0.00263, 4.3, 7.5, kGravityMemory, kMemory,
     kShrinkageMemory},
    {"mahogany", "true mahogany", 0.45, 0.00172, 0.00238, 3.0, 4.1, kBasicMemory, kImported,
     kImportedMemory},
    {"teak", "", 0.55, 0.00101, 0.00186, 2.5, 5.8, kBasicMemory, kImported, kImportedMemory},
}};

/// Woods of European and American shops beyond the first table.
constexpr std::array kFurther{
    byShrinkage("european oak", "english oak", 0.62, 4.7, 8.4, kTablesMemory),
    byShrinkage("european ash", "common ash", 0.65, 4.6, 8.6, kTablesMemory),
    byShrinkage("european beech", "", 0.68, 5.7, 11.6, kTablesMemory),
    byShrinkage("sycamore maple", "european sycamore", 0.58, 4.5, 7.8, kTablesMemory),
    byShrinkage("sweet chestnut", "european chestnut", 0.55, 4.3, 6.4, kTablesMemory),
    byShrinkage("european walnut", "common walnut", 0.60, 5.5, 7.5, kTablesMemory),
    byShrinkage("silver birch", "european birch", 0.61, 5.3, 7.8, kTablesMemory),
    byShrinkage("european lime", "european linden", 0.50, 5.5, 9.1, kTablesMemory),
    byShrinkage("european cherry", "sweet cherry", 0.57, 5.0, 8.7, kTablesMemory),
    byShrinkage("european larch", "larch", 0.54, 4.2, 8.2, kTablesMemory),
    byShrinkage("scots pine", "redwood pine", 0.50, 5.2, 8.3, kTablesMemory),
    byShrinkage("norway spruce", "european spruce", 0.41, 3.9, 8.2, kTablesMemory),
    byShrinkage("iroko", "", 0.62, 2.8, 3.8, kTablesMemory),
    byShrinkage("sapele", "", 0.62, 4.8, 7.2, kTablesMemory),
    byShrinkage("american chestnut", "", 0.43, 3.4, 6.7, kShrinkageMemory),
    byShrinkage("american elm", "white elm", 0.50, 4.2, 9.5, kShrinkageMemory),
    byShrinkage("american sycamore", "", 0.49, 5.0, 8.4, kShrinkageMemory),
    byShrinkage("butternut", "white walnut", 0.38, 3.4, 6.4, kShrinkageMemory),
    byShrinkage("shagbark hickory", "hickory", 0.72, 7.0, 10.5, kShrinkageMemory),
    byShrinkage("black locust", "locust", 0.69, 4.6, 7.2, kShrinkageMemory),
    byShrinkage("western redcedar", "western red cedar", 0.32, 2.4, 5.0, kShrinkageMemory),
    byShrinkage("ponderosa pine", "", 0.40, 3.9, 6.2, kShrinkageMemory),
    byShrinkage("sugar pine", "", 0.36, 2.9, 5.6, kShrinkageMemory),
    byShrinkage("longleaf pine", "southern yellow pine", 0.59, 5.1, 7.5, kShrinkageMemory),
};

constexpr auto joinedTables() {
  std::array<Species, kHandbook.size() + kFurther.size()> all{};
  std::copy(kHandbook.begin(), kHandbook.end(), all.begin());
  std::copy(kFurther.begin(), kFurther.end(), all.begin() + kHandbook.size());
  return all;
}
constexpr auto kTable = joinedTables();

/// A name without its kind stands for the one that moves most, so that it is never taken for less.
struct PlainName {
  std::string_view plain, name;
};
constexpr std::array kPlainNames{
    PlainName{"oak", "white oak"},    PlainName{"pine", "scots pine"},
    PlainName{"maple", "hard maple"}, PlainName{"chestnut", "american chestnut"},
    PlainName{"elm", "american elm"},
};

/// Capitals and hyphens make no other wood of it.
bool sameWords(std::string_view a, std::string_view b) {
  const auto small = [](char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c == '-' ? ' ' : c;
  };
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [&](char x, char y) { return small(x) == small(y); });
}

}  // namespace

std::span<const Species> speciesTable() {
  return kTable;
}

const Species* speciesNamed(std::string_view name) {
  if (name.empty()) return nullptr;
  for (const PlainName& one : kPlainNames) {
    if (sameWords(one.plain, name)) name = one.name;
  }
  const auto it = std::find_if(kTable.begin(), kTable.end(), [&](const Species& s) {
    return sameWords(s.name, name) || sameWords(s.alsoNamed, name);
  });
  return it == kTable.end() ? nullptr : &*it;
}

std::vector<std::string> speciesNames() {
  std::vector<std::string> names;
  for (const Species& s : kTable) {
    names.emplace_back(s.name);
    if (!s.alsoNamed.empty()) names.emplace_back(s.alsoNamed);
  }
  for (const PlainName& one : kPlainNames) names.emplace_back(one.plain);
  return names;
}

bool sameWood(std::string_view a, std::string_view b) {
  const Species* known = speciesNamed(a);
  return known != nullptr ? known == speciesNamed(b) : sameWords(a, b);
}

}  // namespace dryfit::joinery
