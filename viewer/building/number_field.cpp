#include "viewer/building/number_field.h"

#include "joinery/base/plain_text.h"
#include "joinery/file/material_edits.h"
#include "viewer/building/name_completer.h"

namespace dryfit::viewer {

NumberField::NumberField(const BenchDocument& document, Edit edit, QWidget* parent)
    : QLineEdit(parent), edit_(std::move(edit)) {
  completeNames(this, document);
}

Result<void> nameNumber(BenchDocument& document, const std::string& name, const std::string& number,
                        const std::function<BenchDocument::Edit(const std::string&)>& edit) {
  if (joinery::trimmed(number).empty()) {
    return fail(ErrorCode::badUsage, "there is no number in this field to be named", "",
                "write one first");
  }
  return document.apply(QObject::tr("new dimension"),
                        [&](joinery::ModelFile& file) -> Result<void> {
                          if (auto added = joinery::addDimension(file, name, number); !added) {
                            return added;
                          }
                          return edit(name)(file);
                        });
}

}  // namespace dryfit::viewer
