// Sheets written as PDF and SVG say the same as the sheets themselves.

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <poppler/cpp/poppler-document.h>
#include <poppler/cpp/poppler-page.h>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <memory>
#include <pugixml.hpp>
#include <set>
#include <sstream>

#include "export/drawing/part_drawing.h"
#include "export/drawing/pdf_writer.h"
#include "export/drawing/svg_writer.h"
#include "export/files/atomic_file.h"
#include "tests/export/drawing_pieces.h"

namespace dryfit::test {
namespace {

using exporting::LineClass;
using exporting::Sheet;
using exporting::Text;
using testing::HasSubstr;

constexpr double kPointsPerMm = 72 / 25.4;

std::vector<Sheet> doorSheets() {
  const DrawnPiece drawn = makeDrawable(doorPiece());
  std::vector<Sheet> sheets;
  exporting::DrawingOptions options;
  options.date = "2024-05-01";
  for (const auto& group : drawn.groups) {
    sheets.push_back(drawPart(drawn.piece, drawn.solids, group, options).value());
  }
  return sheets;
}

std::unique_ptr<poppler::document> opened(const std::string& bytes) {
  std::unique_ptr<poppler::document> document(
      poppler::document::load_from_raw_data(bytes.data(), static_cast<int>(bytes.size())));
  if (!document) throw std::runtime_error("the PDF cannot be opened");
  return document;
}

std::string textOf(const poppler::page& page) {
  const poppler::byte_array bytes = page.text().to_utf8();
  return {bytes.begin(), bytes.end()};
}

TEST(PdfSheets, HaveAPageASheetAtTrueSize) {
  const std::vector<Sheet> sheets = doorSheets();
  const std::string bytes = exporting::pdfBytes(sheets, {"Demo door"}).value();
  const auto document = opened(bytes);
  ASSERT_EQ(document->pages(), static_cast<int>(sheets.size()));
  for (int i = 0; i < document->pages(); ++i) {
    const std::unique_ptr<poppler::page> page(document->create_page(i));
    EXPECT_NEAR(page->page_rect().width(), sheets[i].width * kPointsPerMm, 0.1);
    EXPECT_NEAR(page->page_rect().height(), sheets[i].height * kPointsPerMm, 0.1);
  }
  const poppler::byte_array title = document->get_title().to_utf8();
  EXPECT_EQ(std::string(title.begin(), title.end()), "Demo door");
}

TEST(PdfSheets, CanBeSearchedForNamesAndSizes) {
  const DrawnPiece drawn = makeDrawable(doorPiece());
  const std::vector<Sheet> sheets{
      exporting::drawPart(drawn.piece, drawn.solids, drawn.groups.front(), {}).value()};
  const std::string bytes = exporting::pdfBytes(sheets, {}).value();
  const auto document = opened(bytes);
  const std::unique_ptr<poppler::page> page(document->create_page(0));
  const std::string text = textOf(*page);
  for (const char* wanted : {"Left stile", "Demo door", "white oak", "600 × 60 × 24", "mortise",
                             "Face side", "Face edge", "31 × 8"}) {
    EXPECT_THAT(text, HasSubstr(std::string(wanted).substr(1)));
  }
}

TEST(PdfSheets, AreEqualForEqualSheets) {
  const std::vector<Sheet> sheets = doorSheets();
  EXPECT_EQ(exporting::pdfBytes(sheets, {"a"}).value(), exporting::pdfBytes(sheets, {"a"}).value());
}

TEST(SvgSheet, HoldsEveryTextOfTheSheetInMillimetres) {
  for (const Sheet& sheet : doorSheets()) {
    pugi::xml_document document;
    ASSERT_TRUE(document.load_string(exporting::svgText(sheet).c_str()));
    const pugi::xml_node svg = document.child("svg");
    EXPECT_EQ(std::string(svg.attribute("width").value()),
              std::to_string(static_cast<int>(sheet.width)) + "mm");
    std::istringstream box(svg.attribute("viewBox").value());
    double left = 1;
    double top = 1;
    double width = 0;
    double height = 0;
    box >> left >> top >> width >> height;
    EXPECT_EQ(left, 0);
    EXPECT_EQ(top, 0);
    EXPECT_EQ(width, sheet.width);
    EXPECT_EQ(height, sheet.height);
    std::multiset<std::string> written;
    for (const auto& node : svg.select_nodes(".//text")) {
      written.insert(node.node().text().get());
    }
    std::multiset<std::string> drawn;
    for (const auto& mark : sheet.ink.marks) {
      if (const auto* text = std::get_if<Text>(&mark)) drawn.insert(text->text);
    }
    EXPECT_EQ(written, drawn);
  }
}

TEST(LineClasses, HaveTheWidthsOfTheStandard) {
  // ISO 128-2, line group 0.5: wide 0.5 mm, narrow half of it; ISO 5457: frame 0.7 mm (both from
  // memory).
  EXPECT_EQ(styleOf(LineClass::visible).width, 0.5);
  for (const LineClass narrow : {LineClass::hidden, LineClass::centre, LineClass::dimension}) {
    EXPECT_EQ(styleOf(narrow).width, 0.25);
  }
  EXPECT_EQ(styleOf(LineClass::frame).width, 0.7);
  EXPECT_TRUE(styleOf(LineClass::visible).dashes.empty());
  EXPECT_EQ(styleOf(LineClass::hidden).dashes.size(), 2U);
  EXPECT_EQ(styleOf(LineClass::centre).dashes.size(), 4U);
}

TEST(SheetFormats, HaveTheSizesOfTheStandard) {
  // ISO 5457:1999 (studylib.net/doc/18543950 is the identical IS 10711:2001).
  const auto formats = exporting::sheetFormats();
  ASSERT_GE(formats.size(), 3U);
  EXPECT_EQ(formats[0].width, 297);
  EXPECT_EQ(formats[0].height, 210);
  EXPECT_EQ(formats[1].width, 420);
  EXPECT_EQ(formats[1].height, 297);
  EXPECT_EQ(formats[2].width, 594);
  EXPECT_EQ(formats[2].height, 420);
  // The drawing space of A3 is 390 by 277 mm (from memory).
  const auto space = makeSheet(formats[1]).drawingSpace();
  EXPECT_EQ(space.width(), 390);
  EXPECT_EQ(space.height(), 277);
}

class TemporaryFolder {
 public:
  TemporaryFolder() {
    std::string name = (std::filesystem::temp_directory_path() / "dryfit-XXXXXX").string();
    path_ = mkdtemp(name.data());
  }
  ~TemporaryFolder() { std::filesystem::remove_all(path_); }
  TemporaryFolder(const TemporaryFolder&) = delete;
  TemporaryFolder& operator=(const TemporaryFolder&) = delete;
  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

std::string contentOf(const std::filesystem::path& path) {
  std::ifstream in(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

TEST(AtomicFile, ReplacesAFileWhole) {
  const TemporaryFolder folder;
  const auto path = folder.path() / "drawing.svg";
  ASSERT_TRUE(exporting::writeFileAtomically(path, "first"));
  ASSERT_TRUE(exporting::writeFileAtomically(path, "second"));
  EXPECT_EQ(contentOf(path), "second");
  const std::filesystem::directory_iterator files(folder.path());
  EXPECT_EQ(std::distance(begin(files), end(files)), 1);
}

TEST(AtomicFile, LeavesNothingBehindWhereItCannotWrite) {
  const TemporaryFolder folder;
  const auto missing = exporting::writeFileAtomically(folder.path() / "none" / "a.pdf", "x");
  ASSERT_FALSE(missing);
  EXPECT_EQ(missing.error().code, ErrorCode::fileNotWritten);
  EXPECT_THAT(missing.error().where, HasSubstr("none/a.pdf"));
  // A folder stands where the file should go.
  std::filesystem::create_directory(folder.path() / "taken");
  EXPECT_FALSE(exporting::writeFileAtomically(folder.path() / "taken", "x"));
  const std::filesystem::directory_iterator files(folder.path());
  EXPECT_EQ(std::distance(begin(files), end(files)), 1);
}

}  // namespace
}  // namespace dryfit::test
