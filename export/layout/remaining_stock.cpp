#include "export/layout/remaining_stock.h"

#include "joinery/base/unit.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

#include "export/words/head_text.h"
#include "joinery/file/json_document.h"
#include "joinery/formula/length_text.h"

namespace dryfit::exporting {

using joinery::Defect;
using joinery::FlatRect;
using joinery::JsonNode;
using joinery::millimetresIn;
using joinery::StockForm;
using joinery::StockItem;
using joinery::StockLayout;

namespace {

constexpr std::size_t kLongestStem = 45;  ///< the form allows names of 60 bytes

/// "offcut 2 of Plank 3", as short as the form wants it and not yet in `taken`.
std::string offcutName(const std::string& from, std::set<std::string>& taken) {
  std::string stem = from.substr(0, kLongestStem);
  // Cut between letters of UTF-8.
  while (stem.size() < from.size() && !stem.empty() &&
         (static_cast<unsigned char>(from[stem.size()]) & 0xC0U) == 0x80U) {
    stem.pop_back();
  }
  for (int i = 1;; ++i) {
    std::string name = fmt::format("offcut {} of {}", i, stem);
    if (taken.insert(name).second) return name;
  }
}

/// The defects that reach into `zone`, as they lie in it.
std::vector<Defect> defectsIn(const StockItem& item, const FlatRect& zone) {
  std::vector<Defect> found;
  for (const Defect& defect : item.defects) {
    const double x = std::max(defect.zone.x, zone.x);
    const double y = std::max(defect.zone.y, zone.y);
    const double length = std::min(defect.zone.farX(), zone.farX()) - x;
    const double width = std::min(defect.zone.farY(), zone.farY()) - y;
    if (length <= 0 || width <= 0) continue;
    found.push_back({defect.kind, {x - zone.x, y - zone.y, length, width}, defect.face});
  }
  return found;
}

StockItem offcutOf(const StockItem& item, const FlatRect& zone, std::string name) {
  StockItem offcut = item;
  offcut.name = std::move(name);
  offcut.length = zone.length;
  offcut.nearWidth = offcut.farWidth = zone.width;
  offcut.outline.clear();
  offcut.count = 1;
  offcut.defects = defectsIn(item, zone);
  offcut.offcut = true;
  offcut.note.clear();
  if (item.price) offcut.price = 0;  // the job it comes from has paid for it
  return offcut;
}

JsonNode numberNode(double value) {
  return JsonNode::ofNumber(fmt::format("{:.9g}", std::round(value * 1e5) / 1e5));
}

class StockWriter {
 public:
  explicit StockWriter(joinery::Unit unit) : unit_(unit) {}

  [[nodiscard]] JsonNode item(const StockItem& item) const {
    JsonNode node = JsonNode::ofObject();
    const auto text = [&node](const char* key, const std::string& value) {
      if (!value.empty()) node.set(key, JsonNode::ofText(value));
    };
    node.set("species", JsonNode::ofText(item.species));
    text("material", item.material);
    node.set("thickness", length(item.thickness));
    addOutline(item, node);
    if (item.form == StockForm::sheet) {
      if (item.count != 1) node.set("count", numberNode(item.count));
      if (item.grain != joinery::Grain::length) {
        node.set("grain", JsonNode::ofText(std::string(nameOfGrain(item.grain))));
      }
    } else {
      if (item.moisture) node.set("moisture", numberNode(*item.moisture));
      text("batch", item.batch);
    }
    if (!item.firstGrade.empty() || !item.secondGrade.empty()) {
      node.set("grade",
               list({JsonNode::ofText(item.firstGrade), JsonNode::ofText(item.secondGrade)}));
    }
    if (item.price) node.set("price", numberNode(*item.price));
    if (item.offcut) {
      JsonNode yes;
      yes.type = JsonNode::Type::boolean;
      yes.truth = true;
      node.set("offcut", yes);
    }
    text("note", item.note);
    std::vector<JsonNode> defects;
    for (const Defect& one : item.defects) defects.push_back(defect(one));
    if (!defects.empty()) node.set("defects", list(defects));
    return node;
  }

 private:
  [[nodiscard]] static JsonNode list(const std::vector<JsonNode>& values) {
    JsonNode node;
    node.type = JsonNode::Type::list;
    for (const JsonNode& value : values) node.members.push_back({"", value});
    return node;
  }
  [[nodiscard]] JsonNode length(double mm) const {
    return numberNode(mm / joinery::millimetresIn(unit_));
  }

  void addOutline(const StockItem& item, JsonNode& node) const {
    if (!item.outline.empty()) {
      std::vector<JsonNode> corners;
      for (const auto& p : item.outline) corners.push_back(list({length(p.x), length(p.y)}));
      node.set("outline", list(corners));
      return;
    }
    node.set("length", length(item.length));
    node.set("width", item.nearWidth == item.farWidth
                          ? length(item.nearWidth)
                          : list({length(item.nearWidth), length(item.farWidth)}));
  }

  [[nodiscard]] JsonNode defect(const Defect& defect) const {
    constexpr std::array kKinds{"knot", "split", "wane", "sap", "other"};
    constexpr std::array kFaces{"first", "second", "both"};
    JsonNode node = JsonNode::ofObject();
    node.set("kind", JsonNode::ofText(kKinds[static_cast<std::size_t>(defect.kind)]));
    node.set("at", list({length(defect.zone.x), length(defect.zone.y)}));
    node.set("size", list({length(defect.zone.length), length(defect.zone.width)}));
    node.set("face", JsonNode::ofText(kFaces[static_cast<std::size_t>(defect.face)]));
    return node;
  }

  joinery::Unit unit_;
};

}  // namespace

joinery::StockList remainingStock(const LayoutJob& job) {
  std::map<int, int> used;
  for (const StockLayout& one : job.layout.stock) ++used[one.item];
  joinery::StockList rest = job.stock;
  rest.items.clear();
  std::set<std::string> taken;
  for (std::size_t i = 0; i < job.stock.items.size(); ++i) {
    StockItem item = job.stock.items[i];
    item.count -= used[static_cast<int>(i)];
    taken.insert(item.name);
    if (item.count > 0) rest.items.push_back(std::move(item));
  }
  for (const StockLayout& one : job.layout.stock) {
    for (const FlatRect& zone : one.offcuts) {
      const StockItem& item = job.itemOf(one);
      rest.items.push_back(offcutOf(item, zone, offcutName(item.name, taken)));
    }
  }
  return rest;
}

std::string stockText(const joinery::StockList& list) {
  JsonNode document = JsonNode::ofObject();
  document.set("format", JsonNode::ofText("dryfit-stock"));
  document.set("version", JsonNode::ofNumber("1"));
  document.set("unit", JsonNode::ofText(std::string(joinery::nameOf(list.unit))));
  if (!list.currency.empty()) document.set("currency", JsonNode::ofText(list.currency));
  const auto trim = [&](const char* key, std::optional<double> mm) {
    if (mm) document.objectAt("trims").set(key, numberNode(*mm / millimetresIn(list.unit)));
  };
  trim("board_ends", list.boardEndTrim);
  trim("board_edges", list.boardEdgeTrim);
  const StockWriter writer(list.unit);
  for (const auto& [key, form] :
       {std::pair{"sheets", StockForm::sheet}, std::pair{"boards", StockForm::board}}) {
    JsonNode& items = document.objectAt(key);
    for (const StockItem& item : list.items) {
      if (item.form == form) items.set(item.name, writer.item(item));
    }
  }
  return joinery::jsonText(document);
}

}  // namespace dryfit::exporting
