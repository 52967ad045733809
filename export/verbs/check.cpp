#include <algorithm>
#include <ostream>

#include "export/report/json_report.h"
#include "export/report/report_text.h"
#include "export/verbs/verb.h"
#include "export/words/caution.h"

namespace dryfit::exporting {

namespace {

class CheckVerb final : public Verb {
 public:
  std::string_view name() const override { return "check"; }
  std::string_view summary() const override {
    return "Dry-fit the piece and list what is wrong with it, worst first";
  }
  void declare(const VerbOptions&) override {}

  Result<ExitCode> run(const Request& request) const override {
    const auto work = openModel(request);
    if (!work) return tl::unexpected(work.error());
    const auto fit = dryFitWork(request, *work);
    if (!fit) return tl::unexpected(fit.error());
    if (request.json) {
      request.out << findingsJson(*fit);
    } else {
      request.out << checkReport(*fit, work->unit);
    }
    return exitCodeOf(*fit);
  }
};

}  // namespace

ExitCode exitCodeFor(const std::vector<joinery::Finding>& findings) {
  const bool errors = std::ranges::any_of(findings, [](const joinery::Finding& finding) {
    return finding.severity == joinery::Severity::error;
  });
  return errors ? ExitCode::errorFindings : ExitCode::fine;
}

ExitCode exitCodeOf(const joinery::DryFit& fit) {
  return exitCodeFor(fit.findings);
}

std::unique_ptr<Verb> makeCheckVerb() {
  return std::make_unique<CheckVerb>();
}

}  // namespace dryfit::exporting
