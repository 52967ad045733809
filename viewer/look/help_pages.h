#pragma once

#include <QList>
#include <QMenu>
#include <QMenuBar>
#include <QString>
#include <QStringList>

namespace dryfit::viewer {

/// Names of the help pages: "parts.md", ...
[[nodiscard]] QStringList helpPages();
/// A page that names all of them by their headings.
[[nodiscard]] QString listOfPages();
/// A page as it was written; empty where there is none of that name.
[[nodiscard]] QString helpPage(const QString& name);

/// The menus of a window.
[[nodiscard]] QList<QMenu*> menusOf(const QMenuBar& bar);

/// A page with "{action:Words}" replaced by where the action is and its key.
struct ToldPage {
  QString text;
  QStringList unknown;  ///< words that are no action's
  QStringList named;    ///< words of the actions that it names
};
[[nodiscard]] ToldPage withActions(const QString& page, const QList<QMenu*>& menus);

/// Words of an action without the mark of its letter.
[[nodiscard]] QString plainWords(const QAction& action);
/// All actions of the menus with their menu's name, those of menus within them as well.
[[nodiscard]] QList<std::pair<QString, QAction*>> actionsOf(const QList<QMenu*>& menus);
/// A page of all keys, made of the actions themselves.
[[nodiscard]] QString keysPage(const QList<QMenu*>& menus);

}  // namespace dryfit::viewer
