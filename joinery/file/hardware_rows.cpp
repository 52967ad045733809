#include "joinery/file/hardware_rows.h"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <iterator>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "joinery/base/plain_text.h"
#include "joinery/file/unfold.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

/// "knob" of "drawer_2.knob".
std::string goodsOf(const std::string& key) {
  return key.substr(key.rfind('.') + 1);
}

std::optional<int> countIn(const JsonNode* node) {
  if (node == nullptr || !node->is(Type::number)) return std::nullopt;
  int count = 0;
  const char* const end = node->text.data() + node->text.size();
  const auto read = std::from_chars(node->text.data(), end, count);
  constexpr int kMost = 1'000'000;  // of one row, so that no sum runs over
  if (read.ec != std::errc() || read.ptr != end || count < 0 || count > kMost) return std::nullopt;
  return count;
}

Result<void> add(JsonNode& row, JsonMember& goods, const std::string& place) {
  const auto own = countIn(row.find("count")), more = countIn(goods.value.find("count"));
  if (!own || !more) {
    return fail(ErrorCode::badModel, "the count is no whole number", place + ".count",
                "write how many are needed");
  }
  row.find("count")->text = fmt::format("{}", *own + *more);
  if (JsonNode* holds = goods.value.find("holds"); holds != nullptr && holds->is(Type::list)) {
    if (JsonNode* held = row.find("holds"); held != nullptr && held->is(Type::list)) {
      std::ranges::move(holds->members, std::back_inserter(held->members));
    } else {
      row.set("holds", std::move(*holds));
    }
  }
  JsonNode *price = row.find("price"), *other = goods.value.find("price");
  if (price != nullptr && other != nullptr && price->text != other->text) {
    return fail(ErrorCode::badModel, inQuotes(goodsOf(goods.key)) + " has two prices",
                place + ".price",
                "goods of one name are one row; give it one price, or another name");
  }
  if (price == nullptr && other != nullptr) row.set("price", std::move(*other));
  return {};
}

}  // namespace

Result<void> joinHardwareRows(JsonNode& hardware, const AuthoredPlaces& authored) {
  if (!hardware.is(Type::object)) return {};
  std::vector<JsonMember> rows;
  for (JsonMember& goods : hardware.members) {
    const std::string name = goodsOf(goods.key);
    const auto row = std::ranges::find(rows, name, &JsonMember::key);
    if (row == rows.end()) {
      rows.push_back({name, std::move(goods.value)});
      continue;
    }
    const std::string place = authoredPlace(authored, "hardware." + goods.key);
    if (auto done = add(row->value, goods, place); !done) return done;
  }
  hardware.members = std::move(rows);
  return {};
}

}  // namespace dryfit::joinery
