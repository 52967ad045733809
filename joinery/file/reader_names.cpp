#include "joinery/file/reader_names.h"

#include <algorithm>

#include "joinery/base/plain_text.h"
#include "joinery/base/size_limits.h"
#include "joinery/formula/expression.h"
#include "joinery/formula/expression_tokens.h"

namespace dryfit::joinery {

void checkName(const std::string& name, const JsonPlace& place) {
  // Dots stand in the names of copies: "drawer_2.front". Authors' own names are without, see
  // checkAuthoredNames().
  const auto small = [](char c) { return c >= 'a' && c <= 'z'; };
  bool good = !name.empty() && name.back() != '.', start = true;
  for (const char c : name) {
    good = good && (small(c) || (!start && ((c >= '0' && c <= '9') || c == '_' || c == '.')));
    start = c == '.';
  }
  if (!good) {
    place.wrong(inQuotes(name) + " is not a name",
                "names are small letters, digits and '_', starting with a letter");
  } else if (isReservedWord(name)) {
    place.wrong(inQuotes(name) + " is reserved for expressions", "choose another name");
  }
}

void SharedNames::claim(const std::string& name, const std::string& kind, const JsonPlace& place) {
  checkName(name, place);
  const auto [it, fresh] = kinds_.try_emplace(name, kind);
  if (!fresh) {
    place.wrong("the name " + inQuotes(name) + " is taken by a " + it->second,
                "dimensions, materials and parts share one set of names");
  }
}

Result<double> checkMeasuredValue(const Expression& value, Unit unit) {
  const auto noNames = [](const std::string&) { return std::optional<double>(); };
  Result<double> size = evaluateLength(value, unit, noNames);
  if (!size && size.error().code == ErrorCode::unknownName) {
    return fail(ErrorCode::badMeasurement, "a measured size cannot use names", {},
                "write the number read off the wood");
  }
  if (!size) return fail(ErrorCode::badMeasurement, size.error().what, {}, size.error().mend);
  if (Result<void> fine = checkSize(*size); !fine) {
    return fail(ErrorCode::badMeasurement, fine.error().what, {}, fine.error().mend);
  }
  return size;
}

}  // namespace dryfit::joinery
