#include "viewer/building/new_part_dialog.h"

#include <QComboBox>
#include <QDialogButtonBox>
#include <QEvent>
#include <QFormLayout>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>
#include <array>
#include <utility>

#include "joinery/base/face.h"
#include "joinery/building/new_part_box.h"
#include "viewer/building/dry_fit_words.h"
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

std::optional<joinery::NewPart> partBetweenFaces(const joinery::ModelFile& file,
                                                 const joinery::Piece& piece, joinery::PartFace a,
                                                 joinery::PartFace b) {
  if (joinery::axisOf(a.face) != joinery::axisOf(b.face)) return std::nullopt;
  if (joinery::standsAt(piece, a) > joinery::standsAt(piece, b)) std::swap(a, b);
  joinery::NewPart part = partBetween(file, piece, a.part, b.part);
  const auto axis = static_cast<std::size_t>(joinery::axisOf(a.face));
  const std::string nearName = piece.part(a.part).name;
  const std::size_t up = axis == 2 ? 0 : 2, deep = axis == 1 ? 0 : 1;
  part.length = {
      kAxes[axis], joinery::writtenName(piece, a), joinery::writtenName(piece, b), {}, {}};
  part.width.along = kAxes[up];
  part.width.from.clear();
  part.width.to = nearName + kFar[up];
  part.thickness = {kAxes[deep], nearName + kNear[deep], {}, {}, {}};
  return part;
}

NewPartDialog::NewPartDialog(BenchDocument& document, joinery::LiveFit& trials,
                             const joinery::NewPart& begun, QWidget* parent)
    : FaceDialog(parent), document_(document), trials_(trials) {
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
  verdict_ = new QLabel;
  verdict_->setObjectName("newVerdict");
  verdict_->setWordWrap(true);
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel);
  make_ = buttons->addButton(tr("Make the part"), QDialogButtonBox::AcceptRole);
  auto* all = new QVBoxLayout(this);
  all->addLayout(form);
  all->addLayout(grid);
  auto* hint =
      new QLabel(tr("x runs from left to right, y from front to back, z from bottom to top. "
                    "Two of from, to, size and centre make a span; of the thickness one. "
                    "A face taken in the view, by a click or by F7, F8 and F9, goes into the "
                    "field with the caret."));
  hint->setProperty("role", "aside");
  hint->setWordWrap(true);
  all->addWidget(hint);
  all->addWidget(wrong_);
  all->addWidget(verdict_);
  all->addWidget(buttons);
  connect(name_, &QLineEdit::textChanged, this, [this] { touched_ = true; });
  connect(name_, &QLineEdit::textChanged, this, &NewPartDialog::tryIt);
  connect(material_, &QComboBox::currentIndexChanged, this, &NewPartDialog::tryIt);
  connect(buttons, &QDialogButtonBox::accepted, this, &NewPartDialog::make);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  all->setSizeConstraint(QLayout::SetMinimumSize);
  resize(fontMetrics().averageCharWidth() * 90, sizeHint().height());
  field_ = begun.length.from.empty() || begun.length.from == "0" ? length_.from : width_.from;
  // The name first; faces that are taken go into the field all the same.
  name_->setFocus();
  name_->selectAll();
  connect(&document_, &BenchDocument::opened, this, &QDialog::reject);
  connect(&document_, &BenchDocument::numbersChanged, this, &NewPartDialog::tryIt);
  constexpr int kPauseMs = 350;
  pause_.setSingleShot(true);
  pause_.setInterval(kPauseMs);
  connect(&pause_, &QTimer::timeout, this, &NewPartDialog::askDryFit);
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
  own.along->setObjectName(QString(name) + "Along");
  connect(own.along, &QComboBox::currentIndexChanged, this,
          [this, row] { turn(static_cast<std::size_t>(row - 1)); });
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
    connect(line, &QLineEdit::textChanged, this, [this] { touched_ = touched_ || !filling_; });
    connect(line, &QLineEdit::textChanged, this, &NewPartDialog::tryIt);
    line->installEventFilter(this);
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

bool NewPartDialog::eventFilter(QObject* watched, QEvent* event) {
  if (event->type() == QEvent::FocusIn) {
    if (auto* line = qobject_cast<QLineEdit*>(watched)) field_ = line;
  }
  return FaceDialog::eventFilter(watched, event);
}

joinery::NewSpan& NewPartDialog::spanIn(joinery::NewPart& part) const {
  for (const auto& [row, span] : {std::pair{&length_, &part.length}, {&width_, &part.width}}) {
    for (const QLineEdit* line : {row->from, row->to, row->size, row->centre}) {
      if (line == field_) return *span;
    }
  }
  return part.thickness;
}

joinery::NewPart NewPartDialog::partWith(joinery::PartFace face) const {
  joinery::NewPart now = part();
  const joinery::Piece* piece = document_.piece();
  if (piece == nullptr || field_ == nullptr) return now;
  joinery::NewSpan& span = spanIn(now);
  // The three spans lie along three axes: what had this one takes the one that is given up.
  const std::string along = kAxes[static_cast<std::size_t>(joinery::axisOf(face.face))];
  for (joinery::NewSpan* other : {&now.length, &now.width, &now.thickness}) {
    if (other != &span && other->along == along) other->along = span.along;
  }
  const bool turnedOver = span.along != along;
  span.along = along;
  const std::string name = joinery::writtenName(*piece, face);
  const bool isLength = &span == &now.length;
  const bool isCentre =
      field_ == length_.centre || field_ == width_.centre || field_ == thickness_.centre;
  bool isTo = field_ == length_.to || field_ == width_.to || field_ == thickness_.to;
  // A part between two faces begins at the one that looks along the axis and ends at the other.
  if (isLength && !isCentre) isTo = !joinery::isFarFace(face.face);
  if (turnedOver) span.from = span.to = span.centre = {};
  (isCentre ? span.centre : isTo ? span.to : span.from) = name;
  const bool isThickness = &span == &now.thickness;
  if (isThickness) {
    if (!isCentre) (isTo ? span.from : span.to).clear();
  } else if (!span.from.empty() && !span.to.empty()) {
    span.size.clear();
  }
  return now;
}

void NewPartDialog::fillIn(const joinery::NewPart& part) {
  filling_ = true;
  const std::array<std::pair<const Row*, const joinery::NewSpan*>, 3> rows{
      {{&length_, &part.length}, {&width_, &part.width}, {&thickness_, &part.thickness}}};
  for (const auto& [row, span] : rows) {
    row->along->setCurrentText(QString::fromStdString(span->along));
    row->from->setText(QString::fromStdString(span->from));
    row->to->setText(QString::fromStdString(span->to));
    row->size->setText(QString::fromStdString(span->size));
    row->centre->setText(QString::fromStdString(span->centre));
  }
  filling_ = false;
  tryIt();
}

/// The next field that wants a face.
void NewPartDialog::goOn() {
  const bool lengthIsDone = length_.from->text().isEmpty() == length_.to->text().isEmpty();
  if (field_ == length_.from || field_ == length_.to) {
    field_ = lengthIsDone                     ? width_.from
             : length_.from->text().isEmpty() ? length_.from
                                              : length_.to;
  } else if (field_ == width_.from) {
    field_ = width_.to;
  } else if (field_ == width_.to) {
    field_ = thickness_.from;
  }
  field_->setFocus();
}

void NewPartDialog::take(joinery::PartFace face) {
  touched_ = true;
  fillIn(partWith(face));
  goOn();
}

void NewPartDialog::pointAt(std::optional<joinery::PartFace> face) {
  showGhost(face ? partWith(*face) : part());
}

void NewPartDialog::showGhost(const joinery::NewPart& part) {
  const joinery::Piece* piece = document_.piece();
  if (piece == nullptr) return Q_EMIT ghostChanged(std::nullopt);
  const auto box = joinery::boxOf(*piece, part);
  Q_EMIT ghostChanged(box ? std::optional(*box) : std::nullopt);
}

void NewPartDialog::turn(std::size_t row) {
  if (filling_ || thickness_.along == nullptr) return;
  const std::array<QComboBox*, 3> rows{length_.along, width_.along, thickness_.along};
  filling_ = true;
  for (std::size_t other = 0; other < rows.size(); ++other) {
    if (other == row || rows[other]->currentText() != rows[row]->currentText()) continue;
    rows[other]->setCurrentText(ways_[row]);
  }
  filling_ = false;
  tryIt();
}

void NewPartDialog::askDryFit() {
  const auto edit = [part = part()](joinery::ModelFile& file) {
    return joinery::addPart(file, part);
  };
  verdict_->setText(dryFitWords(document_, trials_, edit));
}

void NewPartDialog::tryIt() {
  // It is still being put together, or only half filled in.
  if (make_ == nullptr || thickness_.centre == nullptr || filling_) return;
  const auto tried = document_.tryEdit(
      [part = part()](joinery::ModelFile& file) { return joinery::addPart(file, part); });
  // Nobody is blamed for what they have not begun.
  wrong_->setText(tried || !touched_ ? QString() : QString::fromStdString(tried.error().line()));
  make_->setEnabled(tried.has_value());
  ways_ = {length_.along->currentText(), width_.along->currentText(),
           thickness_.along->currentText()};
  verdict_->clear();
  if (tried) {
    pause_.start();
  } else {
    pause_.stop();
  }
  showGhost(part());
}

void NewPartDialog::make() {
  const auto done = document_.apply(tr("new part"), [part = part()](joinery::ModelFile& file) {
    return joinery::addPart(file, part);
  });
  if (done) return accept();
  wrong_->setText(QString::fromStdString(done.error().line()));
}

}  // namespace dryfit::viewer
