#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <ostream>
#include <string>
#include <string_view>

#include "export/report/json_report.h"
#include "export/report/report_text.h"
#include "export/verbs/options.h"
#include "export/verbs/verb.h"
#include "joinery/fit/new_findings.h"
#include "joinery/formula/expression.h"
#include "joinery/formula/length_text.h"
#include "joinery/joints/evaluate.h"

namespace dryfit::exporting {

namespace {

using joinery::Measurement;

Result<joinery::SizeName> sizeNamed(const std::string& name, const std::string& where) {
  if (name == "length") return joinery::SizeName::length;
  if (name == "width") return joinery::SizeName::width;
  if (name == "thickness") return joinery::SizeName::thickness;
  const std::string near = joinery::nearestName(name, {"length", "width", "thickness", "moisture"});
  return fail(ErrorCode::badMeasurement, fmt::format("no size is called '{}'", name), where,
              near.empty() ? "write length, width, thickness or moisture"
                           : fmt::format("did you mean {}", near));
}

/// True for text that a model file may hold as a plain number.
bool isPlainNumber(const std::string& text) {
  return !text.empty() && text.find_first_not_of("0123456789.") == std::string::npos &&
         std::isdigit(static_cast<unsigned char>(text.front())) != 0 && text.back() != '.' &&
         (text.front() != '0' || text.size() == 1 || text[1] == '.');
}

/// "october.moisture=9.5": how wet the wood was, or nothing where the text records a size.
struct MoistureText {
  std::string name, percent;
};
std::optional<MoistureText> moistureFrom(const std::string& text) {
  const auto equals = text.find('=');
  const auto dot = text.rfind('.', equals);
  if (equals == std::string::npos || dot == std::string::npos || dot == 0) return std::nullopt;
  if (text.substr(dot + 1, equals - dot - 1) != "moisture") return std::nullopt;
  return MoistureText{text.substr(0, dot), text.substr(equals + 1)};
}

/// "left_stile.width=68.5" as a measurement; an empty value removes the record.
Result<Measurement> measurementFrom(const std::string& text, Measurement::Scope scope,
                                    joinery::Unit unit) {
  const std::string where = fmt::format("command line: {}", text);
  const auto equals = text.find('=');
  const auto dot = text.rfind('.', equals);
  if (equals == std::string::npos || dot == std::string::npos || dot == 0 || dot > equals) {
    return fail(ErrorCode::badUsage, "is not a measured size", where,
                "write NAME.SIZE=VALUE, as in left_stile.width=68.5");
  }
  const auto size = sizeNamed(text.substr(dot + 1, equals - dot - 1), where);
  if (!size) return tl::unexpected(size.error());
  const std::string value = text.substr(equals + 1);
  if (!value.empty()) {
    const auto length = joinery::parseLength(value, unit);
    if (!length) return tl::unexpected(length.error().within(where));
    if (length->mm() <= 0) {
      return fail(ErrorCode::badMeasurement, "a measured size is greater than zero", where,
                  "write the size measured on the wood");
    }
  }
  return Measurement{scope, text.substr(0, dot), *size, {value, isPlainNumber(value)}};
}

/// What a name on its own is of: a part where there is one, else a material or a batch.
Measurement::Scope scopeOf(const std::string& name, Measurement::Scope written,
                           const joinery::Model& model) {
  if (written != Measurement::Scope::part) return written;
  const auto isNamed = [&](const auto& thing) { return thing.name == name; };
  if (std::ranges::any_of(model.parts, isNamed)) return written;
  if (std::ranges::any_of(model.materials, isNamed)) return Measurement::Scope::material;
  const bool isBatch = std::ranges::any_of(
      model.parts, [&](const joinery::Part& part) { return part.batch == name; });
  return isBatch ? Measurement::Scope::batch : written;
}

class MeasureVerb final : public Verb {
 public:
  std::string_view name() const override { return "measure"; }
  std::string_view summary() const override {
    return "Record sizes measured on the real wood and show what they change";
  }
  void declare(const VerbOptions& options) override {
    options.addPlaces(
        "sizes", parts_, "PART.SIZE=VALUE",
        "Measured sizes of parts, as left_stile.width=68.5 or "
        "\"left_stile.width=2 3/16 in\"; an empty value removes the record. Plain numbers "
        "are in the model's unit. PART.moisture=9.5 records how wet the wood is, in "
        "per cent. Without any, the sizes as drawn and as measured are listed");
    // One value an option: otherwise the model or sizes of parts that follow would be swallowed.
    // What a further value is of, its name says.
    options.addRepeated("--material", materials_, "MATERIAL.thickness=VALUE",
                        "Measured thickness of a material, oak.thickness=25.6, or its moisture");
    options.addRepeated(
        "--batch", batches_, "BATCH.thickness=VALUE",
        "Measured thickness of the boards of one batch, october.thickness=25.9, or their "
        "moisture");
    options.flag("--dry-run", dryRun_, "Show the changes but leave the model as it is");
    options.flag("--both", both_, "List the sizes as drawn and as measured, side by side");
  }

  Result<ExitCode> run(const Request& request) const override {
    const bool none = parts_.empty() && materials_.empty() && batches_.empty();
    auto work = none || dryRun_ ? openModel(request) : openForChange(request);
    if (!work) return tl::unexpected(work.error());
    if (none) return listBoth(request, *work);
    const joinery::Model before = work->file.model();
    if (const auto recorded = record(request, work->file); !recorded) {
      return tl::unexpected(recorded.error());
    }
    // The report compares measured states, so that only what is new shows.
    work->basis = joinery::Basis::measured;
    const auto after = dryFitWork(request, *work);
    if (!after) return tl::unexpected(after.error());
    if (!dryRun_) {
      if (const auto saved = saveChange(request, *work); !saved) {
        return tl::unexpected(saved.error());
      }
    }
    // A record that made the old state impossible must be possible to take back: no comparison.
    const auto old = joinery::dryFit(before, joinery::Basis::measured, {}, work->unit);
    const auto fresh = old ? joinery::newFindings(*old, *after) : after->findings;
    report(request, old ? &old->piece : nullptr, after->piece, fresh, work->unit);
    if (both_ && !request.json) {
      const auto listed = bothOf(request, *work);
      if (!listed) return tl::unexpected(listed.error());
      request.out << '\n' << *listed;
    }
    return exitCodeFor(fresh);
  }

 private:
  [[nodiscard]] static Result<joinery::Piece> sizesOf(const Request& request, const Work& work,
                                                      joinery::Basis basis) {
    auto piece = joinery::evaluate(work.file.model(), basis);
    if (!piece) return tl::unexpected(piece.error().within(request.model.string()));
    return piece;
  }

  /// The sizes of the model as it is in memory, both ways.
  [[nodiscard]] Result<std::string> bothOf(const Request& request, const Work& work) const {
    const auto asDrawn = sizesOf(request, work, joinery::Basis::drawn);
    if (!asDrawn) return tl::unexpected(asDrawn.error());
    const auto asMeasured = sizesOf(request, work, joinery::Basis::measured);
    if (!asMeasured) return tl::unexpected(asMeasured.error());
    return request.json ? bothSizesJson(*asDrawn, *asMeasured)
                        : bothSizesText(*asDrawn, *asMeasured, work.unit);
  }

  [[nodiscard]] Result<ExitCode> listBoth(const Request& request, const Work& work) const {
    const auto listed = bothOf(request, work);
    if (!listed) return tl::unexpected(listed.error());
    if (!request.json) {
      request.out << fmt::format("Sizes of {}, as drawn and as measured, in {}\n\n",
                                 work.file.model().name, joinery::nameOf(work.unit));
    }
    request.out << *listed;
    return ExitCode::fine;
  }

  [[nodiscard]] Result<void> record(const Request& request, joinery::ModelFile& file) const {
    const struct {
      Measurement::Scope scope;
      const std::vector<std::string>& texts;
    } lists[] = {{Measurement::Scope::part, parts_},
                 {Measurement::Scope::batch, batches_},
                 {Measurement::Scope::material, materials_}};
    for (const auto& [scope, texts] : lists) {
      for (const std::string& text : texts) {
        if (const auto moisture = moistureFrom(text)) {
          const auto set = file.setMoisture(scopeOf(moisture->name, scope, file.model()),
                                            moisture->name, moisture->percent);
          if (!set) return tl::unexpected(set.error().within(request.model.string()));
          continue;
        }
        auto measurement = measurementFrom(text, scope, file.model().unit);
        if (!measurement) return tl::unexpected(measurement.error());
        measurement->scope = scopeOf(measurement->name, scope, file.model());
        if (const auto set = file.setMeasurement(*measurement); !set) {
          return tl::unexpected(set.error().within(request.model.string()));
        }
      }
    }
    return {};
  }

  void report(const Request& request, const joinery::Piece* before, const joinery::Piece& after,
              const std::vector<joinery::Finding>& fresh, joinery::Unit unit) const {
    const auto changes = before ? joinery::compare(*before, after) : joinery::ChangeReport{};
    if (request.json) {
      request.out << changesJson(changes, after, fresh, !dryRun_);
      return;
    }
    request.out << headText("Changes", after.model.name, after.basis, unit) << '\n';
    request.out << (before ? changesText(changes, after, unit)
                           : "The sizes before did not go together, so there is nothing to "
                             "compare with.\n");
    if (!fresh.empty()) request.out << '\n' << newFindingsText(after, fresh, unit);
    request.out << '\n'
                << (dryRun_ ? "Not recorded (dry run)." : "Recorded in " + request.model.string())
                << '\n';
  }

  std::vector<std::string> parts_;
  std::vector<std::string> materials_;
  std::vector<std::string> batches_;
  bool dryRun_ = false;
  bool both_ = false;
};

}  // namespace

std::unique_ptr<Verb> makeMeasureVerb() {
  return std::make_unique<MeasureVerb>();
}

}  // namespace dryfit::exporting
