#include "viewer/building/joint_page.h"

#include "joinery/joints/joint_kinds.h"

#include <QComboBox>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QSignalBlocker>
#include <QStringList>
#include <QVBoxLayout>
#include <algorithm>

#include "joinery/file/joint_edits.h"
#include "joinery/joints/rule_value.h"
#include "viewer/look/look.h"
#include "viewer/look/panels.h"
#include "viewer/look/words.h"

namespace dryfit::viewer {
namespace {

QLabel* wrongLabel(const QString& name) {
  auto* label = new QLabel;
  label->setObjectName(name);
  label->setWordWrap(true);
  label->hide();
  return label;
}

QString valueWords(const joinery::JointValue& value, joinery::Unit unit) {
  return value.isLength ? fineLengthWords(value.value, unit) : measureWords(value.value, "", unit);
}

/// "tenon: rail; mortise: left stile".
QString roleWords(const joinery::Model& model, const joinery::Joint& joint) {
  QStringList roles;
  for (const joinery::RoleFilling& filling : joint.mates) {
    QStringList parts;
    for (const std::string& name : filling.parts) {
      const auto part = std::ranges::find(model.parts, name, &joinery::Part::name);
      parts << (part == model.parts.end() ? spaced(name) : labelWords(*part));
    }
    roles << QObject::tr("%1: %2").arg(titled(spaced(filling.role)), parts.join(", "));
  }
  return roles.join("\n");
}

}  // namespace

JointPage::JointPage(BenchDocument& document, QWidget* parent)
    : QWidget(parent), document_(document) {
  setObjectName("jointPage");
  title_ = new QLabel;
  title_->setWordWrap(true);
  shared_ = new QLabel;
  shared_->setProperty("role", "aside");
  shared_->setWordWrap(true);
  kind_ = new QComboBox;
  kind_->setObjectName("joint_kind");
  for (const auto& kind : joinery::jointKinds()) {
    kind_->addItem(titled(spaced(kind->name())),
                   QString::fromUtf8(kind->name().data(), qsizetype(kind->name().size())));
  }
  name_ = new QLineEdit;
  name_->setObjectName("joint_name");
  mates_ = new QLabel;
  mates_->setObjectName("jointMates");
  swap_ = new QPushButton(tr("Exchange them"));
  swap_->setObjectName("jointSwap");
  swap_->setToolTip(tr("Each of the two takes the other's half of the joint"));
  wrong_ = wrongLabel("jointWrong");
  auto* fixed = new QFormLayout;
  fixed->addRow(tr("Kind"), kind_);
  fixed->addRow(tr("Name"), name_);
  auto* mates = new QHBoxLayout;
  mates->addWidget(mates_, 1);
  mates->addWidget(swap_, 0, Qt::AlignTop);
  fixed->addRow(tr("Parts"), mates);
  numbers_ = new QWidget;
  body_ = new QWidget;
  auto* column = new QVBoxLayout(body_);
  column->addLayout(fixed);
  column->addWidget(wrong_);
  column->addWidget(numbers_);
  column->addStretch(1);
  auto* all = new QVBoxLayout(this);
  all->addWidget(title_);
  all->addWidget(shared_);
  all->addWidget(scrolled(body_), 1);
  connect(kind_, &QComboBox::activated, this, &JointPage::takeKind);
  connect(name_, &QLineEdit::editingFinished, this, &JointPage::takeName);
  connect(swap_, &QPushButton::clicked, this, &JointPage::swap);
  connect(&document_, &BenchDocument::numbersChanged, this, &JointPage::refresh);
  connect(&document_, &BenchDocument::opened, this, [this] { show({}); });
  refresh();
}

void JointPage::show(const std::string& joint) {
  if (joint != joint_) {
    // What was typed and refused was meant for the joint before.
    for (const Field& field : fields_) {
      if (field.line != nullptr) field.line->setModified(false);
      field.wrong->hide();
    }
    wrong_->hide();
  }
  joint_ = joint;
  refresh();
}

void JointPage::build(const joinery::JointKind* kind) {
  if (kind == built_) return;
  built_ = kind;
  fields_.clear();
  auto* fresh = new QWidget;
  rows_ = new QFormLayout(fresh);
  rows_->setContentsMargins(0, 0, 0, 0);
  auto* column = qobject_cast<QVBoxLayout*>(body_->layout());
  delete column->replaceWidget(numbers_, fresh);
  // It may be the field that is just being left.
  numbers_->hide();
  numbers_->deleteLater();
  numbers_ = fresh;
  if (kind == nullptr) return;
  for (const joinery::Parameter& parameter : kind->parameters()) {
    addField(std::string(parameter.name), &parameter);
  }
  addField("note", nullptr);
}

void JointPage::addField(const std::string& key, const joinery::Parameter* parameter) {
  const QString name = QString::fromStdString(key);
  Field field{key, nullptr, nullptr, new QLabel, wrongLabel("jointWrong_" + name)};
  field.wrong->setStyleSheet(QString("color: %1;").arg(colourOf(joinery::Severity::error).name()));
  field.aside->setProperty("role", "aside");
  QWidget* entry = nullptr;
  const std::size_t index = fields_.size();
  if (parameter != nullptr && parameter->type == joinery::Parameter::Type::word) {
    entry = field.words = new QComboBox;
    field.words->addItem(tr("as it lies"), QString());
    for (const std::string_view word : parameter->words) {
      const QString text = QString::fromUtf8(word.data(), qsizetype(word.size()));
      field.words->addItem(text, text);
    }
    connect(field.words, &QComboBox::activated, this, [this, index] {
      take(fields_[index], fields_[index].words->currentData().toString().toStdString());
    });
  } else {
    entry = field.line =
        new NumberField(document_, [this, key](const std::string& text) -> BenchDocument::Edit {
          return [joint = joint_, key, text](joinery::ModelFile& file) {
            return joinery::setJointText(file, joint, key, text);
          };
        });
    connect(field.line, &QLineEdit::editingFinished, this,
            [this, index] { take(fields_[index], fields_[index].line->text().toStdString()); });
  }
  entry->setObjectName("joint_" + name);
  if (parameter != nullptr) {
    entry->setToolTip(
        QString::fromUtf8(parameter->meaning.data(), qsizetype(parameter->meaning.size())));
  }
  auto* beside = new QHBoxLayout;
  beside->addWidget(entry, 1);
  beside->addWidget(field.aside);
  auto* both = new QVBoxLayout;
  both->addLayout(beside);
  both->addWidget(field.wrong);
  rows_->addRow(titled(spaced(key)), both);
  fields_.push_back(field);
}

void JointPage::refresh() {
  static const std::vector<joinery::Joint> none;
  const auto& joints = document_.isOpen() ? document_.model().joints : none;
  const auto own = std::ranges::find(joints, joint_, &joinery::Joint::name);
  const bool has = own != joints.end();
  body_->setEnabled(has);
  build(has ? joinery::jointKindNamed(own->kind) : nullptr);
  title_->setText(has ? mateWords(document_.model(), *own) : tr("Choose one joint to change it"));
  shared_->hide();
  if (!has) {
    name_->clear();
    mates_->clear();
    return;
  }
  const std::string place = document_.file().authoredPlace("joints", joint_);
  const auto same = std::ranges::count_if(joints, [&](const joinery::Joint& other) {
    return document_.file().authoredPlace("joints", other.name) == place;
  });
  shared_->setText(tr("Described once for %1 joints: a change is a change to all.").arg(same));
  shared_->setVisible(same > 1);
  kind_->setCurrentIndex(kind_->findData(QString::fromStdString(own->kind)));
  const std::string written = place.substr(place.rfind('.') + 1);
  if (!name_->hasFocus() || !name_->isModified()) name_->setText(QString::fromStdString(written));
  mates_->setText(roleWords(document_.model(), *own));
  swap_->setEnabled(joinery::canSwapMates(document_.file(), joint_));
  for (const Field& field : fields_) fill(field, *own);
}

void JointPage::fill(const Field& field, const joinery::Joint& joint) {
  const std::string text = joinery::jointText(document_.file(), joint.name, field.key);
  if (field.words != nullptr) {
    field.words->setCurrentIndex(std::max(0, field.words->findData(QString::fromStdString(text))));
    return;
  }
  field.line->setPlaceholderText(ruleWords(field.key));
  // What an expression comes to stands beside it.
  QString worth;
  const joinery::Piece* piece = document_.piece();
  if (piece != nullptr && !text.empty()) {
    for (const joinery::PlacedJoint& placed : piece->joints) {
      if (piece->joint(placed.id).name != joint.name) continue;
      for (const joinery::JointValue& value : placed.values) {
        if (spaced(value.name) == spaced(field.key)) worth = valueWords(value, document_.unit());
      }
    }
  }
  field.aside->setText(worth);
  // What is being typed stays, and what was refused.
  if (field.line->isModified() && (field.line->hasFocus() || field.wrong->isVisibleTo(this)))
    return;
  field.line->setText(QString::fromStdString(text));
  field.line->setStyleSheet({});
}

QString JointPage::ruleWords(const std::string& key) const {
  const joinery::Piece* piece = document_.piece();
  if (piece == nullptr || key == "note") return {};
  const auto& joints = piece->model.joints;
  const auto own = std::ranges::find(joints, joint_, &joinery::Joint::name);
  if (own == joints.end()) return {};
  const joinery::JointId id(static_cast<std::size_t>(own - joints.begin()));
  const auto value = joinery::valueByRule(*piece, id, key);
  if (!value) return tr("as it lies");
  const QString words = valueWords(*value, document_.unit());
  return value->source.empty() ? words
                               : tr("%1: %2").arg(words, QString::fromStdString(value->source));
}

void JointPage::take(const Field& field, const std::string& text) {
  if (joint_.empty() || !document_.isOpen()) return;
  if (text == joinery::jointText(document_.file(), joint_, field.key)) {
    if (field.line != nullptr) {
      field.line->setModified(false);
      field.line->setStyleSheet({});
    }
    return field.wrong->hide();
  }
  QLabel* wrong = field.wrong;
  NumberField* line = field.line;
  const auto done = document_.apply(
      tr("change of a joint"), [joint = joint_, key = field.key, text](joinery::ModelFile& file) {
        return joinery::setJointText(file, joint, key, text);
      });
  if (line != nullptr) {
    line->setModified(!done);
    line->setStyleSheet(done ? QString() : QString("background: %1;").arg(colour::refused.name()));
  }
  fail(wrong, done);
}

void JointPage::takeKind() {
  if (joint_.empty()) return;
  const std::string kind = kind_->currentData().toString().toStdString();
  std::vector<std::string> gone;
  const auto done =
      document_.apply(tr("other kind of joint"), [&](joinery::ModelFile& file) -> Result<void> {
        auto changed = joinery::setJointKind(file, joint_, kind);
        if (!changed) return tl::unexpected(std::move(changed.error()));
        gone = std::move(*changed);
        return {};
      });
  fail(wrong_, done);
  if (!done) return refresh();
  if (!gone.empty()) {
    Q_EMIT told(tr("Of no use to the new kind, and so gone: %1. Undo puts them back.")
                    .arg(listWords(gone)));
  }
}

void JointPage::takeName() {
  if (joint_.empty() || !document_.isOpen()) return;
  const std::string place = document_.file().authoredPlace("joints", joint_);
  const std::string old = place.substr(place.rfind('.') + 1);
  const std::string name = name_->text().trimmed().toStdString();
  if (name == old) return;
  const std::string before = joint_;
  const std::size_t own = before.rfind('.') + 1;
  // The page shows the joint by its new name as soon as there is one.
  joint_ = before.substr(0, own) + name + before.substr(own + old.size());
  const auto done = document_.apply(tr("other name"), [&](joinery::ModelFile& file) {
    return joinery::renameJoint(file, before, name);
  });
  if (!done) joint_ = before;
  name_->setModified(!done);
  fail(wrong_, done);
}

void JointPage::swap() {
  if (joint_.empty()) return;
  fail(wrong_, document_.apply(tr("parts exchanged"), [&](joinery::ModelFile& file) {
    return joinery::swapMates(file, joint_);
  }));
}

void JointPage::fail(QLabel* below, const Result<void>& done) {
  below->setStyleSheet(QString("color: %1;").arg(colourOf(joinery::Severity::error).name()));
  below->setText(done ? QString() : QString::fromStdString(done.error().line()));
  below->setVisible(!done);
  if (done) Q_EMIT told({});
}

}  // namespace dryfit::viewer
