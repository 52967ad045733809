#include "export/lists/purchase_report.h"
#include "export/words/caution.h"
#include "export/words/json_head.h"
#include "joinery/trade/allowances.h"

namespace dryfit::exporting {

using nlohmann::ordered_json;

namespace {

using joinery::PurchaseList;

void addCost(ordered_json& json, const std::optional<double>& cost) {
  if (cost) json["cost"] = *cost;
}

ordered_json timberJson(const joinery::TimberRow& row) {
  ordered_json json{{"species", row.species},
                    {"materials", row.materials},
                    {"sold_thickness_mm", row.soldThickness},
                    {"pieces", row.blanks},
                    {"longest_mm", row.longest},
                    {"widest_mm", row.widest},
                    {"finished_mm3", row.netVolume},
                    {"rough_mm3", row.roughVolume},
                    {"buy_mm3", row.buyVolume},
                    {"board_feet", row.boardFeet},
                    {"board_feet_tally", row.tally}};
  addCost(json, row.cost);
  return json;
}

ordered_json sheetJson(const joinery::SheetRow& row) {
  ordered_json json{{"material", row.materials.front()},
                    {"materials", row.materials},
                    {"species", row.species},
                    {"thickness_mm", row.thickness},
                    {"sheet_mm", {row.sheetLength, row.sheetWidth}},
                    {"pieces", row.blanks},
                    {"area_mm2", row.area},
                    {"buy_mm2", row.buyArea},
                    {"count", row.count},
                    {"count_by_area", row.countByArea},
                    {"count_by_largest", row.countByLargest},
                    {"too_large", row.tooLarge}};
  addCost(json, row.cost);
  return json;
}

ordered_json roughJson(const joinery::RoughBlank& one, const joinery::Piece& piece) {
  const joinery::Blank& blank = one.blank;
  ordered_json parts = ordered_json::array();
  for (const joinery::PartId id : one.parts) parts.push_back(piece.part(id).name);
  ordered_json json{{"name", blank.name},         {"parts", std::move(parts)},
                    {"material", blank.material}, {"length_mm", blank.length},
                    {"width_mm", blank.width},    {"thickness_mm", blank.thickness}};
  if (one.soldThickness > 0) {
    json["sold_thickness_mm"] = one.soldThickness;
  } else {
    json["thickness_most_mm"] = blank.thicknessMost;
  }
  if (!blank.match.empty()) json["match"] = blank.match;
  return json;
}

}  // namespace

std::string purchaseJson(const PurchaseList& list, const joinery::Piece& piece) {
  ordered_json json = headJson("purchase", list.piece, list.basis);
  json["currency"] = list.currency;
  for (const char* key : {"timber", "sheets", "edging", "hardware"}) {
    json[key] = ordered_json::array();
  }
  for (const auto& row : list.timber) json["timber"].push_back(timberJson(row));
  for (const auto& row : list.sheets) json["sheets"].push_back(sheetJson(row));
  for (const auto& row : list.edging) {
    ordered_json one{{"name", row.name}, {"length_mm", row.length}, {"buy_mm", row.buyLength}};
    addCost(one, row.cost);
    json["edging"].push_back(std::move(one));
  }
  for (const auto& row : list.hardware) {
    ordered_json one{{"name", row.name}, {"count", row.count}, {"note", row.note}};
    addCost(one, row.cost);
    json["hardware"].push_back(std::move(one));
  }
  ordered_json finish{{"all_faces_mm2", list.finish.allFaces},
                      {"sight_mm2", list.finish.sightArea},
                      {"coats", list.finish.coats},
                      {"m2_per_litre", list.finish.areaPerLitre},
                      {"litres", list.finish.litres}};
  addCost(finish, list.finish.cost);
  json["finish"] = std::move(finish);
  json["total"] = list.total;
  json["not_priced"] = list.notPriced;
  json["rough"] = ordered_json::array();
  for (const auto& one : list.blanks) json["rough"].push_back(roughJson(one, piece));
  json["safety"] = ordered_json::array();
  for (const Caution& one : cautionsFor(piece)) json["safety"].push_back(one.text);
  return dumped(json);
}

}  // namespace dryfit::exporting
