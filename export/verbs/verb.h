#pragma once

#include <filesystem>
#include <iosfwd>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "joinery/base/writer_lock.h"
#include "joinery/file/model_file.h"
#include "joinery/fit/dry_fit.h"
#include "joinery/model/model.h"
#include "joinery/piece/piece.h"
#include "kernel/result.h"

namespace spdlog {
class logger;
}

namespace dryfit::exporting {

class VerbOptions;

/// What the program ends with.
enum class ExitCode { fine = 0, errorFindings = 1, badInput = 2 };

/// What every verb is given: the options they share, and where to write.
struct Request {
  std::filesystem::path model;
  std::optional<joinery::Unit> unit;    ///< DEFAULT: the model's own
  std::optional<joinery::Basis> basis;  ///< DEFAULT: measured where anything is measured or marked
  bool json = false;
  std::istream& in;
  std::ostream& out;
  spdlog::logger& log;
  joinery::Progress progress;  ///< may be empty
};

/// A model read from its file, with the choices that the request left open made.
struct Work {
  joinery::ModelFile file;
  joinery::Unit unit = joinery::Unit::mm;
  joinery::Basis basis = joinery::Basis::drawn;
  std::string bytes = {};                        ///< as they were read
  std::optional<joinery::WriterLock> lock = {};  ///< while the file is to be changed
};

/// Errors: those of ModelFile::load.
[[nodiscard]] Result<Work> openModel(const Request& request);
/// The same for a verb that changes the file: other writers of ours wait until the work is gone.
/// Errors: also those of WriterLock::take.
[[nodiscard]] Result<Work> openForChange(const Request& request);
/// Writes the changed model. REQUIRES: other writers are kept out. Error: fileNotWritten, also
/// where another program has written to the file since it was read.
[[nodiscard]] Result<void> saveChange(const Request& request, const Work& work);
/// All numbers of the piece. Errors: those of evaluate, with the file's name before the place.
[[nodiscard]] Result<joinery::Piece> evaluateWork(const Request& request, const Work& work);
/// Numbers, solids and findings. Errors as above.
[[nodiscard]] Result<joinery::DryFit> dryFitWork(const Request& request, const Work& work);
/// Numbers and solids, no findings. Errors as above.
[[nodiscard]] Result<joinery::DryFit> buildWork(const Request& request, const Work& work);
/// errorFindings where any finding is an error.
[[nodiscard]] ExitCode exitCodeFor(const std::vector<joinery::Finding>& findings);
[[nodiscard]] ExitCode exitCodeOf(const joinery::DryFit& fit);
/// fine where every joint of the piece is cut. Else errorFindings, and the report says at its end
/// which are not: nothing is to be made by it.
[[nodiscard]] ExitCode tellNotCut(const Request& request, const joinery::Piece& piece);
/// Tells what was written: a line a file, or a list in JSON.
void reportFiles(const Request& request, const std::vector<std::filesystem::path>& files);

/// One verb of the command line. Its options are members that `declare` binds.
class Verb {
 public:
  virtual ~Verb() = default;
  [[nodiscard]] virtual std::string_view name() const = 0;
  [[nodiscard]] virtual std::string_view summary() const = 0;
  /// False for a verb that begins without a model. DEFAULT: true.
  [[nodiscard]] virtual bool takesModel() const { return true; }
  /// Adds the options that only this verb has.
  virtual void declare(const VerbOptions& options) = 0;
  /// Does the work. On an error nothing has been written.
  [[nodiscard]] virtual Result<ExitCode> run(const Request& request) const = 0;
};

/// All verbs, in the order of the help text. A new verb is one file and one row.
[[nodiscard]] std::vector<std::unique_ptr<Verb>> allVerbs();

std::unique_ptr<Verb> makeNewVerb();
std::unique_ptr<Verb> makePartsVerb();
std::unique_ptr<Verb> makeCheckVerb();
std::unique_ptr<Verb> makeMeasureVerb();
std::unique_ptr<Verb> makeMarkVerb();
std::unique_ptr<Verb> makeAbsorbVerb();
std::unique_ptr<Verb> makeMendVerb();
std::unique_ptr<Verb> makeReadingsVerb();
std::unique_ptr<Verb> makeCutListVerb();
std::unique_ptr<Verb> makeBuyVerb();
std::unique_ptr<Verb> makeLayoutVerb();
std::unique_ptr<Verb> makeDrawVerb();
std::unique_ptr<Verb> makeStepVerb();
std::unique_ptr<Verb> makePacketVerb();

}  // namespace dryfit::exporting
