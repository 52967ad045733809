#include "tests/support/cutting_instances.h"

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <map>

namespace dryfit::test {

using joinery::cutting::Size;

std::string datasetFolder() {
  const char* folder = std::getenv("DRYFIT_DATASETS");
  return folder != nullptr ? folder : DRYFIT_SOURCES "/../shared/datasets";
}

std::optional<WorthRectInstance> readWorthRects(const std::string& file) {
  std::ifstream in(datasetFolder() + "/" + file);
  WorthRectInstance instance;
  std::size_t count = 0;
  if (!(in >> count >> instance.length >> instance.width)) return std::nullopt;
  instance.items.resize(count);
  for (auto& item : instance.items) in >> item.length >> item.width >> item.value;
  return in ? std::optional(instance) : std::nullopt;
}

std::optional<LimitedInstance> readLimitedItems(const std::string& file) {
  std::ifstream in(datasetFolder() + "/" + file);
  LimitedInstance instance;
  std::size_t count = 0;
  if (!(in >> count >> instance.length >> instance.width)) return std::nullopt;
  instance.items.resize(count);
  for (auto& item : instance.items) {
    Size length = 0, width = 0;
    in >> length >> width >> item.copies >> item.value;
    item.poses = {{length, width}};
  }
  return in ? std::optional(instance) : std::nullopt;
}

std::optional<std::vector<BarInstance>> readBars(const std::string& file) {
  std::ifstream in(datasetFolder() + "/" + file);
  std::size_t problems = 0;
  if (!(in >> problems)) return std::nullopt;
  std::vector<BarInstance> instances(problems);
  for (BarInstance& instance : instances) {
    double room = 0, size = 0;
    int count = 0, best = 0;
    in >> instance.name >> room >> count >> best;
    instance.room = static_cast<Size>(std::lround(room * 10));
    std::map<Size, int> demands;
    for (int i = 0; i < count && in >> size; ++i) {
      ++demands[static_cast<Size>(std::lround(size * 10))];
    }
    for (const auto& [length, demand] : demands) instance.items.push_back({length, demand});
  }
  return in ? std::optional(instances) : std::nullopt;
}

}  // namespace dryfit::test
