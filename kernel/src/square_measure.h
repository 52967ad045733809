#pragma once

#include <optional>

#include "kernel/solid.h"
#include "kernel/src/solid_impl.h"

namespace dryfit::kernel {

/// The tight box of square work that stands at `frame`.
[[nodiscard]] Box3 boundsOf(const SquareWork& work, const Frame& frame);

/// `overlap` for two solids that are square work and stand square to each other; nothing else.
[[nodiscard]] std::optional<Overlap> squareOverlap(const Solid::Impl& a, const Solid::Impl& b);

/// `common` on the same terms, where the shared wood is sound square work; nothing where it is not,
/// or where there is none.
[[nodiscard]] std::optional<Solid> squareCommon(const Solid::Impl& a, const Solid::Impl& b);

/// `distance` on the same terms.
[[nodiscard]] std::optional<double> squareDistance(const Solid::Impl& a, const Solid::Impl& b);

}  // namespace dryfit::kernel
