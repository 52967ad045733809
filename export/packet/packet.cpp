#include "export/packet/packet.h"

#include <filesystem>
#include <functional>

#include "export/drawing/drawing_set.h"
#include "export/drawing/svg_writer.h"
#include "export/lists/cut_list.h"
#include "export/lists/purchase_report.h"
#include "export/report/report_text.h"
#include "export/step/step_writer.h"

namespace dryfit::exporting {

namespace {

/// Writes what `make` gives, or passes on why it gives nothing.
Result<void> writeMade(const OutputFolder& folder, const std::filesystem::path& name,
                       const Result<std::string>& made) {
  if (!made) return tl::unexpected(made.error().within(name.string()));
  return folder.write(name, *made);
}

Result<void> writeDrawings(const joinery::DryFit& fit, joinery::Unit unit,
                           const OutputFolder& folder, const joinery::Progress& progress) {
  const auto sheets = drawAll(fit, unit, progress);
  if (!sheets) return tl::unexpected(sheets.error());
  auto pdf = writeMade(folder, "drawings.pdf", onePdf(*sheets, fit.piece.model.name));
  if (!pdf) return pdf;
  for (const NamedSheet& named : *sheets) {
    const auto path = std::filesystem::path("drawings") / (named.name + ".svg");
    if (auto written = folder.write(path, svgText(named.sheet)); !written) return written;
  }
  return {};
}

}  // namespace

Result<void> makePacket(const joinery::DryFit& fit, joinery::Unit unit, const OutputFolder& folder,
                        const joinery::Progress& progress) {
  const CutList list = makeCutList(fit.piece);
  const auto purchase = joinery::makePurchaseList(fit.piece, fit.solids);
  if (!purchase) return tl::unexpected(purchase.error());
  const std::function<Result<void>()> steps[] = {
      [&] { return folder.write("check.txt", checkReport(fit, unit)); },
      [&] { return folder.write("cut_list.txt", cutListReport(list, unit)); },
      [&] { return folder.write("cut_list.csv", cutListCsv(list, unit)); },
      [&] { return writeMade(folder, "cut_list.xlsx", cutListWorkbook(list, unit)); },
      [&] { return folder.write("to_buy.txt", purchaseReport(*purchase, fit.piece, unit)); },
      [&] {
        return writeMade(folder, "to_buy.xlsx", purchaseWorkbook(*purchase, fit.piece, unit));
      },
      [&] { return writeMade(folder, "assembly.step", stepText(fit.piece, fit.solids)); },
      [&] { return writeDrawings(fit, unit, folder, progress); },
  };
  for (const auto& step : steps) {
    if (auto done = step(); !done) return done;
  }
  return {};
}

}  // namespace dryfit::exporting
