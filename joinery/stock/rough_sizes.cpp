#include "joinery/stock/rough_sizes.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "joinery/trade/allowances.h"
#include "joinery/trade/machines.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

constexpr double kMostShares = 200;  // strips or layers of one part
constexpr std::size_t kMostBlanks = 100'000;
using kernel::kRounding;

double value(AllowanceId id) {
  return allowance(id).value;
}

/// One piece of wood to be glued or worked into a part.
struct Leaf {
  std::string name, match;
  double length = 0, width = 0, thickness = 0;
};

/// Into how many equal shares a part goes, and the rough size of each.
struct Shares {
  int count = 1;
  double size = 0;
};

Shares stripsOf(double width, const RoughRules& rules) {
  if (width <= rules.stripMost + kernel::kContact) return {1, width + rules.width};
  const double count = std::min(std::ceil(width / rules.stripMost - kRounding), kMostShares + 1);
  const double size = (width + rules.width) / count + rules.stripEdges;
  return {static_cast<int>(count), std::max(size, rules.stripLeast)};
}

Shares layersOf(double thickness, const RoughRules& rules) {
  const double thickest = rules.soldAs.back();
  if (thickness + rules.thickness <= thickest + kernel::kContact) {
    return {1, thickness + rules.thickness};
  }
  const double room = thickest - rules.thickness;
  const double count = room <= 0
                           ? kMostShares + 1
                           : std::min(std::ceil(thickness / room - kRounding), kMostShares + 1);
  return {static_cast<int>(count), thickness / count + rules.thickness};
}

/// "", ", strip 2 of 4"
std::string shareText(const char* word, int index, int count) {
  return count == 1 ? "" : fmt::format(", {} {} of {}", word, index, count);
}

double thinnestSold(double thickness, const RoughRules& rules) {
  for (const double sold : rules.soldAs) {
    if (sold + kernel::kContact >= thickness) return sold;
  }
  return rules.soldAs.back();
}

/// Collects blanks; thin pieces of the same size are put into one board as long as it has room.
class Collector {
 public:
  explicit Collector(const Piece& piece) : piece_(piece) {}

  Result<void> add(const PlacedPart& placed, const Material& material) {
    const Part& part = piece_.part(placed.id);
    const RoughRules rules = roughRules(material, piece_.model.unit);
    for (int copy = 0; copy <= part.spare; ++copy) {
      const std::string name = copy == 0 ? part.name : fmt::format("{}, spare {}", part.name, copy);
      Result<void> done = material.kind == MaterialKind::solid
                              ? addTimber(placed, material, rules, name)
                              : addSheet(placed, material, rules, name);
      if (!done) return done;
    }
    return {};
  }

  std::vector<RoughBlank> take() { return std::move(blanks_); }

 private:
  Result<void> check(const Part& part, int strips, int layers) const {
    const std::string place = "parts." + part.name;
    if (strips > kMostShares || layers > kMostShares) {
      return fail(ErrorCode::tooManyBlanks,
                  fmt::format("this part would need more than {} {}", kMostShares,
                              strips > kMostShares ? "strips" : "layers"),
                  place, "change 'strip_width', 'sold_as' or 'thickness' under 'rough'");
    }
    const std::size_t shares = static_cast<std::size_t>(strips) * static_cast<std::size_t>(layers);
    if (blanks_.size() + shares > kMostBlanks) {
      return fail(ErrorCode::tooManyBlanks,
                  fmt::format("the piece needs more than {} blanks", kMostBlanks), place);
    }
    return {};
  }

  Result<void> addTimber(const PlacedPart& placed, const Material& material,
                         const RoughRules& rules, const std::string& name) {
    const Part& part = piece_.part(placed.id);
    const kernel::Vec3 size = placed.overall().size();
    const bool across = part.grain == Grain::width;
    const double along = across ? size.y : size.x;
    const Shares strips = stripsOf(across ? size.x : size.y, rules);
    const Shares layers = layersOf(size.z, rules);
    if (Result<void> fine = check(part, strips.count, layers.count); !fine) return fine;
    const bool shared = strips.count * layers.count > 1;
    for (int layer = 1; layer <= layers.count; ++layer) {
      for (int strip = 1; strip <= strips.count; ++strip) {
        const std::string share =
            shareText("layer", layer, layers.count) + shareText("strip", strip, strips.count);
        const std::string match = !part.match.empty() ? part.match : shared ? name : "";
        place(placed.id, material, rules,
              {name + share, match, along + rules.length, strips.size, layers.size});
      }
    }
    return {};
  }

  void place(PartId id, const Material& material, const RoughRules& rules, const Leaf& leaf) {
    const double sold = thinnestSold(leaf.thickness, rules);
    const double kerf = rules.resawKerf;
    const int room = leaf.width > value(AllowanceId::resawWidthMost)
                         ? 1
                         : static_cast<int>((sold + kerf) / (leaf.thickness + kerf) + kRounding);
    const auto tenths = [](double mm) { return std::llround(mm * 1e4); };
    const Key key{material.name, piece_.part(id).match, tenths(leaf.length), tenths(leaf.width),
                  tenths(leaf.thickness)};
    const auto open = open_.find(key);
    if (room > 1 && open != open_.end()) {
      RoughBlank& board = blanks_[open->second];
      board.parts.push_back(id);
      board.blank.name += " and " + leaf.name;
      board.blank.thickness += kerf + leaf.thickness;
      if (static_cast<int>(board.parts.size()) == room) open_.erase(open);
      return;
    }
    if (room > 1) open_[key] = blanks_.size();
    Blank blank;
    blank.name = leaf.name;
    blank.part = id;
    blank.material = material.name;
    blank.species = material.species;
    blank.length = leaf.length;
    blank.width = leaf.width;
    blank.thickness = leaf.thickness;
    blank.match = leaf.match;
    blanks_.push_back({std::move(blank), {id}, sold, kerf});
  }

  Result<void> addSheet(const PlacedPart& placed, const Material& material, const RoughRules& rules,
                        const std::string& name) {
    const Part& part = piece_.part(placed.id);
    const kernel::Vec3 size = placed.overall().size();
    const auto known = piece_.values.find(material.name + ".thickness");
    const double sheet = known == piece_.values.end() ? size.z : known->second;
    const double share = value(AllowanceId::sheetThicknessShare) * sheet;
    const double most = sheet + value(AllowanceId::sheetThicknessOver) + share;
    const double layers = size.z <= most ? 1 : std::fmin(std::ceil(size.z / most), kMostShares + 1);
    const int count = static_cast<int>(layers);
    if (Result<void> fine = check(part, 1, count); !fine) return fine;
    Blank blank;
    blank.part = placed.id;
    blank.material = material.name;
    blank.species = material.species;
    blank.form = StockForm::sheet;
    blank.length = size.x + rules.length;
    blank.width = size.y + rules.width;
    blank.thickness = std::fmax(sheet - value(AllowanceId::sheetThicknessUnder) - share, sheet / 2);
    blank.thicknessMost = most;
    blank.grain = part.grain;
    blank.match = part.match;
    for (int layer = 1; layer <= count; ++layer) {
      blank.name = name + shareText("layer", layer, count);
      blanks_.push_back({blank, {placed.id}, 0, 0});
    }
    return {};
  }

  using Key = std::tuple<std::string, std::string, long long, long long, long long>;
  const Piece& piece_;
  std::vector<RoughBlank> blanks_;
  std::map<Key, std::size_t> open_;  // boards that have room for another piece of that size
};

}  // namespace

RoughRules roughRules(const Material& material, Unit unit) {
  const RoughNeeds& needs = material.rough;
  const bool timber = material.kind == MaterialKind::solid;
  /// The size the model gives, else what its machine needs, else what is usual.
  const auto left = [timber](std::optional<double> given, std::optional<Machine> by,
                             WorkedSide side, AllowanceId usual) {
    const std::optional<double> needed = by ? leftFor(*by, side, timber) : std::nullopt;
    return given.value_or(needed.value_or(value(usual)));
  };
  RoughRules rules;
  if (!timber) {
    const std::array<double, 2> sheet = needs.sheet.value_or(usualSheet(unit));
    rules.length = left(needs.length, needs.ends, WorkedSide::ends, AllowanceId::sheetLength);
    rules.width = left(needs.width, needs.edges, WorkedSide::edges, AllowanceId::sheetWidth);
    rules.waste = needs.waste.value_or(value(AllowanceId::sheetWaste));
    rules.sheetLength = sheet[0];
    rules.sheetWidth = sheet[1];
    return rules;
  }
  rules.length = left(needs.length, needs.ends, WorkedSide::ends, AllowanceId::solidLength);
  rules.width = left(needs.width, needs.edges, WorkedSide::edges, AllowanceId::solidWidth);
  rules.thickness =
      left(needs.thickness, needs.faces, WorkedSide::faces, AllowanceId::solidThickness);
  rules.stripEdges = left({}, needs.edges, WorkedSide::edges, AllowanceId::stripEdges);
  rules.resawKerf = machine(needs.resaw.value_or(Machine::bandSaw)).kerf;
  rules.waste = needs.waste.value_or(value(AllowanceId::solidWaste));
  rules.stripLeast = value(AllowanceId::stripWidthLeast);
  rules.stripMost = value(AllowanceId::stripWidthMost);
  if (needs.stripWidth) {
    rules.stripLeast = (*needs.stripWidth)[0];
    rules.stripMost = (*needs.stripWidth)[1];
  }
  rules.soldAs = needs.soldAs.empty() ? usualThicknesses(unit) : needs.soldAs;
  return rules;
}

Result<std::vector<RoughBlank>> roughSizes(const Piece& piece) {
  std::map<std::string, const Material*> materials;
  for (const Material& material : piece.model.materials) materials[material.name] = &material;
  Collector collector(piece);
  for (const PlacedPart& part : piece.parts) {
    const auto known = materials.find(piece.part(part.id).material);
    if (known == materials.end()) continue;  // the reader lets no such part through
    if (Result<void> done = collector.add(part, *known->second); !done) {
      return tl::unexpected(done.error());
    }
  }
  return collector.take();
}

double RoughBlank::pieceThickness() const {
  if (parts.size() < 2) return blank.thickness;
  const double count = static_cast<double>(parts.size());
  return (blank.thickness - (count - 1) * resawKerf) / count;
}

RoughPart roughPart(const std::vector<RoughBlank>& rough, const Piece& piece, PartId id) {
  RoughPart part;
  for (const RoughBlank& one : rough) {
    const auto count = std::count(one.parts.begin(), one.parts.end(), id);
    if (count == 0) continue;
    part.pieces += static_cast<int>(count);
    part.length = one.blank.length;
    part.width = one.blank.width;
    // A sheet is called by its thickness, not by the least that it may measure.
    const auto sheet = piece.values.find(one.blank.material + ".thickness");
    part.thickness = one.blank.form == StockForm::sheet && sheet != piece.values.end()
                         ? sheet->second
                         : one.pieceThickness();
  }
  part.pieces /= 1 + piece.part(id).spare;
  return part;
}

std::vector<Blank> blanksOf(const std::vector<RoughBlank>& rough) {
  std::vector<Blank> blanks;
  blanks.reserve(rough.size());
  for (const RoughBlank& one : rough) blanks.push_back(one.blank);
  return blanks;
}

}  // namespace dryfit::joinery
