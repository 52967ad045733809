#pragma once

#include <optional>

#include "joinery/model/model.h"

namespace dryfit::joinery {

/// True where a part in this state has the size for good.
[[nodiscard]] bool fixes(MarkState state, PartAxis axis);

/// The size of a part's blank that its mark fixes, mm: what is made stays as it was made, whatever
/// is measured or designed later. None where the mark fixes no such size: of a part that is cut to
/// length with its tenons, the shoulders are still open.
[[nodiscard]] std::optional<double> madeSize(const Mark& mark, PartAxis axis);

}  // namespace dryfit::joinery
