#include <ostream>
#include <string>

#include "export/files/write_together.h"
#include "export/lists/cut_list.h"
#include "export/report/json_report.h"
#include "export/report/report_text.h"
#include "export/verbs/options.h"
#include "export/verbs/verb.h"

namespace dryfit::exporting {

namespace {

class CutListVerb final : public Verb {
 public:
  std::string_view name() const override { return "cutlist"; }
  std::string_view summary() const override {
    return "List what to cut, by material, with identical parts on one line";
  }
  void declare(const VerbOptions& options) override {
    options.add("--csv", csv_, "FILE",
                "Also write the list to this file, comma-separated (RFC 4180)");
    options.add("--xlsx", xlsx_, "FILE", "Also write the list to this file as a spreadsheet");
  }

  Result<ExitCode> run(const Request& request) const override {
    const auto work = openModel(request);
    if (!work) return tl::unexpected(work.error());
    const auto piece = evaluateWork(request, *work);
    if (!piece) return tl::unexpected(piece.error());
    const CutList list = makeCutList(*piece);
    const auto files = writeFiles(list, work->unit);
    if (!files) return tl::unexpected(files.error());
    if (request.json) {
      request.out << cutListJson(list);
      return tellNotCut(request, *piece);
    }
    request.out << cutListReport(list, work->unit);
    if (!files->empty()) request.out << '\n';
    reportFiles(request, *files);
    return tellNotCut(request, *piece);
  }

 private:
  [[nodiscard]] Result<std::vector<std::filesystem::path>> writeFiles(const CutList& list,
                                                                      joinery::Unit unit) const {
    std::vector<FileContent> files;
    if (!csv_.empty()) files.push_back({csv_, cutListCsv(list, unit)});
    if (!xlsx_.empty()) {
      auto workbook = cutListWorkbook(list, unit);
      if (!workbook) return tl::unexpected(workbook.error());
      files.push_back({xlsx_, std::move(*workbook)});
    }
    return writeTogether(files);
  }

  std::string csv_;
  std::string xlsx_;
};

}  // namespace

std::unique_ptr<Verb> makeCutListVerb() {
  return std::make_unique<CutListVerb>();
}

}  // namespace dryfit::exporting
