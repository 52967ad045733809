#pragma once

#include <optional>
#include <string>
#include <vector>

#include "joinery/piece/piece.h"
#include "joinery/stock/rough_sizes.h"
#include "kernel/result.h"
#include "kernel/solid.h"

namespace dryfit::joinery {

/// Timber of one species and thickness sold. Volumes in mm³, lengths in mm.
struct TimberRow {
  std::string species;
  double soldThickness = 0;
  std::vector<std::string> materials;  ///< of the model, in its order
  int blanks = 0;
  double netVolume = 0;        ///< of the finished parts, tenons and tongues included
  double roughVolume = 0;      ///< of the blanks in the thickness sold
  double buyVolume = 0;        ///< with waste on top
  double longest = 0;          ///< longest blank
  double widest = 0;           ///< widest blank
  double boardFeet = 0;        ///< of the volume to buy
  double tally = 0;            ///< board feet as the trade tallies them
  std::optional<double> cost;  ///< none where a material in it has no price
};

/// Sheets of one kind, thickness, size and price. Areas in mm².
struct SheetRow {
  std::vector<std::string> materials;  ///< of the model, in its order
  std::string species;
  double thickness = 0;
  double sheetLength = 0, sheetWidth = 0;
  int blanks = 0;
  double area = 0;     ///< of the blanks
  double buyArea = 0;  ///< with waste on top
  int count = 0;       ///< of sheets: the greater of the next two
  int countByArea = 0;
  int countByLargest = 0;             ///< parts of which no two go on one sheet
  std::vector<std::string> tooLarge;  ///< names of blanks that no sheet holds
  std::optional<double> price;        ///< of one sheet
  std::optional<double> cost;
};

/// Edging of one name. Lengths in mm.
struct EdgingRow {
  std::string name, note;
  double length = 0;     ///< of the finished edges
  double buyLength = 0;  ///< with ends and waste
  std::optional<double> cost;
};

struct HardwareRow {
  std::string name, note;
  int count = 0;
  std::optional<double> cost;
};

/// How much there is to finish. Areas in mm².
struct FinishRow {
  double allFaces = 0;   ///< of all parts, joints and grooves included, before assembly
  double sightArea = 0;  ///< between shoulders, less what mates cover: what is finished
  int coats = 0;
  double areaPerLitre = 0;  ///< m² a coat
  double litres = 0;
  std::optional<double> cost;
};

/// What to buy for a piece.
struct PurchaseList {
  std::string piece;
  Basis basis = Basis::drawn;
  std::string currency;  ///< may be empty
  std::vector<TimberRow> timber;
  std::vector<SheetRow> sheets;
  std::vector<EdgingRow> edging;
  std::vector<HardwareRow> hardware;  ///< what joints need, then what the model lists
  FinishRow finish;
  std::vector<RoughBlank> blanks;  ///< the rough sizes behind it
  double total = 0;                ///< of all rows that have a cost
  std::vector<std::string> notPriced;
};

/// `solids` by PartId. Errors as roughSizes.
[[nodiscard]] Result<PurchaseList> makePurchaseList(const Piece& piece,
                                                    const std::vector<kernel::Solid>& solids);

/// Area of all parts between their shoulders, less the faces that meet in a joint, mm².
[[nodiscard]] double sightArea(const Piece& piece);

}  // namespace dryfit::joinery
