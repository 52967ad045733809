// The stand in models/mistakes.dryfit has ten mistakes, each noted at its part or joint. All are
// found, nothing else is, and each goes away when it is mended as its finding says.
#include <gtest/gtest.h>

#include <algorithm>
#include <cctype>
#include <compare>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>
#include <string>
#include <tuple>

#include "joinery/file/model_file.h"
#include "joinery/fit/dry_fit.h"

namespace dryfit::joinery {
namespace {

using Json = nlohmann::ordered_json;

/// What a finding is about, by names.
struct About {
  std::string kind;
  std::vector<std::string> parts;
  std::string joint;  ///< empty where the finding names none
  friend auto operator<=>(const About&, const About&) = default;
};

std::ostream& operator<<(std::ostream& out, const About& about) {
  out << about.kind;
  for (const std::string& part : about.parts) out << ' ' << part;
  return out << " (" << about.joint << ')';
}

struct Mistake {
  About about;
  std::string mend;   ///< words of the finding's mend that say what to change
  std::string place;  ///< JSON pointer into the model file
  Json mended;
};

const std::vector<Mistake>& mistakes() {
  static const std::vector<Mistake> list{
      {{"interference", {"right_rail", "shelf"}, ""},
       "Shorten shelf by 4 mm at its right end",
       "/parts/shelf/length/to",
       "right_rail.left"},
      {{"clash", {"leg_front_left"}, "front_left"},
       "Make the tenon of joint front_left at most 24.5 mm long",
       "/joints/front_left/tenon_length",
       24.5},
      {{"clash", {"leg_back_right"}, "right_rail_back"},
       "Make the tenon of joint right_rail_back at most 25.3 mm long",
       "/joints/right_rail_back/tenon_length",
       25.3},
      {{"gap", {"right_apron", "leg_front_right"}, "right_front"},
       "Lengthen right apron by 1.5 mm",
       "/parts/right_apron/length/from",
       "leg_front_right.back"},
      {{"loose", {"front_apron", "leg_front_right"}, "front_right"},
       "Set the fit of joint front_right between 0.05 mm and 0.15 mm",
       "/joints/front_right/fit",
       0.15},
      {{"tight", {"back_apron", "leg_back_right"}, "back_right"},
       "Set the fit of joint back_right between 0.05 mm and 0.15 mm",
       "/joints/back_right/fit",
       0.05},
      {{"short-grain", {"back_rail"}, "back_rail_left"},
       "Run the grain of back rail along its length",
       "/parts/back_rail/grain",
       "length"},
      {{"envelope", {"top"}, ""},
       "Bring the width to between 428 mm and 432 mm",
       "/parts/top/length/size",
       432},
      {{"breakout", {"leg_front_left"}, "left_rail_front"},
       "Make the tenon of joint left_rail_front at most 43.5 mm long",
       "/joints/left_rail_front/tenon_length",
       43.5},
      {{"cross-grain", {"shelf", "batten"}, "batten_dowels"},
       "Glue at most 100 mm of the width",
       "/joints/batten_dowels/count",
       2},
  };
  return list;
}

Json stand() {
  std::ifstream file(std::string(DRYFIT_MODELS) + "/mistakes.dryfit");
  return Json::parse(file);
}

/// Findings of the stand by what they are about.
std::map<About, Finding> findingsOf(const Json& document) {
  const auto model = ModelFile::parse(document.dump(), "the stand");
  if (!model) {
    ADD_FAILURE() << model.error().line();
    return {};
  }
  const auto fit = dryFit(model->model(), Basis::drawn);
  if (!fit) {
    ADD_FAILURE() << fit.error().line();
    return {};
  }
  std::map<About, Finding> findings;
  for (const Finding& finding : fit->findings) {
    About about{std::string(nameOf(finding.kind)), {}, ""};
    for (const PartId part : finding.parts) about.parts.push_back(fit->piece.part(part).name);
    if (finding.joint) about.joint = fit->piece.joint(*finding.joint).name;
    EXPECT_TRUE(findings.emplace(about, finding).second) << "told twice: " << about;
  }
  return findings;
}

/// Findings of the stand as it is in the file.
const std::map<About, Finding>& findingsAsMade() {
  static const std::map<About, Finding> findings = findingsOf(stand());
  return findings;
}

TEST(Mistakes, AreFoundOneByOneAndNothingElseIs) {
  std::set<About> expected;
  for (const Mistake& mistake : mistakes()) expected.insert(mistake.about);
  ASSERT_EQ(expected.size(), 10u);
  std::set<About> found;
  for (const auto& [about, finding] : findingsAsMade()) found.insert(about);
  EXPECT_EQ(found, expected);
}

TEST(Mistakes, AreTeachable) {
  for (const auto& [about, finding] : findingsAsMade()) {
    SCOPED_TRACE(testing::Message() << about);
    EXPECT_FALSE(finding.source.empty());
    EXPECT_GT(finding.text.size(), 20u);
    EXPECT_EQ(finding.text.back(), '.');
    EXPECT_EQ(finding.mend.back(), '.');
    EXPECT_NE(finding.measured, finding.limit);
    // The place lies within its own box, and the box near the stand.
    const kernel::Box3 box = finding.box.grown(1e-6);
    for (int axis = 0; axis < 3; ++axis) {
      EXPECT_GE(finding.at[axis], box.min[axis]);
      EXPECT_LE(finding.at[axis], box.max[axis]);
      EXPECT_GT(box.min[axis], -50);
      EXPECT_LT(box.max[axis], 550);
    }
  }
}

TEST(Mistakes, AreEachNotedWhereTheyWereMade) {
  const Json document = stand();
  std::size_t notes = 0;
  for (const char* list : {"parts", "joints"}) {
    for (const Json& entry : document[list]) {
      const std::string note = entry.value("note", "");
      if (note.rfind("mistake, ", 0) == 0) ++notes;
    }
  }
  EXPECT_EQ(notes, mistakes().size());
}

class EachMistake : public testing::TestWithParam<std::size_t> {};

TEST_P(EachMistake, GoesAwayWhenItIsMendedAsItsFindingSays) {
  const Mistake& mistake = mistakes()[GetParam()];
  SCOPED_TRACE(testing::Message() << mistake.about);
  const auto& before = findingsAsMade();
  ASSERT_TRUE(before.contains(mistake.about));
  EXPECT_NE(before.at(mistake.about).mend.find(mistake.mend), std::string::npos)
      << before.at(mistake.about).mend;

  Json document = stand();
  document[Json::json_pointer(mistake.place)] = mistake.mended;
  const auto after = findingsOf(document);
  EXPECT_FALSE(after.contains(mistake.about));
  // The other nine stay, and the mend makes no new mistake.
  EXPECT_EQ(after.size(), mistakes().size() - 1);
  for (const Mistake& other : mistakes()) {
    if (other.about != mistake.about) {
      EXPECT_TRUE(after.contains(other.about)) << other.about;
    }
  }
}

std::string nameOfMistake(const testing::TestParamInfo<std::size_t>& info) {
  std::string name = mistakes()[info.param].about.kind + "Of" + mistakes()[info.param].place;
  std::erase_if(name, [](char c) { return std::isalnum(static_cast<unsigned char>(c)) == 0; });
  return name;
}

INSTANTIATE_TEST_SUITE_P(Stand, EachMistake, testing::Range(std::size_t{0}, std::size_t{10}),
                         nameOfMistake);

TEST(Mistakes, AreAllGoneWhenAllAreMended) {
  Json document = stand();
  for (const Mistake& mistake : mistakes()) {
    document[Json::json_pointer(mistake.place)] = mistake.mended;
  }
  EXPECT_TRUE(findingsOf(document).empty());
}

}  // namespace
}  // namespace dryfit::joinery
