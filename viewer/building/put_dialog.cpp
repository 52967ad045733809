#include "viewer/building/put_dialog.h"

#include <QComboBox>
#include <QDialogButtonBox>
#include <QFormLayout>
#include <QGridLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>
#include <utility>

#include "joinery/building/new_part_box.h"
#include "viewer/building/dry_fit_words.h"
#include "viewer/building/name_completer.h"
#include "viewer/look/look.h"
#include "viewer/look/words.h"

namespace dryfit::viewer {
namespace {

constexpr std::array<const char*, 3> kAxes{"x", "y", "z"};

}  // namespace

PutDialog::PutDialog(BenchDocument& document, joinery::LiveFit& trials,
                     std::vector<joinery::PartFace> faces, QWidget* parent)
    : FaceDialog(parent), document_(document), trials_(trials), faces_(std::move(faces)) {
  setObjectName("putDialog");
  setWindowTitle(tr("Put a sub-assembly between faces"));
  of_ = new QComboBox;
  of_->setObjectName("putOf");
  for (const std::string& of : joinery::assemblyNames(document_.file())) {
    of_->addItem(spaced(of), QString::fromStdString(of));
  }
  name_ = new QLineEdit;
  name_->setObjectName("putName");
  auto* form = new QFormLayout;
  form->addRow(tr("Sub-assembly"), of_);
  form->addRow(tr("Name"), name_);
  auto* grid = new QGridLayout;
  const QStringList heads{tr("Opening"), tr("from"), tr("to"), tr("size")};
  for (int column = 0; column < heads.size(); ++column) {
    grid->addWidget(new QLabel(heads[column]), 0, column);
  }
  const std::array<QString, 3> words{tr("x, left to right"), tr("y, front to back"),
                                     tr("z, bottom to top")};
  for (std::size_t i = 0; i < 3; ++i) {
    const int row = static_cast<int>(i) + 1;
    grid->addWidget(new QLabel(words[i]), row, 0);
    const std::array<std::pair<QLineEdit**, const char*>, 3> ends{
        {{&rows_[i].from, "From"}, {&rows_[i].to, "To"}, {&rows_[i].size, "Size"}}};
    for (std::size_t end = 0; end < ends.size(); ++end) {
      auto* line = new QLineEdit;
      line->setObjectName(QString("put_%1%2").arg(kAxes[i], ends[end].second));
      completeNames(line, document_);
      connect(line, &QLineEdit::textChanged, this, &PutDialog::tryIt);
      grid->addWidget(line, row, 1 + static_cast<int>(end));
      *ends[end].first = line;
    }
  }
  near_ = new QWidget;
  nearForm_ = new QFormLayout(near_);
  nearForm_->setContentsMargins(0, 0, 0, 0);
  auto* hint = new QLabel(
      tr("Two of from, to and size make an opening along an axis. A face taken in the view, by a "
         "click or by F7, F8 and F9, becomes an end; what is not picked is what is met first."));
  hint->setProperty("role", "aside");
  hint->setWordWrap(true);
  wrong_ = new QLabel;
  wrong_->setObjectName("putWrong");
  wrong_->setWordWrap(true);
  wrong_->setStyleSheet(QString("color: %1;").arg(colourOf(joinery::Severity::error).name()));
  verdict_ = new QLabel;
  verdict_->setObjectName("putVerdict");
  verdict_->setWordWrap(true);
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel);
  put_ = buttons->addButton(tr("Put it in"), QDialogButtonBox::AcceptRole);
  auto* all = new QVBoxLayout(this);
  all->addLayout(form);
  all->addLayout(grid);
  all->addWidget(near_);
  for (QLabel* label : {hint, wrong_, verdict_}) all->addWidget(label);
  all->addWidget(buttons);
  all->setSizeConstraint(QLayout::SetMinimumSize);
  resize(fontMetrics().averageCharWidth() * 80, sizeHint().height());
  connect(of_, &QComboBox::currentIndexChanged, this, &PutDialog::propose);
  connect(name_, &QLineEdit::textChanged, this, &PutDialog::tryIt);
  connect(buttons, &QDialogButtonBox::accepted, this, &PutDialog::put);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  connect(&document_, &BenchDocument::opened, this, &QDialog::reject);
  connect(&document_, &BenchDocument::numbersChanged, this, &PutDialog::tryIt);
  constexpr int kPauseMs = 350;
  pause_.setSingleShot(true);
  pause_.setInterval(kPauseMs);
  connect(&pause_, &QTimer::timeout, this,
          [this] { verdict_->setText(dryFitWords(document_, trials_, edit())); });
  propose();
}

void PutDialog::propose() {
  const joinery::Piece* piece = document_.drawnPiece();
  if (piece == nullptr) return;
  filling_ = true;
  const joinery::NewUse use = joinery::proposeUse(
      document_.file(), *piece, of_->currentData().toString().toStdString(), faces_);
  if (!name_->isModified()) name_->setText(QString::fromStdString(use.name));
  for (std::size_t i = 0; i < 3; ++i) {
    rows_[i].from->setText(QString::fromStdString(use.opening[i].from));
    rows_[i].to->setText(QString::fromStdString(use.opening[i].to));
    rows_[i].size->setText(QString::fromStdString(use.opening[i].size));
  }
  while (nearForm_->rowCount() > 0) nearForm_->removeRow(0);
  neighbours_.clear();
  for (const auto& [name, part] : use.neighbours) {
    auto* line = new QLineEdit(QString::fromStdString(part));
    line->setObjectName("putNear_" + QString::fromStdString(name));
    completeNames(line, document_);
    connect(line, &QLineEdit::textChanged, this, &PutDialog::tryIt);
    nearForm_->addRow(spaced(name), line);
    neighbours_.emplace_back(name, line);
  }
  values_ = use.values;
  filling_ = false;
  tryIt();
}

joinery::NewUse PutDialog::use() const {
  joinery::NewUse use{name_->text().trimmed().toStdString(),
                      of_->currentData().toString().toStdString(),
                      {},
                      {},
                      values_};
  for (std::size_t i = 0; i < 3; ++i) {
    joinery::NewSpan span{kAxes[i],
                          rows_[i].from->text().toStdString(),
                          rows_[i].to->text().toStdString(),
                          rows_[i].size->text().toStdString(),
                          {}};
    if (!span.from.empty() || !span.to.empty() || !span.size.empty()) use.opening.push_back(span);
  }
  for (const auto& [name, line] : neighbours_) {
    use.neighbours.emplace_back(name, line->text().trimmed().toStdString());
  }
  return use;
}

BenchDocument::Edit PutDialog::edit() const {
  return [use = use()](joinery::ModelFile& file) { return joinery::putAssembly(file, use); };
}

void PutDialog::take(joinery::PartFace face) {
  // A face that looks the same way along the same axis gives way to it.
  std::erase_if(faces_, [&](joinery::PartFace other) { return other.face == face.face; });
  faces_.push_back(face);
  propose();
}

void PutDialog::pointAt(std::optional<joinery::PartFace> face) {
  const joinery::Piece* piece = document_.drawnPiece();
  if (!face || piece == nullptr) return showGhost(use());
  std::vector<joinery::PartFace> faces = faces_;
  std::erase_if(faces, [&](joinery::PartFace other) { return other.face == face->face; });
  faces.push_back(*face);
  showGhost(joinery::proposeUse(document_.file(), *piece,
                                of_->currentData().toString().toStdString(), faces));
}

void PutDialog::showGhost(const joinery::NewUse& use) {
  const joinery::Piece* piece = document_.piece();
  joinery::NewPart block;  // as large as the opening
  for (joinery::NewSpan* span : {&block.length, &block.thickness, &block.width}) {
    const auto i = static_cast<std::size_t>(span == &block.length      ? 0
                                            : span == &block.thickness ? 1
                                                                       : 2);
    span->along = kAxes[i];
    for (const joinery::NewSpan& given : use.opening) {
      if (given.along == kAxes[i]) *span = given;
    }
  }
  if (piece == nullptr || document_.model().materials.empty()) {
    return Q_EMIT ghostChanged(std::nullopt);
  }
  block.material = document_.model().materials.front().name;
  const auto box = joinery::boxOf(*piece, block);
  Q_EMIT ghostChanged(box ? std::optional(*box) : std::nullopt);
}

void PutDialog::tryIt() {
  if (filling_) return;
  const auto tried = document_.tryEdit(edit());
  wrong_->setText(tried ? QString() : QString::fromStdString(tried.error().line()));
  put_->setEnabled(tried.has_value());
  verdict_->clear();
  if (tried) {
    pause_.start();
  } else {
    pause_.stop();
  }
  showGhost(use());
}

void PutDialog::put() {
  const auto done = document_.apply(tr("sub-assembly put in"), edit());
  if (done) return accept();
  wrong_->setText(QString::fromStdString(done.error().line()));
}

}  // namespace dryfit::viewer
