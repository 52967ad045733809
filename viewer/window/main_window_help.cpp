// Help: pages for the place where the keyboard is, and all keys.

#include <QApplication>
#include <QDialog>
#include <QDialogButtonBox>
#include <QMenu>
#include <QMenuBar>
#include <QShortcut>
#include <QStackedWidget>
#include <QTextBrowser>
#include <QVBoxLayout>

#include "viewer/building/joint_page.h"
#include "viewer/building/part_page.h"
#include "viewer/look/help_pages.h"
#include "viewer/tables/joint_tree.h"
#include "viewer/view/view3d.h"
#include "viewer/window/main_window.h"
#include "viewer/window/sight_bar.h"

namespace dryfit::viewer {

void MainWindow::makeHelpMenu() {
  QMenu* menu = menuBar()->addMenu(tr("&Help"));
  menu->addAction(tr("&Help for this place"), QKeySequence("F1"), this,
                  [this] { showHelp(pageHere()); });
  menu->addAction(tr("A &first piece"), this, [this] { showHelp("a-first-piece.md"); });
  menu->addAction(tr("All &pages"), this, [this] { showHelp("pages"); });
  menu->addAction(tr("All &keys…"), QKeySequence("Ctrl+F1"), this, [this] { showHelp("keys"); });
}

void MainWindow::helpIn(QDialog* dialog, const QString& page) {
  connect(new QShortcut(QKeySequence("F1"), dialog), &QShortcut::activated, this,
          [this, page] { showHelp(page); });
}

QString MainWindow::pageHere() const {
  const auto within = [](const QWidget* one) {
    const QWidget* focus = QApplication::focusWidget();
    return one != nullptr && focus != nullptr && (one == focus || one->isAncestorOf(focus));
  };
  if (rooms_->currentIndex() != 0) return "a-first-piece.md";
  if (within(joints_) || within(jointPage_)) return "joints.md";
  if (within(view_)) return view_->pointing() == Pointing::parts ? "looking.md" : "faces.md";
  if (within(sight_)) return "looking.md";
  if (!view_->takenPlaces().empty() && !within(partPage_)) return "faces.md";
  return "parts.md";
}

void MainWindow::showHelp(const QString& page) {
  if (!help_) {
    help_ = new QDialog(this);
    help_->setObjectName("help");
    help_->setWindowTitle(tr("Help"));
    help_->setAttribute(Qt::WA_DeleteOnClose);
    auto* text = new QTextBrowser;
    text->setObjectName("helpText");
    text->setOpenLinks(false);
    auto* buttons = new QDialogButtonBox(QDialogButtonBox::Close);
    connect(buttons, &QDialogButtonBox::rejected, help_.data(), &QDialog::close);
    connect(text, &QTextBrowser::anchorClicked, this,
            [this](const QUrl& link) { showHelp(link.toString()); });
    auto* all = new QVBoxLayout(help_);
    all->addWidget(text);
    all->addWidget(buttons);
    help_->resize(fontMetrics().averageCharWidth() * 84, height() * 3 / 4);
  }
  const QList<QMenu*> menus = menusOf(*menuBar());
  const QString words = page == "keys"    ? keysPage(menus)
                        : page == "pages" ? listOfPages()
                                          : withActions(helpPage(page), menus).text;
  help_->findChild<QTextBrowser*>("helpText")->setMarkdown(words);
  help_->show();
  help_->raise();
  help_->activateWindow();
}

}  // namespace dryfit::viewer
