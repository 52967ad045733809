#include "viewer/building/new_part_dialog.h"

#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>
#include <array>

#include "joinery/base/face.h"
#include "viewer/building/name_completer.h"
#include "viewer/look/look.h"
#include "viewer/look/words.h"

namespace dryfit::viewer {
namespace {

constexpr std::array<const char*, 3> kAxes{"x", "y", "z"};
constexpr std::array<const char*, 3> kNear{".left", ".front", ".bottom"};
constexpr std::array<const char*, 3> kFar{".right", ".back", ".top"};

}  // namespace

joinery::NewPart partBetween(const joinery::ModelFile& file, const joinery::Piece& piece,
                             joinery::PartId a, joinery::PartId b) {
  const joinery::PlacedPart *first = &piece.parts[a.index()], *second = &piece.parts[b.index()];
  kernel::Box3 low = kernel::boundsOf(first->frame, first->blank());
  kernel::Box3 high = kernel::boundsOf(second->frame, second->blank());
  // Along the axis on which they stand farthest apart.
  int axis = 0;
  double most = -1e300;
  for (int i = 0; i < 3; ++i) {
    const double gap = std::max(high.min[i] - low.max[i], low.min[i] - high.max[i]);
    if (gap > most) {
      most = gap;
      axis = i;
    }
  }
  if (high.min[axis] < low.max[axis]) {
    std::swap(first, second);
    std::swap(low, high);
  }
  const std::string near = piece.part(first->id).name, far = piece.part(second->id).name;
  const auto i = static_cast<std::size_t>(axis);
  // The width is upright where it can be, and the thickness from front to back.
  const std::size_t up = axis == 2 ? 0 : 2, deep = axis == 1 ? 0 : 1;
  const std::string width = file.model().unit == joinery::Unit::inch ? "3" : "70";
  joinery::NewPart part;
  part.name = joinery::freeName(file, "rail");
  part.material = piece.part(first->id).material;
  part.length = {kAxes[i], near + kFar[i], far + kNear[i], {}, {}};
  part.width = {kAxes[up], {}, near + kFar[up], width, {}};
  part.thickness = {kAxes[deep], near + kNear[deep], {}, {}, {}};
  return part;
}

NewPartDialog::NewPartDialog(BenchDocument& document, const joinery::NewPart& begun,
                             QWidget* parent)
    : QDialog(parent), document_(document) {
  setObjectName("newPartDialog");
  setWindowTitle(tr("New part"));
  name_ = new QLineEdit(QString::fromStdString(begun.name));
  name_->setObjectName("newName");
  material_ = new QComboBox;
  material_->setObjectName("newMaterial");
  for (const joinery::Material& m : document_.model().materials) {
    material_->addItem(spaced(m.name), QString::fromStdString(m.name));
  }
  material_->setCurrentIndex(material_->findData(QString::fromStdString(begun.material)));
  auto* form = new QFormLayout;
  form->addRow(tr("Name"), name_);
  form->addRow(tr("Material"), material_);
  auto* grid = new QGridLayout;
  const QStringList heads{{}, tr("along"), tr("from"), tr("to"), tr("size"), tr("centre")};
  for (int column = 0; column < heads.size(); ++column) {
    grid->addWidget(new QLabel(heads[column]), 0, column);
  }
  length_ = addRow(grid, 1, tr("Length"), "newLength", begun.length);
  width_ = addRow(grid, 2, tr("Width"), "newWidth", begun.width);
  thickness_ = addRow(grid, 3, tr("Thickness"), "newThickness", begun.thickness);
  wrong_ = new QLabel;
  wrong_->setObjectName("newWrong");
  wrong_->setWordWrap(true);
  wrong_->setStyleSheet(QString("color: %1;").arg(colourOf(joinery::Severity::error).name()));
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel);
  make_ = buttons->addButton(tr("Make the part"), QDialogButtonBox::AcceptRole);
  auto* all = new QVBoxLayout(this);
  all->addLayout(form);
  all->addLayout(grid);
  auto* hint =
      new QLabel(tr("x runs from left to right, y from front to back, z from bottom to top. "
                    "Two of from, to, size and centre make a span; of the thickness one."));
  hint->setProperty("role", "aside");
  hint->setWordWrap(true);
  all->addWidget(hint);
  all->addWidget(wrong_);
  all->addWidget(buttons);
  connect(name_, &QLineEdit::textChanged, this, &NewPartDialog::tryIt);
  connect(material_, &QComboBox::currentIndexChanged, this, &NewPartDialog::tryIt);
  connect(buttons, &QDialogButtonBox::accepted, this, &NewPartDialog::make);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  resize(720, 300);
  tryIt();
}

NewPartDialog::Row NewPartDialog::addRow(QGridLayout* grid, int row, const QString& words,
                                         const char* name, const joinery::NewSpan& span) {
  grid->addWidget(new QLabel(words), row, 0);
  Row own{};
  own.along = new QComboBox;
  own.along->addItems({"x", "y", "z"});
  own.along->setCurrentText(QString::fromStdString(span.along));
  grid->addWidget(own.along, row, 1);
  connect(own.along, &QComboBox::currentIndexChanged, this, &NewPartDialog::tryIt);
  const std::array<std::pair<QLineEdit**, const std::string*>, 4> ends{
      {{&own.from, &span.from},
       {&own.to, &span.to},
       {&own.size, &span.size},
       {&own.centre, &span.centre}}};
  const std::array<const char*, 4> keys{"From", "To", "Size", "Centre"};
  for (std::size_t i = 0; i < ends.size(); ++i) {
    auto* line = new QLineEdit(QString::fromStdString(*ends[i].second));
    line->setObjectName(QString(name) + keys[i]);
    completeNames(line, document_);
    connect(line, &QLineEdit::textChanged, this, &NewPartDialog::tryIt);
    grid->addWidget(line, row, 2 + static_cast<int>(i));
    *ends[i].first = line;
  }
  return own;
}

joinery::NewSpan NewPartDialog::spanOf(const Row& row) {
  return {row.along->currentText().toStdString(), row.from->text().toStdString(),
          row.to->text().toStdString(), row.size->text().toStdString(),
          row.centre->text().toStdString()};
}

joinery::NewPart NewPartDialog::part() const {
  return {name_->text().trimmed().toStdString(), material_->currentData().toString().toStdString(),
          spanOf(length_), spanOf(width_), spanOf(thickness_)};
}

void NewPartDialog::tryIt() {
  if (make_ == nullptr || thickness_.centre == nullptr) return;  // it is still being put together
  const auto tried = document_.tryEdit(
      [part = part()](joinery::ModelFile& file) { return joinery::addPart(file, part); });
  wrong_->setText(tried ? QString() : QString::fromStdString(tried.error().line()));
  make_->setEnabled(tried.has_value());
}

void NewPartDialog::make() {
  const auto done = document_.apply(tr("new part"), [part = part()](joinery::ModelFile& file) {
    return joinery::addPart(file, part);
  });
  if (done) return accept();
  wrong_->setText(QString::fromStdString(done.error().line()));
}

}  // namespace dryfit::viewer
