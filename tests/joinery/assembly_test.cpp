// A sub-assembly that is described once is, in every copy, what one would write out part by part.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <random>

#include "joinery/checks/checks.h"
#include "joinery/file/model_file.h"
#include "joinery/joints/evaluate.h"
#include "joinery/making/fit_changes.h"
#include "joinery/piece/part_list.h"
#include "joinery/piece/place_parts.h"
#include "tests/support/joint_bench.h"
#include "tests/support/random_assemblies.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"

namespace dryfit::test {
namespace {

using joinery::ModelFile;
using nlohmann::ordered_json;
using ::testing::HasSubstr;

ModelFile fileOf(const ordered_json& json) {
  auto file = ModelFile::parse(json.dump(), "piece");
  if (file) return std::move(*file);
  ADD_FAILURE() << file.error().line() << "\n" << json.dump(1);
  return std::move(*ModelFile::parse(ModelText().json().dump(), "nothing"));
}

joinery::Piece pieceIn(const ordered_json& json) {
  const ModelFile file = fileOf(json);
  auto piece = joinery::evaluate(file.model(), joinery::Basis::drawn);
  if (piece) return std::move(*piece);
  ADD_FAILURE() << piece.error().line() << "\n" << json.dump(1);
  return {};
}

std::string errorIn(const ordered_json& json) {
  const auto file = ModelFile::parse(json.dump(), "piece");
  if (!file) return file.error().line();
  const auto piece = joinery::evaluate(file->model(), joinery::Basis::drawn);
  if (!piece) return piece.error().line();
  ADD_FAILURE() << "read without complaint";
  return {};
}

template <class Triple>
void expectNear(const Triple& a, const Triple& b, const std::string& who) {
  for (int i = 0; i < 3; ++i) EXPECT_NEAR(a[i], b[i], 1e-6) << who;
}

/// Parts and joints in their order, whatever their names.
void expectAlike(const joinery::Piece& a, const joinery::Piece& b) {
  ASSERT_EQ(a.parts.size(), b.parts.size());
  ASSERT_EQ(a.joints.size(), b.joints.size());
  for (std::size_t i = 0; i < a.parts.size(); ++i) {
    const joinery::PlacedPart &one = a.parts[i], &other = b.parts[i];
    const std::string& who = a.model.parts[i].name;
    expectNear(one.span.min, other.span.min, who);
    expectNear(one.span.max, other.span.max, who);
    expectNear(one.frame.origin, other.frame.origin, who);
    EXPECT_EQ(one.faceSide, other.faceSide) << who;
    EXPECT_EQ(one.faceEdge, other.faceEdge) << who;
    ASSERT_EQ(one.tapers.size(), other.tapers.size()) << who;
    for (std::size_t t = 0; t < one.tapers.size(); ++t) {
      EXPECT_EQ(one.tapers[t].face, other.tapers[t].face) << who;
      EXPECT_EQ(one.tapers[t].narrowFar, other.tapers[t].narrowFar) << who;
    }
    ASSERT_EQ(one.features.size(), other.features.size()) << who;
    for (std::size_t f = 0; f < one.features.size(); ++f) {
      EXPECT_EQ(one.features[f].purpose, other.features[f].purpose) << who;
      expectNear(one.features[f].extent.min, other.features[f].extent.min, who);
      expectNear(one.features[f].extent.max, other.features[f].extent.max, who);
    }
  }
}

TEST(Assemblies, AreThePieceThatOneWouldWriteOutPartByPart) {
  std::mt19937_64 random(seed());
  for (int i = 0; i < repetitions(150); ++i) {
    SCOPED_TRACE(i);
    const TwoWays two = randomAssembly(random);
    const joinery::Piece assembled = pieceIn(two.assembled), flat = pieceIn(two.flat);
    expectAlike(assembled, flat);
    if (::testing::Test::HasFailure()) {
      ADD_FAILURE() << two.assembled.dump(1);
      return;
    }
    const auto rows = joinery::groupParts(assembled), flatRows = joinery::groupParts(flat);
    ASSERT_EQ(rows.size(), flatRows.size());
    for (std::size_t row = 0; row < rows.size(); ++row) {
      EXPECT_EQ(rows[row].parts, flatRows[row].parts);
      EXPECT_EQ(rows[row].mirrorOf, flatRows[row].mirrorOf);
    }
  }
}

TEST(Assemblies, HaveTheFindingsAndTheWoodOfThePieceWrittenOut) {
  std::mt19937_64 random(seed());
  for (int i = 0; i < repetitions(15); ++i) {
    const TwoWays two = randomAssembly(random);
    const auto assembled = dryFitOf(two.assembled), flat = dryFitOf(two.flat);
    ASSERT_TRUE(assembled && flat) << two.assembled.dump(1);
    ASSERT_EQ(assembled->findings.size(), flat->findings.size()) << two.assembled.dump(1);
    for (std::size_t f = 0; f < flat->findings.size(); ++f) {
      EXPECT_EQ(assembled->findings[f].kind, flat->findings[f].kind);
      EXPECT_EQ(assembled->findings[f].severity, flat->findings[f].severity);
      EXPECT_NEAR(assembled->findings[f].measured, flat->findings[f].measured, 1e-6);
    }
    for (std::size_t p = 0; p < flat->piece.parts.size(); ++p) {
      EXPECT_NEAR(solidOf(assembled->piece.parts[p]).volume(),
                  solidOf(flat->piece.parts[p]).volume(), 1e-3);
    }
  }
}

TEST(Assemblies, ReloadAsTheyWereSaved) {
  std::mt19937_64 random(seed());
  for (int i = 0; i < repetitions(100); ++i) {
    const TwoWays two = randomAssembly(random);
    const ModelFile file = fileOf(two.assembled);
    EXPECT_EQ(ordered_json::parse(file.text()), two.assembled);
    EXPECT_EQ(fileOf(ordered_json::parse(file.text())).text(), file.text());
  }
}

/// A door with a stile, a rail and a knob, described for an opening whose hinges are on the left.
ordered_json cupboard() {
  ModelText text;
  text.part("left", {"z", 0, 800}, {"y", 0, 300}, {"x", 0, 20})
      .part("right", {"z", 0, 800}, {"y", 0, 300}, {"x", 880, 20});
  ordered_json json = text.json();
  json["dimensions"] = {{"doors", {{"value", 2}, {"quantity", "number"}}}};
  json["assemblies"]["door"] = ordered_json::parse(R"({
    "neighbours": ["hinge_side"],
    "dimensions": {"gap": 2, "stile_width": {"value": 60, "note": "by hand"}},
    "parts": {
      "stile": {"material": "wood",
        "length": {"along": "z", "from": "opening.bottom + gap", "to": "opening.top - gap"},
        "width": {"along": "x", "from": "hinge_side.right + gap", "size": "stile_width"},
        "thickness": {"along": "y", "from": "opening.front", "size": 20}},
      "rail": {"material": "wood", "label": "rail of the door",
        "length": {"along": "x", "from": "stile.right", "to": "opening.right - gap"},
        "width": {"along": "z", "from": "stile.bottom", "size": 70},
        "thickness": {"along": "y", "from": "opening.front", "size": 20}}
    },
    "joints": {"corner": {"kind": "blind-mortise-tenon", "tenon": "rail", "mortise": "stile",
                          "offset": 1, "shoulder_bottom": 10}},
    "hardware": {"hinge": {"count": 2, "price": 3, "holds": ["stile"]}}
  })");
  json["uses"]["door"] = ordered_json::parse(R"({
    "of": "door",
    "opening": {"x": {"from": "left.right", "to": "(left.right + right.left) / 2"},
                "y": {"from": 0, "size": 20}, "z": {"from": 0, "to": 800}},
    "neighbours": {"hinge_side": ["left", "right"]},
    "repeat": {"mirrored": {"x": "(left.right + right.left) / 2"}}
  })");
  json["hardware"]["hinge"] = {{"count", 1}, {"note", "spare"}};
  return json;
}

TEST(Assemblies, AreMirroredToTheOtherHandWithTheirNeighbours) {
  const joinery::Piece piece = pieceIn(cupboard());
  const auto& stile = partNamed(piece, "door_1.stile");
  const auto& other = partNamed(piece, "door_2.stile");
  EXPECT_NEAR(stile.span.min.x, 22, 1e-9);
  EXPECT_NEAR(other.span.max.x, 878, 1e-9);
  EXPECT_NEAR(partNamed(piece, "door_2.rail").span.max.x, other.span.min.x, 1e-9);
  EXPECT_NEAR(partNamed(piece, "door_2.rail").span.min.x, 452, 1e-9);
  EXPECT_EQ(piece.label(partNamed(piece, "door_2.rail").id), "door 2 rail of the door");
  ASSERT_EQ(piece.model.hardware.size(), 1U);
  EXPECT_EQ(piece.model.hardware[0].count, 5);
  EXPECT_EQ(piece.model.hardware[0].holds,
            (std::vector<std::string>{"door_1.stile", "door_2.stile"}));
}

TEST(Assemblies, MirroredTwiceAreThemselves) {
  ordered_json once = cupboard();
  once["uses"]["door"].erase("repeat");
  once["uses"]["door"]["neighbours"] = {{"hinge_side", "left"}};
  ordered_json twice = once;
  // A door in a frame that is mirrored, mirrored in the frame.
  ordered_json use = once["uses"]["door"];
  use["opening"] = {{"x", {{"from", "opening.left"}, {"to", "opening.right"}}},
                    {"y", {{"from", "opening.front"}, {"to", "opening.back"}}},
                    {"z", {{"from", "opening.bottom"}, {"to", "opening.top"}}}};
  use["neighbours"] = {{"hinge_side", "side"}};
  for (const std::string axis : {"x", "y", "z"}) {
    SCOPED_TRACE(axis);
    use["mirror"] = axis;
    twice["assemblies"]["frame"] = {{"neighbours", {"side"}}, {"uses", {{"leaf", use}}}};
    twice["uses"]["door"] = once["uses"]["door"];
    twice["uses"]["door"]["of"] = "frame";
    twice["uses"]["door"]["neighbours"] = {{"side", "left"}};
    twice["uses"]["door"]["mirror"] = {axis};
    expectAlike(pieceIn(once), pieceIn(twice));
  }
}

/// Corners of a part's blank in the piece.
std::vector<kernel::Point3> cornersOf(const joinery::PlacedPart& part) {
  std::vector<kernel::Point3> corners;
  for (int i = 0; i < 8; ++i) {
    const kernel::Point3 local{(i & 1) != 0 ? part.size.x : 0, (i & 2) != 0 ? part.size.y : 0,
                               (i & 4) != 0 ? part.size.z : 0};
    corners.push_back(part.frame.place(local));
  }
  return corners;
}

TEST(Assemblies, TurnedOutOfSquareAreMirroredAsTheyStand) {
  std::mt19937_64 random(seed());
  std::uniform_real_distribution<double> angle(-40, 40), at(0, 500);
  for (int i = 0; i < repetitions(60); ++i) {
    ordered_json json = cupboard();
    ordered_json& use = json["uses"]["door"];
    const char* about = i % 3 == 0 ? "x" : i % 3 == 1 ? "y" : "z";
    use["turn"] = {
        {"about", about}, {"at", {at(random), at(random), at(random)}}, {"angle", angle(random)}};
    json["assemblies"]["door"]["groups"]["leaning"]["turn"] = {
        {"about", i % 2 == 0 ? "z" : "y"},
        {"at", {"opening.left", "opening.front + 5", "opening.bottom"}},
        {"angle", angle(random)}};
    json["assemblies"]["door"]["parts"]["rail"]["group"] = "leaning";
    const joinery::Piece piece = [&] {
      auto placed = joinery::placeParts(fileOf(json).model(), joinery::Basis::drawn);
      if (!placed) ADD_FAILURE() << placed.error().line();
      return placed ? std::move(*placed) : joinery::Piece();
    }();
    ASSERT_EQ(piece.parts.size(), 6U);
    for (const std::string part : {"stile", "rail"}) {
      const auto image = cornersOf(partNamed(piece, "door_2." + part));
      for (const kernel::Point3& corner : cornersOf(partNamed(piece, "door_1." + part))) {
        const kernel::Point3 wanted{900 - corner.x, corner.y, corner.z};
        const bool found = std::ranges::any_of(
            image, [&](const kernel::Point3& c) { return (c - wanted).norm() < 1e-6; });
        EXPECT_TRUE(found) << part << " about " << about;
      }
    }
  }
}

TEST(Assemblies, KeepWhatIsMeasuredAndMarkedOnOneCopyToThatCopy) {
  ModelFile file = fileOf(cupboard());
  using joinery::Measurement;
  ASSERT_TRUE(file.setMeasurement(
      {Measurement::Scope::part, "door_2.stile", joinery::SizeName::width, {"57.5", true}}));
  const auto piece = joinery::evaluate(file.model(), joinery::Basis::measured);
  ASSERT_TRUE(piece);
  EXPECT_NEAR(partNamed(*piece, "door_1.stile").size.y, 60, 1e-9);
  EXPECT_NEAR(partNamed(*piece, "door_2.stile").size.y, 57.5, 1e-9);
  EXPECT_NEAR(partNamed(*piece, "door_2.rail").size.x,
              partNamed(*piece, "door_1.rail").size.x + 2.5, 1e-9)
      << "its rail follows";
  const ordered_json saved = ordered_json::parse(file.text());
  EXPECT_EQ(saved["measured"]["parts"]["door_2.stile"]["width"], 57.5);
  EXPECT_EQ(saved["assemblies"], cupboard()["assemblies"]);
}

TEST(Assemblies, ChangeInAllCopiesWhereTheyAreDescribed) {
  ModelFile file = fileOf(cupboard());
  ASSERT_TRUE(file.setDimension("door_2.stile_width", "66"));
  ordered_json saved = ordered_json::parse(file.text());
  EXPECT_EQ(saved["assemblies"]["door"]["dimensions"]["stile_width"]["value"], 66);
  EXPECT_EQ(saved["assemblies"]["door"]["dimensions"]["stile_width"]["note"], "by hand");
  // The image's left is the original's right, and what lies toward the far side changes its sign
  // only where the thickness is mirrored.
  ASSERT_TRUE(file.setJointParameter("door_2.corner", "offset", "2"));
  ASSERT_TRUE(file.setJointParameter("door_2.corner", "face", "right"));
  saved = ordered_json::parse(file.text());
  EXPECT_EQ(saved["assemblies"]["door"]["joints"]["corner"]["offset"], 2);
  EXPECT_EQ(saved["assemblies"]["door"]["joints"]["corner"]["face"], "left");
  EXPECT_FALSE(file.setDimension("door_2.opening.left", "5")) << "that is where it stands";
}

TEST(Assemblies, TakeValuesOfTheirOwn) {
  ordered_json json = cupboard();
  json["uses"]["door"]["values"] = {{"stile_width", {60, "left.thickness * 4"}}};
  ModelFile file = fileOf(json);
  ASSERT_TRUE(file.setDimension("door_1.stile_width", "64"));
  const auto piece = joinery::evaluate(file.model(), joinery::Basis::drawn);
  ASSERT_TRUE(piece);
  EXPECT_NEAR(partNamed(*piece, "door_1.stile").size.y, 64, 1e-9);
  EXPECT_NEAR(partNamed(*piece, "door_2.stile").size.y, 80, 1e-9);
}

TEST(Assemblies, FillOpeningsOneAfterTheOther) {
  ordered_json json = cupboard();
  json["parts"]["shelf"] = ordered_json::parse(R"({"material": "wood",
    "repeat": {"count": "doors + 1", "spread": {"along": "z", "from": 0, "to": 800}},
    "length": {"along": "x", "from": "left.right", "to": "right.left"},
    "width": {"along": "y", "from": 0, "to": 300},
    "thickness": {"along": "z", "size": 20}})");
  json["uses"]["door"] = ordered_json::parse(R"({"of": "door", "repeat": "doors",
    "opening": {"x": {"from": "left.right", "to": "right.left"}, "y": {"from": 0, "size": 20},
                "z": {"from": "shelf_copy.top", "to": "shelf_next.bottom"}},
    "neighbours": {"hinge_side": "left"}})");
  const joinery::Piece piece = pieceIn(json);
  for (const std::string copy : {"1", "2"}) {
    const std::string next = copy == "1" ? "2" : "3";
    EXPECT_NEAR(partNamed(piece, "door_" + copy + ".stile").span.min.z,
                partNamed(piece, "shelf_" + copy).span.max.z + 2, 1e-9);
    EXPECT_NEAR(partNamed(piece, "door_" + copy + ".stile").span.max.z,
                partNamed(piece, "shelf_" + next).span.min.z - 2, 1e-9);
  }
}

TEST(Assemblies, NeedNoOpeningForAPartThatIsCalledOne) {
  ordered_json json = cupboard();
  json["assemblies"]["strip"]["parts"]["door_opening"] = json["parts"]["left"];
  json["assemblies"]["strip"]["parts"]["edge"] = json["parts"]["left"];
  json["assemblies"]["strip"]["parts"]["edge"]["width"]["from"] = "door_opening.back";
  for (auto& part : json["assemblies"]["strip"]["parts"]) part.erase("group");
  json["uses"] = {{"strip", {{"of", "strip"}}}};
  EXPECT_NEAR(partNamed(pieceIn(json), "strip.edge").span.min.y, 300, 1e-9);
}

TEST(Assemblies, OfferNoNumberOfOneCopyAloneToTakeUpAMisfit) {
  const auto numbers = joinery::freeNumbers(fileOf(cupboard()).model());
  for (const joinery::FreeNumber& number : numbers) {
    EXPECT_EQ(number.name.find('.'), std::string::npos) << number.name;
  }
}

TEST(Assemblies, AreJoinedToThePieceInEveryCopy) {
  ordered_json json = cupboard();
  json["joints"]["glue"] = {
      {"kind", "butt"}, {"first", "door.stile"}, {"second", {"left", "right"}}};
  const auto file = fileOf(json);
  ASSERT_EQ(file.model().joints.size(), 4U);
  EXPECT_EQ(file.model().joints[1].mates[0].parts[0], "door_2.stile");
  EXPECT_EQ(file.model().joints[1].mates[1].parts[0], "right");
}

TEST(Assemblies, ComeFromAFileOfTheirOwn) {
  const auto folder = std::filesystem::path(testing::TempDir()) / "dryfit_assembly_file";
  std::filesystem::create_directories(folder);
  ordered_json json = cupboard();
  const ordered_json door = json["assemblies"]["door"];
  json["assemblies"]["door"] = {{"file", "door.dryfit-part"}};
  const auto write = [&](const ordered_json& text, const std::string& name) {
    std::ofstream(folder / name) << text.dump(1);
  };
  write(json, "cupboard.dryfit");
  const auto load = [&] { return ModelFile::load(folder / "cupboard.dryfit"); };
  std::filesystem::remove(folder / "door.dryfit-part");
  ASSERT_FALSE(load());
  EXPECT_THAT(load().error().line(), HasSubstr("door.dryfit-part"));
  ordered_json own = {
      {"format", "dryfit-assembly"}, {"version", 1}, {"unit", "mm"}, {"assembly", door}};
  write(own, "door.dryfit-part");
  auto file = load();
  ASSERT_TRUE(file) << file.error().line();
  const auto piece = joinery::evaluate(file->model(), joinery::Basis::drawn);
  ASSERT_TRUE(piece) << piece.error().line();
  expectAlike(*piece, pieceIn(cupboard()));
  EXPECT_EQ(ordered_json::parse(file->text()), json);
  EXPECT_FALSE(file->setDimension("door_1.gap", "3")) << "others stand on that file";
  own["unit"] = "in";
  write(own, "door.dryfit-part");
  EXPECT_THAT(load().error().line(), HasSubstr("its unit is in and that of the piece mm"));
  own["unit"] = "mm";
  own["assembly"]["parts"]["rail"]["material"] = "oak";
  write(own, "door.dryfit-part");
  EXPECT_THAT(load().error().line(),
              HasSubstr("door.dryfit-part: assembly.parts.rail.material (in door_1)"));
  std::filesystem::remove_all(folder);
}

TEST(Assemblies, TellInOneLineWhatIsWrongAndInWhichCopy) {
  const auto with = [](const char* pointer, const ordered_json& value) {
    ordered_json json = cupboard();
    json[ordered_json::json_pointer(pointer)] = value;
    const std::string line = errorIn(json);
    EXPECT_THAT(line, Not(HasSubstr("\n")));
    return line;
  };
  EXPECT_THAT(with("/uses/door/of", "dor"),
              HasSubstr("uses.door.of: there is no sub-assembly 'dor'; did you mean 'door'?"));
  EXPECT_THAT(with("/uses/door/repeat", -1),
              HasSubstr("uses.door.repeat: the count is -1; a whole number from 0 to 1000"));
  EXPECT_THAT(with("/uses/door/repeat", 1000000), HasSubstr("the count is 1e+06"));
  EXPECT_THAT(with("/uses/door/repeat", 3), HasSubstr("the list has 2 entries for 3 copies"));
  EXPECT_THAT(with("/uses/door/when", "doors"),
              HasSubstr("uses.door.when: 'doors' compares nothing"));
  EXPECT_THAT(with("/uses/door/values/gp", 1), HasSubstr("no dimension 'gp'; did you mean 'gap'?"));
  EXPECT_THAT(with("/uses/door/neighbours", ordered_json::object()),
              HasSubstr("the neighbour 'hinge_side' is not given"));
  EXPECT_THAT(with("/uses/door/mirror", "w"), HasSubstr("there is no axis 'w'"));
  EXPECT_THAT(with("/uses/door/colour", "w"), HasSubstr("unknown key 'colour'"));
  EXPECT_THAT(with("/assemblies/door/parts/rail/length/from", "stil.right"),
              HasSubstr("assemblies.door.parts.rail.length.from (in door_1): there is no size "
                        "named 'stil.right'"));
  EXPECT_THAT(
      with("/assemblies/door/joints/corner/mortise", "stil"),
      HasSubstr("assemblies.door.joints.corner.mortise (in door_1): there is no part 'stil'"));
  EXPECT_THAT(with("/assemblies/door/parts/rail.end", {{"material", "wood"}}),
              HasSubstr("is not a name"));
  EXPECT_THAT(with("/assemblies/door/dimensions/rail", 5), HasSubstr("the name 'rail' is taken"));
  EXPECT_THAT(with("/assemblies/door/dimensions/opening", 5),
              HasSubstr("is kept for copies and openings"));
  EXPECT_THAT(with("/assemblies/door/uses/again", {{"of", "door"}}),
              HasSubstr("'door' stands in itself: door → door"));
  EXPECT_THAT(with("/hardware/hinge/price", 4), HasSubstr("'hinge' has two prices"));
  EXPECT_THAT(with("/hardware/hinge/count", 1e99), HasSubstr("the count is no whole number"));
}

TEST(Assemblies, AreRefusedWhereTheyWouldNeverEnd) {
  ordered_json json = cupboard();
  ordered_json use = {{"of", "row"}, {"repeat", 1000}};
  json["assemblies"]["slat"]["parts"]["one"] = json["parts"]["left"];
  json["assemblies"]["row"]["uses"]["slat"] = {{"of", "slat"}, {"repeat", 1000}};
  json["uses"]["row"] = use;
  EXPECT_THAT(errorIn(json), HasSubstr("the uses come to more than 20000 parts"));
}

}  // namespace
}  // namespace dryfit::test
