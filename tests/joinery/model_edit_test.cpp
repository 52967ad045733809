#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>

#include "joinery/file/model_file.h"
#include "tests/joinery/model_samples.h"

namespace dryfit::joinery {
namespace {

/// The lines that differ between two texts of equally many lines.
std::vector<std::string> changedLines(const std::string& before, const std::string& after) {
  std::istringstream a(before), b(after);
  std::vector<std::string> changed;
  std::string x, y;
  while (std::getline(a, x) && std::getline(b, y)) {
    if (x != y) changed.push_back(y);
  }
  EXPECT_EQ(std::count(before.begin(), before.end(), '\n'),
            std::count(after.begin(), after.end(), '\n'));
  return changed;
}

TEST(ModelEdit, ChangesNothingButItsOwnLine) {
  ModelFile file = fileFrom(doorText());
  ASSERT_TRUE(file.setDimension("door_width", "412.5"));
  EXPECT_EQ(changedLines(doorText(), file.text()),
            std::vector<std::string>{"    \"door_width\": 412.5,"});
  EXPECT_EQ(file.model().dimensions[0].value, (Expression{"412.5", true}));
}

TEST(ModelEdit, KeepsTheNoteOfADimension) {
  ModelFile file = fileFrom(doorText());
  ASSERT_TRUE(file.setDimension("stile_width", " 2 1/4 in "));
  EXPECT_EQ(changedLines(doorText(), file.text()),
            std::vector<std::string>{"    \"stile_width\": {\"value\": \"2 1/4 in\", \"note\": "
                                     "\"wide enough for a lock\"},"});
}

TEST(ModelEdit, IsAllOrNothing) {
  ModelFile file = fileFrom(doorText());
  const auto refused = [&](const Result<void>& result, ErrorCode code, const std::string& says) {
    ASSERT_FALSE(result);
    EXPECT_EQ(result.error().code, code) << result.error().line();
    EXPECT_NE(result.error().line().find(says), std::string::npos) << result.error().line();
    EXPECT_EQ(result.error().line().find('\n'), std::string::npos);
    EXPECT_EQ(file.text(), doorText());
  };
  using Scope = Measurement::Scope;
  const auto measure = [&](Scope scope, const std::string& name, SizeName size,
                           const std::string& value) {
    return file.setMeasurement({scope, name, size, {value, false}});
  };
  refused(file.setDimension("dor_width", "3"), ErrorCode::unknownName, "'door_width'");
  refused(file.setDimension("door_width", "3 +"), ErrorCode::badExpression,
          "dimensions.door_width");
  refused(file.setDimension("door_width", ""), ErrorCode::badExpression, "empty");
  refused(file.setDimension("door_width", "\xff\n"), ErrorCode::badExpression, "no meaning");
  refused(measure(Scope::part, "left_style", SizeName::width, "3"), ErrorCode::unknownName,
          "'left_stile'");
  refused(measure(Scope::batch, "may", SizeName::thickness, "3"), ErrorCode::unknownName,
          "october");
  refused(measure(Scope::material, "elm", SizeName::thickness, "3"), ErrorCode::unknownName, "oak");
  refused(measure(Scope::material, "oak", SizeName::width, "3"), ErrorCode::badMeasurement,
          "only the thickness");
  for (const char* value : {"-3", "0", "wide", "3 + ", "200000", "1/0", "door_width"}) {
    refused(measure(Scope::part, "left_stile", SizeName::width, value), ErrorCode::badMeasurement,
            "measured.parts.left_stile.width");
  }
  refused(file.setJointParameter("top_lft", "fit", "0.1"), ErrorCode::unknownName, "'top_left'");
  refused(file.setJointParameter("top_left", "fitt", "0.1"), ErrorCode::unknownName, "'fit'");
  refused(file.setJointParameter("top_left", "fit", "0.1 0.2"), ErrorCode::badExpression,
          "joints.top_left.fit");
  refused(file.setJointParameter("top_left", "face", "upward"), ErrorCode::badModel, "left");
}

TEST(ModelEdit, RecordsAndForgetsMeasurements) {
  ModelFile file = fileFrom(doorText());
  const Measurement width{Measurement::Scope::part, "panel", SizeName::width, {"280.5", false}};
  ASSERT_TRUE(file.setMeasurement(width));
  EXPECT_NE(file.text().find("\"panel\": {\"width\": 280.5}"), std::string::npos) << file.text();
  EXPECT_EQ(file.model().measurements.size(), 4U);
  Measurement none = width;
  none.value.text = "";
  ASSERT_TRUE(file.setMeasurement(none));
  EXPECT_EQ(file.text(), doorText());
  ASSERT_TRUE(file.setMeasurement(none));  // taking away what is not there
  EXPECT_EQ(file.text(), doorText());
}

TEST(ModelEdit, LeavesNoEmptyRecordsBehind) {
  const std::string plain = fileFrom(RandomModel(5).text()).text();
  const std::string bare = replaced(plain, plain.substr(plain.find(",\n  \"measured\"")), "\n}\n");
  ModelFile file = fileFrom(bare);
  ASSERT_EQ(file.text(), bare);
  ASSERT_TRUE(file.setMeasurement({Measurement::Scope::part, "p0", SizeName::width, {"5", true}}));
  EXPECT_NE(file.text(), bare);
  ASSERT_TRUE(file.setMeasurement({Measurement::Scope::part, "p0", SizeName::width, {}}));
  EXPECT_EQ(file.text(), bare);
}

TEST(ModelEdit, SetsAndReturnsJointParameters) {
  ModelFile file = fileFrom(doorText());
  ASSERT_TRUE(file.setJointParameter("top_left", "tenon_length", "left_stile.width / 2"));
  ASSERT_TRUE(file.setJointParameter("top_left", "fit", "0.1"));
  ASSERT_EQ(file.model().joints[0].parameters.size(), 2U);
  EXPECT_EQ(file.model().joints[0].parameters[1].second, (Expression{"0.1", true}));
  ASSERT_TRUE(file.setJointParameter("top_left", "tenon_length", ""));
  ASSERT_TRUE(file.setJointParameter("top_left", "fit", " "));
  EXPECT_EQ(file.text(), doorText());
}

TEST(ModelEdit, OfACopyLeavesTheOriginal) {
  const ModelFile file = fileFrom(doorText());
  ModelFile copy = file;
  ASSERT_TRUE(copy.setDimension("door_width", "1"));
  EXPECT_EQ(file.text(), doorText());
  EXPECT_NE(copy.text(), doorText());
}

}  // namespace
}  // namespace dryfit::joinery
