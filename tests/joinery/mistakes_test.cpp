// The newspaper stand in models/mistakes.dryfit has twelve mistakes, each noted at its part, joint
// or mark. All are found, nothing else is, and each goes away when it is mended as its finding
// says.
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
      {{"interference", {"right_tray_arm", "tray"}, ""},
       "Shorten tray by 5 mm at its right end",
       "/parts/tray/length/to",
       "right_tray_arm.left"},
      // The post's front lies at 270; the rail's mortise begins at 318.5 - 4 = 314.5. Of those 44.5
      // mm go 4.5 for the wall and 2 for the clearance at the bottom.
      {{"clash", {"left_post"}, "top_rail_left"},
       "Make the tenon of joint left_arm_in_post at most 38 mm long",
       "/joints/left_arm_in_post/tenon_length",
       38},
      // The groove, 6.3 wide about 318.5, begins at 315.35: 45.35 - 4.5 - 2 = 38.85.
      {{"clash", {"right_post"}, "right_tray_arm_in_post"},
       "Make the tenon of joint right_tray_arm_in_post at most 38.8 mm long",
       "/joints/right_tray_arm_in_post/tenon_length",
       38.8},
      {{"gap", {"middle_rail", "right_post"}, "middle_rail_right"},
       "Make middle rail 2 mm longer at its right",
       "/parts/middle_rail/length/to",
       "right_post.left"},
      {{"loose", {"stick_bar", "left_arm"}, "bar_left"},
       "Set the fit of joint bar_left between 0.05 mm and 0.15 mm",
       "/joints/bar_left/fit",
       0.15},
      {{"tight", {"top_rail", "right_post"}, "top_rail_right"},
       "Set the fit of joint top_rail_right between 0.05 mm and 0.15 mm",
       "/joints/top_rail_right/fit",
       0.05},
      {{"short-grain", {"bottom_rail"}, "bottom_rail_left"},
       "Run the grain of bottom rail along its length",
       "/parts/bottom_rail/grain",
       "length"},
      {{"envelope", {"left_foot", "right_foot"}, ""},
       "Bring the depth to between 437 mm and 443 mm",
       "/parts/right_foot/length/size",
       "foot_length + 3"},
      // Of a foot 66 high: 66 - 4.5 - 2.
      {{"breakout", {"left_foot"}, "left_post_in_foot"},
       "Make the tenon of joint left_post_in_foot at most 59.5 mm long",
       "/joints/left_post_in_foot/tenon_length",
       59.5},
      {{"cross-grain", {"tray", "tray_batten"}, "batten_dowels"},
       "Glue at most 101.6 mm of the width",
       "/joints/batten_dowels/count",
       2},
      // A quarter of 27 is 6.75.
      {{"weak", {"right_arm"}, "right_arm_in_post"},
       "Make it at least 6.75 mm thick",
       "/joints/right_arm_in_post/tenon_thickness",
       7},
      {{"locked", {"stick_bar"}, ""},
       "Make bar_width 41 mm (3 mm less)",
       "/dimensions/bar_width",
       41},
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
  ASSERT_EQ(expected.size(), 12u);
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
      EXPECT_LT(box.max[axis], 1130);
    }
  }
}

TEST(Mistakes, AreEachNotedWhereTheyWereMade) {
  const Json document = stand();
  std::size_t notes = 0;
  for (const char* list : {"parts", "joints", "marks"}) {
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
  // The other eleven stay, and the mend makes no new mistake.
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

INSTANTIATE_TEST_SUITE_P(Stand, EachMistake, testing::Range(std::size_t{0}, std::size_t{12}),
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
