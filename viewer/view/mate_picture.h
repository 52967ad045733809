#pragma once

#include <QImage>
#include <QSize>

#include "joinery/building/joint_proposals.h"

namespace dryfit::viewer {

/// One mate of a joint alone, as lines in the colours of the window, close to the joint and from
/// the side by which it is cut. Both pictures of one mate have the same scale and place.
enum class Half { before, after };
/// Errors: as hiddenLines.
[[nodiscard]] Result<QImage> matePicture(const joinery::MateHalf& mate, Half half, QSize pixels);

}  // namespace dryfit::viewer
