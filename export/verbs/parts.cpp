#include <ostream>

#include "export/lists/part_table.h"
#include "export/lists/purchase_words.h"
#include "export/report/json_report.h"
#include "export/report/report_text.h"
#include "export/verbs/verb.h"

namespace dryfit::exporting {

namespace {

class PartsVerb final : public Verb {
 public:
  std::string_view name() const override { return "parts"; }
  std::string_view summary() const override {
    return "List the parts: number, count, finished and rough sizes, shoulder length, grain, "
           "material";
  }
  void declare(const VerbOptions&) override {}

  Result<ExitCode> run(const Request& request) const override {
    const auto work = openModel(request);
    if (!work) return tl::unexpected(work.error());
    if (request.json) return runJson(request, *work);
    const auto piece = evaluateWork(request, *work);
    if (!piece) return tl::unexpected(piece.error());
    TextTable table = partTable(true);
    const auto rough = joinery::roughSizes(*piece);
    if (!rough) return tl::unexpected(rough.error().within(request.model.string()));
    for (const CutRow& row : numberedRows(*piece)) {
      addPart(table, row, work->unit, piece->part(row.first).material,
              roughSizeText(joinery::roughPart(*rough, *piece, row.first), work->unit));
    }
    request.out << headText("Parts", piece->model.name, piece->basis, work->unit) << '\n'
                << table.text();
    return tellNotCut(request, *piece);
  }

 private:
  static Result<ExitCode> runJson(const Request& request, const Work& work) {
    const auto fit = buildWork(request, work);
    if (!fit) return tl::unexpected(fit.error());
    request.out << partsJson(*fit);
    return tellNotCut(request, fit->piece);
  }
};

}  // namespace

std::unique_ptr<Verb> makePartsVerb() {
  return std::make_unique<PartsVerb>();
}

}  // namespace dryfit::exporting
