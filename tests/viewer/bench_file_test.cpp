#include <gtest/gtest.h>

#include <QApplication>
#include <QImage>
#include <QLabel>
#include <QTableView>
#include <QTest>
#include <fstream>
#include <sstream>

#include "tests/viewer/bench_fixture.h"
#include "tests/viewer/frame_model.h"
#include "viewer/tables/dimension_table.h"
#include "viewer/view/picture.h"
#include "viewer/window/main_window.h"

namespace dryfit::viewer {
namespace {

std::string textOf(const std::filesystem::path& path) {
  std::stringstream text;
  text << std::ifstream(path).rdbuf();
  return text.str();
}

TEST_F(Bench, TakesBackAndDoesAgain) {
  const std::string before = document().file().text();
  setDimension("stile_width", "70");
  settle();
  const std::string after = document().file().text();
  ASSERT_NE(before, after);
  EXPECT_TRUE(window_.isWindowModified());
  document().undoStack().undo();
  settle();
  EXPECT_EQ(document().file().text(), before);
  EXPECT_FALSE(window_.isWindowModified());
  EXPECT_NEAR(document().assembled()->fit->piece.parts[0].size.y, 62, 1e-9);
  document().undoStack().redo();
  settle();
  EXPECT_EQ(document().file().text(), after);
  EXPECT_NEAR(document().assembled()->fit->piece.parts[0].size.y, 70, 1e-9);
}

TEST_F(Bench, SavesWhatItReadsBackTheSame) {
  setDimension("stile_width", "door_width / 8");
  ASSERT_TRUE(document().isChanged());
  choose("&Save");
  EXPECT_FALSE(document().isChanged());
  const std::string saved = document().file().text();
  EXPECT_EQ(textOf(path_), saved);
  BenchDocument second;
  ASSERT_TRUE(second.open(path_));
  EXPECT_EQ(second.file().text(), saved);
  EXPECT_NEAR(second.piece()->values.at("stile_width"), 50, 1e-9);
}

TEST_F(Bench, SaysWhenAPieceCannotBeSavedAndKeepsTheMark) {
  setDimension("stile_width", "60");
  const auto done = document().saveAs(path_.parent_path() / "no such folder" / "door.dryfit");
  ASSERT_FALSE(done);
  EXPECT_EQ(done.error().code, ErrorCode::fileNotWritten);
  EXPECT_TRUE(document().isChanged());
}

TEST_F(Bench, IsUnchangedWheneverItIsAsSaved) {
  setDimension("stile_width", "60");
  choose("&Save");
  EXPECT_FALSE(document().isChanged());
  document().undoStack().undo();
  EXPECT_TRUE(document().isChanged());
  settle();
  setDimension("stile_width", "60");
  EXPECT_FALSE(document().isChanged()) << "typed again what is on the disk";
}

TEST_F(Bench, NoticesThatAnotherProgramHasChangedTheFile) {
  EXPECT_FALSE(document().isOvertaken());
  std::string text = textOf(path_);
  const auto at = text.find("\"value\": 62");
  ASSERT_NE(at, std::string::npos);
  std::ofstream(path_) << text.replace(at, 11, "\"value\": 64");
  EXPECT_TRUE(document().isOvertaken());
  QEvent activation(QEvent::ActivationChange);
  window_.activateWindow();
  ASSERT_TRUE(QTest::qWaitForWindowActive(&window_));
  QCoreApplication::sendEvent(&window_, &activation);
  settle();
  EXPECT_FALSE(document().isOvertaken()) << "nothing was unsaved, so it is read again";
  EXPECT_NEAR(document().piece()->values.at("stile_width"), 64, 1e-9);
  // With a change of one's own, nothing is thrown away.
  setDimension("stile_width", "70");
  std::ofstream(path_) << test::kFrameModel;
  QCoreApplication::sendEvent(&window_, &activation);
  EXPECT_NEAR(document().piece()->values.at("stile_width"), 70, 1e-9);
  EXPECT_TRUE(message().contains("F5")) << message().toStdString();
}

TEST(BenchFile, NoticesAnEditMadeWhileItWasReading) {
  const QTemporaryDir folder;
  const std::filesystem::path path = folder.filePath("door.dryfit").toStdString();
  std::ofstream(path) << test::kFrameModel;
  // Another program writes the moment after the bytes were read.
  int reads = 0;
  BenchDocument document(nullptr, [&](const std::filesystem::path& from) {
    auto bytes = readModelFile(from);
    if (++reads == 1) std::ofstream(path, std::ios::app) << "\n";
    return bytes;
  });
  ASSERT_TRUE(document.open(path));
  EXPECT_EQ(reads, 1);
  EXPECT_TRUE(document.isOvertaken());
  ASSERT_TRUE(document.open(path));
  EXPECT_FALSE(document.isOvertaken());
}

TEST(BenchFile, IsNotSavedOverWhatAnotherProgramWroteUnlessToldTo) {
  const QTemporaryDir folder;
  const std::filesystem::path path = folder.filePath("door.dryfit").toStdString();
  std::ofstream(path) << test::kFrameModel;
  BenchDocument document;
  ASSERT_TRUE(document.open(path));
  ASSERT_TRUE(document.apply("widen", dimensionEdit("stile_width", "70")));
  const std::string others = std::string(test::kFrameModel) + "\n";
  std::ofstream(path) << others;
  EXPECT_FALSE(document.save());
  EXPECT_EQ(textOf(path), others) << "what the other program recorded is there";
  EXPECT_TRUE(document.isChanged());
  ASSERT_TRUE(document.saveAs(path, BenchDocument::Over::anything));
  EXPECT_EQ(textOf(path), document.file().text());
}

TEST(BenchFile, KnowsWhatItSavedWithoutReadingIt) {
  const QTemporaryDir folder;
  const std::filesystem::path path = folder.filePath("door.dryfit").toStdString();
  std::ofstream(path) << test::kFrameModel;
  int reads = 0;
  BenchDocument document(nullptr, [&](const std::filesystem::path& from) {
    ++reads;
    return readModelFile(from);
  });
  ASSERT_TRUE(document.open(path));
  ASSERT_TRUE(document.save());
  // Once to open it, and once before it is written over; what lies there afterwards may be another
  // program's.
  EXPECT_EQ(reads, 2);
  EXPECT_FALSE(document.isOvertaken());
}

TEST_F(Bench, WritesAPictureWithWoodInTheMiddle) {
  const std::filesystem::path file = path_.parent_path() / "door.png";
  const auto done = writePicture(document().assembled(), file, 400, 300);
  ASSERT_TRUE(done) << done.error().line();
  const QImage image(QString::fromStdString(file.string()));
  ASSERT_EQ(image.size(), QSize(400, 300));
  const QColor middle = image.pixelColor(200, 150);
  EXPECT_GT(middle.red() - middle.blue(), 25) << "wood is warm, the background is not";
  const QColor corner = image.pixelColor(3, 3);
  EXPECT_LT(std::abs(corner.red() - corner.blue()), 25);
}

TEST(BenchFile, ShowsAnAngleInDegreesWhateverTheUnitOfTheFile) {
  auto file = joinery::ModelFile::parse(R"({
    "format": "dryfit-model", "version": 1, "name": "Ledge", "unit": "in",
    "dimensions": {"slope": {"value": 20, "quantity": "angle"}, "ledge": 12},
    "materials": {"oak": {"kind": "solid", "species": "white oak", "thickness": 0.75}},
    "parts": {"ledge_board": {"material": "oak",
      "length": {"along": "x", "from": 0, "size": "ledge"},
      "width": {"along": "y", "from": 0, "size": 4},
      "thickness": {"along": "z", "from": 0},
      "turn": {"about": "x", "at": [0, 0, 0], "angle": "slope"}}}
  })",
                                        "ledge");
  ASSERT_TRUE(file) << file.error().line();
  BenchDocument document;
  DimensionTable table(document);
  document.start(std::move(*file));
  const auto value = [&](int row) {
    return table.index(row, DimensionTable::value).data().toString();
  };
  for (const joinery::Unit unit : {joinery::Unit::inch, joinery::Unit::mm}) {
    document.setUnit(unit);
    EXPECT_EQ(value(0), QString::fromUtf8("20°"));
  }
  EXPECT_EQ(value(1), "304.8");
}

TEST(BenchFile, TellsInOneLineWhatIsWrongWithAFile) {
  MainWindow window;
  EXPECT_FALSE(window.openFile("no_such_piece.dryfit"));
  const QString line = window.findChild<QLabel*>("message")->text();
  EXPECT_TRUE(line.contains("no_such_piece.dryfit")) << line.toStdString();
  EXPECT_FALSE(line.contains('\n'));
  EXPECT_FALSE(window.document().isOpen());
}

}  // namespace
}  // namespace dryfit::viewer
