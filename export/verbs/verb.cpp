#include "export/verbs/verb.h"

#include "joinery/joints/evaluate.h"

#include <spdlog/logger.h>

#include <ostream>
#include <utility>

#include "export/report/json_report.h"
#include "joinery/base/plain_text.h"
#include "joinery/base/read_whole.h"
#include "joinery/checks/no_wood_left.h"
#include "joinery/making/measure.h"

namespace dryfit::exporting {

namespace {

Error inFile(const Request& request, const Error& error) {
  return error.within(request.model.string());
}

}  // namespace

Result<Work> openModel(const Request& request) {
  request.log.info("reading {}", request.model.string());
  auto bytes = joinery::readWhole(request.model, "model");
  if (!bytes) return tl::unexpected(bytes.error());
  auto file = joinery::ModelFile::parse(*bytes, request.model.string(), request.model);
  if (!file) return tl::unexpected(file.error());
  const joinery::Model& model = file->model();
  const joinery::Unit unit = request.unit.value_or(model.unit);
  const joinery::Basis basis = request.basis.value_or(joinery::usualBasis(model));
  return Work{std::move(*file), unit, basis, std::move(*bytes), std::nullopt};
}

Result<Work> openForChange(const Request& request) {
  if (auto there = joinery::readWhole(request.model, "model"); !there) {
    return tl::unexpected(there.error());  // said as a reader would say it
  }
  auto lock = joinery::WriterLock::take(request.model);
  if (!lock) return tl::unexpected(lock.error());
  auto work = openModel(request);
  if (work) work->lock = std::move(*lock);
  return work;
}

Result<void> saveChange(const Request& request, const Work& work) {
  const auto now = joinery::readWhole(request.model, "model");
  if (!now) return tl::unexpected(now.error());
  if (*now != work.bytes) {
    return fail(ErrorCode::fileNotWritten, "another program has changed the file meanwhile",
                request.model.string(), "nothing was recorded: give the command again");
  }
  return work.file.save(request.model);
}

Result<joinery::Piece> evaluateWork(const Request& request, const Work& work) {
  request.log.info("working out {} parts and {} joints", work.file.model().parts.size(),
                   work.file.model().joints.size());
  auto piece = joinery::evaluate(work.file.model(), work.basis);
  if (!piece) return tl::unexpected(inFile(request, piece.error()));
  return piece;
}

Result<joinery::DryFit> dryFitWork(const Request& request, const Work& work) {
  request.log.info("dry-fitting {}", work.file.model().name);
  auto fit = joinery::dryFit(work.file.model(), work.basis, request.progress, work.unit);
  if (!fit) return tl::unexpected(inFile(request, fit.error()));
  request.log.info("{} findings", fit->findings.size());
  return fit;
}

Result<joinery::DryFit> buildWork(const Request& request, const Work& work) {
  auto piece = evaluateWork(request, work);
  if (!piece) return tl::unexpected(piece.error());
  request.log.info("cutting {} parts", piece->parts.size());
  auto solids = joinery::buildSolids(*piece, request.progress);
  if (!solids) return tl::unexpected(inFile(request, solids.error()));
  return joinery::DryFit{std::move(*piece), std::move(*solids), {}};
}

ExitCode tellNotCut(const Request& request, const joinery::Piece& piece) {
  std::vector<std::string> names;
  for (const joinery::PlacedJoint& joint : piece.joints) {
    if (joint.notCut) names.push_back(piece.joint(joint.id).name);
  }
  std::vector<std::string> gone;
  for (const joinery::PartId part : joinery::partsWithoutWood(piece)) {
    gone.push_back(piece.label(part));
  }
  if (names.empty() && gone.empty()) return ExitCode::fine;
  if (!request.json) {
    std::vector<std::string> why;
    if (!names.empty()) {
      why.push_back(joinery::listed(names) + (names.size() == 1
                                                  ? " cannot be cut and is left out"
                                                  : " cannot be cut and are left out"));
    }
    if (!gone.empty()) why.push_back("no wood is left of " + joinery::listed(gone));
    request.out << "\nDo not make anything by this yet: " << joinery::listed(why)
                << ". See dryfit check.\n";
  }
  return ExitCode::errorFindings;
}

void reportFiles(const Request& request, const std::vector<std::filesystem::path>& files) {
  if (request.json) {
    request.out << filesJson(files);
    return;
  }
  for (const auto& file : files) request.out << "written: " << file.string() << '\n';
}

std::vector<std::unique_ptr<Verb>> allVerbs() {
  std::vector<std::unique_ptr<Verb>> verbs;
  verbs.push_back(makeNewVerb());
  verbs.push_back(makePartsVerb());
  verbs.push_back(makeCheckVerb());
  verbs.push_back(makeMeasureVerb());
  verbs.push_back(makeMarkVerb());
  verbs.push_back(makeMendVerb());
  verbs.push_back(makeAbsorbVerb());
  verbs.push_back(makeReadingsVerb());
  verbs.push_back(makeCutListVerb());
  verbs.push_back(makeBuyVerb());
  verbs.push_back(makeLayoutVerb());
  verbs.push_back(makeDrawVerb());
  verbs.push_back(makeStepVerb());
  verbs.push_back(makePacketVerb());
  return verbs;
}

}  // namespace dryfit::exporting
