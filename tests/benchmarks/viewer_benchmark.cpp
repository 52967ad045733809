// How long a joiner waits for the bench window: from the start to the first picture of a piece, and
// from a changed number to its picture. Wall-clock times, printed as JSON in the form that Google
// Benchmark uses. Needs a display; on a machine without one run it under xvfb-run.
// Run: viewer_benchmark MODEL DIMENSION VALUE VALUE

#include <QApplication>
#include <QCoreApplication>
#include <QElapsedTimer>
#include <algorithm>
#include <cstdio>
#include <string>
#include <vector>

#include "viewer/look/look.h"
#include "viewer/window/main_window.h"

namespace {

constexpr int kPatience = 20'000;  // ms
constexpr int kChanges = 9;

/// Runs the window's own loop until the piece is built and painted; false when that takes too long.
bool untilPainted(dryfit::viewer::MainWindow& window) {
  QElapsedTimer waited;
  waited.start();
  do {
    QCoreApplication::processEvents(QEventLoop::AllEvents | QEventLoop::WaitForMoreEvents, 20);
    if (waited.elapsed() > kPatience) return false;
  } while (window.document().isBuilding());
  QCoreApplication::processEvents();  // paints what the build has brought
  return window.document().assembled() != nullptr;
}

double milliseconds(const QElapsedTimer& timer) {
  return static_cast<double>(timer.nsecsElapsed()) / 1e6;
}

void print(const char* name, double time, const char* after) {
  std::printf(
      "    {\n      \"name\": \"%s_median\",\n      \"real_time\": %.3f,\n"
      "      \"cpu_time\": %.3f,\n      \"time_unit\": \"ms\"\n    }%s\n",
      name, time, time, after);
}

int measure(int argc, char** argv, const QElapsedTimer& sinceStart) {
  qputenv("QT_QPA_PLATFORM", "xcb");
  QApplication app(argc, argv);
  dryfit::viewer::dress(app);
  dryfit::viewer::MainWindow window;
  window.show();
  if (!window.openFile(argv[1]) || !untilPainted(window)) {
    std::fprintf(stderr, "viewer_benchmark: %s was not shown\n", argv[1]);
    return 1;
  }
  const double first = milliseconds(sinceStart);
  // What a new window still does in the moments after it appears is not part of a change.
  QElapsedTimer quiet;
  for (quiet.start(); quiet.elapsed() < 1000;) QCoreApplication::processEvents();
  std::vector<double> changes;
  for (int i = 0; i < kChanges; ++i) {
    QElapsedTimer timer;
    timer.start();
    const auto edit = dryfit::viewer::dimensionEdit(argv[2], argv[3 + i % 2]);
    if (const auto done = window.document().apply("change", edit); !done) {
      std::fprintf(stderr, "viewer_benchmark: %s\n", done.error().line().c_str());
      return 1;
    }
    if (!untilPainted(window)) return 1;
    changes.push_back(milliseconds(timer));
  }
  std::sort(changes.begin(), changes.end());
  std::printf("{\n  \"benchmarks\": [\n");
  print("firstPicture", first, ",");
  print("changedNumber", changes[changes.size() / 2], "");
  std::printf("  ]\n}\n");
  std::fflush(stdout);
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  QElapsedTimer sinceStart;
  sinceStart.start();
  if (argc != 5) {
    std::fputs("usage: viewer_benchmark MODEL DIMENSION VALUE VALUE\n", stderr);
    return 2;
  }
  return measure(argc, argv, sinceStart);
}
