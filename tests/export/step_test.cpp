#include "export/step/step_writer.h"

#include "joinery/joints/evaluate.h"

#include <gmock/gmock.h>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <map>
#include <set>
#include <sstream>
#include <stdexcept>
#include <thread>

#include "export/files/ascii_name.h"
#include "joinery/file/model_file.h"
#include "joinery/fit/dry_fit.h"
#include "tests/support/scratch.h"
#include "tests/support/step_reader.h"

namespace dryfit {
namespace {

using exporting::stepText;
using joinery::Basis;
using joinery::Piece;
using testing::frameModel;
using ::testing::HasSubstr;
using ::testing::IsEmpty;
using testing::replaced;

struct Built {
  Piece piece;
  std::vector<kernel::Solid> solids;
};

Built built(const std::string& text) {
  const auto file = joinery::ModelFile::parse(text, "test");
  if (!file) throw std::runtime_error(file.error().line());
  auto piece = joinery::evaluate(file->model(), Basis::drawn);
  if (!piece) throw std::runtime_error(piece.error().line());
  auto solids = joinery::buildSolids(*piece);
  if (!solids) throw std::runtime_error(solids.error().line());
  return {std::move(*piece), std::move(*solids)};
}

std::string written(const Built& made, const exporting::StepOptions& options = {}) {
  auto text = stepText(made.piece, made.solids, options);
  if (!text) throw std::runtime_error(text.error().line());
  return *text;
}

/// The file without its strings: '...' with '' for a quote (ISO 10303-21, clause 6.4.3).
std::string withoutStrings(const std::string& text) {
  std::string bare;
  bool inside = false;
  for (const char c : text) {
    if (c == '\'') inside = !inside;
    if (!inside && c != '\'') bare += c;
  }
  EXPECT_FALSE(inside) << "a string does not end";
  return bare;
}

/// Faults against the form of ISO 10303-21 (from memory): frame of sections, every instance name
/// defined once, every reference defined, brackets in pairs, plain ASCII.
std::vector<std::string> formFaults(const std::string& text) {
  std::vector<std::string> faults;
  const std::string bare = withoutStrings(text);
  if (!text.starts_with("ISO-10303-21;")) faults.emplace_back("start");
  if (text.find("END-ISO-10303-21;") == std::string::npos) faults.emplace_back("end");
  std::size_t at = 0;
  for (const char* mark : {"HEADER;", "FILE_DESCRIPTION", "FILE_NAME", "FILE_SCHEMA", "ENDSEC;",
                           "DATA;", "ENDSEC;", "END-ISO-10303-21;"}) {
    at = bare.find(mark, at);
    if (at == std::string::npos) {
      faults.emplace_back(std::string("no ") + mark);
      break;
    }
    at += 1;
  }
  std::set<std::string> defined, used;
  int depth = 0;
  for (std::size_t i = 0; i < bare.size(); ++i) {
    if ((static_cast<unsigned char>(bare[i]) & 0x80U) != 0) faults.emplace_back("not ASCII");
    depth += bare[i] == '(' ? 1 : bare[i] == ')' ? -1 : 0;
    if (depth < 0) faults.emplace_back("bracket");
    if (bare[i] != '#') continue;
    std::size_t end = i + 1;
    while (end < bare.size() && std::isdigit(static_cast<unsigned char>(bare[end])) != 0) ++end;
    const std::string id = bare.substr(i, end - i);
    std::size_t next = end;
    while (next < bare.size() && std::isspace(static_cast<unsigned char>(bare[next])) != 0) ++next;
    if (depth == 0 && next < bare.size() && bare[next] == '=') {
      if (!defined.insert(id).second) faults.emplace_back("twice " + id);
    } else {
      used.insert(id);
    }
  }
  if (depth != 0) faults.emplace_back("bracket");
  for (const std::string& id : used) {
    if (!defined.contains(id)) faults.emplace_back("undefined " + id);
  }
  for (const char c : text) {
    if ((static_cast<unsigned char>(c) & 0x80U) != 0) {
      faults.emplace_back("a string is not ASCII");
      break;
    }
  }
  return faults;
}

/// The first line in which two texts differ; empty where they are equal.
std::string firstDifference(const std::string& a, const std::string& b) {
  std::istringstream left(a), right(b);
  std::string one, other;
  while (true) {
    const bool more = static_cast<bool>(std::getline(left, one));
    if (more != static_cast<bool>(std::getline(right, other))) return "one is longer";
    if (!more) return "";
    if (one != other) return one + " <> " + other;
  }
}

TEST(StepFile, KeepsTheFormOfPart21) {
  for (const auto schema : {exporting::StepSchema::ap214, exporting::StepSchema::ap242}) {
    const std::string text = written(built(frameModel()), {schema, ""});
    EXPECT_THAT(formFaults(text), IsEmpty());
  }
}

TEST(StepFile, FormCheckSeesAFault) {
  const std::string text = written(built(frameModel()));
  EXPECT_FALSE(formFaults(replaced(text, "#2 =", "#1 =")).empty());
  EXPECT_FALSE(formFaults(replaced(text, "ENDSEC;", "")).empty());
}

TEST(StepFile, NamesItsSchemaAndUnit) {
  const Built made = built(frameModel());
  EXPECT_THAT(written(made, {exporting::StepSchema::ap214, ""}), HasSubstr("AUTOMOTIVE_DESIGN"));
  const std::string text = written(made);
  EXPECT_THAT(text, HasSubstr("AP242_MANAGED_MODEL_BASED_3D_ENGINEERING_MIM_LF"));
  EXPECT_THAT(text, HasSubstr("SI_UNIT(.MILLI.,.METRE.)"));
}

TEST(StepFile, GivesBackEveryPartWithItsNameVolumePlaceAndColour) {
  const Built made = built(frameModel());
  const auto read = testing::readStep(written(made));
  ASSERT_TRUE(read) << read.error().line();
  EXPECT_EQ(read->assembly, "Test frame");
  ASSERT_EQ(read->instances.size(), made.piece.parts.size());
  for (const auto& part : made.piece.parts) {
    const std::string label = made.piece.label(part.id);
    const auto it = std::find_if(read->instances.begin(), read->instances.end(),
                                 [&](const auto& one) { return one.name == label; });
    ASSERT_NE(it, read->instances.end()) << label;
    const kernel::Solid stands = made.solids[part.id.index()].placed(part.frame);
    EXPECT_NEAR(it->solid.volume() / stands.volume(), 1, 1e-6) << label;
    EXPECT_NEAR((it->solid.centroid() - stands.centroid()).norm(), 0, 1e-6) << label;
    // Only the same wood in the same place shares all of it.
    const auto shared = kernel::overlap(it->solid, stands);
    ASSERT_TRUE(shared);
    EXPECT_NEAR(shared->volume / stands.volume(), 1, 1e-6) << label;
    const auto colour = exporting::colourOfMaterial(made.piece.model, "oak");
    ASSERT_TRUE(it->colour) << label;
    EXPECT_NEAR(it->colour->red, colour.red, 1e-3);
    EXPECT_NEAR(it->colour->green, colour.green, 1e-3);
    EXPECT_NEAR(it->colour->blue, colour.blue, 1e-3);
  }
}

TEST(StepFile, AStileWithoutJointsHasTheVolumeOfItsBox) {
  const std::string text = frameModel();
  const auto cut = text.find(",\n  \"joints\"");
  const auto read = testing::readStep(written(built(text.substr(0, cut) + "\n}\n")));
  ASSERT_TRUE(read) << read.error().line();
  double volume = 0;
  for (const auto& one : read->instances) volume += one.solid.volume();
  // Closed form: two stiles of 600 and two rails of 276 mm, all 62 x 23 mm.
  EXPECT_NEAR(volume, (2 * 600.0 + 2 * 276.0) * 62 * 23, 1e-3);
}

TEST(StepFile, PartsMadeAlikeShareOneShape) {
  const auto read = testing::readStep(written(built(frameModel())));
  ASSERT_TRUE(read) << read.error().line();
  // Two alike stiles (one turned over) and two alike rails.
  EXPECT_EQ(read->instances.size(), 4);
  EXPECT_EQ(read->products, 2);
}

TEST(StepFile, EqualPartsOfTwoMaterialsStayTwoProducts) {
  std::string text =
      replaced(frameModel(), "\"oak\": {",
               R"("pine": {"kind": "solid", "species": "eastern white pine", "thickness": 23},
    "oak": {)");
  const auto rail = text.find("\"bottom_rail\": {");
  text = text.substr(0, rail) + replaced(text.substr(rail), "\"oak\"", "\"pine\"");
  const Built made = built(text);
  const auto read = testing::readStep(written(made));
  ASSERT_TRUE(read) << read.error().line();
  EXPECT_EQ(read->products, 3);
  std::set<double> reds;
  for (const auto& one : read->instances) {
    if (one.colour) reds.insert(std::round(one.colour->red * 255));
  }
  EXPECT_EQ(reds.size(), 2);
}

TEST(StepFile, EqualPiecesGiveEqualFilesWhenTheTimeIsFixed) {
  const exporting::StepOptions options{exporting::StepSchema::ap242, "2024-01-31T12:00:00"};
  const std::string first = written(built(frameModel()), options);
  EXPECT_EQ(firstDifference(first, written(built(frameModel()), options)), "");
  EXPECT_THAT(first, HasSubstr("2024-01-31T12:00:00"));
}

TEST(StepFile, NamesBeyondAsciiAreSpeltOut) {
  EXPECT_EQ(exporting::asciiName("Türfüllung – “½”"), "Tuerfuellung - \"1/2\"");
  EXPECT_EQ(exporting::asciiName("木\n板\xff"), "____");
  const auto text =
      written(built(replaced(frameModel(), "\"Left stile\"", "\"Linker Fries, 'größer' \\\\ é\"")));
  EXPECT_THAT(formFaults(text), IsEmpty());
  const auto read = testing::readStep(text);
  ASSERT_TRUE(read) << read.error().line();
  EXPECT_TRUE(std::any_of(read->instances.begin(), read->instances.end(), [](const auto& one) {
    return one.name == "Linker Fries, 'groesser' \\ e";
  }));
}

TEST(StepFile, TheLibraryKeepsSilent) {
  const Built made = built(frameModel());
  ::testing::internal::CaptureStdout();
  ::testing::internal::CaptureStderr();
  const std::string text = written(made);
  EXPECT_EQ(::testing::internal::GetCapturedStdout(), "");
  EXPECT_EQ(::testing::internal::GetCapturedStderr(), "");
}

TEST(StepFile, ExportsAtTheSameTimeDoNotDisturbEachOther) {
  const Built made = built(frameModel());
  const std::string stamp = "2024-01-31T12:00:00";
  const std::string ap214 = written(made, {exporting::StepSchema::ap214, stamp});
  const std::string ap242 = written(made, {exporting::StepSchema::ap242, stamp});
  std::vector<std::string> texts(4);
  std::vector<std::thread> threads;
  for (std::size_t i = 0; i < texts.size(); ++i) {
    threads.emplace_back([&, i] {
      const auto schema = i % 2 == 0 ? exporting::StepSchema::ap214 : exporting::StepSchema::ap242;
      texts[i] = written(made, {schema, stamp});
    });
  }
  for (auto& thread : threads) thread.join();
  for (std::size_t i = 0; i < texts.size(); ++i) {
    EXPECT_EQ(firstDifference(texts[i], i % 2 == 0 ? ap214 : ap242), "");
  }
}

TEST(StepFile, CarriesEveryPartOfTheDemoPieces) {
  for (const char* name : {"reading-table", "step-stool", "wall-rack", "periodicals-cupboard"}) {
    SCOPED_TRACE(name);
    const auto file = joinery::ModelFile::load(std::string(DRYFIT_MODELS) + "/" + name + ".dryfit");
    ASSERT_TRUE(file) << file.error().line();
    const Built made = built(file->text());
    const std::string text = written(made);
    EXPECT_THAT(formFaults(text), IsEmpty());
    const auto read = testing::readStep(text);
    ASSERT_TRUE(read) << read.error().line();
    ASSERT_EQ(read->instances.size(), made.piece.parts.size());
    double wrote = 0, got = 0;
    for (const auto& solid : made.solids) wrote += solid.volume();
    for (const auto& one : read->instances) got += one.solid.volume();
    EXPECT_NEAR(got / wrote, 1, 1e-6);
    for (const auto& part : made.piece.parts) {
      const kernel::Point3 centre = made.solids[part.id.index()].placed(part.frame).centroid();
      EXPECT_TRUE(std::any_of(read->instances.begin(), read->instances.end(), [&](const auto& one) {
        return one.name == exporting::asciiName(made.piece.label(part.id)) &&
               (one.solid.centroid() - centre).norm() < 1e-4;
      })) << made.piece.label(part.id);
    }
  }
}

}  // namespace
}  // namespace dryfit
