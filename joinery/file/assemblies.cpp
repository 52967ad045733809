#include "joinery/file/assemblies.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <functional>
#include <string_view>
#include <utility>
#include <vector>

#include "joinery/base/plain_text.h"
#include "joinery/file/json_place.h"
#include "joinery/file/reader_names.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

/// The sections whose entries share one set of names with what expressions may name.
constexpr std::array<std::string_view, 5> kNamed{"dimensions", "materials", "parts", "uses",
                                                 "neighbours"};
constexpr std::array<std::string_view, 4> kOther{"groups", "joints", "tapers", "hardware"};
/// Words that descriptions keep for themselves.
constexpr std::array<std::string_view, 4> kKept{"opening", "reflected", "copy", "copies"};

std::vector<std::string> namesIn(const JsonNode* section) {
  std::vector<std::string> names;
  if (section == nullptr) return names;
  for (const JsonMember& member : section->members) {
    names.push_back(section->is(Type::list) ? member.value.text : member.key);
  }
  return names;
}

void checkOwnName(const std::string& name, const JsonPlace& place) {
  checkName(name, place);
  if (name.find('.') != std::string::npos) {
    place.wrong(inQuotes(name) + " is not a name",
                "names are small letters, digits and '_', starting with a letter");
  }
}

void checkKept(const std::string& name, const JsonPlace& place) {
  if (std::ranges::find(kKept, name) != kKept.end()) {
    place.wrong(inQuotes(name) + " is kept for copies and openings", "choose another name");
  }
  for (const std::string_view end : {"_copy", "_next"}) {
    if (name.ends_with(end)) {
      place.wrong(inQuotes(name) + " ends like a number of a copy", "choose another name");
    }
  }
}

void checkUse(const std::string& name, const JsonPlace& place) {
  checkOwnName(name, place);
  checkKept(name, place);
  if (!place.isObject({"of", "label", "opening", "values", "neighbours", "materials", "mirror",
                       "turn", "opens", "repeat", "when", "note"})) {
    return;
  }
  if (const auto of = place.need("of")) (void)of->text();
  if (const auto label = place.find("label"); label && !label->node().is(Type::list)) {
    (void)label->line();
  } else if (label) {
    for (const auto& [key, own] : label->members()) (void)own.line();
  }
  if (const auto note = place.find("note")) (void)note->text();
  for (const char* key : {"values", "neighbours", "materials"}) {
    if (const auto section = place.find(key)) (void)section->isObject();
  }
}

void checkUsesAt(const JsonPlace& place) {
  const auto uses = place.find("uses");
  if (!uses || !uses->isObject()) return;
  for (const auto& [name, use] : uses->members()) {
    if (use.failed()) return;
    checkUse(name, use);
  }
}

/// Names within one description are its own: each is there once.
void checkDescribedNames(const JsonPlace& place) {
  SharedNames shared;
  for (const std::string_view section : kNamed) {
    const auto list = place.find(std::string(section));
    if (!list || section == "materials") continue;
    for (const auto& [key, entry] : list->members()) {
      const std::string name = section == "neighbours" ? entry.text() : key;
      if (entry.failed()) return;
      checkOwnName(name, entry);
      checkKept(name, entry);
      shared.claim(name,
                   section == "neighbours" ? "neighbour"
                                           : std::string(section.substr(0, section.size() - 1)),
                   entry);
    }
  }
  for (const std::string_view section : kOther) {
    const auto list = place.find(std::string(section));
    if (!list) continue;
    for (const auto& [name, entry] : list->members()) {
      if (entry.failed()) return;
      checkOwnName(name, entry);
    }
  }
}

void checkDescription(const JsonPlace& place) {
  if (!place.isObject({"label", "neighbours", "dimensions", "groups", "parts", "joints", "tapers",
                       "hardware", "uses", "note"})) {
    return;
  }
  for (const char* key :
       {"dimensions", "groups", "parts", "joints", "tapers", "hardware", "uses"}) {
    if (const auto section = place.find(key)) (void)section->isObject();
  }
  if (const auto note = place.find("note")) (void)note->text();
  if (const auto near = place.find("neighbours"); near && !near->node().is(Type::list)) {
    near->wrong("a list of names is needed here", R"(write it as ["hinge_side"])");
  }
  if (place.failed()) return;
  checkDescribedNames(place);
  checkUsesAt(place);
}

tl::unexpected<Error> wrongIn(const std::string& prefix, Error error) {
  error.where = prefix + error.where;
  return tl::unexpected(std::move(error));
}

/// Finds a description that stands in itself.
class CycleSearch {
 public:
  Result<void> run(const AssemblyTable& table) {
    for (const auto& [name, description] : table.all) {
      if (auto fine = visit(name, description); !fine) return fine;
    }
    return {};
  }

 private:
  Result<void> visit(const std::string& name, const AssemblyDescription& description) {
    const auto open =
        std::ranges::find(path_, description.node, [](const auto& step) { return step.second; });
    if (open != path_.end()) {
      std::string words;
      for (auto step = open; step != path_.end(); ++step) words += step->first + " → ";
      return fail(ErrorCode::cycle, inQuotes(name) + " stands in itself: " + words + name,
                  description.place + ".uses", "take one of these uses out");
    }
    path_.emplace_back(name, description.node);
    if (const JsonNode* uses = description.node->find("uses")) {
      for (const JsonMember& use : uses->members) {
        const JsonNode* of = use.value.find("of");
        const auto found =
            of == nullptr ? description.home->all.end() : description.home->all.find(of->text);
        if (found == description.home->all.end()) continue;
        if (auto fine = visit(found->first, found->second); !fine) return fine;
      }
    }
    path_.pop_back();
    return {};
  }

  std::vector<std::pair<std::string, const JsonNode*>> path_;
};

/// Fills a table from the `assemblies` of a document. `prefix` names the file in places. Files name
/// no files: theirs is null.
Result<void> fill(AssemblyTable& table, const JsonNode& document, const std::string& prefix,
                  const AssemblyFiles* files) {
  FirstError errors;
  const JsonPlace root(document, "", errors);
  const auto take = [&](const std::string& name, const JsonPlace& place) -> Result<void> {
    checkOwnName(name, place);
    if (!place.isObject()) return {};
    const JsonNode* file = place.node().find("file");
    if (file == nullptr || files == nullptr) {
      checkDescription(place);
      table.all[name] = {&place.node(), prefix + place.path(), &table};
      return {};
    }
    if (!place.isObject({"file", "note"})) return {};
    const auto found = files->find(file->text);
    if (found == files->end()) {
      place.wrong("the file " + inQuotes(file->text) + " was not read",
                  "a model that names other files is opened from a file of its own");
      return {};
    }
    const std::string ownPrefix = oneLine(file->text) + ": ";
    AssemblyTable& own = table.files[file->text];
    if (auto done = fill(own, found->second, ownPrefix, nullptr); !done) return done;
    FirstError inFile;
    const JsonPlace description(*found->second.find("assembly"), "assembly", inFile);
    checkDescription(description);
    if (inFile.error()) return wrongIn(ownPrefix, *inFile.error());
    table.all[name] = {&description.node(), ownPrefix + "assembly", &own};
    return {};
  };
  if (const auto list = root.find("assemblies"); list && list->isObject()) {
    for (const auto& [name, place] : list->members()) {
      if (auto done = take(name, place); !done) return done;
    }
  }
  if (errors.error()) return wrongIn(prefix, *errors.error());
  return {};
}

}  // namespace

Result<std::unique_ptr<const AssemblyTable>> AssemblyTable::of(const JsonNode& document,
                                                               const AssemblyFiles& files) {
  auto table = std::make_unique<AssemblyTable>();
  if (auto done = fill(*table, document, "", &files); !done) return tl::unexpected(done.error());
  if (auto fine = CycleSearch().run(*table); !fine) return tl::unexpected(fine.error());
  return table;
}

Result<void> checkUses(const JsonNode& document) {
  FirstError errors;
  checkUsesAt(JsonPlace(document, "", errors));
  if (errors.error()) return tl::unexpected(*errors.error());
  return {};
}

Result<void> checkAuthoredNames(const JsonNode& document) {
  FirstError errors;
  const JsonPlace root(document, "", errors);
  const auto check = [&](std::string_view section) {
    const JsonNode* list = document.find(section);
    if (list == nullptr || !list->is(Type::object)) return;
    for (const std::string& name : namesIn(list)) {
      if (errors.error() || name.find('.') == std::string::npos) continue;
      const JsonPlace place(*list->find(name), fmt::format("{}.{}", section, oneLine(name)),
                            errors);
      place.wrong(inQuotes(name) + " is not a name",
                  "names are small letters, digits and '_', starting with a letter; a dot stands "
                  "in the names of what a sub-assembly gives");
    }
  };
  for (const std::string_view section : kNamed) check(section);
  for (const std::string_view section : kOther) check(section);
  if (errors.error()) return tl::unexpected(*errors.error());
  return {};
}

Result<JsonNode> parseAssemblyFile(const std::string& text, const std::string& unit) {
  auto document = parseJson(text);
  if (!document) return document;
  FirstError errors;
  const JsonPlace root(*document, "", errors);
  if (root.isObject({"format", "version", "unit", "assembly", "assemblies", "note"})) {
    if (const auto format = root.need("format"); format && format->text() != "dryfit-assembly") {
      format->wrong("this is not a sub-assembly",
                    "the format of a sub-assembly is 'dryfit-assembly'");
    }
    if (const auto version = root.need("version"); version && version->node().text != "1") {
      version->wrong("this version of the format is not known", "this program reads version 1");
    }
    if (const auto own = root.need("unit"); own && own->text() != unit) {
      own->wrong(fmt::format("its unit is {} and that of the piece {}", own->text(), unit),
                 "write both in one unit");
    }
    if (const auto assembly = root.need("assembly")) (void)assembly->isObject();
  }
  if (errors.error()) return tl::unexpected(*errors.error());
  return document;
}

}  // namespace dryfit::joinery
