#include <string>

#include "export/step/step_writer.h"
#include "export/verbs/options.h"
#include "export/verbs/verb.h"
#include "joinery/base/atomic_write.h"

namespace dryfit::exporting {

namespace {

class StepVerb final : public Verb {
 public:
  std::string_view name() const override { return "step"; }
  std::string_view summary() const override {
    return "Write the piece as a STEP assembly (ISO 10303), named and coloured, in mm";
  }
  void declare(const VerbOptions& options) override {
    options.add("-o,--output", output_, "FILE", "File to write").required();
    options.add("--schema", schema_, "NAME", "Application protocol: ap214 or ap242")
        .oneOf({"ap214", "ap242"})
        .showDefault();
    options.add("--time-stamp", timeStamp_, "TIME",
                "Time in the file's header, as 2024-01-31T12:00:00, so that two runs give "
                "the same file; now where left out");
  }

  Result<ExitCode> run(const Request& request) const override {
    const auto work = openModel(request);
    if (!work) return tl::unexpected(work.error());
    const auto fit = buildWork(request, *work);
    if (!fit) return tl::unexpected(fit.error());
    StepOptions options;
    options.schema = schema_ == "ap214" ? StepSchema::ap214 : StepSchema::ap242;
    options.timeStamp = timeStamp_;
    const auto text = stepText(fit->piece, fit->solids, options);
    if (!text) return tl::unexpected(text.error());
    if (const auto written = joinery::writeAtomically(output_, *text); !written) {
      return tl::unexpected(written.error());
    }
    reportFiles(request, {output_});
    return tellNotCut(request, fit->piece);
  }

 private:
  std::string output_;
  std::string schema_ = "ap242";
  std::string timeStamp_;
};

}  // namespace

std::unique_ptr<Verb> makeStepVerb() {
  return std::make_unique<StepVerb>();
}

}  // namespace dryfit::exporting
