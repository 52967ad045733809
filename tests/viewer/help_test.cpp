// Help that cannot go stale: what its pages name is there, what is there its pages name.

#include <QDialog>
#include <QMenuBar>
#include <QRegularExpression>
#include <QSet>
#include <QTextBrowser>

#include "tests/viewer/bench_fixture.h"
#include "viewer/look/help_pages.h"

namespace dryfit::viewer {
namespace {

class Help : public Bench {
 protected:
  QList<QMenu*> menus() { return menusOf(*window_.menuBar()); }
  QString helpShown() {
    auto* text = window_.findChild<QTextBrowser*>("helpText");
    return text == nullptr ? QString() : text->toPlainText();
  }
};

TEST_F(Help, NamesNoActionThatIsNotThere) {
  ASSERT_GE(helpPages().size(), 5);
  for (const QString& name : helpPages()) {
    const ToldPage page = withActions(helpPage(name), menus());
    EXPECT_TRUE(page.unknown.isEmpty())
        << name.toStdString() << ": " << page.unknown.join("; ").toStdString();
  }
}

TEST_F(Help, NamesEveryActionOfTheMenus) {
  QSet<QString> named;
  for (const QString& name : helpPages()) {
    const ToldPage page = withActions(helpPage(name), menus());
    for (const QString& words : page.named) named.insert(words);
  }
  for (const auto& [where, action] : actionsOf(menus())) {
    EXPECT_TRUE(named.contains(plainWords(*action)))
        << where.toStdString() << " > " << plainWords(*action).toStdString();
  }
}

TEST_F(Help, LinksOnlyToPagesThatAreThere) {
  static const QRegularExpression kLink("\\]\\(([^)]*)\\)");
  for (const QString& name : helpPages()) {
    auto links = kLink.globalMatch(helpPage(name));
    while (links.hasNext()) {
      const QString link = links.next().captured(1);
      EXPECT_FALSE(helpPage(link).isEmpty()) << name.toStdString() << " to " << link.toStdString();
    }
  }
}

TEST_F(Help, OpensAtThePlaceWhereTheKeyboardIs) {
  press({}, Qt::Key_F1);
  EXPECT_FALSE(helpShown().isEmpty());
  window_.findChild<QDialog*>("help")->close();
  QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
  window_.findChild<QWidget*>("cutAcross")->setFocus();
  press({}, Qt::Key_F1);
  EXPECT_TRUE(helpShown().startsWith("Looking")) << helpShown().left(40).toStdString();
}

TEST_F(Help, ListsTheKeysAsTheyAre) {
  press(Qt::ControlModifier, Qt::Key_F1);
  EXPECT_TRUE(helpShown().contains("Build > New part…"));
  EXPECT_TRUE(helpShown().contains("Ctrl+Shift+P"));
}

TEST_F(Help, EveryKeyAndEveryLetterOfAMenuMeansOneThing) {
  QMap<QString, QString> byKey;
  for (const auto& [where, action] : actionsOf(menus())) {
    for (const QKeySequence& keys : action->shortcuts()) {
      const QString text = keys.toString();
      EXPECT_FALSE(byKey.contains(text) && byKey[text] != action->text())
          << text.toStdString() << ": " << byKey[text].toStdString() << " and "
          << action->text().toStdString();
      byKey[text] = action->text();
    }
  }
  for (const QMenu* menu : menus()) {
    QSet<QChar> letters;
    for (const QAction* action : menu->actions()) {
      const qsizetype mark = action->text().indexOf('&');
      if (mark < 0) continue;
      const QChar letter = action->text()[mark + 1].toLower();
      EXPECT_FALSE(letters.contains(letter))
          << menu->title().toStdString() << ": " << action->text().toStdString();
      letters.insert(letter);
    }
  }
}

TEST_F(Help, IsThereInADialogToo) {
  press(Qt::ControlModifier | Qt::ShiftModifier, Qt::Key_P);
  auto* dialog = window_.findChild<QDialog*>("newPartDialog");
  ASSERT_NE(dialog, nullptr);
  ASSERT_TRUE(QTest::qWaitForWindowActive(dialog));
  QTest::keyClick(dialog, Qt::Key_F1);
  EXPECT_TRUE(helpShown().startsWith("Parts")) << helpShown().left(40).toStdString();
}

TEST_F(Help, ListsAllItsPages) {
  for (const QString& page : helpPages()) EXPECT_TRUE(listOfPages().contains("(" + page + ")"));
  EXPECT_FALSE(helpPages().isEmpty());
}

}  // namespace
}  // namespace dryfit::viewer
