#include "viewer/building/move_face_dialog.h"

#include <QDialogButtonBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>

#include "joinery/base/unit.h"
#include "viewer/building/dry_fit_words.h"
#include "viewer/building/name_completer.h"
#include "viewer/look/look.h"
#include "viewer/look/words.h"

namespace dryfit::viewer {
namespace {

/// Parts that stand or measure otherwise than before, but for the one whose face is moved.
QStringList followers(const joinery::Piece& before, const joinery::Piece& after,
                      joinery::PartId moved) {
  constexpr double kSeen = 1e-6;
  QStringList names;
  for (std::size_t i = 0; i < std::min(before.parts.size(), after.parts.size()); ++i) {
    const kernel::Box3 &a = before.parts[i].span, &b = after.parts[i].span;
    const bool same = (a.min - b.min).norm() < kSeen && (a.max - b.max).norm() < kSeen;
    if (!same && i != moved.index()) names << labelWords(before.part(joinery::PartId(i)));
  }
  return names;
}

}  // namespace

MoveFaceDialog::MoveFaceDialog(BenchDocument& document, joinery::LiveFit& trials,
                               joinery::PartFace face, QWidget* parent)
    : FaceDialog(parent), document_(document), trials_(trials), face_(face) {
  setObjectName("moveFaceDialog");
  setWindowTitle(tr("Move a face"));
  const joinery::Piece& piece = *document_.drawnPiece();  // what is written are drawn sizes
  const joinery::FaceHold hold = joinery::holdOf(document_.file(), piece, face);
  const QString name = QString::fromStdString(joinery::writtenName(piece, face));
  auto* heading =
      new QLabel(hold.expression.empty()
                     ? tr("%1 follows from the face opposite and the size between them.").arg(name)
                     : tr("%1 is held by %2, its %3.")
                           .arg(name, QString::fromStdString(hold.expression),
                                QString::fromStdString(hold.span + " " + hold.key)));
  heading->setWordWrap(true);
  place_ = new QLineEdit(QString::fromStdString(
      hold.expression.empty() ? joinery::movedBy(hold, 0, document_.model().unit)
                              : hold.expression));
  place_->setObjectName("facePlace");
  place_->selectAll();
  completeNames(place_, document_);
  follows_ = new QLabel;
  follows_->setObjectName("faceFollows");
  follows_->setWordWrap(true);
  verdict_ = new QLabel;
  verdict_->setObjectName("faceVerdict");
  verdict_->setWordWrap(true);
  constexpr int kPauseMs = 350;
  pause_.setSingleShot(true);
  pause_.setInterval(kPauseMs);
  connect(&pause_, &QTimer::timeout, this, [this] {
    if (document_.drawnPiece() == nullptr) return;
    verdict_->setText(dryFitWords(document_, trials_, edit(place_->text())));
  });
  auto* form = new QFormLayout;
  form->addRow(tr("It is to stand at"), place_);
  auto* hint = new QLabel(
      tr("Its place in the piece: a length or an expression (with + 15 behind what stands there it "
         "moves by 15), or a face taken in the view."));
  hint->setWordWrap(true);
  hint->setProperty("role", "aside");
  auto* buttons = new QDialogButtonBox(QDialogButtonBox::Cancel);
  move_ = buttons->addButton(tr("Move the face"), QDialogButtonBox::AcceptRole);
  auto* all = new QVBoxLayout(this);
  all->addWidget(heading);
  all->addLayout(form);
  all->addWidget(hint);
  all->addWidget(follows_);
  all->addWidget(verdict_);
  all->addStretch(1);
  all->addWidget(buttons);
  connect(place_, &QLineEdit::textChanged, this, &MoveFaceDialog::tryIt);
  connect(buttons, &QDialogButtonBox::accepted, this, &MoveFaceDialog::move);
  connect(buttons, &QDialogButtonBox::rejected, this, &QDialog::reject);
  for (const auto signal : {&BenchDocument::opened, &BenchDocument::listsChanged}) {
    connect(&document_, signal, this, &QDialog::reject);
  }
  all->setSizeConstraint(QLayout::SetMinimumSize);
  resize(fontMetrics().averageCharWidth() * 60, sizeHint().height());
  tryIt(place_->text());
}

BenchDocument::Edit MoveFaceDialog::edit(const QString& text) const {
  return [piece = *document_.drawnPiece(), face = face_, text = text.toStdString()](
             joinery::ModelFile& file) { return joinery::moveFace(file, piece, face, text); };
}

void MoveFaceDialog::take(joinery::PartFace face) {
  if (face == face_ || document_.piece() == nullptr) return;
  place_->setText(QString::fromStdString(joinery::writtenName(*document_.piece(), face)));
  place_->setFocus();
}

void MoveFaceDialog::pointAt(std::optional<joinery::PartFace> face) {
  if (document_.piece() == nullptr || document_.drawnPiece() == nullptr) return;
  const bool other =
      face && *face != face_ && joinery::axisOf(face->face) == joinery::axisOf(face_.face);
  tryIt(other ? QString::fromStdString(joinery::writtenName(*document_.piece(), *face))
              : place_->text());
}

void MoveFaceDialog::tryIt(const QString& text) {
  if (document_.piece() == nullptr || document_.drawnPiece() == nullptr) return;
  const auto piece = document_.tried(edit(text));
  verdict_->clear();
  if (piece && text == place_->text()) {
    pause_.start();
  } else {
    pause_.stop();
  }
  move_->setEnabled(piece.has_value());
  follows_->setStyleSheet(
      piece ? QString() : QString("color: %1;").arg(colourOf(joinery::Severity::error).name()));
  if (!piece) {
    follows_->setText(QString::fromStdString(piece.error().line()));
    Q_EMIT ghostChanged(std::nullopt);
    return;
  }
  const QStringList names = followers(*document_.piece(), *piece, face_.part);
  constexpr int kTold = 6;
  follows_->setText(names.isEmpty()        ? tr("No other part goes along.")
                    : names.size() > kTold ? tr("Goes along: %1 and %2 more.")
                                                 .arg(names.mid(0, kTold).join(", "))
                                                 .arg(names.size() - kTold)
                                           : tr("Goes along: %1.").arg(names.join(", ")));
  const joinery::PlacedPart& part = piece->parts[face_.part.index()];
  Q_EMIT ghostChanged(kernel::boundsOf(part.frame, part.blank()));
}

void MoveFaceDialog::move() {
  if (document_.piece() == nullptr || document_.drawnPiece() == nullptr) return;
  const auto done = document_.apply(tr("face moved"), edit(place_->text()));
  if (done) return accept();
  follows_->setText(QString::fromStdString(done.error().line()));
}

}  // namespace dryfit::viewer
