#pragma once

#include <QObject>
#include <QUndoStack>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>

#include "joinery/file/model_file.h"
#include "joinery/joints/cut_memory.h"
#include "joinery/joints/evaluate.h"
#include "joinery/piece/piece.h"
#include "viewer/document/rebuilder.h"
#include "viewer/view/assembled.h"

namespace dryfit::viewer {

/// All bytes of a model file. Errors: as joinery::readWhole.
[[nodiscard]] Result<std::string> readModelFile(const std::filesystem::path& path);

/// The piece on the bench: its model file, the numbers worked out from it, and the latest finished
/// dry fit. Numbers follow an edit at once; solids and findings follow when the background work is
/// done. All of it lives on the GUI thread.
class BenchDocument : public QObject {
  Q_OBJECT
 public:
  /// How the bytes of a file are read.
  using Reader = std::function<Result<std::string>(const std::filesystem::path& path)>;
  explicit BenchDocument(QObject* parent = nullptr, Reader read = readModelFile);

  /// Errors: as ModelFile::load; the document stays as it was then.
  [[nodiscard]] Result<void> open(const std::filesystem::path& path);
  /// Takes a model that has no file yet, and so is not saved.
  void start(joinery::ModelFile file);
  /// What may be written over: only what was read or saved here last, or whatever is there.
  enum class Over { ownOnly, anything };
  /// Errors: fileNotWritten, also where another program has written to the file since it was read
  /// or saved here; badUsage when there is no path yet.
  [[nodiscard]] Result<void> save();
  [[nodiscard]] Result<void> saveAs(const std::filesystem::path& path, Over over = Over::ownOnly);

  [[nodiscard]] bool isOpen() const { return file_ != nullptr; }
  [[nodiscard]] bool isChanged() const { return changed_; }
  /// Whether the file on the disk is another than the one read or saved here last.
  [[nodiscard]] bool isOvertaken() const;
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }
  /// REQUIRES: isOpen().
  [[nodiscard]] const joinery::ModelFile& file() const { return *file_; }
  [[nodiscard]] const joinery::Model& model() const { return file_->model(); }

  [[nodiscard]] joinery::Basis basis() const { return basis_; }
  void setBasis(joinery::Basis basis);
  /// Unit that lengths are shown in; the file keeps its own.
  [[nodiscard]] joinery::Unit unit() const { return unit_; }
  void setUnit(joinery::Unit unit);

  /// Numbers of the model as it is now; null where they cannot be worked out.
  [[nodiscard]] const joinery::Piece* piece() const { return piece_ ? &*piece_ : nullptr; }
  /// The same with drawn sizes, whatever the basis.
  [[nodiscard]] const joinery::Piece* drawnPiece() const { return drawn_ ? &*drawn_ : nullptr; }
  /// The same with measured sizes, worked out on asking. Errors: as joinery::evaluate.
  [[nodiscard]] Result<joinery::Piece> measuredPiece() const;
  /// The latest finished dry fit; may lag behind piece(); null before the first.
  [[nodiscard]] std::shared_ptr<const Assembled> assembled() const { return assembled_; }
  [[nodiscard]] bool isBuilding() const { return rebuilder_.isBusy(); }

  /// One change to the model file.
  using Edit = std::function<Result<void>(joinery::ModelFile& file)>;
  /// Whether the edit would be taken. Besides what ModelFile refuses, edits are refused that leave
  /// a number that cannot be worked out. Errors: badExpression, unknownName, cycle, badDimension,
  /// badMeasurement.
  [[nodiscard]] Result<void> tryEdit(const Edit& edit) const;
  /// Numbers of the piece as the edit would leave it. Errors: as tryEdit, and of what cannot be
  /// worked out then.
  [[nodiscard]] Result<joinery::Piece> tried(const Edit& edit) const;
  /// Does the edit, as one step of undo under `name`. Edits of one `stroke` that follow each other
  /// are taken back as one; -1 is no stroke. Errors: as tryEdit; nothing changes then.
  [[nodiscard]] Result<void> apply(const QString& name, const Edit& edit, int stroke = -1);
  /// A stroke that nothing has been done in yet.
  [[nodiscard]] int newStroke() { return ++stroke_; }

  /// Steps of the piece, and of what else is changed in the window.
  [[nodiscard]] QUndoStack& undoStack() { return undo_; }

 Q_SIGNALS:
  void opened();          ///< another model is on the bench
  void listsChanged();    ///< an edit let parts or joints come or go; numbersChanged() follows
  void numbersChanged();  ///< model, piece, basis or unit changed
  void assembledChanged();
  void buildFailed(const QString& line);
  void buildingChanged();
  void changedMarkChanged();  ///< saved or unsaved, or another path

 private:
  friend class FileStep;
  [[nodiscard]] Result<joinery::ModelFile> edited(const Edit& edit) const;
  void take(joinery::ModelFile file, const std::filesystem::path& path, std::string bytes);
  void replaceFile(std::shared_ptr<const joinery::ModelFile> file);
  void workOutNumbers();
  [[nodiscard]] bool differsFromSaved() const;
  [[nodiscard]] joinery::NumberMemory& memoryOf(joinery::Basis basis) const {
    return basis == joinery::Basis::drawn ? drawnMemory_ : measuredMemory_;
  }

  Reader read_;
  std::shared_ptr<const joinery::ModelFile> file_;
  std::shared_ptr<const joinery::ModelFile> saved_;  ///< as saved, else as begun
  bool changed_ = false;
  int stroke_ = 0;
  std::filesystem::path path_;
  std::string onDisk_;  ///< the very bytes that were read or saved here last
  joinery::Basis basis_ = joinery::Basis::drawn;
  joinery::Unit unit_ = joinery::Unit::mm;
  std::optional<joinery::Piece> piece_, drawn_;
  /// A cache: what is taken over from it equals what would be worked out anew.
  mutable joinery::NumberMemory drawnMemory_, measuredMemory_;
  std::shared_ptr<const Assembled> assembled_;
  Rebuilder rebuilder_;
  // Last, so that it goes first: emptying it tells listeners, who ask whether a dry fit is running.
  QUndoStack undo_;
};

/// Edits for BenchDocument::apply.
[[nodiscard]] BenchDocument::Edit dimensionEdit(const std::string& name, const std::string& value);
[[nodiscard]] BenchDocument::Edit measurementEdit(const joinery::Measurement& measurement);
[[nodiscard]] BenchDocument::Edit jointEdit(const std::string& joint, const std::string& parameter,
                                            const std::string& value);

}  // namespace dryfit::viewer
