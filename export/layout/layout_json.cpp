#include "export/layout/layout_json.h"

#include <nlohmann/json.hpp>

#include "export/layout/layout_words.h"
#include "export/words/head_text.h"

namespace dryfit::exporting {

using nlohmann::ordered_json;

namespace {

ordered_json rectJson(const joinery::FlatRect& r) {
  return {{"x_mm", r.x}, {"y_mm", r.y}, {"length_mm", r.length}, {"width_mm", r.width}};
}

ordered_json settingsJson(const joinery::LayoutSettings& s) {
  return {{"sheet_method", s.sheetMethod == joinery::CutMethod::free ? "free" : "through cuts"},
          {"board_kerf_mm", s.boardKerf},
          {"sheet_kerf_mm", s.sheetKerf},
          {"sheet_trim_mm", s.sheetTrim},
          {"board_end_trim_mm", s.boardEndTrim},
          {"board_edge_trim_mm", s.boardEdgeTrim},
          {"turns_most", s.turnsMost},
          {"offcut_length_least_mm", s.offcutLengthLeast},
          {"offcut_width_least_mm", s.offcutWidthLeast}};
}

ordered_json materialJson(const joinery::MaterialSummary& m) {
  return {{"material", m.materials.front()},
          {"materials", m.materials},
          {"blanks", m.blanks},
          {"placed", m.placed},
          {"blank_area_mm2", m.blankArea},
          {"stock_area_mm2", m.stockArea},
          {"use", useOf(m)},
          {"cost", m.cost},
          {"cost_in", m.byPrice ? "currency" : "m2"},
          {"bound", m.bound},
          {"bound_by", m.boundBy},
          {"cuts", m.cuts}};
}

/// What is said of a blank wherever it is named.
ordered_json blankJson(const LayoutJob& job, int index) {
  const joinery::Blank& blank = job.blankOf(index);
  ordered_json json{{"blank", blank.name},
                    {"number", job.factsOf(index).number},
                    {"label", job.nameOfBlank(index)},
                    {"material", blank.material},
                    {"rough_mm", {blank.length, blank.width, blank.thickness}}};
  if (!job.factsOf(index).error.empty()) json["do_not_cut"] = job.factsOf(index).error;
  return json;
}

ordered_json stockJson(const LayoutJob& job, const joinery::StockLayout& one) {
  const joinery::StockItem& item = job.itemOf(one);
  ordered_json blanks = ordered_json::array();
  for (const joinery::PlacedBlank& placed : one.blanks) {
    ordered_json json = blankJson(job, placed.blank);
    json["at"] = rectJson(placed.at);
    json["turned"] = placed.turned;
    blanks.push_back(std::move(json));
  }
  ordered_json cuts = ordered_json::array();
  for (const joinery::Cut& cut : one.cuts) {
    cuts.push_back(
        {{"piece", cut.piece}, {"kind", cut.across ? "cross cut" : "rip"}, {"at_mm", cut.at}});
  }
  ordered_json offcuts = ordered_json::array();
  for (const joinery::FlatRect& offcut : one.offcuts) offcuts.push_back(rectJson(offcut));
  const joinery::FlatRect bounds = boundsOfStock(item);
  return {{"name", item.name},
          {"form", item.form == joinery::StockForm::sheet ? "sheet" : "board"},
          {"copy", one.copy + 1},
          {"material", materialsOf(job, one).front()},
          {"materials", materialsOf(job, one)},
          {"length_mm", bounds.length},
          {"width_mm", bounds.width},
          {"thickness_mm", item.thickness},
          {"use", useOf(job, one)},
          {"blanks", std::move(blanks)},
          {"cuts", std::move(cuts)},
          {"offcuts", std::move(offcuts)}};
}

}  // namespace

std::string layoutJson(const LayoutJob& job, const std::vector<std::filesystem::path>& files) {
  ordered_json json{{"report", "layout"},
                    {"version", 1},
                    {"piece", job.piece},
                    {"basis", nameOf(job.basis)},
                    {"finished", job.layout.finished},
                    {"currency", job.stock.currency},
                    {"settings", settingsJson(job.layout.settings)}};
  ordered_json materials = ordered_json::array();
  for (const auto& material : job.layout.materials) materials.push_back(materialJson(material));
  ordered_json stock = ordered_json::array();
  for (const auto& one : job.layout.stock) stock.push_back(stockJson(job, one));
  ordered_json unplaced = ordered_json::array();
  for (const joinery::Unplaced& one : job.layout.unplaced) {
    ordered_json blank = blankJson(job, one.blank);
    blank["why"] = one.why;
    blank["buy"] = one.buy;
    unplaced.push_back(std::move(blank));
  }
  json["materials"] = std::move(materials);
  json["stock"] = std::move(stock);
  json["unplaced"] = std::move(unplaced);
  json["matches_apart"] = job.layout.matchesApart;
  json["safety"] = safetyOf(job);
  if (!files.empty()) {
    ordered_json names = ordered_json::array();
    for (const auto& file : files) names.push_back(file.string());
    json["files"] = std::move(names);
  }
  return json.dump(2, ' ', false, ordered_json::error_handler_t::replace) + "\n";
}

}  // namespace dryfit::exporting
