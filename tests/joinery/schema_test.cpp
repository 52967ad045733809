#include <fmt/format.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>
#include <valijson/adapters/nlohmann_json_adapter.hpp>
#include <valijson/schema.hpp>
#include <valijson/schema_parser.hpp>
#include <valijson/validator.hpp>

#include "joinery/piece/place_parts.h"
#include "joinery/trade/machines.h"
#include "tests/joinery/cupboard_sample.h"
#include "tests/joinery/model_samples.h"

namespace dryfit::joinery {
namespace {

using nlohmann::json;

/// The schema that ships with the models, in the hands of an independent validator.
class ModelSchema : public ::testing::Test {
 protected:
  ModelSchema() {
    std::ifstream in(std::filesystem::path(DRYFIT_MODELS) / "dryfit-model.schema.json");
    const json document = json::parse(in);
    const valijson::adapters::NlohmannJsonAdapter adapter(document);
    valijson::SchemaParser(valijson::SchemaParser::kDraft7).populateSchema(adapter, schema_);
  }
  [[nodiscard]] bool takes(const json& document) {
    const valijson::adapters::NlohmannJsonAdapter adapter(document);
    return valijson::Validator().validate(schema_, adapter, nullptr);
  }
  [[nodiscard]] bool takes(const std::string& text) { return takes(json::parse(text)); }

 private:
  valijson::Schema schema_;
};

TEST_F(ModelSchema, TakesTheModelsThatAreShipped) {
  int models = 0;
  for (const auto& entry : std::filesystem::directory_iterator(DRYFIT_MODELS)) {
    if (entry.path().extension() != ".dryfit") continue;
    std::ifstream in(entry.path());
    EXPECT_TRUE(takes(json::parse(in))) << entry.path();
    const auto file = ModelFile::load(entry.path());
    EXPECT_TRUE(file) << file.error().line();
    if (!file) continue;
    EXPECT_EQ(fileFrom(file->text()).text(), file->text());
    const auto piece = placeParts(file->model(), Basis::measured);
    EXPECT_TRUE(piece) << piece.error().line();
    ++models;
  }
  EXPECT_GT(models, 0);
}

TEST_F(ModelSchema, TakesWhatTheReaderTakes) {
  EXPECT_TRUE(takes(doorText()));
  EXPECT_TRUE(takes(pricedDoor()));
  for (unsigned seed = 1; seed <= 100; ++seed) {
    SCOPED_TRACE(seed);
    EXPECT_TRUE(takes(RandomModel(seed).text()));
  }
}

TEST_F(ModelSchema, KnowsWhatIsRepeatedOrDependsOnACondition) {
  const json good = json::parse(doorText());
  const auto with = [&](const json& part) {
    json changed = good;
    json& rail = changed["parts"]["top_rail"];
    for (const auto& [key, value] : part.items()) rail[key] = value;
    const bool taken = takes(changed);
    EXPECT_EQ(taken, ModelFile::parse(changed.dump(), "door").has_value()) << part;
    return taken;
  };
  EXPECT_TRUE(with({{"when", "1 > 0"}}));
  EXPECT_TRUE(with({{"repeat", "1"}}));
  EXPECT_FALSE(with({{"when", 1}}));
  EXPECT_FALSE(with({{"repeat", json::array()}}));
  EXPECT_FALSE(with({{"repeat", {{"often", 2}}}}));
  const json spread = {{"along", "y"}, {"from", 0}, {"to", 90}};
  EXPECT_TRUE(
      with({{"repeat", {{"count", 2}, {"spread", spread}}}, {"thickness", {{"along", "y"}}}}));
  EXPECT_FALSE(with({{"repeat", {{"count", 2}, {"spread", {{"along", "y"}, {"from", 0}}}}}}));
}

TEST_F(ModelSchema, KnowsTheMachinesThatTheReaderKnows) {
  const std::string timber = R"("rough": {"price": 4000,)", sheet = R"("rough": {"price": 60)";
  int taken = 0;
  for (const MachineRow& row : machines()) {
    for (const std::string& rough : {timber, sheet}) {
      for (const auto* side : {"ends", "edges", "faces", "resaw"}) {
        SCOPED_TRACE(fmt::format("{}, {}, {}", row.word, side, rough));
        const std::string by = fmt::format(R"("worked_by": {{"{}": "{}"}}, )", side, row.word);
        const std::string text = replaced(
            pricedDoor(), rough, "\"rough\": {" + by + rough.substr(rough.find("\"price")));
        const auto file = ModelFile::parse(text, "door");
        EXPECT_EQ(takes(text), file.has_value()) << (file ? "" : file.error().line());
        taken += file ? 1 : 0;
      }
    }
  }
  EXPECT_GT(taken, 0);
}

/// Every place in a document, as JSON pointers.
void places(const json& node, const json::json_pointer& at, std::vector<json::json_pointer>& out) {
  out.push_back(at);
  if (node.is_object()) {
    for (const auto& [key, value] : node.items()) places(value, at / key, out);
  } else if (node.is_array()) {
    for (std::size_t i = 0; i < node.size(); ++i) places(node[i], at / i, out);
  }
}

/// A piece half made: marked parts, a taper, moisture.
std::string halfMadeText() {
  ModelFile file = fileFrom(replaced(
      cupboardText(), "  \"joints\": {",
      "  \"tapers\": {\"lean\": {\"parts\": [\"left_scribe\"], \"size\": \"width\", \"face\": "
      "\"left\", \"narrow_end\": \"top\", \"by\": 2, \"from\": \"rail_width\", \"measured\": "
      "true}},\n  \"joints\": {"));
  if (!file.setMoisture(Measurement::Scope::part, "top_rail", "9.5")) ADD_FAILURE();
  if (!file.setMoisture(Measurement::Scope::batch, "october", "9")) ADD_FAILURE();
  mark(file, "left_scribe", MarkState::rough);
  mark(file, "left_stile", MarkState::cut);
  mark(file, "top_rail", MarkState::jointed);
  return file.text();
}

TEST_F(ModelSchema, TakesAPieceThatIsHalfMade) {
  EXPECT_TRUE(takes(halfMadeText()));
}

// Joints are open in the schema, since their keys depend on the kind: the reader alone knows them.
TEST_F(ModelSchema, RefusesEveryWrongFormThatTheReaderRefuses) {
  for (const std::string& text : {pricedDoor(), halfMadeText()}) {
    const json good = json::parse(text);
    std::vector<json::json_pointer> all;
    places(good, json::json_pointer(), all);
    const auto compare = [&](const json& changed, const std::string& what) {
      const auto file = ModelFile::parse(changed.dump(), "m");
      // Spans are counted in the schema and at evaluation, not by the reader.
      const bool read = file && placeParts(file->model(), Basis::drawn);
      if (!takes(changed)) {
        EXPECT_FALSE(read) << what << " passes the reader and not the schema";
      }
      return read;
    };
    int wrong = 0;
    for (const json::json_pointer& at : all) {
      const std::string where = at.to_string();
      if (where.rfind("/joints/", 0) == 0) continue;
      for (const json& value :
           {json(nullptr), json(true), json(json::array()), json(json::object())}) {
        json changed = good;
        changed[at] = value;
        const bool read = compare(changed, where + " = " + value.dump());
        if (!read && !value.is_object() && !value.is_array()) {
          EXPECT_FALSE(takes(changed)) << where << " = " << value.dump();
          ++wrong;
        }
      }
      if (good[at].is_object()) {
        json changed = good;
        changed[at]["Unknown key"] = 1;
        EXPECT_FALSE(takes(changed)) << where;
        EXPECT_FALSE(compare(changed, where + " with an unknown key"));
        ++wrong;
      }
    }
    EXPECT_GT(wrong, 200);
  }
}

}  // namespace
}  // namespace dryfit::joinery
