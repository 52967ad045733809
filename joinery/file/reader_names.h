#pragma once

#include <map>
#include <string>
#include <vector>

#include "joinery/file/json_place.h"
#include "joinery/model/model.h"

namespace dryfit::joinery {

/// Reports names that are not small letters, digits and '_' starting with a letter, and words that
/// expressions keep for themselves.
void checkName(const std::string& name, const JsonPlace& place);

/// The one set of names that dimensions, materials and parts share.
class SharedNames {
 public:
  /// Takes `name` for a thing of this kind; reports bad names and names taken before.
  void claim(const std::string& name, const std::string& kind, const JsonPlace& place);

 private:
  std::map<std::string, std::string> kinds_;
};

/// The names in a list of the model, in its order.
template <class Things>
[[nodiscard]] std::vector<std::string> namesOf(const Things& things) {
  std::vector<std::string> names;
  names.reserve(things.size());
  for (const auto& thing : things) names.push_back(thing.name);
  return names;
}

/// A measured size is a length by itself, greater than 0.01 mm and within the workshop; it reads no
/// names. Error: badMeasurement.
[[nodiscard]] Result<double> checkMeasuredValue(const Expression& value, Unit unit);

}  // namespace dryfit::joinery
