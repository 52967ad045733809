#include "joinery/stock/purchase.h"

#include "joinery/stock/blank.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

#include "joinery/formula/length_text.h"
#include "joinery/stock/board_feet.h"
#include "joinery/trade/allowances.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

using kernel::kRounding;
constexpr double kCubicMetre = 1e9, kSquareMetre = 1e6, kMetre = 1e3;  // in mm

double value(AllowanceId id) {
  return allowance(id).value;
}

const Material& materialNamed(const Piece& piece, const std::string& name) {
  return *std::find_if(piece.model.materials.begin(), piece.model.materials.end(),
                       [&](const Material& m) { return m.name == name; });
}

/// Volume of the finished wood that each piece of a blank becomes, by part.
std::vector<double> netShares(const Piece& piece, const std::vector<RoughBlank>& blanks) {
  std::vector<int> pieces(piece.parts.size(), 0);
  for (const RoughBlank& one : blanks) {
    for (const PartId id : one.parts) ++pieces[id.index()];
  }
  std::vector<double> shares(piece.parts.size(), 0);
  for (const PlacedPart& part : piece.parts) {
    const std::size_t i = part.id.index();
    const int copies = 1 + piece.part(part.id).spare;
    if (pieces[i] > 0) shares[i] = part.overall().volume() * copies / pieces[i];
  }
  return shares;
}

TimberRow& timberRow(PurchaseList& list, const RoughBlank& one) {
  const auto same = std::find_if(list.timber.begin(), list.timber.end(), [&](const TimberRow& r) {
    return r.species == one.blank.species &&
           std::fabs(r.soldThickness - one.soldThickness) < kernel::kContact;
  });
  if (same != list.timber.end()) return *same;
  TimberRow row;
  row.species = one.blank.species;
  row.soldThickness = one.soldThickness;
  row.cost = 0;
  list.timber.push_back(std::move(row));
  return list.timber.back();
}

void addTimber(const Piece& piece, const std::vector<double>& shares, PurchaseList& list) {
  for (const RoughBlank& one : list.blanks) {
    if (one.blank.form != StockForm::board) continue;
    const Material& material = materialNamed(piece, one.blank.material);
    TimberRow& row = timberRow(list, one);
    if (std::find(row.materials.begin(), row.materials.end(), material.name) ==
        row.materials.end()) {
      row.materials.push_back(material.name);
    }
    const double volume = one.blank.length * one.blank.width * one.soldThickness;
    const double buy = volume * (1 + roughRules(material, piece.model.unit).waste);
    ++row.blanks;
    for (const PartId id : one.parts) row.netVolume += shares[id.index()];
    row.roughVolume += volume;
    row.buyVolume += buy;
    row.longest = std::max(row.longest, one.blank.length);
    row.widest = std::max(row.widest, one.blank.width);
    const auto& price = material.rough.price;
    row.cost =
        row.cost && price ? std::optional(*row.cost + buy / kCubicMetre * *price) : std::nullopt;
  }
  for (TimberRow& row : list.timber) {
    const double surface = row.buyVolume / row.soldThickness;
    row.boardFeet = boardFeet(surface, 1, row.soldThickness);
    row.tally = tallyBoardFeet(surface, row.soldThickness);
  }
  std::stable_sort(
      list.timber.begin(), list.timber.end(), [](const TimberRow& a, const TimberRow& b) {
        return std::pair(a.species, a.soldThickness) < std::pair(b.species, b.soldThickness);
      });
}

/// How a blank may lie on a sheet: which it may, and whether it then covers the middle, so that no
/// two such blanks go on one sheet.
struct Lie {
  bool fits = false, coversMiddle = true;
};
Lie lieOn(const Blank& blank, const RoughRules& rules) {
  Lie lie;
  const auto look = [&](double along, double across) {
    if (along > rules.sheetLength + kernel::kContact) return;
    if (across > rules.sheetWidth + kernel::kContact) return;
    lie.fits = true;
    lie.coversMiddle &= along > rules.sheetLength / 2 + kernel::kContact &&
                        across > rules.sheetWidth / 2 + kernel::kContact;
  };
  if (blank.grain != Grain::width) look(blank.length, blank.width);
  if (blank.grain != Grain::length) look(blank.width, blank.length);
  return lie;
}

/// The row of a sheet material: one with others that the yard sells as the same sheet.
SheetRow& sheetRow(const Piece& piece, const Material& material, const RoughRules& rules,
                   PurchaseList& list) {
  const auto known = piece.values.find(material.name + ".thickness");
  const double thickness = known == piece.values.end() ? 0 : known->second;
  const auto same = std::find_if(list.sheets.begin(), list.sheets.end(), [&](const SheetRow& r) {
    return !r.species.empty() && r.species == material.species &&
           std::fabs(r.thickness - thickness) < kernel::kContact &&
           r.sheetLength == rules.sheetLength && r.sheetWidth == rules.sheetWidth &&
           r.price == material.rough.price;
  });
  if (same != list.sheets.end()) {
    same->materials.push_back(material.name);
    return *same;
  }
  SheetRow row;
  row.materials = {material.name};
  row.species = material.species;
  row.thickness = thickness;
  row.sheetLength = rules.sheetLength;
  row.sheetWidth = rules.sheetWidth;
  row.price = material.rough.price;
  list.sheets.push_back(std::move(row));
  return list.sheets.back();
}

void addSheetBlanks(const Material& material, const RoughRules& rules,
                    const std::vector<RoughBlank>& blanks, SheetRow& row) {
  for (const RoughBlank& one : blanks) {
    if (one.blank.material != material.name) continue;
    ++row.blanks;
    const double area = one.blank.length * one.blank.width;
    row.area += area;
    row.buyArea += area * (1 + rules.waste);
    const Lie lie = lieOn(one.blank, rules);
    if (!lie.fits) row.tooLarge.push_back(one.blank.name);
    if (lie.fits && lie.coversMiddle) ++row.countByLargest;
  }
}

void addSheets(const Piece& piece, PurchaseList& list) {
  for (const Material& material : piece.model.materials) {
    const bool used = std::ranges::any_of(
        list.blanks, [&](const RoughBlank& one) { return one.blank.material == material.name; });
    if (material.kind != MaterialKind::sheet || !used) continue;
    const RoughRules rules = roughRules(material, piece.model.unit);
    addSheetBlanks(material, rules, list.blanks, sheetRow(piece, material, rules, list));
  }
  for (SheetRow& row : list.sheets) {
    const double sheet = row.sheetLength * row.sheetWidth;
    row.countByArea = static_cast<int>(std::fmin(std::ceil(row.buyArea / sheet - kRounding), 1e9));
    row.count = std::max({1, row.countByArea, row.countByLargest});
    if (row.price) row.cost = row.count * *row.price;
  }
}

/// Length of the edge of a part that lies on `face`.
double edgeLength(const PlacedPart& part, Face face) {
  const kernel::Vec3 size = part.overall().size();
  return part.local(face).axis == 0 ? size.y : size.x;
}

void addEdging(const Piece& piece, PurchaseList& list) {
  for (const EdgingGoods& goods : piece.model.edging) {
    EdgingRow row{goods.name, goods.note, 0, 0, {}};
    for (const PlacedPart& placed : piece.parts) {
      const Part& part = piece.part(placed.id);
      if (materialNamed(piece, part.material).edging != goods.name) continue;
      for (const Face face : part.edging) {
        const double length = edgeLength(placed, face) * (1 + part.spare);
        row.length += length;
        row.buyLength += length + value(AllowanceId::edgingEnds) * (1 + part.spare);
      }
    }
    if (row.length <= 0) continue;
    row.buyLength *= 1 + value(AllowanceId::edgingWaste);
    if (goods.price) row.cost = row.buyLength / kMetre * *goods.price;
    list.edging.push_back(std::move(row));
  }
}

void addHardware(const Piece& piece, PurchaseList& list) {
  std::map<std::string, int> ofJoints;
  for (const PlacedJoint& joint : piece.joints) {
    for (const HardwareItem& item : joint.hardware) ofJoints[item.name] += item.count;
  }
  for (const auto& [name, count] : ofJoints) list.hardware.push_back({name, "joints", count, {}});
  for (const HardwareGoods& goods : piece.model.hardware) {
    HardwareRow row{goods.name, goods.note, goods.count, {}};
    std::replace(row.name.begin(), row.name.end(), '_', ' ');
    if (goods.price) row.cost = goods.count * *goods.price;
    list.hardware.push_back(std::move(row));
  }
}

void addFinish(const Piece& piece, const std::vector<kernel::Solid>& solids, PurchaseList& list) {
  FinishRow& row = list.finish;
  for (const kernel::Solid& solid : solids) row.allFaces += solid.area();
  row.sightArea = sightArea(piece);
  const FinishNeeds needs = piece.model.finish.value_or(FinishNeeds{});
  row.coats = needs.coats.value_or(static_cast<int>(value(AllowanceId::finishCoats)));
  row.areaPerLitre = needs.areaPerLitre.value_or(value(AllowanceId::finishAreaPerLitre));
  row.litres = row.sightArea / kSquareMetre * row.coats / row.areaPerLitre;
  if (needs.price) row.cost = row.litres * *needs.price;
}

void addTotal(Unit unit, PurchaseList& list) {
  const auto count = [&](const std::string& name, const std::optional<double>& cost) {
    if (cost) {
      list.total += *cost;
    } else {
      list.notPriced.push_back(name);
    }
  };
  for (const auto& row : list.timber) {
    count(row.species + " " + soldName(row.soldThickness, unit), row.cost);
  }
  for (const auto& row : list.sheets) {
    count(row.species.empty() ? row.materials.front() : row.species, row.cost);
  }
  for (const auto& row : list.edging) count(row.name, row.cost);
  for (const auto& row : list.hardware) count(row.name, row.cost);
  count("finish", list.finish.cost);
}

/// Area in which the blanks of two parts touch face to face, mm²; 0 where they are turned against
/// each other or lie apart.
double contactArea(const PlacedPart& a, const PlacedPart& b) {
  const kernel::Frame relative = a.frame.inverse().after(b.frame);
  if (!relative.isSquare()) return 0;
  const kernel::Box3 first = a.blank(), second = kernel::boundsOf(relative, b.blank());
  for (int axis = 0; axis < 3; ++axis) {
    const double gap =
        std::fmax(second.min[axis] - first.max[axis], first.min[axis] - second.max[axis]);
    if (std::fabs(gap) > kernel::kGluedNear) continue;
    double area = 1;
    for (int k = 0; k < 3; ++k) {
      if (k == axis) continue;
      area *= std::fmax(
          0, std::fmin(first.max[k], second.max[k]) - std::fmax(first.min[k], second.min[k]));
    }
    return area;
  }
  return 0;
}

}  // namespace

double sightArea(const Piece& piece) {
  double area = 0;
  for (const PlacedPart& part : piece.parts) {
    const kernel::Vec3 s = part.size;
    area += 2 * (s.x * s.y + s.y * s.z + s.z * s.x);
  }
  std::vector<std::pair<std::size_t, std::size_t>> pairs;
  for (const PlacedJoint& joint : piece.joints) {
    for (std::size_t i = 0; i < joint.mates.size(); ++i) {
      for (std::size_t k = i + 1; k < joint.mates.size(); ++k) {
        pairs.push_back(std::minmax(joint.mates[i].index(), joint.mates[k].index()));
      }
    }
  }
  std::sort(pairs.begin(), pairs.end());
  pairs.erase(std::unique(pairs.begin(), pairs.end()), pairs.end());
  for (const auto& [a, b] : pairs) area -= 2 * contactArea(piece.parts[a], piece.parts[b]);
  return std::fmax(area, 0);
}

Result<PurchaseList> makePurchaseList(const Piece& piece,
                                      const std::vector<kernel::Solid>& solids) {
  auto blanks = roughSizes(piece);
  if (!blanks) return tl::unexpected(blanks.error());
  PurchaseList list;
  list.piece = piece.model.name;
  list.basis = piece.basis;
  list.currency = piece.model.currency;
  list.blanks = std::move(*blanks);
  addTimber(piece, netShares(piece, list.blanks), list);
  addSheets(piece, list);
  addEdging(piece, list);
  addHardware(piece, list);
  addFinish(piece, solids, list);
  addTotal(piece.model.unit, list);
  return list;
}

}  // namespace dryfit::joinery
