#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <string>

#include "joinery/file/json_document.h"
#include "joinery/model/model.h"
#include "kernel/result.h"

namespace dryfit::joinery {

/// A model file in memory: the document as its author wrote it, and the Model read from it. Edits
/// change the document, so saving keeps the author's expressions, order and notes.
class ModelFile {
 public:
  /// Reads and checks the form of a file: keys, types, names, units. Errors: fileNotRead, badModel,
  /// badExpression; `where` is "file: path.inside.it".
  [[nodiscard]] static Result<ModelFile> load(const std::filesystem::path& path);
  /// The same from text; `where` names the source in errors. Files of sub-assemblies are looked for
  /// beside `beside`; without it a model that names any is refused.
  [[nodiscard]] static Result<ModelFile> parse(const std::string& text, const std::string& where,
                                               const std::filesystem::path& beside = {});

  ModelFile(ModelFile&&) noexcept;
  ModelFile& operator=(ModelFile&&) noexcept;
  ModelFile(const ModelFile&);
  ModelFile& operator=(const ModelFile&);
  ~ModelFile();

  [[nodiscard]] const Model& model() const;
  /// The file's text. Law: parse(text()).text() == text().
  [[nodiscard]] std::string text() const;
  /// Whether both have the same text; without writing either.
  [[nodiscard]] bool saysTheSame(const ModelFile& other) const;
  /// Writes to a file beside `path`, then renames: readers see the old file or the new one, never
  /// a half. Error: fileNotWritten; the old file is untouched then.
  [[nodiscard]] Result<void> save(const std::filesystem::path& path) const;

  /// Gives a named dimension a new value; text that is a plain number is written as a number.
  /// Of a copy ("drawer_2.front_height") that changes where it was written: the value of its use,
  /// or the description. Errors: unknownName, badExpression. On error nothing changes.
  [[nodiscard]] Result<void> setDimension(const std::string& name, const std::string& value);
  /// Gives several dimensions and choices new values at once. Errors: as above.
  [[nodiscard]] Result<void> setAnswers(
      const std::vector<std::pair<std::string, std::string>>& values);
  /// Calls the piece something else. Error: badModel.
  [[nodiscard]] Result<void> setTitle(const std::string& title);
  /// Records a size read off real wood; an empty value takes the record away.
  /// Errors: unknownName, badMeasurement.
  [[nodiscard]] Result<void> setMeasurement(const Measurement& measurement);
  /// Records how wet the wood was, in per cent; an empty value takes the record away.
  /// Errors: unknownName, badMeasurement.
  [[nodiscard]] Result<void> setMoisture(Measurement::Scope scope, const std::string& name,
                                         const std::string& percent);
  /// Records what a part is made to. Errors: unknownName, badMark.
  [[nodiscard]] Result<void> setMark(const Mark& mark);
  /// Takes a part's mark back. Error: unknownName (no such part, or not marked).
  [[nodiscard]] Result<void> eraseMark(const std::string& part);
  /// Gives a parameter of a joint a new value; an empty value returns it to the rules table. Of a
  /// joint of repeated parts, all its copies get it.
  [[nodiscard]] Result<void> setJointParameter(const std::string& joint,
                                               const std::string& parameter,
                                               const std::string& value);

  /// The document as its author wrote it.
  [[nodiscard]] const JsonNode& document() const;
  /// Where its author wrote what the model has under this name: "parts.shelf" of "shelf_2",
  /// "assemblies.door.parts.panel" of "left_door.panel".
  [[nodiscard]] std::string authoredPlace(const std::string& section,
                                          const std::string& name) const;
  /// Changes the document. Errors: those of `edit`, and of a document that is no model then;
  /// nothing changes on error.
  [[nodiscard]] Result<void> change(const std::function<Result<void>(JsonNode& document)>& edit);

 private:
  struct Impl;
  explicit ModelFile(std::unique_ptr<Impl> impl);
  std::unique_ptr<Impl> impl_;
};

}  // namespace dryfit::joinery
