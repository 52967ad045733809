// A person without any plan at the window: menus, keys, fields, the mouse over the piece, dialogs
// answered somehow. After each action the piece is what its own file says when read anew, the dry
// fit is a cold one's, and the window stands.

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <QAbstractButton>
#include <QApplication>
#include <QComboBox>
#include <QDialog>
#include <QFileDialog>
#include <QLineEdit>
#include <QMenu>
#include <QMenuBar>
#include <QSlider>
#include <QTabBar>
#include <QTabWidget>
#include <QTableView>
#include <QTest>
#include <QTimer>
#include <QTreeView>
#include <QUndoStack>
#include <iostream>
#include <random>

#include "tests/support/random_answers.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"
#include "tests/viewer/bench_fixture.h"
#include "viewer/view/view3d.h"

namespace dryfit::viewer {
namespace {

class Person {
 public:
  explicit Person(std::mt19937_64& random) : random_(random) {
    window_.resize(1200, 900);
    window_.show();
    // Some questions hold the window up until they are answered.
    answering_.setInterval(1);
    QObject::connect(&answering_, &QTimer::timeout, [this] { answerModal(); });
    answering_.start();
  }

  void begin(const joinery::ModelFile& file) {
    path_ = folder_.filePath("piece.dryfit").toStdString();
    std::ofstream(path_) << file.text();
    ASSERT_TRUE(window_.openFile(path_));
    settle();
  }

  /// Does something; what was done, for the trace.
  std::string act() {
    switch (random_() % 12) {
      case 0:
      case 1:
        return chooseParts();
      case 2:
      case 3:
      case 4:
        return takeAction();
      case 5:
      case 6:
        return typeInCell();
      case 7:
        return typeInField();
      case 8:
        return undoOrRedo();
      case 9:
        return usePointer();
      case 10:
        return pressKeyInView();
      default:
        return turnPage();
    }
  }

  void settle() {
    // Dialogs that leave the window usable are answered here, those that hold it by the timer.
    for (int i = 0; i < 20 && answerOpen(); ++i) QCoreApplication::processEvents();
    do {
      ASSERT_TRUE(QTest::qWaitFor([this] { return !window_.document().isBuilding(); }, kPatience));
      QCoreApplication::processEvents();  // which may begin the next change
    } while (window_.document().isBuilding());
  }

  /// The piece equals its own file read anew, and what is shown of it a cold dry fit.
  void expectSame(const std::string& trace) {
    const BenchDocument& document = window_.document();
    if (!document.isOpen()) return;
    const std::string text = document.file().text();
    changes += text == last_ ? 0 : 1;
    last_ = text;
    const auto again =
        joinery::ModelFile::parse(text, "again", std::filesystem::path(path_).parent_path());
    ASSERT_TRUE(again) << trace << again.error().line();
    ASSERT_EQ(again->text(), text) << trace;
    const auto cold = joinery::dryFit(again->model(), document.basis(), nullptr, document.unit());
    if (!cold || !document.assembled()) return;  // a piece may be left unfit to be put together
    const joinery::DryFit& live = *document.assembled()->fit;
    ASSERT_EQ(live.findings, cold->findings) << trace;
    ASSERT_EQ(live.piece.values, cold->piece.values) << trace;
    ASSERT_EQ(live.solids.size(), cold->solids.size()) << trace;
  }

  int changes = 0;  ///< after which the file said something else

 private:
  template <class List>
  auto anyOf(const List& list) {
    return list[static_cast<int>(random_() % static_cast<std::size_t>(list.size()))];
  }
  bool oneIn(unsigned n) { return random_() % n == 0; }

  /// What a person may type somewhere: numbers, names of the piece, and slips.
  QString words() {
    const auto& model = window_.document().model();
    switch (random_() % 8) {
      case 0:
      case 1:
      case 2:
        return QString::number(static_cast<double>(random_() % 9000) / 10.0);
      case 3:
        if (!model.dimensions.empty()) {
          return QString::fromStdString(model.dimensions[random_() % model.dimensions.size()].name);
        }
        [[fallthrough]];
      case 4:
        if (!model.parts.empty()) {
          static const QStringList kFaces{".left", ".right", ".top", ".bottom", ".front", ".back"};
          return QString::fromStdString(model.parts[random_() % model.parts.size()].name) +
                 anyOf(kFaces);
        }
        [[fallthrough]];
      case 5:
        return QString("part_%1").arg(random_() % 50);
      case 6: {
        static const QStringList kSlips{"",        "(",    "0",       "-12",       "1/0",
                                        "width +", "\"",   "3 1/2\"", "12 mm * 2", "äöü §",
                                        "..",      "1e99", "2 cm"};
        return anyOf(kSlips);
      }
      default:
        return QString("word %1").arg(random_() % 100);
    }
  }

  std::string chooseParts() {
    auto* parts = window_.findChild<PartTree*>("parts");
    const std::size_t count = window_.document().model().parts.size();
    if (count == 0) return "nothing to choose";
    std::vector<joinery::PartId> ids;
    for (std::size_t n = random_() % 3 + (oneIn(5) ? 0 : 1); n > 0; --n) {
      const joinery::PartId id(random_() % count);
      if (std::ranges::find(ids, id) == ids.end()) ids.push_back(id);
    }
    parts->choose(ids);
    Q_EMIT parts->partsChosen(ids);
    return fmt::format("{} chosen", ids.size());
  }

  std::string takeAction() {
    QList<QAction*> usable;
    for (QAction* action : window_.findChildren<QAction*>()) {
      const QString words = action->text().remove('&');
      // Away from this window lead only these.
      static const QStringList kAway{"Quit", "Close this window"};
      if (words.isEmpty() || action->isSeparator() || action->menu() != nullptr ||
          !action->isEnabled() || kAway.contains(words) || (words.contains("…") && oneIn(3))) {
        continue;
      }
      usable << action;
    }
    if (usable.isEmpty()) return "no action";
    QAction* action = anyOf(usable);
    const std::string name = action->text().toStdString();
    action->trigger();
    return name;
  }

  std::string typeInCell() {
    QList<QAbstractItemView*> views;
    for (auto* view : window_.findChildren<QAbstractItemView*>()) {
      if (view->isVisible() && view->model() != nullptr && view->model()->rowCount() > 0) {
        views << view;
      }
    }
    if (views.isEmpty()) return "no table";
    QAbstractItemView* view = nullptr;
    QModelIndex at;
    for (int i = 0; i < 8 && (at.flags() & Qt::ItemIsEditable) == 0; ++i) {
      view = anyOf(views);
      // Numbers are what is changed most.
      auto* numbers = window_.findChild<QTableView*>("dimensions");
      if (oneIn(2) && views.contains(numbers)) view = numbers;
      const int row = int(random_() % unsigned(view->model()->rowCount()));
      const int column = int(random_() % unsigned(std::max(1, view->model()->columnCount())));
      at = view->model()->index(row, column);
    }
    view->setCurrentIndex(at);
    if ((at.flags() & Qt::ItemIsEditable) == 0) return "a row chosen";
    view->setFocus();
    QTest::keyClick(view, Qt::Key_F2);
    auto* line = view->findChild<QLineEdit*>();
    if (line == nullptr) return "a cell that is no text";
    return type(line, "cell");
  }

  std::string typeInField() {
    QList<QLineEdit*> lines;
    for (auto* line : window_.findChildren<QLineEdit*>()) {
      if (line->isVisible() && line->isEnabled() && !line->isReadOnly()) lines << line;
    }
    if (lines.isEmpty()) return "no field";
    return type(anyOf(lines), "field");
  }

  std::string type(QLineEdit* line, const char* where) {
    const QPointer<QLineEdit> field(line);
    bool isNumber = false;
    const double had = line->text().toDouble(&isNumber);
    // Most of what is typed is the number that is there, a little larger or smaller.
    const QString text =
        isNumber && !oneIn(3)
            ? QString::number(std::round(had * (95 + double(random_() % 11)) / 10) / 10)
            : words();
    line->selectAll();
    if (text.isEmpty()) QTest::keyClick(line, Qt::Key_Delete);
    if (field) field->insert(text);  // as a whole: keys are for what every keyboard has
    if (field) QTest::keyClick(field, oneIn(6) ? Qt::Key_Escape : Qt::Key_Return);
    return fmt::format("'{}' in {}", text.toStdString(), where);
  }

  std::string undoOrRedo() {
    auto& undo = window_.document().undoStack();
    if (oneIn(8)) {  // all the way back and forth
      const int steps = undo.index();
      const std::string before = window_.document().file().text();
      for (int i = 0; i < steps; ++i) undo.undo();
      for (int i = 0; i < steps; ++i) undo.redo();
      EXPECT_EQ(window_.document().file().text(), before) << "all undone and done again";
      return "all undone and done again";
    }
    if (undo.canUndo() && oneIn(2)) {
      const std::string before = window_.document().file().text();
      undo.undo();
      undo.redo();
      EXPECT_EQ(window_.document().file().text(), before) << "undone and done again";
      undo.undo();
      return "undone";
    }
    undo.redo();
    return "done again";
  }

  QPoint anywhere(QWidget* widget) {
    return {int(random_() % unsigned(std::max(1, widget->width()))),
            int(random_() % unsigned(std::max(1, widget->height())))};
  }

  std::string usePointer() {
    View3d& view = window_.view();
    if (!view.isVisible()) return "no view";
    const auto keys = oneIn(2) ? Qt::ControlModifier : Qt::NoModifier;
    switch (random_() % 4) {
      case 0:
        QTest::mouseMove(&view, anywhere(&view));
        return "pointed";
      case 1: {
        const QPoint from = anywhere(&view);
        QTest::mousePress(&view, Qt::LeftButton, Qt::NoModifier, from);
        QTest::mouseMove(&view, anywhere(&view));
        QTest::mouseMove(&view, anywhere(&view));
        QTest::mouseRelease(&view, Qt::LeftButton, Qt::NoModifier, anywhere(&view));
        return "dragged";
      }
      case 2:
        QTest::mouseDClick(&view, Qt::LeftButton, Qt::NoModifier, anywhere(&view));
        return "clicked twice";
      default:
        QTest::mouseClick(&view, Qt::LeftButton, keys, anywhere(&view));
        return "clicked";
    }
  }

  std::string pressKeyInView() {
    static const std::vector<Qt::Key> kKeys{
        Qt::Key_Left,  Qt::Key_Right, Qt::Key_Up,     Qt::Key_Down,   Qt::Key_Plus,
        Qt::Key_Minus, Qt::Key_Tab,   Qt::Key_Escape, Qt::Key_Return, Qt::Key_Space,
    };
    View3d& view = window_.view();
    const Qt::Key key = kKeys[random_() % kKeys.size()];
    QTest::keyClick(&view, key, oneIn(3) ? Qt::ShiftModifier : Qt::NoModifier);
    return "key in the view";
  }

  std::string turnPage() {
    QList<QTabWidget*> pages;
    for (auto* tabs : window_.findChildren<QTabWidget*>()) {
      if (tabs->isVisible()) pages << tabs;
    }
    if (pages.isEmpty()) return "no page";
    QTabWidget* tabs = anyOf(pages);
    tabs->setCurrentIndex(int(random_() % unsigned(tabs->count())));
    return "page turned";
  }

  void answerModal() {
    QWidget* modal = QApplication::activeModalWidget();
    if (auto* dialog = qobject_cast<QDialog*>(modal)) answer(dialog);
  }
  bool answerOpen() {
    for (QWidget* widget : QApplication::topLevelWidgets()) {
      auto* dialog = qobject_cast<QDialog*>(widget);
      if (dialog != nullptr && dialog->isVisible()) return answer(dialog), true;
    }
    return false;
  }
  /// Fills in some of it and presses some button; leaves it in the end.
  void answer(QDialog* dialog) {
    if (qobject_cast<QFileDialog*>(dialog) != nullptr || oneIn(4)) {
      dialog->reject();
      return;
    }
    for (auto* line : dialog->findChildren<QLineEdit*>()) {
      if (line->isVisible() && line->isEnabled() && oneIn(2)) line->setText(words());
    }
    for (auto* box : dialog->findChildren<QComboBox*>()) {
      if (box->count() > 0 && oneIn(3))
        box->setCurrentIndex(int(random_() % unsigned(box->count())));
    }
    QList<QAbstractButton*> buttons;
    for (auto* button : dialog->findChildren<QAbstractButton*>()) {
      if (button->isVisible() && button->isEnabled()) buttons << button;
    }
    if (!buttons.isEmpty()) anyOf(buttons)->click();
  }

  std::mt19937_64& random_;
  QTemporaryDir folder_;
  std::filesystem::path path_;
  MainWindow window_;
  QTimer answering_;
  std::string last_;
};

TEST(RandomPerson, LeavesEveryStarterWhatItsFileSays) {
  const auto seeded = test::seed();
  std::mt19937_64 random(seeded);
  Person person(random);
  int actions = 0;
  for (const joinery::Starter& starter : test::builtInStarters()) {
    std::string trace = fmt::format("{} (seed {}): ", starter.name, seeded);
    person.begin(test::starterFile(starter));
    for (int i = 0; i < test::repetitions(60); ++i, ++actions) {
      trace += person.act() + "; ";
      ASSERT_NO_FATAL_FAILURE(person.settle()) << trace;
      ASSERT_NO_FATAL_FAILURE(person.expectSame(trace));
      ASSERT_FALSE(::testing::Test::HasFailure()) << trace;
    }
  }
  EXPECT_GT(person.changes, actions / 20) << "some of what a person tries must come to something";
}

}  // namespace
}  // namespace dryfit::viewer
