// How long a joiner waits for the bench window: from the start to the first picture of a piece,
// from a changed number to its picture, from a face moved to its picture, from the pointer on a
// part to that part lit up, and from the pointer on a face to the ghost of a part that would end
// there. Wall-clock times, printed as JSON in the form that Google Benchmark
// uses. Baseline in the same run: the changed piece opened anew. Needs a display; on a machine
// without one run it under xvfb-run. Run: viewer_benchmark cupboard MODEL | viewer_benchmark rack

#include <QAction>
#include <QApplication>
#include <QCoreApplication>
#include <QElapsedTimer>
#include <QLabel>
#include <QTemporaryDir>
#include <QTest>
#include <algorithm>
#include <cstdio>
#include <functional>
#include <string>
#include <vector>

#include "joinery/base/atomic_write.h"
#include "joinery/file/part_edits.h"
#include "tests/support/sorting_rack.h"
#include "viewer/building/face_dialog.h"
#include "viewer/look/look.h"
#include "viewer/view/view3d.h"
#include "viewer/window/main_window.h"

namespace {

using dryfit::viewer::MainWindow;

constexpr int kPatience = 20'000;  // ms
constexpr int kTimes = 9;
constexpr int kPointed = 60;

/// The piece, and what is changed of it.
struct Work {
  std::string model, suffix;
  std::string dimension;
  std::vector<std::string> values;  ///< one after the other
  std::string part, span, end;      ///< of the face that is moved
  std::vector<std::string> places;
};

/// Runs the window's own loop until the piece is built and painted; false when that takes too long.
bool untilPainted(MainWindow& window) {
  QElapsedTimer waited;
  waited.start();
  do {
    QCoreApplication::processEvents(QEventLoop::AllEvents | QEventLoop::WaitForMoreEvents, 20);
    if (waited.elapsed() > kPatience) return false;
  } while (window.document().isBuilding());
  QCoreApplication::processEvents();  // paints what the build has brought
  return window.document().assembled() != nullptr;
}

/// What a window still does in the moments after a picture is not part of the next.
void rest(int ms) {
  QElapsedTimer quiet;
  for (quiet.start(); quiet.elapsed() < ms;) QCoreApplication::processEvents();
}

double milliseconds(const QElapsedTimer& timer) {
  return static_cast<double>(timer.nsecsElapsed()) / 1e6;
}

double median(std::vector<double> times) {
  std::sort(times.begin(), times.end());
  return times.empty() ? 0 : times[times.size() / 2];
}

class Report {
 public:
  explicit Report(std::string suffix) : suffix_(std::move(suffix)) {
    std::printf("{\n  \"benchmarks\": [\n");
  }
  void add(const char* name, double time) {
    std::printf(
        "%s    {\n      \"name\": \"%s%s_median\",\n      \"real_time\": %.3f,\n"
        "      \"cpu_time\": %.3f,\n      \"time_unit\": \"ms\"\n    }",
        begun_ ? ",\n" : "", name, suffix_.c_str(), time, time);
    begun_ = true;
  }
  void end() {
    std::printf("\n  ]\n}\n");
    std::fflush(stdout);
  }

 private:
  std::string suffix_;
  bool begun_ = false;
};

/// Median of a change and its picture; below zero where it was refused.
double changed(MainWindow& window,
               const std::function<dryfit::viewer::BenchDocument::Edit(int)>& edit) {
  std::vector<double> times;
  for (int i = 0; i < kTimes; ++i) {
    QElapsedTimer timer;
    timer.start();
    if (const auto done = window.document().apply("change", edit(i)); !done) {
      std::fprintf(stderr, "viewer_benchmark: %s\n", done.error().line().c_str());
      return -1;
    }
    if (!untilPainted(window)) return -1;
    times.push_back(milliseconds(timer));
  }
  return median(times);
}

/// The pointer goes over the picture; median of the moves that lit up another part.
double pointed(MainWindow& window) {
  auto& view = window.view();
  int lit = 0;
  QObject::connect(&view, &dryfit::viewer::View3d::partPointedAt, &view, [&](auto) { ++lit; });
  std::vector<double> times;
  for (int i = 0; i < kPointed; ++i) {
    const int before = lit;
    const QPoint at(view.width() * (i % 12 + 3) / 18, view.height() * (i / 12 + 4) / 12);
    QElapsedTimer timer;
    timer.start();
    QTest::mouseMove(&view, at);
    QCoreApplication::processEvents();
    if (lit != before) times.push_back(milliseconds(timer));
  }
  return median(times);
}

/// The same while a part is put between faces: median of the moves to another face, each with the
/// face lit and the ghost of the part drawn where it would then stand; below zero without a window
/// for it.
double haunted(MainWindow& window) {
  window.activateWindow();
  for (QAction* action : window.findChildren<QAction*>()) {
    if (action->shortcut() == QKeySequence("Ctrl+Shift+P")) action->trigger();
  }
  auto* dialog = window.findChild<dryfit::viewer::FaceDialog*>();
  if (dialog == nullptr) return -1;
  rest(1000);
  auto& view = window.view();
  int stood = 0;
  QObject::connect(dialog, &dryfit::viewer::FaceDialog::ghostChanged, &view,
                   [&](const auto& box) { stood += box ? 1 : 0; });
  std::vector<double> times;
  for (int i = 0; i < kPointed; ++i) {
    const int before = stood;
    const QPoint at(view.width() * (i % 12 + 3) / 18, view.height() * (i / 12 + 4) / 12);
    QElapsedTimer timer;
    timer.start();
    QTest::mouseMove(&view, at);
    QCoreApplication::processEvents();
    if (stood != before) times.push_back(milliseconds(timer));
  }
  dialog->reject();
  return times.empty() ? -1 : median(times);
}

int measure(const Work& work, const QElapsedTimer& sinceStart) {
  MainWindow window;
  window.resize(1280, 800);
  window.show();
  if (!window.openFile(work.model) || !untilPainted(window)) {
    const auto* told = window.findChild<QLabel*>("message");
    std::fprintf(stderr, "viewer_benchmark: %s was not shown: %s\n", work.model.c_str(),
                 told->text().toUtf8().constData());
    return 1;
  }
  Report report(work.suffix);
  report.add("firstPicture", milliseconds(sinceStart));
  rest(1000);
  std::vector<double> anew;
  for (int i = 0; i < 3; ++i) {
    QElapsedTimer timer;
    timer.start();
    if (!window.openFile(work.model) || !untilPainted(window)) return 1;
    anew.push_back(milliseconds(timer));
  }
  report.add("openedAnew", median(anew));
  rest(500);
  report.add("movedFace", changed(window, [&](int i) -> dryfit::viewer::BenchDocument::Edit {
               return [&work, i](dryfit::joinery::ModelFile& file) {
                 return dryfit::joinery::setPartSpan(
                     file, work.part, work.span, work.end,
                     work.places[std::size_t(i) % work.places.size()]);
               };
             }));
  report.add("changedNumber", changed(window, [&](int i) {
               return dryfit::viewer::dimensionEdit(
                   work.dimension, work.values[std::size_t(i) % work.values.size()]);
             }));
  rest(500);
  report.add("picked", pointed(window));
  rest(500);
  report.add("ghostMoved", haunted(window));
  report.end();
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  QElapsedTimer sinceStart;
  sinceStart.start();
  const std::string which = argc > 1 ? argv[1] : "";
  if (!(which == "cupboard" && argc == 3) && !(which == "rack" && argc == 2)) {
    std::fputs("usage: viewer_benchmark cupboard MODEL | viewer_benchmark rack\n", stderr);
    return 2;
  }
  QTemporaryDir folder;
  Work work{"",
            "",
            "cupboard_width",
            {"1010", "1000"},
            "deck",
            "width",
            "to",
            {"back_left_stile.front - 1", "back_left_stile.front"}};
  if (which == "cupboard") {
    work.model = argv[2];
  } else {
    work = {folder.filePath("rack.dryfit").toStdString(),
            "300",
            "bay_width",
            {"310", "300"},
            "shelf_4_9",
            "width",
            "to",
            {"rack_depth - 4", "rack_depth"}};
    if (!dryfit::joinery::writeAtomically(work.model, dryfit::test::sortingRack(10, 29))) return 1;
  }
  qputenv("QT_QPA_PLATFORM", "xcb");
  QApplication app(argc, argv);
  dryfit::viewer::dress(app);
  return measure(work, sinceStart);
}
