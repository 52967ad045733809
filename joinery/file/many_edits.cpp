#include "joinery/file/many_edits.h"

#include <algorithm>

#include "joinery/base/plain_text.h"
#include "joinery/file/authored_part.h"

namespace dryfit::joinery {
namespace {

/// One part for each that its author wrote.
std::vector<std::string> writtenOnce(const ModelFile& file, const std::vector<std::string>& parts) {
  std::vector<std::string> places, names;
  for (const std::string& part : parts) {
    const std::string place = file.authoredPlace("parts", part);
    if (std::ranges::find(places, place) != places.end()) continue;
    places.push_back(place);
    names.push_back(part);
  }
  return names;
}

template <class Edit>
Result<void> forAll(ModelFile& file, const std::vector<std::string>& parts, const Edit& edit) {
  ModelFile next = file;
  for (const std::string& part : writtenOnce(file, parts)) {
    if (Result<void> done = edit(next, part); !done) return done;
  }
  file = std::move(next);
  return {};
}

void addNew(std::vector<std::string>& to, const std::vector<std::string>& from) {
  for (const std::string& one : from) {
    if (std::ranges::find(to, one) == to.end()) to.push_back(one);
  }
}

}  // namespace

Result<void> setMaterialOf(ModelFile& file, const std::vector<std::string>& parts,
                           const std::string& material) {
  return forAll(file, parts, [&](ModelFile& next, const std::string& part) {
    return setPartText(next, part, "material", material);
  });
}

Result<void> putIntoGroup(ModelFile& file, const std::vector<std::string>& parts,
                          const std::string& group) {
  ModelFile next = file;
  const std::string name = trimmed(group);
  if (!name.empty()) {
    Result<void> made = next.change([&](JsonNode& document) -> Result<void> {
      (void)document.objectAt("groups").objectAt(name);
      return {};
    });
    if (!made) return made;
  }
  Result<void> done = forAll(next, parts, [&](ModelFile& one, const std::string& part) {
    return setPartText(one, part, "group", name);
  });
  if (!done) return done;
  file = std::move(next);
  return {};
}

Result<HangsOn> hangingOnAll(const ModelFile& file, const std::vector<std::string>& parts) {
  HangsOn all;
  const std::vector<std::string> once = writtenOnce(file, parts);
  for (const std::string& part : once) {
    Result<HangsOn> one = hangingOn(file, part);
    if (!one) return one;
    addNew(all.joints, one->joints);
    addNew(all.expressions, one->expressions);
    addNew(all.records, one->records);
  }
  // What goes itself loses nothing.
  std::erase_if(all.expressions, [&](const std::string& place) {
    return std::ranges::any_of(once, [&](const std::string& part) {
      return place.starts_with(file.authoredPlace("parts", part) + ".");
    });
  });
  return all;
}

Result<void> eraseParts(ModelFile& file, const std::vector<std::string>& parts,
                        const std::map<std::string, double>& values) {
  return forAll(file, parts, [&](ModelFile& next, const std::string& part) {
    return erasePart(next, part, values);
  });
}

}  // namespace dryfit::joinery
