#include "joinery/stock/stock_file.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <set>
#include <sstream>

#include "joinery/base/plain_text.h"
#include "joinery/base/read_whole.h"
#include "joinery/file/json_document.h"
#include "joinery/file/json_place.h"
#include "joinery/file/plain_values.h"
#include "joinery/formula/expression.h"
#include "joinery/stock/outline.h"
#include "joinery/trade/allowances.h"
#include "joinery/trade/species.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

constexpr int kMostCopies = 10'000;
constexpr std::size_t kMostCorners = 500;
constexpr double kWettest = 300;  // % of the dry weight: green wood may hold twice its weight
constexpr std::size_t kLongestName = 60;

std::string mmText(double mm) {
  return fmt::format("{:.6g} mm", mm);
}

void readHead(const JsonPlace& root, StockList& list) {
  if (const auto format = root.need("format"); format && format->text() != "dryfit-stock") {
    format->wrong("this is not a stock list", "the format of a stock list is 'dryfit-stock'");
  }
  if (const auto version = root.need("version")) {
    if (!version->node().is(Type::number) || version->node().text != "1") {
      version->wrong("this version of the format is not known", "this program reads version 1");
    }
  }
  if (const auto unit = root.need("unit")) {
    constexpr std::array kUnits{Unit::mm, Unit::cm, Unit::inch};
    list.unit = kUnits[unit->wordOf({"mm", "cm", "in"})];
  }
  if (const auto currency = root.find("currency")) list.currency = currency->line();
}

/// {"board_ends": 50, "board_edges": 3}
void readTrims(const JsonPlace& root, StockList& list) {
  const auto trims = root.find("trims");
  if (!trims || !trims->isObject({"board_ends", "board_edges"})) return;
  const auto read = [&](const char* key, std::optional<double>& trim) {
    const auto place = trims->find(key);
    if (!place) return;
    trim = lengthAt(*place, list.unit);
    if (*trim > kWidestTrim) {
      place->wrong(fmt::format("a trim of {} leaves too little of a board", mmText(*trim)),
                   fmt::format("at most {}", mmText(kWidestTrim)));
    }
  };
  read("board_ends", list.boardEndTrim);
  read("board_edges", list.boardEdgeTrim);
}

/// {"kind": "knot", "at": [400, 60], "size": [40, 30], "face": "first"}
Defect readDefect(const JsonPlace& place, Unit unit) {
  Defect defect;
  if (!place.isObject({"kind", "at", "size", "face", "note"})) return defect;
  if (const auto kind = place.need("kind")) {
    defect.kind = static_cast<DefectKind>(kind->wordOf({"knot", "split", "wane", "sap", "other"}));
  }
  if (const auto at = place.need("at"); at && isListOf(*at, 2, "write it as [x, y]")) {
    defect.zone.x = lengthAt(at->members()[0].second, unit);
    defect.zone.y = lengthAt(at->members()[1].second, unit);
  }
  if (const auto size = place.need("size"); size && isListOf(*size, 2, "write [length, width]")) {
    defect.zone.length = sizeAt(size->members()[0].second, unit);
    defect.zone.width = sizeAt(size->members()[1].second, unit);
  }
  if (const auto face = place.find("face")) {
    defect.face = static_cast<StockFace>(face->wordOf({"first", "second", "both"}));
  }
  if (const auto note = place.find("note")) (void)note->line();
  return defect;
}

void readDefects(const JsonPlace& place, Unit unit, StockItem& item) {
  const auto list = place.find("defects");
  if (!list) return;
  if (!list->node().is(Type::list)) {
    list->wrong("a list [ ] is needed here, not " + std::string(nameOf(list->node().type)));
    return;
  }
  if (item.count > 1 && !list->node().members.empty()) {
    list->wrong("this entry is for several sheets, but a defect is on one",
                "list that sheet by itself, with a count of 1");
    return;
  }
  const std::vector<FlatPoint> shape = item.shape();
  const double widest = std::max(item.nearWidth, item.farWidth);
  for (const auto& [key, entry] : list->members()) {
    const Defect defect = readDefect(entry, unit);
    if (entry.failed()) return;
    const FlatRect& zone = defect.zone;
    const bool within =
        zone.farX() <= item.length + kernel::kContact && zone.farY() <= widest + kernel::kContact;
    if (!within || sharedArea(shape, zone) <= 0) {
      entry.wrong(fmt::format("the defect is off the {}, which is {} x {}",
                              item.form == StockForm::board ? "board" : "sheet",
                              mmText(item.length), mmText(widest)),
                  "measure from its near end and its datum edge");
      return;
    }
    item.defects.push_back(defect);
  }
}

/// One text for both faces, or a list of two.
void readGrades(const JsonPlace& place, StockItem& item) {
  const auto grade = place.find("grade");
  if (!grade) return;
  if (grade->node().is(Type::text)) {
    item.firstGrade = item.secondGrade = grade->line();
  } else if (isListOf(*grade, 2, "write one grade, or one for each face")) {
    item.firstGrade = grade->members()[0].second.line();
    item.secondGrade = grade->members()[1].second.line();
  }
}

std::vector<std::string> wordsOf(const std::string& text) {
  std::istringstream in(text);
  return {std::istream_iterator<std::string>(in), {}};
}

/// True where a name is one of the table's but for a letter or two in its words: "white oka". Woods
/// that only sound alike ("european elm") are not.
bool isSlip(const std::string& name) {
  if (speciesNamed(name) != nullptr) return false;
  const std::vector<std::string> words = wordsOf(name);
  return std::ranges::any_of(speciesNames(), [&](const std::string& known) {
    const std::vector<std::string> right = wordsOf(known);
    if (right.size() != words.size()) return false;
    for (std::size_t i = 0; i < words.size(); ++i) {
      if (words[i] != right[i] && nearestName(words[i], {right[i]}).empty()) return false;
    }
    return true;
  });
}

void readShared(const JsonPlace& place, StockItem& item) {
  if (const auto species = place.need("species")) {
    item.species = species->line();
    // A model may have woods of its own, so any wood will do, but for a slip of the pen.
    if (item.form == StockForm::board && isSlip(item.species)) {
      species->unknown("there is no species " + inQuotes(item.species), item.species,
                       speciesNames());
    }
  }
  if (const auto material = place.find("material")) item.material = material->line();
  if (const auto price = place.find("price")) item.price = priceAt(*price);
  if (const auto offcut = place.find("offcut")) item.offcut = truthAt(*offcut);
  if (const auto note = place.find("note")) item.note = note->line();
  readGrades(place, item);
}

void readOutline(const JsonPlace& place, Unit unit, StockItem& item) {
  if (!place.node().is(Type::list) || place.node().members.size() < 3) {
    place.wrong("an outline needs three corners or more", "write [[x, y], [x, y], ...]");
    return;
  }
  if (place.node().members.size() > kMostCorners) {
    place.wrong(fmt::format("an outline may have at most {} corners", kMostCorners));
    return;
  }
  std::vector<FlatPoint> outline;
  for (const auto& [key, corner] : place.members()) {
    if (!isListOf(corner, 2, "write a corner as [x, y]")) return;
    outline.push_back(
        {lengthAt(corner.members()[0].second, unit), lengthAt(corner.members()[1].second, unit)});
  }
  if (place.failed()) return;
  const auto [left, right] = std::minmax_element(
      outline.begin(), outline.end(), [](FlatPoint a, FlatPoint b) { return a.x < b.x; });
  const auto [low, high] = std::minmax_element(outline.begin(), outline.end(),
                                               [](FlatPoint a, FlatPoint b) { return a.y < b.y; });
  if (crossesItself(outline)) {
    place.wrong("the outline crosses or touches itself", "give the corners in order");
  } else if (areaOf(outline) <= 1) {
    place.wrong("the outline has no area", "give the corners in order");
  } else if (left->x > kernel::kContact || low->y > kernel::kContact) {
    place.wrong(fmt::format("the outline begins at x {}, y {}", mmText(left->x), mmText(low->y)),
                "measure from the near end and the datum edge, so that both begin at 0");
  }
  item.length = right->x;
  item.nearWidth = item.farWidth = high->y;
  item.outline = std::move(outline);
}

/// One number, or [near, far] for a taper.
void readBoardWidth(const JsonPlace& place, Unit unit, StockItem& item) {
  if (!place.node().is(Type::list)) {
    item.nearWidth = item.farWidth = sizeAt(place, unit);
  } else if (isListOf(place, 2, "write one width, or [near, far] for a taper")) {
    item.nearWidth = sizeAt(place.members()[0].second, unit);
    item.farWidth = sizeAt(place.members()[1].second, unit);
  }
}

StockItem readBoard(const std::string& name, const JsonPlace& place, Unit unit) {
  StockItem item;
  item.name = name;
  item.form = StockForm::board;
  if (!place.isObject({"species", "length", "width", "outline", "thickness", "defects", "grade",
                       "moisture", "batch", "price", "offcut", "material", "note"})) {
    return item;
  }
  readShared(place, item);
  if (const auto thickness = place.need("thickness")) item.thickness = sizeAt(*thickness, unit);
  const auto outline = place.find("outline");
  if (outline && (place.find("length") || place.find("width"))) {
    outline->wrong("the outline already gives length and width", "leave those two out");
  } else if (outline) {
    readOutline(*outline, unit, item);
  } else {
    if (const auto length = place.need("length")) item.length = sizeAt(*length, unit);
    if (const auto width = place.need("width")) readBoardWidth(*width, unit, item);
  }
  if (const auto moisture = place.find("moisture")) {
    item.moisture = numberAt(*moisture, "moisture in % of the dry weight", 0, kWettest);
  }
  if (const auto batch = place.find("batch")) item.batch = batch->line();
  if (!place.failed()) readDefects(place, unit, item);
  return item;
}

StockItem readSheet(const std::string& name, const JsonPlace& place, Unit unit) {
  StockItem item;
  item.name = name;
  item.form = StockForm::sheet;
  if (!place.isObject({"species", "thickness", "length", "width", "count", "grain", "price",
                       "defects", "grade", "offcut", "note", "material"})) {
    return item;
  }
  readShared(place, item);
  if (const auto thickness = place.need("thickness")) item.thickness = sizeAt(*thickness, unit);
  if (const auto length = place.need("length")) item.length = sizeAt(*length, unit);
  if (const auto width = place.need("width")) {
    item.nearWidth = item.farWidth = sizeAt(*width, unit);
  }
  if (const auto count = place.find("count")) {
    item.count = countAt(*count, "a count of sheets", 1, kMostCopies);
  }
  if (const auto grain = place.find("grain")) {
    constexpr std::array kGrains{Grain::length, Grain::width, Grain::none};
    item.grain = kGrains[grain->wordOf({"length", "width", "none"})];
  }
  if (!place.failed()) readDefects(place, unit, item);
  return item;
}

void checkItemName(const std::string& name, const JsonPlace& place) {
  const auto isControl = [](unsigned char c) { return c < 0x20 || c == 0x7F; };
  if (trimmed(name).empty()) {
    place.wrong("an entry has no name", "name it as it is marked on the wood");
  } else if (name.size() > kLongestName || std::any_of(name.begin(), name.end(), isControl)) {
    place.wrong(inQuotes(name) + " is too long for a name, or not on one line",
                fmt::format("names have at most {} letters", kLongestName));
  }
}

template <class Read>
void readItems(const JsonPlace& root, const std::string& key, std::set<std::string>& names,
               StockList& list, const Read& read) {
  const auto place = root.find(key);
  if (!place || !place->isObject()) return;
  for (const auto& [name, entry] : place->members()) {
    checkItemName(name, entry);
    if (!names.insert(name).second) {
      entry.wrong("the name " + inQuotes(name) + " is taken by a sheet",
                  "boards and sheets share one set of names");
    }
    if (entry.failed()) return;
    list.items.push_back(read(name, entry, list.unit));
  }
}

/// Everything that is wrong with a stock list is badStock, whoever noticed it.
tl::unexpected<Error> badStock(Error error, const std::string& where) {
  error.code = ErrorCode::badStock;
  return tl::unexpected(error.within(where));
}

}  // namespace

Result<StockList> parseStock(const std::string& text, const std::string& where) {
  if (text.size() > kLargestFile) {
    return fail(ErrorCode::badStock, "the text is larger than 20 MB", where);
  }
  const Result<JsonNode> document = parseJson(text);
  if (!document) return badStock(document.error(), where);
  FirstError errors;
  StockList list;
  const JsonPlace root(*document, "", errors);
  if (root.isObject(
          {"format", "version", "unit", "currency", "trims", "sheets", "boards", "note"})) {
    readHead(root, list);
    if (!root.failed()) readTrims(root, list);
    if (const auto note = root.find("note")) (void)note->text();
    std::set<std::string> names;
    if (!root.failed()) readItems(root, "sheets", names, list, readSheet);
    if (!root.failed()) readItems(root, "boards", names, list, readBoard);
  }
  if (errors.error()) return badStock(*errors.error(), where);
  return list;
}

Result<StockList> loadStock(const std::filesystem::path& path) {
  const Result<std::string> text = readWhole(path, "stock list");
  if (!text) return tl::unexpected(text.error());
  return parseStock(*text, path.string());
}

}  // namespace dryfit::joinery
