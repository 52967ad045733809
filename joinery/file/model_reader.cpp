#include "joinery/file/model_reader.h"

#include <algorithm>

#include <cstdlib>
#include <map>
#include <set>

#include "joinery/base/plain_text.h"
#include "joinery/file/joint_reader.h"
#include "joinery/file/marks_reader.h"
#include "joinery/file/part_reader.h"
#include "joinery/file/plain_values.h"
#include "joinery/file/purchase_reader.h"
#include "joinery/file/reader_names.h"
#include "joinery/file/taper_reader.h"
#include "joinery/formula/expression_tokens.h"
#include "joinery/formula/length_text.h"
#include "joinery/trade/species.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

void readNote(const JsonPlace& place, std::string& note) {
  if (const auto text = place.find("note")) note = text->text();
}

void readHead(const JsonPlace& root, Model& model) {
  if (const auto format = root.need("format"); format && format->text() != "dryfit-model") {
    format->wrong("this is not a model", "the format of a model is 'dryfit-model'");
  }
  if (const auto version = root.need("version")) {
    if (!version->node().is(Type::number) || version->node().text != "1") {
      version->wrong("this version of the format is not known", "this program reads version 1");
    }
  }
  if (const auto name = root.need("name")) model.name = name->line();
  readNote(root, model.note);
  if (const auto unit = root.need("unit")) {
    constexpr std::array kUnits{Unit::mm, Unit::cm, Unit::inch};
    model.unit = kUnits[unit->wordOf({"mm", "cm", "in"})];
  }
}

/// Calls `read` for each entry of the list `key`, if it is there.
template <class Read>
void eachEntry(const JsonPlace& place, const std::string& key, const Read& read) {
  const auto list = place.find(key);
  if (!list || !list->isObject()) return;
  for (const auto& [name, entry] : list->members()) {
    if (entry.failed()) return;
    read(name, entry);
  }
}

/// Words that a dimension offers: {"with": 1, "without": 0}, or a list that counts from 1.
void readOptions(const JsonPlace& place, Question& question) {
  const bool list = place.node().is(Type::list);
  if ((!list && !place.node().is(Type::object)) || place.node().members.empty()) {
    place.wrong("words are needed here", R"(write them as {"with": 1, "without": 0})");
    return;
  }
  for (const auto& [key, entry] : place.members()) {
    if (list) {
      question.options.emplace_back(entry.line(), double(question.options.size() + 1));
    } else {
      question.options.emplace_back(key, numberAt(entry, "what a word stands for", -1e6, 1e6));
    }
  }
}

std::string readReason(const JsonPlace& place) {
  std::string why = place.line();
  if (!lengthsTold(why, Unit::mm)) {
    place.wrong("what stands in braces is not a length", R"(write it with its unit: "{900 mm}")");
  }
  return why;
}

/// One reason for both bounds, or one for each.
void readReasons(const JsonPlace& place, Question& question) {
  if (!place.node().is(Type::object)) {
    question.whyLeast = question.whyGreatest = readReason(place);
    return;
  }
  if (!place.isObject({"least", "greatest"})) return;
  if (const auto why = place.find("least")) question.whyLeast = readReason(*why);
  if (const auto why = place.find("greatest")) question.whyGreatest = readReason(*why);
}

void readQuestion(const JsonPlace& place, Dimension& dimension) {
  const auto ask = place.find("ask");
  const auto options = place.find("options");
  if (!ask) {
    for (const char* key : {"least", "greatest", "why"}) {
      if (const auto bound = place.find(key)) {
        bound->wrong("this belongs to a question", "give the dimension an 'ask'");
      }
    }
  }
  if (options && dimension.quantity == Quantity::length) dimension.quantity = Quantity::number;
  if (!ask && !options) return;
  Question question;
  if (ask) question.ask = ask->line();
  if (const auto least = place.find("least")) question.least = least->expression();
  if (const auto greatest = place.find("greatest")) question.greatest = greatest->expression();
  if (const auto why = place.find("why")) readReasons(*why, question);
  if (options) readOptions(*options, question);
  dimension.question = std::move(question);
}

Dimension readDimension(const std::string& name, const JsonPlace& place) {
  Dimension dimension;
  dimension.name = name;
  if (!place.node().is(Type::object)) {
    dimension.value = place.expression();
    return dimension;
  }
  if (!place.isObject(
          {"value", "quantity", "ask", "least", "greatest", "why", "options", "note"})) {
    return dimension;
  }
  if (const auto value = place.need("value")) dimension.value = value->expression();
  if (const auto quantity = place.find("quantity")) {
    const std::size_t word = quantity->wordOf({"length", "angle", "number", "count"});
    dimension.whole = word == 3;
    dimension.quantity = dimension.whole ? Quantity::number : static_cast<Quantity>(word);
  }
  readQuestion(place, dimension);
  readNote(place, dimension.note);
  return dimension;
}

/// Words that are chosen from, for a material's species.
WordChoice readChoice(const std::string& name, const JsonPlace& place) {
  WordChoice choice;
  choice.name = name;
  if (!place.isObject({"ask", "value", "options", "note"})) return choice;
  if (const auto ask = place.find("ask")) choice.ask = ask->line();
  if (const auto value = place.need("value")) choice.value = value->line();
  const auto options = place.need("options");
  if (!options) return choice;
  if (!options->node().is(Type::list) || options->node().members.empty()) {
    options->wrong("a list of words is needed here", R"(write it as ["white oak", "hard maple"])");
    return choice;
  }
  for (const auto& [key, word] : options->members()) choice.options.push_back(word.line());
  if (!place.failed() && std::ranges::find(choice.options, choice.value) == choice.options.end()) {
    place.find("value")->unknown(inQuotes(choice.value) + " is not among its options", choice.value,
                                 choice.options);
  }
  readNote(place, choice.note);
  return choice;
}

OwnWood readWood(const std::string& name, const JsonPlace& place) {
  OwnWood wood;
  wood.name = name;
  if (!place.isObject({"density", "radial", "tangential", "hardness", "source", "note"})) {
    return wood;
  }
  if (const auto density = place.need("density")) {
    wood.density = numberAt(*density, "a density in kg/m³", 50, 1500);
  }
  const std::string share = "a change of width per 1 % of moisture, such as 0.0025,";
  if (const auto radial = place.need("radial")) wood.radial = numberAt(*radial, share, 0, 0.01);
  if (const auto tangential = place.need("tangential")) {
    wood.tangential = numberAt(*tangential, share, 0, 0.01);
  }
  if (const auto hardness = place.find("hardness")) {
    const std::vector<std::string> classes{"soft", "medium", "hard"};
    wood.hardness = classes[hardness->wordOf(classes)];
  }
  if (const auto source = place.need("source")) wood.source = source->line();
  std::string note;
  readNote(place, note);
  return wood;
}

Material readMaterial(const std::string& name, const JsonPlace& place, const Model& model) {
  Material material;
  material.name = name;
  if (!place.isObject({"kind", "species", "thickness", "rough", "edging", "note"})) return material;
  if (const auto kind = place.need("kind")) {
    material.kind =
        kind->wordOf({"solid", "sheet"}) == 0 ? MaterialKind::solid : MaterialKind::sheet;
  }
  const bool solid = material.kind == MaterialKind::solid;
  if (const auto species = solid ? place.need("species") : place.find("species")) {
    material.species = species->line();
    const bool own = std::ranges::any_of(
        model.woods, [&](const OwnWood& wood) { return sameWood(wood.name, material.species); });
    if (solid && !own && speciesNamed(material.species) == nullptr) {
      std::vector<std::string> known = speciesNames();
      for (const OwnWood& wood : model.woods) known.push_back(wood.name);
      species->unknown("there is no species " + inQuotes(material.species), material.species,
                       known);
    }
  }
  if (const auto thickness = place.need("thickness")) material.thickness = thickness->expression();
  std::string note;
  readNote(place, note);
  return material;
}

Group readGroup(const std::string& name, const JsonPlace& place) {
  Group group{name, {}, false, {}};
  if (!place.isObject({"turn", "opens", "within"})) return group;
  if (const auto within = place.find("within")) group.within = within->text();
  if (const auto opens = place.find("opens")) group.opens = truthAt(*opens);
  if (const auto turn = place.find("turn")) group.turn = readTurn(*turn);
  return group;
}

/// Groups that stand within others, each of which is there, and none within itself.
void checkWithin(const JsonPlace& root, const Model& model) {
  const auto list = root.find("groups");
  for (const Group& group : model.groups) {
    if (group.within.empty() || list->failed()) continue;
    const auto place = list->find(group.name)->find("within");
    std::vector<std::string> path{group.name};
    for (const Group* at = &group; !at->within.empty();) {
      const auto next = std::ranges::find(model.groups, at->within, &Group::name);
      if (next == model.groups.end()) {
        place->unknown("there is no group " + inQuotes(at->within), at->within,
                       namesOf(model.groups));
        break;
      }
      if (std::ranges::find(path, next->name) != path.end()) {
        place->wrong("the group " + inQuotes(group.name) + " stands within itself",
                     "take one of these out", ErrorCode::cycle);
        break;
      }
      path.push_back(next->name);
      at = &*next;
    }
  }
}

void readBrief(const JsonPlace& root, Brief& brief) {
  const auto place = root.find("brief");
  if (!place || !place->isObject({"width", "height", "depth", "tolerance", "approved"})) return;
  if (const auto width = place->find("width")) brief.width = width->expression();
  if (const auto height = place->find("height")) brief.height = height->expression();
  if (const auto depth = place->find("depth")) brief.depth = depth->expression();
  if (const auto allowed = place->find("tolerance")) brief.tolerance = allowed->expression();
  const auto approved = place->find("approved");
  if (!approved) return;
  if (!approved->node().is(Type::list)) {
    approved->wrong("a list [ ] of width, height, depth is needed here, not " +
                    std::string(nameOf(approved->node().type)));
    return;
  }
  const std::vector<std::string> words{"width", "height", "depth"};
  for (const auto& [key, entry] : approved->members()) {
    brief.approved.push_back(words[entry.wordOf(words)]);
  }
}

constexpr double kMostMoisture = 300;
constexpr std::array<std::string_view, 3> kSizeNames{"length", "width", "thickness"};

/// Per cent of the dry weight. Green wood may hold more water than wood.
double readMoisture(const JsonPlace& place) {
  const double percent =
      place.node().is(Type::number) ? std::strtod(place.node().text.c_str(), nullptr) : -1;
  if (!(percent >= 0 && percent <= kMostMoisture)) {
    place.wrong("the moisture is a percentage from 0 to 300", "write it as 9.5",
                ErrorCode::badMeasurement);
  }
  return percent;
}

/// The measured sizes of one part, batch or material.
void readMeasured(const std::string& name, const JsonPlace& place, Measurement::Scope scope,
                  Model& model) {
  const bool part = scope == Measurement::Scope::part;
  if (!place.isObject(part ? std::vector<std::string>{"length", "width", "thickness", "moisture"}
                           : std::vector<std::string>{"thickness", "moisture"})) {
    return;
  }
  for (const auto& [key, size] : place.members()) {
    if (key == "moisture") {
      model.moistures.push_back({scope, name, readMoisture(size)});
      continue;
    }
    std::size_t index = 0;
    while (kSizeNames[index] != key) ++index;
    Measurement measurement{scope, name, static_cast<SizeName>(index), size.expression()};
    if (size.failed()) return;
    if (const auto fine = checkMeasuredValue(measurement.value, model.unit); !fine) {
      size.wrong(fine.error().what, fine.error().mend, fine.error().code);
    }
    model.measurements.push_back(std::move(measurement));
  }
}

std::vector<std::string> batchNames(const Model& model) {
  std::set<std::string> names;
  for (const Part& part : model.parts) {
    if (!part.batch.empty()) names.insert(part.batch);
  }
  return {names.begin(), names.end()};
}

void readMeasurements(const JsonPlace& root, Model& model) {
  const auto place = root.find("measured");
  if (!place || !place->isObject({"parts", "batches", "materials"})) return;
  const auto section = [&](const std::string& key, const std::string& word,
                           Measurement::Scope scope, const std::vector<std::string>& known) {
    const std::set<std::string> names(known.begin(), known.end());
    eachEntry(*place, key, [&](const std::string& name, const JsonPlace& entry) {
      if (!names.contains(name)) {
        entry.unknown("there is no " + word + " " + inQuotes(name), name, known);
        return;
      }
      readMeasured(name, entry, scope, model);
    });
  };
  section("parts", "part", Measurement::Scope::part, namesOf(model.parts));
  section("batches", "batch", Measurement::Scope::batch, batchNames(model));
  section("materials", "material", Measurement::Scope::material, namesOf(model.materials));
}

void readLists(const JsonPlace& root, Model& model) {
  SharedNames shared;
  eachEntry(root, "dimensions", [&](const std::string& name, const JsonPlace& place) {
    shared.claim(name, "dimension", place);
    model.dimensions.push_back(readDimension(name, place));
  });
  eachEntry(root, "choices", [&](const std::string& name, const JsonPlace& place) {
    shared.claim(name, "choice", place);
    model.choices.push_back(readChoice(name, place));
  });
  eachEntry(root, "materials", [&](const std::string& name, const JsonPlace& place) {
    shared.claim(name, "material", place);
    model.materials.push_back(readMaterial(name, place, model));
    readMaterialPurchase(place, model, model.materials.back());
  });
  eachEntry(root, "groups", [&](const std::string& name, const JsonPlace& place) {
    checkName(name, place);
    model.groups.push_back(readGroup(name, place));
  });
  checkWithin(root, model);
  const PartReader parts(model);
  eachEntry(root, "parts", [&](const std::string& name, const JsonPlace& place) {
    shared.claim(name, "part", place);
    model.parts.push_back(parts.read(name, place));
    readPartPurchase(place, model, model.parts.back());
  });
  const JointReader joints(model);
  eachEntry(root, "joints", [&](const std::string& name, const JsonPlace& place) {
    checkName(name, place);
    model.joints.push_back(joints.read(name, place));
  });
}

}  // namespace

Result<Model> readModel(const JsonNode& document) {
  FirstError errors;
  Model model;
  const JsonPlace root(document, "", errors);
  if (root.isObject({"format",    "version",  "name",   "unit",     "brief",    "dimensions",
                     "materials", "groups",   "parts",  "joints",   "measured", "tapers",
                     "marks",     "currency", "edging", "hardware", "finish",   "cutters",
                     "woods",     "choices",  "note"})) {
    readHead(root, model);
    readCutters(root, model);
    eachEntry(root, "woods", [&](const std::string& name, const JsonPlace& place) {
      model.woods.push_back(readWood(name, place));
    });
    readPurchase(root, model);
    readBrief(root, model.brief);
    (void)root.need("materials");
    (void)root.need("parts");
    readLists(root, model);
    readHolds(root, model);
    readMeasurements(root, model);
    readTapers(root, model);
    readMarks(root, model);
  }
  if (errors.error()) return tl::unexpected(*errors.error());
  return model;
}

}  // namespace dryfit::joinery
