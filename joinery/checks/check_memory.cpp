#include "joinery/checks/check_memory.h"

#include <functional>
#include <initializer_list>

namespace dryfit::joinery {
namespace {

std::size_t mixed(std::initializer_list<std::size_t> words) {
  std::size_t sum = 0;
  for (const std::size_t word : words) {
    sum = (sum ^ word) * 0x9e3779b97f4a7c15U;
    sum ^= sum >> 31;
  }
  return sum;
}

std::size_t hashOf(const kernel::Frame& f) {
  const std::hash<double> hash;  // +0 and -0 count the same
  return mixed({hash(f.origin.x), hash(f.origin.y), hash(f.origin.z), hash(f.x.x), hash(f.x.y),
                hash(f.x.z), hash(f.y.x), hash(f.y.y), hash(f.y.z)});
}

std::size_t hashOf(const kernel::Solid& solid) {
  return std::hash<const void*>()(&solid.impl());
}

}  // namespace

std::size_t HashTwoSolids::operator()(const TwoSolids& pair) const {
  return mixed({hashOf(pair.a), hashOf(pair.b), hashOf(pair.bInA)});
}

std::size_t HashStandingSolid::operator()(const StandingSolid& standing) const {
  return mixed({hashOf(standing.solid), hashOf(standing.frame)});
}

}  // namespace dryfit::joinery
