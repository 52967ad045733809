// Several parts changed at once are as if changed one by one; all of them, or none.

#include "joinery/file/many_edits.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "joinery/fit/dry_fit.h"
#include "tests/support/random_answers.h"
#include "tests/support/random_pieces.h"

namespace dryfit::test {
namespace {

using joinery::Basis;
using joinery::ModelFile;

/// Up to four parts that an author may change: those of no sub-assembly.
std::vector<std::string> someParts(const ModelFile& file, std::mt19937_64& random) {
  std::vector<std::string> names;
  for (const joinery::Part& part : file.model().parts) {
    if (part.name.find('.') == std::string::npos) names.push_back(part.name);
  }
  std::ranges::shuffle(names, random);
  names.resize(std::min<std::size_t>(names.size(), 4));
  return names;
}

std::map<std::string, double> valuesOf(const ModelFile& file) {
  const auto piece = joinery::evaluate(file.model(), Basis::drawn).value();
  return {piece.values.begin(), piece.values.end()};
}

TEST(ManyEdits, TakePartsOutAsOneByOne) {
  std::mt19937_64 random(seed());
  for (const joinery::Starter& starter : builtInStarters()) {
    const ModelFile whole = starterFile(starter);
    const auto parts = someParts(whole, random);
    const auto values = valuesOf(whole);
    ModelFile together = whole, each = whole;
    const auto done = joinery::eraseParts(together, parts, values);
    bool allGone = true;
    for (const std::string& part : parts) {
      const auto& left = each.model().parts;
      // A copy may have gone with its original.
      if (std::ranges::find(left, part, &joinery::Part::name) == left.end()) continue;
      allGone = allGone && joinery::erasePart(each, part, values);
    }
    ASSERT_EQ(done.has_value(), allGone) << starter.name;
    EXPECT_EQ(together.text(), done ? each.text() : whole.text()) << starter.name;
    EXPECT_TRUE(ModelFile::parse(together.text(), "again").value().saysTheSame(together));
  }
}

TEST(ManyEdits, GiveAllOneMaterialOrNone) {
  std::mt19937_64 random(seed());
  for (const joinery::Starter& starter : builtInStarters()) {
    ModelFile file = starterFile(starter);
    const std::string before = file.text();
    const auto parts = someParts(file, random);
    if (parts.empty()) continue;
    EXPECT_FALSE(joinery::setMaterialOf(file, parts, "moon_stone"));
    EXPECT_EQ(file.text(), before) << starter.name;
    const std::string wood = file.model().materials.front().name;
    ASSERT_TRUE(joinery::setMaterialOf(file, parts, wood)) << starter.name;
    for (const joinery::Part& part : file.model().parts) {
      if (std::ranges::count(parts, part.name) > 0) {
        EXPECT_EQ(part.material, wood);
      }
    }
  }
}

TEST(ManyEdits, PutPartsIntoAGroupAndOutOfIt) {
  std::mt19937_64 random(seed());
  ModelFile file = starterFile(builtInStarters().front());
  const auto parts = someParts(file, random);
  ASSERT_TRUE(joinery::putIntoGroup(file, parts, "carried_in_first"));
  for (const joinery::Part& part : file.model().parts) {
    if (std::ranges::count(parts, part.name) > 0) {
      EXPECT_EQ(part.group, "carried_in_first");
    }
  }
  ASSERT_TRUE(joinery::putIntoGroup(file, parts, ""));
  for (const joinery::Part& part : file.model().parts) {
    if (std::ranges::count(parts, part.name) > 0) {
      EXPECT_EQ(part.group, "");
    }
  }
}

TEST(ManyEdits, NameNothingThatGoesItself) {
  std::mt19937_64 random(seed());
  for (const joinery::Starter& starter : builtInStarters()) {
    const ModelFile file = starterFile(starter);
    const auto parts = someParts(file, random);
    const auto hangs = joinery::hangingOnAll(file, parts);
    if (!hangs) continue;
    for (const std::string& place : hangs->expressions) {
      for (const std::string& part : parts) {
        EXPECT_FALSE(place.starts_with(file.authoredPlace("parts", part) + ".")) << place;
      }
    }
  }
}

}  // namespace
}  // namespace dryfit::test
