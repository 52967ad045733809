#include <fmt/format.h>
#include <spdlog/logger.h>

#include <cmath>
#include <filesystem>
#include <optional>
#include <ostream>
#include <string>

#include "export/drawing/pdf_writer.h"
#include "export/drawing/svg_writer.h"
#include "export/files/output_folder.h"
#include "export/layout/labels.h"
#include "export/layout/layout_json.h"
#include "export/layout/layout_sheets.h"
#include "export/layout/layout_words.h"
#include "export/layout/remaining_stock.h"
#include "export/verbs/interrupt.h"
#include "export/verbs/options.h"
#include "export/verbs/verb.h"
#include "joinery/base/read_whole.h"
#include "joinery/base/writer_lock.h"
#include "joinery/formula/length_text.h"
#include "joinery/layout/lay_out.h"
#include "joinery/stock/rough_sizes.h"
#include "joinery/stock/stock_file.h"
#include "joinery/trade/machines.h"

namespace dryfit::exporting {

namespace {

/// A length typed after an option; a bare number is in mm, as on the machine.
Result<double> lengthOption(const std::string& option, const std::string& text, double most) {
  const auto length = joinery::parseLength(text, joinery::Unit::mm);
  if (!length || length->mm() < 0 || length->mm() > most) {
    return fail(ErrorCode::badUsage, fmt::format("{} cannot be {}", option, text),
                "command line of layout",
                fmt::format("write a length from 0 to {} mm, such as 3.2 or 1/8in", most));
  }
  return length->mm();
}

class LayoutVerb final : public Verb {
 public:
  std::string_view name() const override { return "layout"; }
  std::string_view summary() const override {
    return "Lay the parts out on boards and sheets, and draw the cuts in order";
  }
  void declare(const VerbOptions& options) override {
    options.add("--stock", stock_, "FILE", "The stock list: boards and sheets as measured")
        .required();
    options.add("-o,--output", output_, "DIR", "Folder to write to").required();
    options.add("--format", format_, "NAME", "pdf (one file) or svg (one per board or sheet)")
        .oneOf({"pdf", "svg"})
        .showDefault();
    const joinery::LayoutSettings usual;
    const auto kerf =
        options.add("--kerf", kerf_, "LENGTH",
                    fmt::format("Width of wood a cut takes away ({} mm)", usual.boardKerf));
    options
        .add("--machine", machine_, "NAME",
             "Use the usual kerf of " + joinery::machineWords(joinery::saws))
        .notWith(kerf);
    options.add(
        "--trim", trim_, "LENGTH",
        fmt::format("Trim this much off every edge of a sheet first ({} mm)", usual.sheetTrim));
    options
        .add("--turns", turns_, "COUNT",
             "How many times cutting may change direction on a sheet; 0 for any number")
        .within(0, 20);
    options.flag("--free", free_,
                 "Cut sheets with a router (its usual kerf): parts need not line up for saw cuts");
    options.flag("--labels", labels_, "Write labels.pdf: one stick-on label per part");
    options.add("--labels-per-page", grid_, "COLUMNSxROWS", "Labels across and down a sheet of A4")
        .showDefault();
    options.add("--offcuts", offcuts_, "FILE",
                "Write the stock that is left over to this stock list");
    options.footnote("Interrupted (Ctrl-C), it writes the best layout so far and says so.");
  }

  Result<ExitCode> run(const Request& request) const override {
    auto settings = readSettings();
    if (!settings) return tl::unexpected(settings.error());
    const auto grid = labelGridNamed(grid_);
    if (!grid) {
      return fail(ErrorCode::badUsage, "--labels-per-page " + grid_ + " is not a grid of labels",
                  "command line of layout", "write COLUMNSxROWS, up to 4x10");
    }
    const auto work = openModel(request);
    if (!work) return tl::unexpected(work.error());
    const auto stockBytes = joinery::readWhole(stock_, "stock list");
    if (!stockBytes) return tl::unexpected(stockBytes.error());
    auto stock = joinery::parseStock(*stockBytes, stock_);
    if (!stock) return tl::unexpected(stock.error());
    settings->unit = work->unit;
    const InterruptWatch watch;  // also so that no half-written folder stays behind
    auto folder = OutputFolder::prepare(output_);
    if (!folder) return tl::unexpected(folder.error());
    const auto fit = dryFitWork(request, *work);
    if (!fit) return tl::unexpected(fit.error());
    const auto job = makeJob(request, *fit, work->unit, std::move(*stock), *settings);
    if (!job) return tl::unexpected(job.error());
    if (auto made = writeAll(*job, *grid, *folder); !made) return tl::unexpected(made.error());
    const auto files = commit(*folder, *stockBytes);
    if (!files) return tl::unexpected(files.error());
    report(request, *job, *files);
    const ExitCode cut = tellNotCut(request, fit->piece);
    return job->layout.unplaced.empty() && errorsIn(*job).empty() ? cut : ExitCode::errorFindings;
  }

 private:
  /// Puts all in place. A stock list that is written over is still the one that was laid out on: no
  /// change that another program made meanwhile is lost.
  [[nodiscard]] Result<std::vector<std::filesystem::path>> commit(
      const OutputFolder& folder, const std::string& stockBytes) const {
    if (offcuts_.empty()) return folder.commit();
    const auto lock = joinery::WriterLock::take(offcuts_);
    if (!lock) return tl::unexpected(lock.error());
    std::error_code apart;
    if (std::filesystem::equivalent(offcuts_, stock_, apart)) {
      const auto now = joinery::readWhole(stock_, "stock list");
      if (!now) return tl::unexpected(now.error());
      if (*now != stockBytes) {
        return fail(ErrorCode::fileNotWritten,
                    "another program has changed the stock list since it was laid out on", offcuts_,
                    "nothing was written; run it again");
      }
    }
    return folder.commit();
  }

  [[nodiscard]] Result<joinery::LayoutSettings> readSettings() const {
    joinery::LayoutSettings settings;
    settings.turnsMost = turns_;
    if (free_) {
      settings.sheetMethod = joinery::CutMethod::free;
      settings.sheetKerf = joinery::machine(joinery::Machine::router).kerf;
    }
    if (!machine_.empty()) {
      const auto machine = joinery::machineNamed(machine_);
      if (!machine || !joinery::saws(*machine)) {
        return fail(ErrorCode::badUsage, "--machine " + machine_ + " does not saw boards or sheets",
                    "command line of layout",
                    "write one of " + joinery::machineWords(joinery::saws));
      }
      settings.boardKerf = joinery::machine(*machine).kerf;
      if (!free_) settings.sheetKerf = settings.boardKerf;
    }
    if (!kerf_.empty()) {
      const auto kerf = lengthOption("--kerf", kerf_, joinery::kWidestKerf);
      if (!kerf) return tl::unexpected(kerf.error());
      settings.boardKerf = settings.sheetKerf = *kerf;
    }
    if (!trim_.empty()) {
      const auto trim = lengthOption("--trim", trim_, joinery::kWidestTrim);
      if (!trim) return tl::unexpected(trim.error());
      settings.sheetTrim = *trim;
    }
    return settings;
  }

  [[nodiscard]] Result<LayoutJob> makeJob(const Request& request, const joinery::DryFit& fit,
                                          joinery::Unit unit, joinery::StockList stock,
                                          const joinery::LayoutSettings& settings) const {
    const auto rough = joinery::roughSizes(fit.piece);
    if (!rough) return tl::unexpected(rough.error().within(request.model.string()));
    request.log.info("laying out {} blanks on {} kinds of stock", rough->size(),
                     stock.items.size());
    const auto progress = [&request](double share) {
      const bool goOn = !request.progress || request.progress(static_cast<int>(share * 1000), 1000);
      return goOn && !InterruptWatch::interrupted();
    };
    auto layout = joinery::layOut(joinery::blanksOf(*rough), stock, settings, progress);
    if (!layout) return tl::unexpected(layout.error().within(stock_));
    return makeLayoutJob(fit.piece, std::move(*layout), std::move(stock), unit, fit.findings);
  }

  [[nodiscard]] Result<void> writeAll(const LayoutJob& job, const LabelGrid& grid,
                                      OutputFolder& folder) const {
    const auto sheets = layoutSheets(job);
    if (!sheets) return tl::unexpected(sheets.error());
    if (auto drawn = writeDrawings(job, *sheets, folder); !drawn) return drawn;
    if (auto json = folder.write("layout.json", layoutJson(job)); !json) return json;
    if (labels_) {
      const auto pdf = pdfBytes(labelSheets(job, grid), {.title = "Labels of " + job.piece});
      if (!pdf) return tl::unexpected(pdf.error());
      if (auto written = folder.write("labels.pdf", *pdf); !written) return written;
    }
    return offcuts_.empty() ? Result<void>{}
                            : folder.writeOutside(offcuts_, stockText(remainingStock(job)));
  }

  [[nodiscard]] Result<void> writeDrawings(const LayoutJob& job,
                                           const std::vector<NamedSheet>& sheets,
                                           const OutputFolder& folder) const {
    if (format_ == "pdf") {
      const auto pdf = onePdf(sheets, "Cutting layouts of " + job.piece);
      if (!pdf) return tl::unexpected(pdf.error());
      return folder.write("layout.pdf", *pdf);
    }
    for (const NamedSheet& named : sheets) {
      auto written = folder.write("layout/" + named.name + ".svg", svgText(named.sheet));
      if (!written) return written;
    }
    return {};
  }

  static void report(const Request& request, const LayoutJob& job,
                     const std::vector<std::filesystem::path>& files) {
    if (request.json) {
      request.out << layoutJson(job, files);
      return;
    }
    request.out << layoutReport(job) << '\n';
    reportFiles(request, files);
  }

  std::string stock_, output_, offcuts_;
  std::string kerf_, trim_, machine_;
  std::string format_ = "pdf", grid_ = "3x8";
  int turns_ = 0;
  bool free_ = false, labels_ = false;
};

}  // namespace

std::unique_ptr<Verb> makeLayoutVerb() {
  return std::make_unique<LayoutVerb>();
}

}  // namespace dryfit::exporting
