#include "viewer/look/help_pages.h"

#include <QAction>
#include <QDir>
#include <QFile>
#include <QObject>
#include <QRegularExpression>

namespace dryfit::viewer {

QStringList helpPages() {
  return QDir(":/help").entryList({"*.md"}, QDir::Files, QDir::Name);
}

QString listOfPages() {
  QString list = QObject::tr("# All pages") + "\n\n";
  for (const QString& name : helpPages()) {
    const QString heading = helpPage(name).section('\n', 0, 0).remove("# ");
    list += QString("* [%1](%2)\n").arg(heading, name);
  }
  return list + QString("* [%1](keys)\n").arg(QObject::tr("All keys"));
}

QString helpPage(const QString& name) {
  QFile file(":/help/" + name);
  return file.open(QIODevice::ReadOnly) ? QString::fromUtf8(file.readAll()) : QString();
}

QString plainWords(const QAction& action) {
  return action.text().remove('&');
}

QList<std::pair<QString, QAction*>> actionsOf(const QList<QMenu*>& menus) {
  QList<std::pair<QString, QAction*>> all;
  for (const QMenu* menu : menus) {
    const QString where = menu->title().remove('&');
    for (QAction* action : menu->actions()) {
      if (action->isSeparator()) continue;
      if (action->menu() == nullptr) {
        all.append({where, action});
        continue;
      }
      for (const auto& [within, inner] : actionsOf({action->menu()})) {
        all.append({where + " > " + within, inner});
      }
    }
  }
  return all;
}

QList<QMenu*> menusOf(const QMenuBar& bar) {
  QList<QMenu*> menus;
  for (const QAction* action : bar.actions()) {
    if (action->menu() != nullptr) menus << action->menu();
  }
  return menus;
}

ToldPage withActions(const QString& page, const QList<QMenu*>& menus) {
  const auto actions = actionsOf(menus);
  ToldPage told{page, {}, {}};
  static const QRegularExpression kToken("\\{action:([^}]*)\\}");
  auto tokens = kToken.globalMatch(page);
  while (tokens.hasNext()) {
    const auto token = tokens.next();
    const QString words = token.captured(1);
    const auto found = std::find_if(actions.begin(), actions.end(), [&](const auto& one) {
      // The words of what is undone are added to these two.
      const QString own = plainWords(*one.second);
      return own == words || ((words == "Undo" || words == "Redo") && own.startsWith(words));
    });
    if (found == actions.end()) {
      told.unknown << words;
      continue;
    }
    told.named << plainWords(*found->second);
    const QString keys = found->second->shortcut().toString(QKeySequence::NativeText);
    told.text.replace(token.captured(0), "**" + found->first + " > " + words + "**" +
                                             (keys.isEmpty() ? QString() : " (" + keys + ")"));
  }
  return told;
}

QString keysPage(const QList<QMenu*>& menus) {
  QString page = QObject::tr("# Keys\n\n| Keys | What they do |\n|---|---|\n");
  for (const auto& [where, action] : actionsOf(menus)) {
    if (action->shortcut().isEmpty()) continue;
    page +=
        QString("| %1 | %2 > %3 |\n")
            .arg(action->shortcut().toString(QKeySequence::NativeText), where, plainWords(*action));
  }
  page += QObject::tr(
      "\nIn the view: arrows turn the piece, with Shift they shift it, plus and minus bring it "
      "nearer or farther. In tables: F2 or typing changes an entry, Enter takes it, Esc leaves "
      "it. Tab goes to the next field, Ctrl+Tab to the next page, Alt and a letter opens a "
      "menu.\n");
  return page;
}

}  // namespace dryfit::viewer
