#include <fmt/format.h>

#include <algorithm>
#include <ostream>
#include <string>
#include <vector>

#include "export/report/json_report.h"
#include "export/report/report_text.h"
#include "export/verbs/options.h"
#include "export/verbs/verb.h"
#include "joinery/fit/new_findings.h"
#include "joinery/formula/expression.h"
#include "joinery/making/marks.h"

namespace dryfit::exporting {

namespace {

using joinery::MarkState;

/// One "PART=STATE" of the command line; no state takes the mark back.
struct Marking {
  std::string part;
  std::optional<MarkState> state;
};

Result<Marking> markingFrom(const std::string& text) {
  const std::string where = fmt::format("command line: {}", text);
  const auto equals = text.find('=');
  if (equals == std::string::npos || equals == 0) {
    return fail(ErrorCode::badUsage, "is not a mark", where,
                "write PART=STATE, as in left_stile=cut");
  }
  Marking marking{text.substr(0, equals), std::nullopt};
  const std::string word = text.substr(equals + 1);
  if (word.empty()) return marking;
  marking.state = joinery::markStateNamed(word);
  if (marking.state) return marking;
  const std::string near = joinery::nearestName(word, {"rough", "machined", "cut", "jointed"});
  return fail(ErrorCode::badMark, fmt::format("there is no state '{}'", word), where,
              near.empty() ? "write rough, machined, cut or jointed"
                           : fmt::format("did you mean {}", near));
}

class MarkVerb final : public Verb {
 public:
  std::string_view name() const override { return "mark"; }
  std::string_view summary() const override {
    return "Record how far parts are made, so that the design is held to them";
  }
  void declare(const VerbOptions& options) override {
    options.addPlaces(
        "parts", parts_, "PART=STATE",
        "How far parts are made, as left_stile=cut: rough, machined (width and "
        "thickness are final), cut (length too, tenons included) or jointed (all its "
        "joints too); an empty state removes the mark; without any, all marks are listed");
    options.addRepeated("--batch", batches_, "BATCH=STATE",
                        "The same for all parts of a batch, october=machined");
    options.flag("--dry-run", dryRun_, "Show the marks but leave the model as it is");
  }

  Result<ExitCode> run(const Request& request) const override {
    const bool asksOnly = parts_.empty() && batches_.empty();
    auto work = asksOnly || dryRun_ ? openModel(request) : openForChange(request);
    if (!work) return tl::unexpected(work.error());
    // Marks tell of real wood, so the sizes are those of the wood.
    work->basis = joinery::Basis::measured;
    const auto before = dryFitWork(request, *work);
    if (asksOnly) {
      if (!before) return tl::unexpected(before.error());
      report(request, before->piece, work->file.model(), {}, work->unit, "");
      return ExitCode::fine;
    }
    // A mark that made the piece impossible must be possible to take back.
    const joinery::Piece* piece = before ? &before->piece : nullptr;
    if (const auto marked = record(request, piece, work->file); !marked) {
      return tl::unexpected(before || marked.error().code != ErrorCode::badMark ? marked.error()
                                                                                : before.error());
    }
    const auto after = dryFitWork(request, *work);
    if (!after) return tl::unexpected(after.error());
    if (!dryRun_) {
      if (const auto saved = saveChange(request, *work); !saved) {
        return tl::unexpected(saved.error());
      }
    }
    const auto fresh = before ? joinery::newFindings(*before, *after) : after->findings;
    report(request, after->piece, work->file.model(), fresh, work->unit,
           dryRun_ ? "Not recorded (dry run)." : "Recorded in " + request.model.string());
    return exitCodeFor(fresh);
  }

 private:
  [[nodiscard]] Result<std::vector<Marking>> wanted(const joinery::Model& model) const {
    std::vector<Marking> all;
    for (const std::string& text : batches_) {
      const auto batch = markingFrom(text);
      if (!batch) return tl::unexpected(batch.error());
      const std::size_t before = all.size();
      for (const joinery::Part& part : model.parts) {
        // Of a batch, only what is marked can be taken back.
        const bool there = batch->state || joinery::markOf(model, part.name) != nullptr;
        if (part.batch == batch->part && there) all.push_back({part.name, batch->state});
      }
      if (all.size() > before) continue;
      return fail(ErrorCode::unknownName,
                  batch->state ? fmt::format("no part belongs to batch '{}'", batch->part)
                               : fmt::format("no part of batch '{}' is marked", batch->part),
                  fmt::format("command line: {}", text),
                  "see the batches of the parts in the model");
    }
    for (const std::string& text : parts_) {
      const auto marking = markingFrom(text);
      if (!marking) return tl::unexpected(marking.error());
      all.push_back(*marking);
    }
    return all;
  }

  /// `piece` is null where the numbers cannot be worked out: marks can then only be taken back.
  [[nodiscard]] Result<void> record(const Request& request, const joinery::Piece* piece,
                                    joinery::ModelFile& file) const {
    const joinery::Model model = file.model();
    const auto all = wanted(model);
    if (!all) return tl::unexpected(all.error());
    for (const Marking& marking : *all) {
      if (marking.state && piece == nullptr) {
        return fail(ErrorCode::badMark, "the piece has no sizes to mark a part with",
                    request.model.string());
      }
      const auto part = std::ranges::find(model.parts, marking.part, &joinery::Part::name);
      // A part that is not there is left to the file, which names the nearest.
      joinery::Mark mark;
      mark.part = marking.part;
      if (part != model.parts.end() && marking.state) {
        const joinery::PartId id(static_cast<std::size_t>(part - model.parts.begin()));
        mark = joinery::markFor(*piece, id, *marking.state);
      }
      const auto done = marking.state ? file.setMark(mark) : file.eraseMark(marking.part);
      if (!done) return tl::unexpected(done.error().within(request.model.string()));
    }
    return {};
  }

  void report(const Request& request, const joinery::Piece& piece, const joinery::Model& model,
              const std::vector<joinery::Finding>& fresh, joinery::Unit unit,
              const std::string& recorded) const {
    if (request.json) {
      request.out << marksJson(model, fresh, !dryRun_ && !recorded.empty());
      return;
    }
    request.out << headText("Marks", model.name, piece.basis, unit) << '\n'
                << marksText(model, unit);
    if (!fresh.empty()) request.out << '\n' << newFindingsText(piece, fresh, unit);
    if (!recorded.empty()) request.out << '\n' << recorded << '\n';
  }

  std::vector<std::string> parts_;
  std::vector<std::string> batches_;
  bool dryRun_ = false;
};

}  // namespace

std::unique_ptr<Verb> makeMarkVerb() {
  return std::make_unique<MarkVerb>();
}

}  // namespace dryfit::exporting
