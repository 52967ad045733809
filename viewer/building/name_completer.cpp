#include "viewer/building/name_completer.h"

#include <QAbstractItemView>
#include <QCompleter>
#include <QLineEdit>
#include <QStringListModel>

#include "viewer/document/bench_document.h"

namespace dryfit::viewer {
namespace {

/// The word that ends at the cursor: letters, digits, _ and dots.
QString wordAtCursor(const QLineEdit& line) {
  const QString before = line.text().left(line.cursorPosition());
  qsizetype start = before.size();
  while (start > 0 && (before[start - 1].isLetterOrNumber() || before[start - 1] == '_' ||
                       before[start - 1] == '.')) {
    --start;
  }
  const QString word = before.mid(start);
  return word.isEmpty() || word[0].isDigit() ? QString() : word;
}

}  // namespace

void completeNames(QLineEdit* line, const BenchDocument& document) {
  auto* completer = new QCompleter(line);
  auto* names = new QStringListModel(completer);
  completer->setModel(names);
  completer->setWidget(line);
  completer->setCaseSensitivity(Qt::CaseInsensitive);
  QObject::connect(line, &QLineEdit::textEdited, line, [line, completer, names, &document] {
    const QString word = wordAtCursor(*line);
    if (word.isEmpty() || document.piece() == nullptr) return completer->popup()->hide();
    QStringList all;
    for (const auto& [name, value] : document.piece()->values) {
      all << QString::fromStdString(name);
    }
    names->setStringList(all);
    completer->setCompletionPrefix(word);
    if (completer->completionCount() == 0) return completer->popup()->hide();
    completer->complete();
  });
  QObject::connect(completer, qOverload<const QString&>(&QCompleter::activated), line,
                   [line](const QString& name) {
                     const qsizetype end = line->cursorPosition();
                     const qsizetype start = end - wordAtCursor(*line).size();
                     line->setText(line->text().replace(start, end - start, name));
                     line->setCursorPosition(static_cast<int>(start + name.size()));
                     line->setModified(true);
                   });
}

}  // namespace dryfit::viewer
