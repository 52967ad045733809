#pragma once

#include <Bnd_Box.hxx>
#include <V3d_View.hxx>

#include "kernel/hidden_lines.h"

namespace dryfit::viewer {

/// Which side of the piece the eye looks at.
enum class Side { front, left, right, back, top, corner };

/// Right and up of one who looks at that side.
[[nodiscard]] kernel::Viewpoint viewpointOf(Side side);
/// Turns the view to a side, keeping what is in sight.
void lookAt(const Handle(V3d_View) & view, Side side);
/// Brings the box into sight with some room round it.
void fit(const Handle(V3d_View) & view, const Bnd_Box& box);
/// Box of the library's kind, grown by `room` mm.
[[nodiscard]] Bnd_Box bndOf(const kernel::Box3& box, double room);

}  // namespace dryfit::viewer
