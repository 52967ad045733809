#include "joinery/file/purchase_reader.h"

#include <algorithm>
#include <functional>

#include "joinery/base/plain_text.h"
#include "joinery/file/plain_values.h"
#include "joinery/file/reader_names.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

constexpr int kMostHardware = 100'000;
constexpr int kMostSpare = 100;
constexpr std::size_t kMostThicknesses = 30;
constexpr std::size_t kLongestCurrency = 12;

/// Entries of an object of goods, each with a name for people.
template <class Read>
void eachGoods(const JsonPlace& root, const std::string& key, const Read& read) {
  const auto list = root.find(key);
  if (!list || !list->isObject()) return;
  for (const auto& [name, entry] : list->members()) {
    checkName(name, entry);
    if (entry.failed()) return;
    read(name, entry);
  }
}

void readPriceAndNote(const JsonPlace& place, std::optional<double>& price, std::string& note) {
  if (const auto given = place.find("price")) price = priceAt(*given);
  if (const auto text = place.find("note")) note = text->line();
}

FinishNeeds readFinish(const JsonPlace& place) {
  FinishNeeds finish;
  if (!place.isObject({"coats", "area_per_litre", "price", "note"})) return finish;
  if (const auto coats = place.find("coats")) {
    finish.coats = countAt(*coats, "a number of coats", 1, 50);
  }
  if (const auto area = place.find("area_per_litre")) {
    finish.areaPerLitre = numberAt(*area, "the m² that a litre covers", 0.1, 1000);
  }
  if (const auto price = place.find("price")) finish.price = priceAt(*price);
  if (const auto note = place.find("note")) (void)note->text();
  return finish;
}

void readStripWidth(const JsonPlace& place, Unit unit, RoughNeeds& rough) {
  if (!isListOf(place, 2, "write [least, most]")) return;
  const double least = sizeAt(place.members()[0].second, unit);
  const double most = sizeAt(place.members()[1].second, unit);
  if (least > most) place.wrong("the least width is greater than the most", "write [least, most]");
  rough.stripWidth = {least, most};
}

void readSoldAs(const JsonPlace& place, Unit unit, RoughNeeds& rough) {
  const std::string mend = "write the thicknesses on sale in rising order: [27, 33, 52]";
  if (!place.node().is(Type::list) || place.node().members.empty() ||
      place.node().members.size() > kMostThicknesses) {
    place.wrong("a list of 1 to 30 thicknesses is needed here", mend);
    return;
  }
  for (const auto& [key, entry] : place.members()) {
    const double thickness = sizeAt(entry, unit);
    if (!rough.soldAs.empty() && thickness <= rough.soldAs.back()) {
      entry.wrong("this thickness is not greater than the one before", mend);
    }
    rough.soldAs.push_back(thickness);
  }
}

void readSheet(const JsonPlace& place, Unit unit, RoughNeeds& rough) {
  if (!isListOf(place, 2, "write [length, width] of the sheet sold")) return;
  rough.sheet = {sizeAt(place.members()[0].second, unit), sizeAt(place.members()[1].second, unit)};
}

/// One of `words` of `worked_by`; reports a machine that cannot do it.
std::optional<Machine> readMachine(const JsonPlace& place, const std::string& key,
                                   const std::string& what,
                                   const std::function<bool(Machine)>& does) {
  const auto given = place.find(key);
  if (!given) return {};
  const std::string word = given->text();
  if (given->failed()) return {};
  const auto machine = machineNamed(word);
  if (machine && does(*machine)) return machine;
  given->wrong(machine ? "a " + std::string(joinery::machine(*machine).name) + " does not " + what
                       : "there is no machine " + inQuotes(word),
               "write one of " + machineWords(does));
  return {};
}

void readWorkedBy(const JsonPlace& place, bool solid, RoughNeeds& rough) {
  if (!place.isObject(solid ? std::vector<std::string>{"ends", "edges", "faces", "resaw"}
                            : std::vector<std::string>{"ends", "edges"})) {
    return;
  }
  const auto works = [solid](WorkedSide side) {
    return [solid, side](Machine machine) { return leftFor(machine, side, solid).has_value(); };
  };
  const std::string of = solid ? " of timber" : " of a sheet part";
  rough.ends = readMachine(place, "ends", "finish the ends" + of, works(WorkedSide::ends));
  rough.edges = readMachine(place, "edges", "finish the edges" + of, works(WorkedSide::edges));
  rough.faces = readMachine(place, "faces", "finish the faces" + of, works(WorkedSide::faces));
  rough.resaw = readMachine(place, "resaw", "saw boards thinner", saws);
}

RoughNeeds readRough(const JsonPlace& place, Unit unit, MaterialKind kind) {
  RoughNeeds rough;
  const bool solid = kind == MaterialKind::solid;
  const std::vector<std::string> ofSolid{"length",  "width",     "thickness",
                                         "waste",   "worked_by", "strip_width",
                                         "sold_as", "price",     "note"};
  const std::vector<std::string> ofSheet{"length", "width", "waste", "worked_by",
                                         "sheet",  "price", "note"};
  if (!place.isObject(solid ? ofSolid : ofSheet)) return rough;
  if (const auto length = place.find("length")) rough.length = lengthAt(*length, unit);
  if (const auto width = place.find("width")) rough.width = lengthAt(*width, unit);
  if (const auto thick = place.find("thickness")) rough.thickness = lengthAt(*thick, unit);
  if (const auto waste = place.find("waste")) {
    rough.waste = numberAt(*waste, "the share of waste, such as 0.25 for 25 %,", 0, 2);
  }
  if (const auto machines = place.find("worked_by")) readWorkedBy(*machines, solid, rough);
  if (const auto strips = place.find("strip_width")) readStripWidth(*strips, unit, rough);
  if (const auto sold = place.find("sold_as")) readSoldAs(*sold, unit, rough);
  if (const auto sheet = place.find("sheet")) readSheet(*sheet, unit, rough);
  std::string note;
  readPriceAndNote(place, rough.price, note);
  return rough;
}

}  // namespace

void readCutters(const JsonPlace& root, Model& model) {
  const auto list = root.find("cutters");
  if (!list) return;
  const std::string mend = model.unit == Unit::inch
                               ? "write their widths in rising order: [\"1/4 in\", \"3/8 in\"]"
                               : "write their widths in rising order: [6, 8, 10, 12]";
  if (!list->node().is(Type::list) || list->node().members.empty()) {
    list->wrong("a list [ ] of chisels and cutters is needed here", mend);
    return;
  }
  for (const auto& [key, entry] : list->members()) {
    const double width = sizeAt(entry, model.unit);
    if (entry.failed()) return;
    if (!model.cutters.empty() && width <= model.cutters.back()) {
      entry.wrong("this is no wider than the one before it", mend);
      return;
    }
    model.cutters.push_back(width);
  }
}

void readPurchase(const JsonPlace& root, Model& model) {
  if (const auto currency = root.find("currency")) {
    model.currency = currency->line();
    if (model.currency.size() > kLongestCurrency) {
      currency->wrong("this is too long for a currency",
                      "write its sign or its letters, such as EUR");
    }
  }
  eachGoods(root, "edging", [&](const std::string& name, const JsonPlace& place) {
    EdgingGoods goods{name, {}, {}};
    if (place.isObject({"price", "note"})) readPriceAndNote(place, goods.price, goods.note);
    model.edging.push_back(std::move(goods));
  });
  eachGoods(root, "hardware", [&](const std::string& name, const JsonPlace& place) {
    HardwareGoods goods{name, 1, {}, {}, {}};
    if (!place.isObject({"count", "price", "note", "holds", "when"})) return;
    if (const auto count = place.need("count")) {
      goods.count = countAt(*count, "a count", 1, kMostHardware);
    }
    readPriceAndNote(place, goods.price, goods.note);
    model.hardware.push_back(std::move(goods));
  });
  if (const auto finish = root.find("finish")) model.finish = readFinish(*finish);
}

void readHolds(const JsonPlace& root, Model& model) {
  const std::vector<std::string> parts = namesOf(model.parts);
  const auto list = root.find("hardware");
  if (!list || !list->node().is(Type::object)) return;
  for (const auto& [name, entry] : list->members()) {
    if (!entry.node().is(Type::object)) return;
    const auto holds = entry.find("holds");
    if (!holds) continue;
    if (!holds->node().is(Type::list)) {
      holds->wrong("a list [ ] of parts is needed here, not " +
                   std::string(nameOf(holds->node().type)));
      return;
    }
    const auto goods = std::ranges::find(model.hardware, name, &HardwareGoods::name);
    for (const auto& [key, held] : holds->members()) {
      const std::string part = held.text();
      if (std::ranges::find(parts, part) == parts.end()) {
        held.unknown("there is no part " + inQuotes(part), part, parts);
        return;
      }
      if (goods != model.hardware.end()) goods->holds.push_back(part);
    }
  }
}

void readMaterialPurchase(const JsonPlace& place, const Model& model, Material& material) {
  if (!place.node().is(Type::object)) return;
  if (const auto rough = place.find("rough")) {
    material.rough = readRough(*rough, model.unit, material.kind);
  }
  if (const auto edging = place.find("edging")) {
    material.edging = edging->text();
    const std::vector<std::string> known = namesOf(model.edging);
    if (std::find(known.begin(), known.end(), material.edging) == known.end()) {
      edging->unknown("there is no edging " + inQuotes(material.edging), material.edging, known);
    }
  }
}

void readPartPurchase(const JsonPlace& place, const Model& model, Part& part) {
  if (!place.node().is(Type::object)) return;
  if (const auto match = place.find("match")) {
    part.match = match->text();
    checkName(part.match, *match);
  }
  if (const auto spare = place.find("spare")) {
    part.spare = countAt(*spare, "a number of spares", 0, kMostSpare);
  }
  const auto edging = place.find("edging");
  if (!edging) return;
  if (!edging->node().is(Type::list)) {
    edging->wrong("a list [ ] of faces is needed here, not " +
                  std::string(nameOf(edging->node().type)));
    return;
  }
  const auto material = std::find_if(model.materials.begin(), model.materials.end(),
                                     [&](const Material& m) { return m.name == part.material; });
  for (const auto& [key, entry] : edging->members()) {
    const Face face =
        static_cast<Face>(entry.wordOf({"left", "right", "front", "back", "bottom", "top"}));
    if (entry.failed()) return;
    if (axisOf(face) == part.thickness.along) {
      entry.wrong("this is a face of the part, not an edge", "edging goes on edges and ends");
    } else if (std::find(part.edging.begin(), part.edging.end(), face) != part.edging.end()) {
      entry.wrong("this edge is named twice", "name each edge once");
    } else if (material != model.materials.end() && material->edging.empty()) {
      entry.wrong("the material " + inQuotes(part.material) + " names no edging",
                  "give it the key 'edging' with a name listed under 'edging' of the model");
    }
    part.edging.push_back(face);
  }
}

}  // namespace dryfit::joinery
