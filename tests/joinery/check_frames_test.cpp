// Whole frames from model text: what is sound by the rules passes, and turning changes nothing.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <random>

#include "joinery/file/model_file.h"
#include "joinery/fit/dry_fit.h"

namespace dryfit::joinery {
namespace {

struct FrameSizes {
  double width, height, stile, rail, stock, panel;
  bool haunched;
  double angle = 0;  ///< degrees by which the whole frame leans back
};

FrameSizes randomSizes(std::mt19937& random) {
  const auto between = [&](double low, double high) {
    return std::round(std::uniform_real_distribution<double>(low, high)(random) * 10) / 10;
  };
  FrameSizes s{};
  s.width = between(300, 900);
  s.height = between(400, 1500);
  s.stile = between(50, 90);
  s.rail = between(55, 110);
  s.stock = between(18, 32);
  s.panel = between(5, 8);
  s.haunched = between(0, 1) > 0.5;
  return s;
}

/// A frame of two stiles and two rails round a loose panel, all joints left to the rules but for
/// `extra` in the top left one.
std::string frameText(const FrameSizes& s, const std::string& extra = "") {
  const std::string kind = s.haunched ? "haunched-mortise-tenon" : "blind-mortise-tenon";
  const auto joint = [&](const char* name, const char* rail, const char* stile,
                         const std::string& more) {
    return fmt::format(R"("{}": {{"kind": "{}", "tenon": "{}", "mortise": "{}"{}}})", name, kind,
                       rail, stile, more);
  };
  const auto part = [&](const char* name, const std::string& length, const std::string& width,
                        const char* material) {
    return fmt::format(
        R"("{}": {{"material": "{}", "group": "frame", "length": {{{}}}, "width": {{{}}},
           "thickness": {{"along": "y", "centre": 0}}}})",
        name, material, length, width);
  };
  const std::string upright = fmt::format(R"("along": "z", "from": 0, "size": {})", s.height);
  const std::string across = R"("along": "x", "from": "left.right", "to": "right.left")";
  std::string text = fmt::format(
      R"({{"format": "dryfit-model", "version": 1, "name": "frame", "unit": "mm",
      "materials": {{"oak": {{"kind": "solid", "species": "white oak", "thickness": {}}},
                     "ply": {{"kind": "sheet", "species": "birch plywood", "thickness": {}}}}},
      "groups": {{"frame": {{"turn": {{"about": "x", "at": [0, 100, 50], "angle": {}}}}}}},
      "parts": {{)",
      s.stock, s.panel, s.angle);
  text +=
      part("left", upright, fmt::format(R"("along": "x", "from": 0, "size": {})", s.stile), "oak");
  text +=
      ",\n" + part("right", upright,
                   fmt::format(R"("along": "x", "to": {}, "size": {})", s.width, s.stile), "oak");
  text +=
      ",\n" + part("top", across,
                   fmt::format(R"("along": "z", "to": {}, "size": {})", s.height, s.rail), "oak");
  text += ",\n" + part("bottom", across,
                       fmt::format(R"("along": "z", "from": 0, "size": {})", s.rail), "oak");
  text += ",\n" +
          part("panel", R"("along": "z", "from": "bottom.top", "to": "top.bottom")", across, "ply");
  text += "},\n\"joints\": {\n";
  text += joint("top_left", "top", "left", extra) + ",\n";
  text += joint("top_right", "top", "right", "") + ",\n";
  text += joint("bottom_left", "bottom", "left", "") + ",\n";
  text += joint("bottom_right", "bottom", "right", "") + ",\n";
  text +=
      R"("groove": {"kind": "panel-groove", "panel": "panel", "frame": ["left", "right", "top", "bottom"]})";
  return text + "}}";
}

DryFit fitted(const std::string& text) {
  const auto model = ModelFile::parse(text, "frame");
  if (!model) {
    ADD_FAILURE() << model.error().line();
    return {};
  }
  auto fit = dryFit(model->model(), Basis::drawn);
  if (!fit) {
    ADD_FAILURE() << fit.error().line() << "\n" << text;
    return {};
  }
  return std::move(*fit);
}

TEST(Frames, BuiltByTheRulesHaveNoError) {
  const unsigned seed = std::random_device{}();
  SCOPED_TRACE(testing::Message() << "seed " << seed);
  std::mt19937 random(seed);
  for (int round = 0; round < 12; ++round) {
    const std::string text = frameText(randomSizes(random));
    const DryFit fit = fitted(text);
    ASSERT_EQ(fit.solids.size(), 5u);
    for (const Finding& finding : fit.findings) {
      EXPECT_NE(finding.severity, Severity::error) << finding.text << "\n" << text;
    }
  }
}

TEST(Frames, BreakOutExactlyWhereTheTenonPassesItsLimit) {
  // A stile of 60 with 2 mm below the tenon keeps 4.5 mm up to a tenon of 53.5 mm.
  for (const double length : {40.0, 53.0, 53.5, 53.6, 55.0, 58.0, 59.0}) {
    FrameSizes s{400, 700, 60, 80, 24, 6, true};
    const DryFit fit = fitted(frameText(s, fmt::format(R"(, "tenon_length": {})", length)));
    const auto found = std::count_if(
        fit.findings.begin(), fit.findings.end(),
        [](const Finding& f) { return f.kind == FindingKind::breakout && f.joint == JointId(0); });
    EXPECT_EQ(found, length > 53.5 ? 1 : 0) << length;
    const bool error = std::any_of(fit.findings.begin(), fit.findings.end(),
                                   [](const Finding& f) { return f.severity == Severity::error; });
    EXPECT_EQ(error, length >= 58) << length;
  }
}

TEST(Frames, AreJudgedAlikeHoweverTheyLean) {
  const unsigned seed = std::random_device{}();
  SCOPED_TRACE(testing::Message() << "seed " << seed);
  std::mt19937 random(seed);
  for (int round = 0; round < 3; ++round) {
    FrameSizes s = randomSizes(random);
    s.stile = 60;
    const std::string extra = R"(, "tenon_length": 56, "fit": 0.4)";
    const DryFit upright = fitted(frameText(s, extra));
    s.angle = std::uniform_real_distribution<double>(-90, 90)(random);
    const DryFit leaning = fitted(frameText(s, extra));
    ASSERT_GE(upright.findings.size(), 2u);
    ASSERT_EQ(leaning.findings.size(), upright.findings.size());
    const kernel::Frame turn =
        kernel::Frame::rotation({0, 100, 50}, {1, 0, 0}, Angle::degrees(s.angle));
    for (std::size_t i = 0; i < upright.findings.size(); ++i) {
      const Finding& a = upright.findings[i];
      const Finding& b = leaning.findings[i];
      EXPECT_EQ(a.text, b.text);
      EXPECT_EQ(a.mend, b.mend);
      EXPECT_EQ(a.severity, b.severity);
      EXPECT_NEAR(a.measured, b.measured, 1e-6);
      EXPECT_LT((turn.place(a.at) - b.at).norm(), 1e-6);
    }
  }
}

TEST(DemoPieces, HaveNoError) {
  for (const char* name : {"periodicals-cupboard", "reading-table", "step-stool", "wall-rack"}) {
    const auto file = ModelFile::load(std::string(DRYFIT_MODELS) + "/" + name + ".dryfit");
    ASSERT_TRUE(file.has_value()) << file.error().line();
    const auto fit = dryFit(file->model(), Basis::drawn);
    ASSERT_TRUE(fit.has_value()) << fit.error().line();
    for (const Finding& finding : fit->findings) {
      EXPECT_NE(finding.severity, Severity::error) << name << ": " << finding.text;
    }
  }
}

}  // namespace
}  // namespace dryfit::joinery
