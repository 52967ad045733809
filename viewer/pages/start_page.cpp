#include "viewer/pages/start_page.h"

#include <QComboBox>
#include <QFileInfo>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QSignalBlocker>
#include <QSpinBox>
#include <QVBoxLayout>
#include <algorithm>

#include "export/drawing/feature_rows.h"
#include "export/report/question_text.h"
#include "viewer/document/bench_document.h"
#include "viewer/document/recent_pieces.h"
#include "viewer/look/look.h"
#include "viewer/look/panels.h"
#include "viewer/look/words.h"
#include "viewer/view/view3d.h"

namespace dryfit::viewer {
namespace {

using joinery::AskedQuestion;
using Kind = AskedQuestion::Kind;

constexpr int kPathRole = Qt::UserRole;

QLabel* heading(const QString& words) {
  auto* label = new QLabel(words);
  QFont font = label->font();
  font.setBold(true);
  label->setFont(font);
  return label;
}

QListWidget* list(const char* name) {
  auto* widget = new QListWidget;
  widget->setObjectName(name);
  widget->setWordWrap(true);
  widget->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
  return widget;
}

QListWidgetItem* itemOf(const std::filesystem::path& path, const QString& title,
                        const QString& note) {
  auto* item = new QListWidgetItem(title);
  item->setData(kPathRole, QString::fromStdString(path.string()));
  item->setToolTip(note);
  return item;
}

/// A piece without parts: the client's three numbers, a board and a sheet.
Result<joinery::ModelFile> emptyPiece() {
  return joinery::ModelFile::parse(R"({
    "format": "dryfit-model", "version": 1, "name": "New piece", "unit": "mm",
    "brief": {"width": "width", "height": "height", "depth": "depth", "tolerance": 1},
    "dimensions": {"width": 800, "height": 900, "depth": 300},
    "materials": {
      "board": {"kind": "solid", "species": "white oak", "thickness": 20},
      "sheet": {"kind": "sheet", "species": "birch plywood", "thickness": 6}
    },
    "parts": {}})",
                                   "new piece");
}

/// "80 mm is too little: it goes from 90 to 200 mm. A lower rail splits."
QString refusalWords(const Error& error) {
  const std::string reason = error.mend.empty() ? "" : exporting::sentenceCase(error.mend) + ".";
  const std::string name = error.where.empty() ? "" : error.where + ": ";
  return QString::fromStdString(exporting::sentenceCase(name + error.what) + ". " + reason)
      .trimmed();
}

}  // namespace

StartPage::StartPage(QWidget* parent) : QWidget(parent), piece_(std::make_unique<BenchDocument>()) {
  setObjectName("startPage");
  auto* row = new QHBoxLayout(this);
  row->setContentsMargins(14, 12, 14, 12);
  row->setSpacing(14);
  auto* lists = new QVBoxLayout;
  starters_ = list("starters");
  files_ = list("pieces");
  lists->addWidget(heading(tr("Begin a piece")));
  lists->addWidget(starters_, 3);
  lists->addWidget(heading(tr("Opened lately, and examples")));
  lists->addWidget(files_, 2);
  auto* empty = new QPushButton(tr("Begin with nothing"));
  empty->setObjectName("beginEmpty");
  empty->setToolTip(tr("A piece without parts, to be built part by part"));
  lists->addWidget(empty);
  auto* open = new QPushButton(tr("Open a file…"));
  return_ = new QPushButton(tr("Back to the piece on the bench"));
  lists->addWidget(open);
  lists->addWidget(return_);
  row->addLayout(lists, 2);
  makeQuestions();
  auto* asked = new QVBoxLayout;
  asked->addWidget(title_);
  asked->addWidget(note_);
  asked->addWidget(scrolled(form_), 1);
  asked->addWidget(wrong_);
  asked->addWidget(begin_);
  row->addLayout(asked, 3);
  auto* shown = new QVBoxLayout;
  picture_ = new View3d;
  shown->addWidget(picture_, 1);
  shown->addWidget(findings_);
  row->addLayout(shown, 5);

  connect(starters_, &QListWidget::currentItemChanged, this,
          [this](QListWidgetItem* now) { takeItem(now); });
  const auto ask = [this](const QListWidgetItem* item) {
    Q_EMIT fileAsked(item->data(kPathRole).toString());
  };
  connect(files_, &QListWidget::itemActivated, this, ask);
  connect(open, &QPushButton::clicked, this, &StartPage::openAsked);
  connect(empty, &QPushButton::clicked, this, [this] {
    if (const auto piece = emptyPiece()) Q_EMIT begun(*piece);
  });
  connect(return_, &QPushButton::clicked, this, &StartPage::returnAsked);
  connect(begin_, &QPushButton::clicked, this, [this] {
    if (piece_->isOpen()) Q_EMIT begun(piece_->file());
  });
  connect(piece_.get(), &BenchDocument::opened, this, [this] { picture_->clear(); });
  connect(piece_.get(), &BenchDocument::assembledChanged, this, [this] {
    picture_->showPiece(piece_->assembled());
    tellFindings();
  });
  connect(piece_.get(), &BenchDocument::buildFailed, this, &StartPage::fail);
}

StartPage::~StartPage() {
  piece_->disconnect(this);
}

void StartPage::makeQuestions() {
  title_ = heading(tr("Choose on the left what to begin"));
  title_->setObjectName("starterTitle");
  note_ = new QLabel;
  note_->setWordWrap(true);
  note_->setProperty("role", "aside");
  units_ = new QComboBox;
  units_->setObjectName("answerUnit");
  for (const auto unit : {joinery::Unit::mm, joinery::Unit::cm, joinery::Unit::inch}) {
    units_->addItem(unitWords(unit), static_cast<int>(unit));
  }
  form_ = new QWidget;
  rows_ = new QFormLayout(form_);
  rows_->setContentsMargins(0, 8, 8, 0);
  rows_->setRowWrapPolicy(QFormLayout::WrapLongRows);
  wrong_ = new QLabel;
  wrong_->setObjectName("wrongAnswer");
  wrong_->setWordWrap(true);
  wrong_->setStyleSheet(QString("color: %1;").arg(colourOf(joinery::Severity::error).name()));
  findings_ = new QLabel;
  findings_->setObjectName("startFindings");
  findings_->setWordWrap(true);
  begin_ = new QPushButton(tr("Begin this piece"));
  begin_->setObjectName("begin");
  begin_->setEnabled(false);
  connect(units_, &QComboBox::currentIndexChanged, this, [this] { askQuestions(); });
}

joinery::Unit StartPage::unit() const {
  return static_cast<joinery::Unit>(units_->currentData().toInt());
}

void StartPage::refresh(bool mayReturn) {
  return_->setVisible(mayReturn);
  const QSignalBlocker quiet(starters_);
  const QString chosen = starters_->currentItem() == nullptr
                             ? QString()
                             : starters_->currentItem()->data(kPathRole).toString();
  starters_->clear();
  files_->clear();
  const auto folders = joinery::starterFolders();
  for (const joinery::Starter& starter : joinery::startersIn(folders)) {
    const auto file = joinery::ModelFile::load(starter.file);
    if (!file) {
      addUnreadable(starter.file, file.error());
      continue;
    }
    const joinery::Model& model = file->model();
    auto* item = itemOf(starter.file, QString::fromStdString(model.name),
                        QString::fromStdString(model.note));
    starters_->addItem(item);
    if (item->data(kPathRole).toString() == chosen) starters_->setCurrentItem(item);
  }
  for (const RecentPiece& piece : recentPieces()) {
    auto* item = itemOf(piece.path.toStdString(), QFileInfo(piece.path).fileName(), piece.path);
    if (!piece.picture.isNull()) item->setIcon(QIcon(QPixmap::fromImage(piece.picture)));
    files_->addItem(item);
  }
  files_->setIconSize({96, 72});
  std::error_code none;
  for (std::filesystem::directory_iterator entry(folders.back().parent_path(), none), end;
       !none && entry != end; entry.increment(none)) {
    if (entry->path().extension() != ".dryfit") continue;
    const auto file = joinery::ModelFile::load(entry->path());
    if (!file) continue;
    files_->addItem(itemOf(entry->path(),
                           tr("Example: %1").arg(QString::fromStdString(file->model().name)),
                           QString::fromStdString(entry->path().string())));
  }
}

void StartPage::addUnreadable(const std::filesystem::path& path, const Error& error) {
  auto* item =
      itemOf(path, tr("%1 cannot be read").arg(QString::fromStdString(path.filename().string())),
             QString::fromStdString(error.line()));
  item->setFlags(Qt::NoItemFlags);
  starters_->addItem(item);
}

void StartPage::takeItem(const QListWidgetItem* item) {
  if (item == nullptr) return;
  auto file = joinery::ModelFile::load(item->data(kPathRole).toString().toStdString());
  if (!file) return fail(QString::fromStdString(file.error().line()));
  starter_ = std::move(*file);
  piece_->start(*starter_);
  units_->setCurrentIndex(units_->findData(static_cast<int>(starter_->model().unit)));
  title_->setText(QString::fromStdString(starter_->model().name));
  note_->setText(QString::fromStdString(starter_->model().note));
  askQuestions();
  begin_->setEnabled(true);
}

void StartPage::askQuestions() {
  if (!starter_) return;
  // The choice of unit stays in its row.
  fields_.clear();
  while (rows_->rowCount() > 0) {
    const auto taken = rows_->takeRow(0);
    for (QLayoutItem* item : {taken.labelItem, taken.fieldItem}) {
      if (item == nullptr) continue;
      if (item->widget() != nullptr && item->widget() != units_) item->widget()->deleteLater();
      delete item;
    }
  }
  rows_->addRow(tr("Lengths in"), units_);
  const auto questions = joinery::questionsOf(piece_->file());
  if (!questions) return fail(QString::fromStdString(questions.error().line()));
  for (const AskedQuestion& question : *questions) addQuestion(question);
  if (questions->empty()) rows_->addRow(new QLabel(tr("It asks nothing: begin it as it is.")));
  fail({});
}

void StartPage::addQuestion(const AskedQuestion& question) {
  Field field{question, nullptr};
  if (question.kind == Kind::choice) {
    auto* box = new QComboBox;
    for (const std::string& word : question.options) box->addItem(QString::fromStdString(word));
    box->setCurrentText(QString::fromStdString(question.value));
    connect(box, &QComboBox::currentIndexChanged, this, &StartPage::takeAnswers);
    field.entry = box;
  } else if (question.kind == Kind::count) {
    auto* box = new QSpinBox;
    constexpr int kMost = 1000;
    box->setRange(question.least ? int(*question.least) : 0, kMost);
    box->setValue(static_cast<int>(question.number.value_or(0)));
    connect(box, &QSpinBox::valueChanged, this, &StartPage::takeAnswers);
    field.entry = box;
  } else {
    const QString value = question.kind == Kind::length
                              ? lengthWords(question.number.value_or(0), unit())
                              : QString::number(question.number.value_or(0), 'g', 6);
    auto* line = new QLineEdit(value);
    connect(line, &QLineEdit::textChanged, this, &StartPage::takeAnswers);
    field.entry = line;
  }
  field.entry->setObjectName(QString::fromStdString("answer_" + question.name));
  field.entry->setToolTip(QString::fromStdString(joinery::reasonWords(question, unit())));
  auto* row = new QWidget;
  auto* beside = new QHBoxLayout(row);
  beside->setContentsMargins(0, 0, 0, 0);
  beside->addWidget(field.entry, 1);
  if (question.kind != Kind::choice) {
    auto* bounds = new QLabel(QString::fromStdString(exporting::boundWords(question, unit())));
    bounds->setProperty("role", "aside");
    bounds->setToolTip(field.entry->toolTip());
    beside->addWidget(bounds);
  }
  rows_->addRow(QString::fromStdString(question.ask), row);
  fields_.push_back(std::move(field));
}

QString StartPage::answerIn(const Field& field) {
  if (const auto* box = qobject_cast<QComboBox*>(field.entry)) return box->currentText();
  if (const auto* box = qobject_cast<QSpinBox*>(field.entry)) return QString::number(box->value());
  const auto* line = qobject_cast<QLineEdit*>(field.entry);
  return line == nullptr ? QString() : line->text();
}

void StartPage::takeAnswers() {
  joinery::Answers answers;
  for (const Field& field : fields_) {
    answers.emplace_back(field.question.name, answerIn(field).toStdString());
  }
  const auto edit = [&answers, unit = unit()](joinery::ModelFile& file) -> Result<void> {
    auto next = joinery::answered(file, answers, unit);
    if (!next) return tl::unexpected<Error>(next.error());
    file = std::move(*next);
    return {};
  };
  const Result<void> done = piece_->apply(tr("answer"), edit);
  fail(done ? QString() : refusalWords(done.error()));
  for (const Field& field : fields_) {
    const bool here = !done && done.error().where == field.question.name;
    field.entry->setStyleSheet(here ? QString("background: %1;").arg(colour::refused.name())
                                    : QString());
  }
  begin_->setEnabled(done.has_value());
  // The picture stays at the last answers that fit together, and must not pass for these.
  picture_->setEnabled(done.has_value());
  if (done) {
    tellFindings();
  } else {
    findings_->setText(tr("The picture shows the piece before this answer."));
  }
}

void StartPage::tellFindings() {
  const auto shown = piece_->assembled();
  if (!shown) return findings_->clear();
  const auto& found = shown->fit->findings;
  const auto count = [&](joinery::Severity severity) {
    return std::ranges::count(found, severity, &joinery::Finding::severity);
  };
  QString words = tr("%1 parts, %2 joints. Dry fit: %3 errors, %4 warnings.")
                      .arg(shown->fit->piece.parts.size())
                      .arg(shown->fit->piece.joints.size())
                      .arg(count(joinery::Severity::error))
                      .arg(count(joinery::Severity::warning));
  constexpr std::size_t kTold = 2;
  for (std::size_t i = 0; i < std::min(kTold, found.size()); ++i) {
    words += "\n" + QString::fromStdString(found[i].text);
  }
  findings_->setText(words);
}

void StartPage::fail(const QString& line) {
  wrong_->setText(line);
}

}  // namespace dryfit::viewer
