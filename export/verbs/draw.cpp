#include <span>
#include <string>

#include "export/drawing/drawing_set.h"
#include "export/drawing/pdf_writer.h"
#include "export/drawing/svg_writer.h"
#include "export/files/output_folder.h"
#include "export/verbs/interrupt.h"
#include "export/verbs/options.h"
#include "export/verbs/verb.h"

namespace dryfit::exporting {

namespace {

class DrawVerb final : public Verb {
 public:
  std::string_view name() const override { return "draw"; }
  std::string_view summary() const override {
    return "Draw the assembly and every part with its joints, one file per drawing";
  }
  void declare(const VerbOptions& options) override {
    options.add("-o,--output", output_, "DIR", "Folder to write to").required();
    options.add("--format", format_, "NAME", "pdf or svg").oneOf({"pdf", "svg"}).showDefault();
  }

  Result<ExitCode> run(const Request& asked) const override {
    const InterruptWatch watch;  // so that no half-written folder stays behind
    Request request = asked;
    request.progress = untilInterrupted(asked.progress);
    const auto work = openModel(request);
    if (!work) return tl::unexpected(work.error());
    const auto folder = OutputFolder::prepare(output_);
    if (!folder) return tl::unexpected(folder.error());
    const auto fit = dryFitWork(request, *work);
    if (!fit) return tl::unexpected(fit.error());
    const auto sheets = drawAll(*fit, work->unit, request.progress);
    if (!sheets) return tl::unexpected(sheets.error().within(request.model.string()));
    for (const NamedSheet& named : *sheets) {
      const auto written = writeSheet(*folder, named);
      if (!written) return tl::unexpected(written.error());
    }
    const auto files = folder->commit();
    if (!files) return tl::unexpected(files.error());
    reportFiles(request, *files);
    return exitCodeOf(*fit);
  }

 private:
  [[nodiscard]] Result<void> writeSheet(const OutputFolder& folder, const NamedSheet& named) const {
    if (format_ == "svg") return folder.write(named.name + ".svg", svgText(named.sheet));
    const auto pdf = pdfBytes(std::span(&named.sheet, 1), {.title = named.sheet.title});
    if (!pdf) return tl::unexpected(pdf.error());
    return folder.write(named.name + ".pdf", *pdf);
  }

  std::string output_;
  std::string format_ = "pdf";
};

}  // namespace

std::unique_ptr<Verb> makeDrawVerb() {
  return std::make_unique<DrawVerb>();
}

}  // namespace dryfit::exporting
