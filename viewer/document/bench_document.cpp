#include "viewer/document/bench_document.h"

#include <algorithm>

#include "joinery/joints/evaluate.h"

#include <QUndoCommand>
#include <utility>

#include "joinery/base/read_whole.h"
#include "joinery/base/writer_lock.h"
#include "joinery/making/measure.h"
#include "joinery/piece/place_parts.h"

namespace dryfit::viewer {

/// One step of undo. Model files are small values, so a step keeps both states whole.
class FileStep : public QUndoCommand {
 public:
  FileStep(BenchDocument& document, const QString& name,
           std::shared_ptr<const joinery::ModelFile> after, int stroke)
      : QUndoCommand(name),
        document_(document),
        before_(document.file_),
        after_(std::move(after)),
        stroke_(stroke) {}
  /// The library offers steps of one id to each other; -1 stands for none.
  [[nodiscard]] int id() const override { return stroke_; }
  bool mergeWith(const QUndoCommand* later) override {
    after_ = static_cast<const FileStep*>(later)->after_;
    return true;
  }
  void undo() override { document_.replaceFile(before_); }
  void redo() override { document_.replaceFile(after_); }

 private:
  BenchDocument& document_;
  std::shared_ptr<const joinery::ModelFile> before_, after_;
  int stroke_;
};

namespace {

template <class Things>
bool haveSameNames(const Things& before, const Things& after) {
  return std::ranges::equal(
      before, after, {}, [](const auto& thing) { return thing.name; },
      [](const auto& thing) { return thing.name; });
}

/// A number may say how often something is there.
bool haveSameLists(const joinery::Model& before, const joinery::Model& after) {
  return haveSameNames(before.parts, after.parts) && haveSameNames(before.joints, after.joints) &&
         haveSameNames(before.groups, after.groups);
}

}  // namespace

BenchDocument::BenchDocument(QObject* parent, Reader read)
    : QObject(parent), read_(std::move(read)) {
  connect(&undo_, &QUndoStack::indexChanged, this, &BenchDocument::changedMarkChanged);
  connect(&rebuilder_, &Rebuilder::built, this, [this](std::shared_ptr<const Assembled> a) {
    assembled_ = std::move(a);
    Q_EMIT assembledChanged();
    Q_EMIT buildingChanged();
  });
  connect(&rebuilder_, &Rebuilder::failed, this, [this](const Error& error) {
    Q_EMIT buildFailed(QString::fromStdString(error.line()));
    Q_EMIT buildingChanged();
  });
}

Result<void> BenchDocument::open(const std::filesystem::path& path) {
  // Read once: what another program writes after these bytes is then seen to be another's.
  Result<std::string> bytes = read_(path);
  if (!bytes) return tl::unexpected<Error>(bytes.error());
  Result<joinery::ModelFile> file = joinery::ModelFile::parse(*bytes, path.string(), path);
  if (!file) return tl::unexpected<Error>(file.error());
  take(std::move(*file), path, std::move(*bytes));
  return {};
}

void BenchDocument::start(joinery::ModelFile file) {
  take(std::move(file), {}, {});
  saved_.reset();  // it lies in no file yet
  changed_ = true;
  Q_EMIT changedMarkChanged();
}

void BenchDocument::take(joinery::ModelFile file, const std::filesystem::path& path,
                         std::string bytes) {
  undo_.clear();
  assembled_.reset();
  rebuilder_.forgetRequests();
  path_ = path;
  unit_ = file.model().unit;
  basis_ = joinery::usualBasis(file.model());
  file_ = std::make_shared<const joinery::ModelFile>(std::move(file));
  saved_ = file_;
  changed_ = false;
  onDisk_ = std::move(bytes);
  workOutNumbers();
  Q_EMIT opened();
  Q_EMIT numbersChanged();
  Q_EMIT changedMarkChanged();
  Q_EMIT buildingChanged();
}

Result<void> BenchDocument::save() {
  if (path_.empty()) return fail(ErrorCode::badUsage, "the piece has no file yet");
  return saveAs(path_);
}

Result<void> BenchDocument::saveAs(const std::filesystem::path& path, Over over) {
  if (!isOpen()) return fail(ErrorCode::badUsage, "there is no piece to save");
  // From the look at the file to the new one in its place, no other program of ours may write.
  const auto lock = joinery::WriterLock::take(path, std::chrono::seconds(5));
  if (!lock) return tl::unexpected<Error>(lock.error());
  if (const auto there = read_(path);
      over == Over::ownOnly && path == path_ && there && *there != onDisk_) {
    return fail(ErrorCode::fileNotWritten, "another program has changed the file meanwhile",
                path.string(), "reload it, or save under another name");
  }
  if (Result<void> saved = file_->save(path); !saved) return saved;
  path_ = path;
  saved_ = file_;
  changed_ = false;
  onDisk_ = file_->text();
  Q_EMIT changedMarkChanged();
  return {};
}

bool BenchDocument::differsFromSaved() const {
  return !saved_ || (file_ != saved_ && !file_->saysTheSame(*saved_));
}

bool BenchDocument::isOvertaken() const {
  return isOpen() && !path_.empty() && read_(path_).value_or(std::string()) != onDisk_;
}

Result<joinery::Piece> BenchDocument::measuredPiece() const {
  if (!isOpen()) return fail(ErrorCode::badUsage, "there is no piece");
  return joinery::evaluate(model(), joinery::Basis::measured, memoryOf(joinery::Basis::measured));
}

void BenchDocument::setBasis(joinery::Basis basis) {
  if (basis == basis_) return;
  basis_ = basis;
  if (!isOpen()) return;
  workOutNumbers();
  Q_EMIT numbersChanged();
  Q_EMIT buildingChanged();
}

void BenchDocument::setUnit(joinery::Unit unit) {
  if (unit == unit_) return;
  unit_ = unit;
  if (isOpen()) rebuilder_.request(model(), basis_, unit_);  // the findings speak of sizes
  Q_EMIT numbersChanged();
  if (isOpen()) Q_EMIT buildingChanged();
}

Result<joinery::ModelFile> BenchDocument::edited(const Edit& edit) const {
  if (!isOpen()) return fail(ErrorCode::badUsage, "there is no piece to change");
  joinery::ModelFile candidate = *file_;
  if (Result<void> done = edit(candidate); !done) return tl::unexpected<Error>(done.error());
  // A model that was already broken when opened must stay open to mending, step by step.
  if (!piece_) return candidate;
  if (auto piece = joinery::evaluate(candidate.model(), basis_, memoryOf(basis_)); !piece) {
    // A joint whose roles are filled wrongly may be put right by the next edit; a number without a
    // value not.
    if (!isJointError(piece.error().code)) return tl::unexpected<Error>(piece.error());
  }
  return candidate;
}

Result<void> BenchDocument::tryEdit(const Edit& edit) const {
  return edited(edit).map([](const joinery::ModelFile&) {});
}

Result<joinery::Piece> BenchDocument::tried(const Edit& edit) const {
  const Result<joinery::ModelFile> after = edited(edit);
  if (!after) return tl::unexpected<Error>(after.error());
  return joinery::evaluate(after->model(), basis_, memoryOf(basis_));
}

Result<void> BenchDocument::apply(const QString& name, const Edit& edit, int stroke) {
  Result<joinery::ModelFile> after = edited(edit);
  if (!after) return tl::unexpected<Error>(after.error());
  if (after->saysTheSame(*file_)) return {};
  undo_.push(new FileStep(*this, name,
                          std::make_shared<const joinery::ModelFile>(std::move(*after)), stroke));
  return {};
}

void BenchDocument::replaceFile(std::shared_ptr<const joinery::ModelFile> file) {
  const bool sameLists = haveSameLists(file_->model(), file->model());
  file_ = std::move(file);
  changed_ = differsFromSaved();
  workOutNumbers();
  if (!sameLists) Q_EMIT listsChanged();
  Q_EMIT numbersChanged();
  Q_EMIT buildingChanged();
}

void BenchDocument::workOutNumbers() {
  const auto numbers = [this](joinery::Basis basis) -> std::optional<joinery::Piece> {
    if (auto whole = joinery::evaluate(model(), basis, memoryOf(basis))) return std::move(*whole);
    // Sizes of parts can be told even where the joints cannot be read.
    if (auto parts = joinery::placeParts(model(), basis, memoryOf(basis))) return std::move(*parts);
    return std::nullopt;
  };
  piece_ = numbers(basis_);
  drawn_ = basis_ == joinery::Basis::drawn ? piece_ : numbers(joinery::Basis::drawn);
  rebuilder_.request(model(), basis_, unit_);
}

Result<std::string> readModelFile(const std::filesystem::path& path) {
  return joinery::readWhole(path, "model");
}

BenchDocument::Edit dimensionEdit(const std::string& name, const std::string& value) {
  return [=](joinery::ModelFile& file) { return file.setDimension(name, value); };
}

BenchDocument::Edit measurementEdit(const joinery::Measurement& measurement) {
  return [=](joinery::ModelFile& file) { return file.setMeasurement(measurement); };
}

BenchDocument::Edit jointEdit(const std::string& joint, const std::string& parameter,
                              const std::string& value) {
  return [=](joinery::ModelFile& file) { return file.setJointParameter(joint, parameter, value); };
}

}  // namespace dryfit::viewer
