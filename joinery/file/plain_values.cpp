#include "joinery/file/plain_values.h"

#include <fmt/format.h>

#include <charconv>
#include <cmath>

#include "joinery/base/plain_text.h"
#include "joinery/base/size_limits.h"
#include "joinery/formula/expression.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

/// The length at `place` in mm, or none where it was reported as wrong.
std::optional<double> plainLength(const JsonPlace& place, Unit unit) {
  using Type = JsonNode::Type;
  const JsonNode& node = place.node();
  if (!node.is(Type::number) && !node.is(Type::text)) {
    place.wrong("a length is needed here, not " + std::string(nameOf(node.type)),
                "write a number, or text such as \"1 3/8 in\"");
    return std::nullopt;
  }
  const auto noNames = [](const std::string&) { return std::optional<double>(); };
  const Result<double> mm = evaluateLength({node.text, node.is(Type::number)}, unit, noNames);
  if (mm) return *mm;
  if (mm.error().code == ErrorCode::unknownName) {
    place.wrong(inQuotes(node.text) + " is not a length by itself",
                "write a number, or text such as \"1 3/8 in\"");
  } else {
    place.wrong(mm.error().what, mm.error().mend);
  }
  return std::nullopt;
}

}  // namespace

double sizeAt(const JsonPlace& place, Unit unit) {
  const auto mm = plainLength(place, unit);
  if (!mm) return 0;
  const Result<void> fine = checkSize(*mm);
  if (fine) return *mm;
  place.wrong(fine.error().what, fine.error().mend);
  return 0;
}

double lengthAt(const JsonPlace& place, Unit unit) {
  const auto mm = plainLength(place, unit);
  if (!mm) return 0;
  if (*mm >= 0 && *mm <= kernel::kLargest) return *mm;
  place.wrong(fmt::format("this is {:.6g} mm", *mm),
              fmt::format("it must be between 0 and {} m", kernel::kLargest / 1000));
  return 0;
}

double numberAt(const JsonPlace& place, const std::string& what, double least, double most) {
  const std::string range = fmt::format("{} must be between {} and {}", what, least, most);
  const JsonNode& node = place.node();
  if (!node.is(JsonNode::Type::number)) {
    place.wrong("a number is needed here, not " + std::string(nameOf(node.type)), range);
    return least;
  }
  double value = 0;
  const char* const end = node.text.data() + node.text.size();
  const auto read = std::from_chars(node.text.data(), end, value);
  if (read.ec == std::errc() && read.ptr == end && value >= least && value <= most) return value;
  place.wrong(oneLine(node.text) + " cannot be", range);
  return least;
}

int countAt(const JsonPlace& place, const std::string& what, int least, int most) {
  const double value = numberAt(place, what, least, most);
  if (value != std::floor(value)) {
    place.wrong(oneLine(place.node().text) + " is not a whole number",
                fmt::format("{} is a whole number", what));
    return least;
  }
  return static_cast<int>(value);
}

double priceAt(const JsonPlace& place) {
  return numberAt(place, "a price", 0, 1'000'000'000);
}

bool truthAt(const JsonPlace& place) {
  if (place.node().is(JsonNode::Type::boolean)) return place.node().truth;
  place.wrong("true or false is needed here, not " + std::string(nameOf(place.node().type)));
  return false;
}

bool isListOf(const JsonPlace& place, std::size_t count, const std::string& mend) {
  const JsonNode& node = place.node();
  if (node.is(JsonNode::Type::list) && node.members.size() == count) return true;
  place.wrong(node.is(JsonNode::Type::list)
                  ? fmt::format("this list has {} entries, not {}", node.members.size(), count)
                  : "a list [ ] is needed here, not " + std::string(nameOf(node.type)),
              mend);
  return false;
}

}  // namespace dryfit::joinery
