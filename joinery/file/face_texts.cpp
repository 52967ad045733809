#include "joinery/file/face_texts.h"

#include <fmt/format.h>

#include <charconv>

#include "joinery/base/face.h"
#include "joinery/base/plain_text.h"
#include "joinery/file/copies.h"
#include "joinery/file/mirrored.h"

namespace dryfit::joinery {
namespace {

using Type = JsonNode::Type;

std::optional<int> wholeIn(std::string_view text) {
  int number = 0;
  const char* const end = text.data() + text.size();
  const auto read = std::from_chars(text.data(), end, number);
  if (text.empty() || read.ec != std::errc() || read.ptr != end) return std::nullopt;
  return number;
}

/// In brackets, but for a number or a single name.
std::string inBrackets(const std::string& text) {
  const bool plain = text.find_first_of("+-*/() ,?<>=&|") == std::string::npos;
  return plain || isPlainNumber(text) ? text : "(" + text + ")";
}

/// The near end, the far end and the size of one span.
struct SpanText {
  std::string near, far, size;
};

std::optional<SpanText> spanText(const JsonNode& part, const char* key) {
  const JsonNode* span = part.find(key);
  if (span == nullptr) return std::nullopt;
  const auto text = [&](const char* end) {
    const JsonNode* node = span->find(end);
    return node == nullptr ? std::string() : inBrackets(node->text);
  };
  std::string from = text("from"), to = text("to"), size = text("size"), centre = text("centre");
  const JsonNode* material = part.find("material");
  if (std::string_view(key) == "thickness" && size.empty() && (from.empty() || to.empty()) &&
      material != nullptr) {
    size = material->text + ".thickness";
  }
  if (size.empty()) {
    size = centre.empty() ? fmt::format("({} - {})", to, from)
           : from.empty() ? fmt::format("(2 * ({} - {}))", to, centre)
                          : fmt::format("(2 * ({} - {}))", centre, from);
  }
  if (from.empty()) {
    from = to.empty() ? fmt::format("({} - {} / 2)", centre, size)
                      : fmt::format("({} - {})", to, size);
  }
  if (to.empty()) to = fmt::format("({} + {})", from, size);
  return SpanText{from, to, size};
}

}  // namespace

std::optional<std::string> faceText(const JsonNode& part, std::string_view step,
                                    const std::string& face) {
  JsonNode own = part;
  std::optional<MirrorPlane> mirror;
  if (own.find("mirror") != nullptr) return std::nullopt;
  if (const JsonNode* found = part.find("repeat")) {
    const JsonNode repeat = *found;
    own.erase("repeat");
    const std::size_t cut = step.rfind('_');
    const auto copy = cut == std::string_view::npos ? std::nullopt : wholeIn(step.substr(cut + 1));
    if (!copy) return std::nullopt;
    if (const JsonNode* mirrored = repeat.find("mirrored")) {
      const auto planes = mirrorPlanes(*mirrored, "", "");
      if (!planes || planes->size() != 1) return std::nullopt;
      if (*copy == 2) mirror = planes->front();
      numberCopies(own, *copy, 2);
    } else {
      const JsonNode* count = repeat.is(Type::object) ? repeat.find("count") : &repeat;
      const auto copies = count == nullptr ? std::nullopt : wholeIn(count->text);
      if (!copies) return std::nullopt;
      if (const JsonNode* spread = repeat.find("spread")) {
        if (!spreadCopies(own, *spread, "")) return std::nullopt;
      }
      numberCopies(own, *copy, *copies);
    }
  }
  const auto wanted = faceNamed(face);
  for (const char* key : {"length", "width", "thickness"}) {
    const JsonNode* span = own.find(key);
    const JsonNode* along = span == nullptr ? nullptr : span->find("along");
    const bool isSize = face == key;
    if (along == nullptr || (!isSize && !wanted)) continue;
    if (!isSize && axisNamed(along->text) != axisOf(*wanted)) continue;
    const auto text = spanText(own, key);
    if (!text || isSize) return text ? std::optional(text->size) : std::nullopt;
    const bool turned = mirror && mirror->across == axisOf(*wanted);
    const std::string& end = isFarFace(*wanted) != turned ? text->far : text->near;
    return turned ? fmt::format("(2 * {} - {})", inBrackets(mirror->at), end) : end;
  }
  return std::nullopt;
}

}  // namespace dryfit::joinery
