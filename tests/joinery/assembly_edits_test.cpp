// What stands in a piece several times is changed once, in its description, and all that names it
// follows.

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <set>

#include "joinery/file/assembly_edits.h"
#include "joinery/file/part_edits.h"
#include "joinery/joints/evaluate.h"
#include "tests/support/random_answers.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"

namespace dryfit::test {
namespace {

using joinery::ModelFile;
using joinery::Part;
using ::testing::HasSubstr;

std::map<std::string, double> valuesOf(const ModelFile& file) {
  const auto piece = joinery::evaluate(file.model(), joinery::Basis::drawn);
  if (!piece) ADD_FAILURE() << piece.error().line();
  return piece ? std::map<std::string, double>{piece->values.begin(), piece->values.end()}
               : std::map<std::string, double>{};
}

/// One part for each that a sub-assembly describes: by its place.
std::map<std::string, std::string> describedParts(const ModelFile& file) {
  std::map<std::string, std::string> parts;
  for (const Part& part : file.model().parts) {
    const std::string place = file.authoredPlace("parts", part.name);
    if (place.starts_with("assemblies.")) parts.emplace(place, part.name);
  }
  return parts;
}

TEST(AssemblyEdits, ADescribedPartIsRenamedForAllCopiesAndBackAgain) {
  int renamed = 0;
  for (const joinery::Starter& starter : builtInStarters()) {
    const ModelFile whole = starterFile(starter);
    const auto before = valuesOf(whole);
    for (const auto& [place, part] : describedParts(whole)) {
      ModelFile file = whole;
      const auto done = joinery::renamePart(file, part, "other_wood");
      ASSERT_TRUE(done) << starter.name << " " << part << ": " << done.error().line();
      const auto after = valuesOf(file);
      ASSERT_EQ(after.size(), before.size()) << starter.name << " " << part;
      std::multiset<double> numbers, now;
      for (const auto& [name, value] : before) numbers.insert(value);
      for (const auto& [name, value] : after) now.insert(value);
      EXPECT_EQ(now, numbers) << starter.name << " " << part;
      const std::string own = place.substr(place.rfind('.') + 1);
      const auto named = std::ranges::find_if(file.model().parts, [&](const Part& one) {
        return file.authoredPlace("parts", one.name).ends_with(".other_wood");
      });
      ASSERT_NE(named, file.model().parts.end());
      ASSERT_TRUE(joinery::renamePart(file, named->name, own));
      EXPECT_EQ(file.text(), whole.text()) << starter.name << " " << part;
      ++renamed;
    }
  }
  EXPECT_GT(renamed, 20);
}

TEST(AssemblyEdits, ADescribedPartTakenOutLeavesTheRestOfEveryCopyWhereItWas) {
  int gone = 0, refused = 0;
  for (const joinery::Starter& starter : builtInStarters()) {
    const ModelFile whole = starterFile(starter);
    const auto before = valuesOf(whole);
    for (const auto& [place, part] : describedParts(whole)) {
      ModelFile file = whole;
      if (const auto done = joinery::erasePart(file, part, before); !done) {
        EXPECT_EQ(file.text(), whole.text()) << "what is refused changes nothing";
        ++refused;
        continue;
      }
      ++gone;
      EXPECT_LT(file.model().parts.size(), whole.model().parts.size());
      for (const auto& [name, value] : valuesOf(file)) {
        EXPECT_NEAR(value, before.at(name), 1e-6) << starter.name << " " << part << ": " << name;
      }
    }
  }
  EXPECT_GT(gone, 10 * refused) << gone << " gone, " << refused << " refused";
}

TEST(AssemblyEdits, ANameThatWouldBeMistakenIsRefused) {
  for (const joinery::Starter& starter : builtInStarters()) {
    if (starter.name != "wardrobe") continue;
    ModelFile file = starterFile(starter);
    const std::string before = file.text();
    EXPECT_THAT(joinery::renamePart(file, "door_1.panel", "top_rail").error().line(),
                HasSubstr("is taken"));
    EXPECT_THAT(joinery::renamePart(file, "door_1.panel", "hinge_side").error().line(),
                HasSubstr("is taken"))
        << "a neighbour";
    EXPECT_EQ(file.text(), before);
  }
}

/// Some parts at random, as many as are asked for.
std::vector<std::string> someParts(const ModelFile& file, std::mt19937_64& random, std::size_t n) {
  std::vector<std::string> names;
  for (const Part& part : file.model().parts) names.push_back(part.name);
  std::ranges::shuffle(names, random);
  names.resize(std::min(names.size(), n));
  return names;
}

/// Every number that a part has, found again under its name or that of the sub-assembly it is in.
void expectSameNumbers(const std::map<std::string, double>& before,
                       const std::map<std::string, double>& after, const std::string& prefix,
                       const std::string& trace) {
  for (const auto& [name, value] : before) {
    auto now = after.find(name);
    if (now == after.end()) now = after.find(prefix + name);
    ASSERT_NE(now, after.end()) << trace << ": " << name << " is gone";
    EXPECT_NEAR(now->second, value, 1e-6) << trace << ": " << name;
  }
}

TEST(AssemblyEdits, PartsMadeASubAssemblyStandWhereTheyStood) {
  std::mt19937_64 random(seed());
  int made = 0, refused = 0;
  for (const joinery::Starter& starter : builtInStarters()) {
    const ModelFile whole = starterFile(starter);
    const auto before = valuesOf(whole);
    for (int i = 0; i < repetitions(12); ++i) {
      ModelFile file = whole;
      const auto parts = someParts(whole, random, 1 + random() % 5);
      std::string trace = starter.name;
      for (const std::string& part : parts) trace += " " + part;
      const auto done = joinery::makeAssembly(file, parts, "unit_made", before);
      if (!done) {
        EXPECT_EQ(file.text(), whole.text());
        EXPECT_THAT(done.error().line(), HasSubstr("are chosen")) << trace;
        ++refused;
        continue;
      }
      ++made;
      EXPECT_EQ(file.model().parts.size(), whole.model().parts.size()) << trace;
      EXPECT_EQ(file.model().joints.size(), whole.model().joints.size()) << trace;
      for (const std::string& part : parts) {
        EXPECT_EQ(joinery::useOfPart(file, "unit_made." + part), "unit_made") << trace;
      }
      expectSameNumbers(before, valuesOf(file), "unit_made.", trace);
      if (::testing::Test::HasFailure()) {
        GTEST_FAIL() << file.text();
      }
    }
  }
  EXPECT_GT(made, refused) << made << " made, " << refused << " refused";
}

/// The numbers of the faces of all parts, whatever the parts are called.
std::multiset<long long> placesOf(const ModelFile& file) {
  const auto values = valuesOf(file);
  std::multiset<long long> places;
  for (const Part& part : file.model().parts) {
    for (const char* face : {"left", "right", "front", "back", "bottom", "top"}) {
      places.insert(std::llround(values.at(part.name + "." + face) * 1e4));
    }
  }
  return places;
}

TEST(AssemblyEdits, WhatIsDissolvedStandsWhereItStood) {
  int dissolved = 0, refused = 0;
  for (const joinery::Starter& starter : builtInStarters()) {
    const ModelFile whole = starterFile(starter);
    for (const std::string& use : joinery::useNames(whole)) {
      ModelFile file = whole;
      const auto done = joinery::dissolve(file, use);
      if (!done) {
        EXPECT_EQ(file.text(), whole.text());
        EXPECT_THAT(done.error().line(), HasSubstr("no name of its own")) << starter.name;
        ++refused;
        continue;
      }
      ++dissolved;
      EXPECT_EQ(placesOf(file), placesOf(whole)) << starter.name << " " << use;
      EXPECT_EQ(file.model().joints.size(), whole.model().joints.size()) << starter.name;
      const auto names = joinery::useNames(file);
      EXPECT_EQ(std::ranges::count(names, use), 0);
    }
  }
  EXPECT_GT(dissolved, 2 * refused) << dissolved << " dissolved, " << refused << " refused";
}

TEST(AssemblyEdits, WhatIsMadeAndDissolvedIsThePieceThatItWas) {
  std::mt19937_64 random(seed());
  int done = 0;
  for (const joinery::Starter& starter : builtInStarters()) {
    const ModelFile whole = starterFile(starter);
    const auto before = valuesOf(whole);
    for (int i = 0; i < repetitions(6); ++i) {
      ModelFile file = whole;
      const auto parts = someParts(whole, random, 1 + random() % 4);
      if (!joinery::makeAssembly(file, parts, "unit_made", before)) continue;
      if (const auto back = joinery::dissolve(file, "unit_made"); !back) {
        EXPECT_THAT(back.error().line(), HasSubstr("no name of its own")) << starter.name;
        continue;
      }
      EXPECT_EQ(placesOf(file), placesOf(whole)) << starter.name;
      ++done;
    }
  }
  EXPECT_GT(done, 0);
}

TEST(AssemblyEdits, AMadeSubAssemblyFitsItsOwnOpeningAgain) {
  std::mt19937_64 random(seed());
  int put = 0;
  for (const joinery::Starter& starter : builtInStarters()) {
    ModelFile file = starterFile(starter);
    const auto parts = someParts(file, random, 1);
    if (!joinery::makeAssembly(file, parts, "unit_made", valuesOf(file))) continue;
    const joinery::JsonNode& first = *file.document().find("uses")->find("unit_made");
    joinery::NewUse use{"unit_again", "unit_made", {}, {}, {}};
    for (const auto& [axis, span] : first.find("opening")->members) {
      joinery::NewSpan own{axis, {}, {}, {}, {}};
      if (const auto* end = span.find("from")) own.from = end->text;
      if (const auto* end = span.find("to")) own.to = end->text;
      if (const auto* end = span.find("size")) own.size = end->text;
      use.opening.push_back(own);
    }
    for (const char* section : {"neighbours", "values"}) {
      const auto* list = first.find(section);
      if (list == nullptr) continue;
      for (const auto& [key, value] : list->members) {
        (section == std::string("values") ? use.values : use.neighbours)
            .emplace_back(key, value.text);
      }
    }
    const auto done = joinery::putAssembly(file, use);
    ASSERT_TRUE(done) << starter.name << ": " << done.error().line();
    ++put;
    const auto values = valuesOf(file);
    for (const auto& [name, value] : values) {
      if (!name.starts_with("unit_made.")) continue;
      EXPECT_NEAR(values.at("unit_again." + name.substr(10)), value, 1e-9) << starter.name;
    }
    ASSERT_TRUE(joinery::dissolve(file, "unit_again"));
    EXPECT_EQ(joinery::usesOf(file, "unit_made").size(), 1U) << "the first one stays";
  }
  EXPECT_GT(put, 5);
}

TEST(AssemblyEdits, AUseMayHaveANumberOfItsOwn) {
  for (const joinery::Starter& starter : builtInStarters()) {
    if (starter.name != "wall_cupboard") continue;
    ModelFile file = starterFile(starter);
    const std::string before = file.text();
    ASSERT_TRUE(joinery::setUseValue(file, "door", "stile_width", "66"));
    EXPECT_NEAR(valuesOf(file).at("door.stile_1.width"), 66, 1e-9);
    const auto values = joinery::valuesOf(file, "door");
    ASSERT_TRUE(values);
    const auto stile = std::ranges::find(*values, "stile_width", &joinery::UseValue::name);
    EXPECT_EQ(stile->own, "66");
    EXPECT_EQ(stile->other, "58");
    EXPECT_FALSE(joinery::setUseValue(file, "door", "stile", "1")) << "no such number";
    ASSERT_TRUE(joinery::setUseValue(file, "door", "stile_width", ""));
    EXPECT_EQ(file.text(), before);
  }
}

}  // namespace
}  // namespace dryfit::test
