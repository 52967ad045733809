#pragma once

#include <QColor>
#include <Quantity_Color.hxx>

namespace dryfit::viewer {

/// A colour of the window as the geometry library draws it.
[[nodiscard]] inline Quantity_Color occ(const QColor& c) {
  return {c.redF(), c.greenF(), c.blueF(), Quantity_TOC_sRGB};
}

}  // namespace dryfit::viewer
