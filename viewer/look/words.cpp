#include "viewer/look/words.h"

#include "joinery/base/unit.h"

#include <QObject>
#include <QStringList>
#include <algorithm>

namespace dryfit::viewer {
namespace {

QString trimmedNumber(double value, int decimals) {
  QString text = QString::number(value, 'f', decimals);
  if (text.contains('.')) {
    while (text.endsWith('0')) text.chop(1);
    if (text.endsWith('.')) text.chop(1);
  }
  return text == "-0" ? QString("0") : text;
}

QString partWords(const joinery::Model& model, const std::string& name) {
  const auto part = std::find_if(model.parts.begin(), model.parts.end(),
                                 [&](const joinery::Part& p) { return p.name == name; });
  return part == model.parts.end() ? spaced(name) : labelWords(*part);
}

QString lowered(QString words) {
  if (!words.isEmpty()) words[0] = words[0].toLower();
  return words;
}

}  // namespace

QString lengthWords(double mm, joinery::Unit unit) {
  return QString::fromStdString(joinery::lengthText(Length::mm(mm), unit));
}

QString fineLengthWords(double mm, joinery::Unit unit) {
  const int decimals = unit == joinery::Unit::mm ? 2 : 3;
  return trimmedNumber(mm / joinery::millimetresIn(unit), decimals) + ' ' + unitWords(unit);
}

QString measureWords(double value, const std::string& ownUnit, joinery::Unit unit) {
  if (ownUnit == "mm") return fineLengthWords(value, unit);
  const QString own = QString::fromStdString(ownUnit);
  if (ownUnit.empty()) return trimmedNumber(value, 2);
  if (own == QString::fromUtf8("°")) return trimmedNumber(value, 2) + own;
  if (own == QString::fromUtf8("mm³")) {
    if (unit == joinery::Unit::inch) {
      return trimmedNumber(value / (25.4 * 25.4 * 25.4), 3) + QString::fromUtf8(" in³");
    }
    if (unit == joinery::Unit::cm)
      return trimmedNumber(value / 1000, 3) + QString::fromUtf8(" cm³");
    return trimmedNumber(value, value < 100 ? 1 : 0) + ' ' + own;
  }
  return trimmedNumber(value, 2) + ' ' + own;
}

QString noPieceWords() {
  return QObject::tr("No piece yet. Open one with Ctrl+O.");
}

QString unitWords(joinery::Unit unit) {
  const std::string_view name = joinery::nameOf(unit);
  return QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size()));
}

QString spaced(std::string_view name) {
  QString words = QString::fromUtf8(name.data(), static_cast<qsizetype>(name.size()));
  words.replace('_', ' ');
  words.replace('-', ' ');
  return words;
}

QString titled(QString words) {
  if (!words.isEmpty()) words[0] = words[0].toUpper();
  return words;
}

QString labelWords(const joinery::Part& part) {
  return titled(part.label.empty() ? spaced(part.name) : QString::fromStdString(part.label));
}

QString mateWords(const joinery::Model& model, const joinery::Joint& joint) {
  QStringList roles;
  for (const joinery::RoleFilling& role : joint.mates) {
    QStringList names;
    for (const std::string& part : role.parts) names << lowered(partWords(model, part));
    roles << names.join(", ");
  }
  return titled(roles.join(QString::fromUtf8(" → ")));
}

QString listWords(const std::vector<std::string>& names) {
  constexpr std::size_t kTold = 8;
  QStringList words;
  for (std::size_t i = 0; i < std::min(kTold, names.size()); ++i) {
    words << QString::fromStdString(names[i]);
  }
  if (names.size() > kTold) words << QObject::tr("and %1 more").arg(names.size() - kTold);
  return words.join(", ");
}

}  // namespace dryfit::viewer
