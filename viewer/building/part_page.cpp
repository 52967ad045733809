#include "viewer/building/part_page.h"

#include <QComboBox>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QSignalBlocker>
#include <QVBoxLayout>
#include <algorithm>

#include "joinery/file/part_edits.h"
#include "viewer/building/number_field.h"
#include "viewer/look/look.h"
#include "viewer/look/panels.h"
#include "viewer/look/words.h"

namespace dryfit::viewer {

PartPage::PartPage(BenchDocument& document, QWidget* parent)
    : QWidget(parent), document_(document) {
  setObjectName("partPage");
  title_ = new QLabel;
  shared_ = new QLabel;
  shared_->setProperty("role", "aside");
  shared_->setWordWrap(true);
  wrong_ = new QLabel;
  wrong_->setObjectName("wrongEntry");
  wrong_->setWordWrap(true);
  wrong_->setStyleSheet(QString("color: %1;").arg(colourOf(joinery::Severity::error).name()));
  form_ = new QWidget;
  auto* form = new QFormLayout(form_);
  addText(form, tr("Label"), "label");
  material_ = new QComboBox;
  material_->setObjectName("part_material");
  form->addRow(tr("Material"), material_);
  addSpan(form, tr("Length"), "length");
  addSpan(form, tr("Width"), "width");
  addSpan(form, tr("Thickness"), "thickness");
  addText(form, tr("Face side"), "face_side");
  addText(form, tr("Face edge"), "face_edge");
  addText(form, tr("Grain"), "grain");
  addText(form, tr("Batch"), "batch");
  addText(form, tr("Match"), "match");
  addText(form, tr("Note"), "note");
  auto* all = new QVBoxLayout(this);
  all->addWidget(title_);
  all->addWidget(shared_);
  all->addWidget(scrolled(form_), 1);
  all->addWidget(wrong_);
  connect(material_, &QComboBox::activated, this, &PartPage::takeMaterial);
  connect(&document_, &BenchDocument::numbersChanged, this, &PartPage::refresh);
  connect(&document_, &BenchDocument::opened, this, [this] { show({}); });
  refresh();
}

QLineEdit* PartPage::addLine(const QString& name, std::function<std::string()> written,
                             std::function<BenchDocument::Edit(const std::string&)> edit,
                             bool number) {
  const std::size_t index = fields_.size();
  QLineEdit* line = number ? new NumberField(document_, edit) : new QLineEdit;
  line->setObjectName("part_" + name);
  fields_.push_back({line, std::move(written), std::move(edit)});
  connect(line, &QLineEdit::editingFinished, this, [this, index] { take(fields_[index]); });
  return line;
}

void PartPage::addText(QFormLayout* form, const QString& words, const std::string& key) {
  form->addRow(words, addLine(
                          QString::fromStdString(key),
                          [this, key] { return joinery::partText(document_.file(), part_, key); },
                          [this, key](const std::string& text) {
                            return [part = part_, key, text](joinery::ModelFile& file) {
                              return joinery::setPartText(file, part, key, text);
                            };
                          }));
}

void PartPage::addSpan(QFormLayout* form, const QString& words, const std::string& span) {
  auto* row = new QWidget;
  auto* beside = new QHBoxLayout(row);
  beside->setContentsMargins(0, 0, 0, 0);
  const std::pair<const char*, QString> ends[] = {
      {"from", tr("from")}, {"to", tr("to")}, {"size", tr("size")}, {"centre", tr("centre")}};
  for (const auto& [key, hint] : ends) {
    QLineEdit* line = addLine(
        QString::fromStdString(span + "_" + key),
        [this, span, key = std::string(key)] {
          return joinery::spanText(document_.file(), part_, span, key);
        },
        [this, span, key = std::string(key)](const std::string& text) {
          return [part = part_, span, key, text](joinery::ModelFile& file) {
            return joinery::setPartSpan(file, part, span, key, text);
          };
        },
        true);
    line->setPlaceholderText(hint);
    line->setToolTip(tr("%1, %2").arg(words, hint));
    beside->addWidget(line);
  }
  form->addRow(words, row);
}

void PartPage::show(const std::vector<joinery::PartId>& parts) {
  const auto& all = document_.isOpen() ? document_.model().parts : std::vector<joinery::Part>{};
  const bool one = parts.size() == 1 && parts.front().index() < all.size();
  part_ = one ? all[parts.front().index()].name : std::string();
  fail({});
  refresh();
}

void PartPage::refresh() {
  const auto& parts = document_.isOpen() ? document_.model().parts : std::vector<joinery::Part>{};
  const auto own = std::ranges::find(parts, part_, &joinery::Part::name);
  form_->setEnabled(own != parts.end());
  title_->setText(own == parts.end() ? tr("Choose one part to change it") : labelWords(*own));
  QString shared;
  if (own != parts.end()) {
    const std::string place = document_.file().authoredPlace("parts", part_);
    if (place != "parts." + part_) {
      const auto same = std::ranges::count_if(parts, [&](const joinery::Part& other) {
        return document_.file().authoredPlace("parts", other.name) == place;
      });
      shared = tr("Described once for %1 parts: a change is a change to all.").arg(same);
    }
  }
  shared_->setText(shared);
  shared_->setVisible(!shared.isEmpty());
  for (const Field& field : fields_) {
    // What is being typed stays.
    if (field.line->hasFocus() && field.line->isModified()) continue;
    field.line->setText(own == parts.end() ? QString() : QString::fromStdString(field.written()));
    field.line->setStyleSheet({});
  }
  const QSignalBlocker quiet(material_);
  material_->clear();
  if (own == parts.end()) return;
  for (const joinery::Material& m : document_.model().materials) {
    material_->addItem(spaced(m.name), QString::fromStdString(m.name));
  }
  material_->setCurrentIndex(material_->findData(QString::fromStdString(own->material)));
}

void PartPage::take(const Field& field) {
  const std::string text = field.line->text().toStdString();
  if (part_.empty() || !document_.isOpen() || text == field.written()) return;
  const auto done = document_.apply(tr("change of a part"), field.edit(text));
  field.line->setModified(!done);
  field.line->setStyleSheet(done ? QString()
                                 : QString("background: %1;").arg(colour::refused.name()));
  fail(done ? QString() : QString::fromStdString(done.error().line()));
  if (done) Q_EMIT taken();
}

void PartPage::takeMaterial() {
  const std::string material = material_->currentData().toString().toStdString();
  if (part_.empty()) return;
  const auto edit = [part = part_, material](joinery::ModelFile& file) {
    return joinery::setPartText(file, part, "material", material);
  };
  const auto done = document_.apply(tr("other material"), edit);
  fail(done ? QString() : QString::fromStdString(done.error().line()));
  if (!done) refresh();
}

void PartPage::fail(const QString& line) {
  wrong_->setText(line);
  wrong_->setVisible(!line.isEmpty());
}

}  // namespace dryfit::viewer
