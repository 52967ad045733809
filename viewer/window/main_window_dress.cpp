// Windows, and how they are dressed.

#include <QActionGroup>
#include <QApplication>
#include <QMenu>
#include <QMenuBar>

#include "viewer/look/look.h"
#include "viewer/window/main_window.h"

namespace dryfit::viewer {

void MainWindow::makeWindowMenu() {
  QMenu* menu = menuBar()->addMenu(tr("&Window"));
  menu->addAction(tr("&Another window"), QKeySequence("Ctrl+Shift+N"), this,
                  &MainWindow::openWindow);
  menu->addSeparator();
  const Dress now = keptDress();
  auto* lights = new QActionGroup(this);
  const auto light = [&](const QString& words, const QString& keys, Dress::Light value) {
    QAction* action = menu->addAction(words, QKeySequence(keys), this, [this, value] {
      Dress dress = keptDress();
      dress.light = value;
      dressAnew(dress);
    });
    action->setCheckable(true);
    action->setChecked(now.light == value);
    lights->addAction(action);
  };
  light(tr("Light or dark as the &system"), "Ctrl+Alt+A", Dress::Light::asTheSystem);
  light(tr("&Light"), "Ctrl+Alt+L", Dress::Light::light);
  light(tr("&Dark"), "Ctrl+Alt+D", Dress::Light::dark);
  menu->addSeparator();
  auto* letters = new QActionGroup(this);
  for (const int percent : {100, 125, 150}) {
    QAction* action = menu->addAction(tr("Letters at %1 %").arg(percent),
                                      QKeySequence(QString("Ctrl+Alt+%1").arg(percent / 25 - 3)),
                                      this, [this, percent] {
                                        Dress dress = keptDress();
                                        dress.percent = percent;
                                        dressAnew(dress);
                                      });
    action->setCheckable(true);
    action->setChecked(now.percent == percent);
    letters->addAction(action);
  }
}

void MainWindow::dressAnew(const Dress& how) {
  keepDress(how);
  if (auto* app = qobject_cast<QApplication*>(QCoreApplication::instance())) dress(*app, how);
}

void MainWindow::openWindow() {
  auto* window = new MainWindow;
  window->setAttribute(Qt::WA_DeleteOnClose);
  window->showStart();
  window->move(pos() + QPoint(32, 32));
  window->show();
}

}  // namespace dryfit::viewer
