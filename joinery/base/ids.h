#pragma once

#include <compare>
#include <cstddef>
#include <functional>

namespace dryfit::joinery {

/// A typed index into one of the lists of a Model. A PartId is not a JointId.
template <class Tag>
class Id {
 public:
  constexpr Id() = default;
  explicit constexpr Id(std::size_t index) : index_(index) {}
  [[nodiscard]] constexpr std::size_t index() const { return index_; }
  friend constexpr auto operator<=>(Id, Id) = default;  // NOLINT(modernize-use-nullptr)

 private:
  std::size_t index_ = 0;
};

using PartId = Id<struct PartTag>;
using JointId = Id<struct JointTag>;

}  // namespace dryfit::joinery
