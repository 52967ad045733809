#include "joinery/file/use_copies.h"

#include <fmt/format.h>

#include <array>
#include <utility>

#include "joinery/base/plain_text.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

constexpr std::array<const char*, 3> kEach{"values", "neighbours", "materials"};

tl::unexpected<Error> bad(std::string what, const std::string& place, std::string mend) {
  return fail(ErrorCode::badModel, std::move(what), place, std::move(mend));
}

/// Puts one entry of a list in place of the list.
Result<void> pick(JsonNode& node, int copy, int copies, const std::string& place) {
  if (!node.is(Type::list)) return {};
  if (static_cast<int>(node.members.size()) != copies) {
    return bad(fmt::format("the list has {} entries for {} copies", node.members.size(), copies),
               place, "give each copy one, or one for all without a list");
  }
  JsonNode own = node.members[static_cast<std::size_t>(copy - 1)].value;
  node = std::move(own);
  return {};
}

Result<void> pickAll(JsonNode& entry, int copy, int copies, const std::string& place) {
  if (JsonNode* opening = entry.find("opening")) {
    if (auto done = pick(*opening, copy, copies, place + ".opening"); !done) return done;
  }
  if (JsonNode* label = entry.find("label")) {
    if (auto done = pick(*label, copy, copies, place + ".label"); !done) return done;
  }
  for (const char* key : kEach) {
    JsonNode* section = entry.find(key);
    if (section == nullptr) continue;
    for (JsonMember& member : section->members) {
      const std::string at = fmt::format("{}.{}.{}", place, key, oneLine(member.key));
      if (auto done = pick(member.value, copy, copies, at); !done) return done;
    }
  }
  return {};
}

/// Adds the planes of the use's own `mirror`.
Result<void> mirrorOwn(UseCopy& copy, const std::string& place) {
  const JsonNode* mirror = copy.entry.find("mirror");
  if (mirror == nullptr) return {};
  const auto planes = mirrorPlanes(*mirror, copy.name + ".opening.", place + ".mirror");
  if (!planes) return tl::unexpected(planes.error());
  // The mirror of a repeat is about the whole, after the use's own.
  copy.mirrors.insert(copy.mirrors.end(), planes->begin(), planes->end());
  return {};
}

}  // namespace

bool isRepeated(const JsonNode& use) {
  const JsonNode* opening = use.find("opening");
  return use.find("repeat") != nullptr || (opening != nullptr && opening->is(Type::list));
}

Result<std::vector<UseCopy>> copiesOfUse(const std::string& name, const JsonNode& entry,
                                         FixedNumbers& numbers, const std::string& place) {
  std::vector<UseCopy> all;
  if (!isRepeated(entry)) {
    all.push_back({name, false, "in " + name, entry, {}, true});
    if (auto done = mirrorOwn(all.back(), place); !done) return tl::unexpected(done.error());
    return all;
  }
  JsonNode one = entry;
  Repeat repeat;
  std::vector<MirrorPlane> mirrored;
  if (const JsonNode* node = entry.find("repeat")) {
    const auto read = repeatIn(*node, numbers, place + ".repeat");
    if (!read) return tl::unexpected(read.error());
    repeat = *read;
    one.erase("repeat");
  } else {
    repeat.count = static_cast<int>(entry.find("opening")->members.size());
  }
  if (repeat.spread != nullptr) {
    auto done = spreadOpenings(one, *repeat.spread, place + ".repeat.spread");
    if (!done) return tl::unexpected(done.error());
  }
  if (repeat.mirrored != nullptr) {
    const auto planes =
        mirrorPlanes(*repeat.mirrored, name + "_1.opening.", place + ".repeat.mirrored");
    if (!planes) return tl::unexpected(planes.error());
    mirrored = *planes;
  }
  for (int copy = 1; copy <= repeat.count; ++copy) {
    const JsonNode* label = one.find("label");
    UseCopy own{fmt::format("{}_{}", name, copy),
                true,
                {},
                one,
                planesOfCopy(mirrored, copy),
                repeat.count == 1 || (label != nullptr && label->is(Type::list))};
    own.words = "in " + own.name;
    auto done = pickAll(own.entry, copy, repeat.count, place);
    if (done) numberCopies(own.entry, copy, repeat.count);
    if (done) done = mirrorOwn(own, place);
    if (!done) return tl::unexpected(done.error());
    all.push_back(std::move(own));
  }
  return all;
}

}  // namespace dryfit::joinery
