#pragma once

#include <QLineEdit>
#include <functional>
#include <string>

#include "viewer/document/bench_document.h"

namespace dryfit::viewer {

/// A field whose text goes into the model file as an expression, names completed while it is typed.
class NumberField : public QLineEdit {
  Q_OBJECT
 public:
  /// How a text of this field gets into the file.
  using Edit = std::function<BenchDocument::Edit(const std::string& text)>;
  NumberField(const BenchDocument& document, Edit edit, QWidget* parent = nullptr);

  [[nodiscard]] BenchDocument::Edit editOf(const std::string& text) const { return edit_(text); }

 private:
  Edit edit_;
};

/// The number that is written becomes a dimension of the piece, and what uses it is given by
/// `edit` in its place: one step of undo. Errors: badUsage (no number), and of the two edits.
[[nodiscard]] Result<void> nameNumber(
    BenchDocument& document, const std::string& name, const std::string& number,
    const std::function<BenchDocument::Edit(const std::string&)>& edit);

}  // namespace dryfit::viewer
