#include <ostream>
#include <string>

#include "export/files/write_together.h"
#include "export/lists/purchase_report.h"
#include "export/verbs/options.h"
#include "export/verbs/verb.h"

namespace dryfit::exporting {

namespace {

class BuyVerb final : public Verb {
 public:
  std::string_view name() const override { return "buy"; }
  std::string_view summary() const override {
    return "List what to buy: timber and sheets with allowances, edging, hardware, finish, cost";
  }
  void declare(const VerbOptions& options) override {
    options.add("--csv", csv_, "FILE",
                "Also write the list to this file, comma-separated (RFC 4180)");
    options.add("--xlsx", xlsx_, "FILE",
                "Also write the list and rough sizes to this file as a spreadsheet");
    options.add("--list", list_, "FILE", "Also write a short list to tick off, as plain text");
  }

  Result<ExitCode> run(const Request& request) const override {
    const auto work = openModel(request);
    if (!work) return tl::unexpected(work.error());
    const auto fit = buildWork(request, *work);
    if (!fit) return tl::unexpected(fit.error());
    const auto list = joinery::makePurchaseList(fit->piece, fit->solids);
    if (!list) return tl::unexpected(list.error().within(request.model.string()));
    const auto files = writeFiles(*list, fit->piece, work->unit);
    if (!files) return tl::unexpected(files.error());
    if (request.json) {
      request.out << purchaseJson(*list, fit->piece);
      return tellNotCut(request, fit->piece);
    }
    request.out << purchaseReport(*list, fit->piece, work->unit);
    if (!files->empty()) request.out << '\n';
    reportFiles(request, *files);
    return tellNotCut(request, fit->piece);
  }

 private:
  [[nodiscard]] Result<std::vector<std::filesystem::path>> writeFiles(
      const joinery::PurchaseList& list, const joinery::Piece& piece, joinery::Unit unit) const {
    std::vector<FileContent> files;
    if (!csv_.empty()) files.push_back({csv_, purchaseCsv(list, unit)});
    if (!xlsx_.empty()) {
      auto workbook = purchaseWorkbook(list, piece, unit);
      if (!workbook) return tl::unexpected(workbook.error());
      files.push_back({xlsx_, std::move(*workbook)});
    }
    if (!list_.empty()) files.push_back({list_, purchaseNote(list, unit)});
    return writeTogether(files);
  }

  std::string csv_;
  std::string xlsx_;
  std::string list_;
};

}  // namespace

std::unique_ptr<Verb> makeBuyVerb() {
  return std::make_unique<BuyVerb>();
}

}  // namespace dryfit::exporting
