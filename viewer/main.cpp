#include <QApplication>
#include <QSize>
#include <QStringList>
#include <QTimer>
#include <clocale>
#include <cstdio>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "export/words/failure_words.h"
#include "joinery/base/atomic_write.h"
#include "joinery/file/model_file.h"
#include "joinery/making/measure.h"
#include "viewer/look/look.h"
#include "viewer/view/line_picture.h"
#include "viewer/view/part_shapes.h"
#include "viewer/view/picture.h"
#include "viewer/view/scene.h"
#include "viewer/window/main_window.h"
// X11 macros clash with Qt's names, so this one comes last.
#include <Aspect_DisplayConnection.hxx>

namespace {

using dryfit::Result;
using dryfit::viewer::Assembled;

constexpr int kFine = 0, kBadInput = 2;
constexpr auto kUsage = R"(dryfit-bench: a piece of furniture on the bench

  dryfit-bench [MODEL] [--stock LIST.json]  open the window, with a stock list
  dryfit-bench MODEL --picture FILE [--size WIDTHxHEIGHT]
                                            write a picture and leave: FILE.png as it is seen, or
                                            FILE.svg as lines; in pixels, 1200x900 unless told
)";

struct Asked {
  std::filesystem::path model, picture, stock;
  QSize size{1200, 900};
  bool help = false;
};

/// "1600x1200"; nothing for what is no size of a picture.
std::optional<QSize> sizeIn(const QString& text) {
  constexpr int kLeast = 16, kMost = 8192;
  const QStringList sides = text.split('x');
  if (sides.size() != 2) return std::nullopt;
  const QSize size(sides[0].toInt(), sides[1].toInt());
  const auto fits = [](int side) { return side >= kLeast && side <= kMost; };
  return fits(size.width()) && fits(size.height()) ? std::optional(size) : std::nullopt;
}

std::optional<Asked> read(const std::vector<std::string>& words) {
  Asked asked;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (words[i] == "--help" || words[i] == "-h") {
      asked.help = true;
    } else if (words[i] == "--picture" && i + 1 < words.size()) {
      asked.picture = words[++i];
    } else if (words[i] == "--size" && i + 1 < words.size()) {
      const auto size = sizeIn(QString::fromStdString(words[++i]));
      if (!size) return std::nullopt;
      asked.size = *size;
    } else if (words[i] == "--stock" && i + 1 < words.size()) {
      asked.stock = words[++i];
    } else if (!words[i].starts_with("-") && asked.model.empty()) {
      asked.model = words[i];
    } else {
      return std::nullopt;
    }
  }
  if (asked.model.empty() && !(asked.picture.empty() && asked.stock.empty())) return std::nullopt;
  return asked;
}

Result<void> makePicture(const Asked& asked) {
  const auto file = dryfit::joinery::ModelFile::load(asked.model);
  if (!file) return tl::unexpected<dryfit::Error>(file.error());
  const dryfit::joinery::Model& model = file->model();
  auto fit = dryfit::joinery::dryFit(model, dryfit::joinery::usualBasis(model), {}, model.unit);
  if (!fit) return tl::unexpected<dryfit::Error>(fit.error().within(asked.model.string()));
  if (asked.picture.extension() == ".svg") {
    std::vector<dryfit::kernel::Solid> solids;
    for (std::size_t i = 0; i < fit->solids.size(); ++i) {
      solids.push_back(fit->placed(dryfit::joinery::PartId(i)));
    }
    const auto lines = dryfit::viewer::linePicture(
        solids, dryfit::viewer::viewpointOf(dryfit::viewer::Side::corner), asked.size);
    if (!lines) return tl::unexpected<dryfit::Error>(lines.error());
    return dryfit::joinery::writeAtomically(asked.picture, *lines);
  }
  auto shapes = dryfit::viewer::makePartShapes(*fit, nullptr, nullptr);
  return dryfit::viewer::writePicture(
      std::make_shared<const Assembled>(Assembled{
          std::make_shared<const dryfit::joinery::DryFit>(std::move(*fit)), std::move(shapes)}),
      asked.picture, asked.size.width(), asked.size.height());
}

/// A failure while an event is dealt with ends the event, not the program.
class BenchApplication : public QApplication {
 public:
  using QApplication::QApplication;
  bool notify(QObject* receiver, QEvent* event) override {
    try {
      return QApplication::notify(receiver, event);
    } catch (...) {
      const std::string words = "internal failure: " + dryfit::exporting::failureWords();
      std::fprintf(stderr, "dryfit-bench: %s\n", words.c_str());
      for (QWidget* widget : QApplication::topLevelWidgets()) {
        auto* window = qobject_cast<dryfit::viewer::MainWindow*>(widget);
        if (window != nullptr) window->warn(QString::fromStdString(words));
      }
      return false;
    }
  }
};

/// Qt ends the program where it finds no display, so it is asked for first.
bool hasDisplay() {
  if (qgetenv("QT_QPA_PLATFORM") != "xcb") return true;
  try {
    const Handle(Aspect_DisplayConnection) display = new Aspect_DisplayConnection;
    return true;
  } catch (const Standard_Failure&) {
    return false;
  }
}

int inWindow(const Asked& asked) {
  dryfit::viewer::MainWindow window;
  if (asked.model.empty()) window.showStart();
  window.show();
  QTimer::singleShot(0, &window, &dryfit::viewer::MainWindow::offerRecovery);
  // The window comes first; the piece follows as soon as it is on the screen.
  if (!asked.model.empty()) {
    QTimer::singleShot(0, &window, [&] {
      if (window.openFile(asked.model) && !asked.stock.empty()) window.openStock(asked.stock);
    });
  }
  return QApplication::exec();
}

int run(int argc, char** argv) {
  const std::optional<Asked> asked = read({argv + 1, argv + argc});
  if (!asked) {
    std::fputs(
        "dryfit-bench: expected a model file, alone or with --stock LIST.json or --picture "
        "FILE.png "
        "or FILE.svg, with --size WIDTHxHEIGHT of 16 to 8192 pixels a side\n",
        stderr);
    return kBadInput;
  }
  if (asked->help) {
    std::fputs(kUsage, stdout);
    return kFine;
  }
  // The view draws into an X window, also under a Wayland desktop.
  if (!qEnvironmentVariableIsSet("QT_QPA_PLATFORM")) qputenv("QT_QPA_PLATFORM", "xcb");
  if (!hasDisplay()) {
    std::fputs(
        "dryfit-bench: there is no X display to open the window on; set DISPLAY to one that may be "
        "used\n",
        stderr);
    return kBadInput;
  }
  BenchApplication app(argc, argv);
  // Qt takes up the user's locale, by which C functions would write, and read, a decimal comma.
  std::setlocale(LC_NUMERIC, "C");
  QApplication::setApplicationName("dryfit-bench");
  dryfit::viewer::dress(app);
  if (asked->picture.empty()) return inWindow(*asked);
  if (const Result<void> done = makePicture(*asked); !done) {
    std::fprintf(stderr, "dryfit-bench: %s\n", done.error().line().c_str());
    return kBadInput;
  }
  return kFine;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(argc, argv);
  } catch (...) {
    std::fprintf(stderr, "dryfit-bench: internal failure: %s\n",
                 dryfit::exporting::failureWords().c_str());
    return kBadInput;
  }
}
