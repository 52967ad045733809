#pragma once

namespace dryfit::test {

/// A cabinet door of our own: two stiles, two rails, a plywood panel in a groove. Its brief is met,
/// so that a changed width is the only thing to find fault with.
inline constexpr auto kFrameModel = R"({
  "format": "dryfit-model",
  "version": 1,
  "name": "Cabinet door",
  "unit": "mm",
  "brief": {"width": 400, "height": 600, "depth": 23, "tolerance": 1},
  "dimensions": {
    "door_width": 400,
    "door_height": 600,
    "stile_width": {"value": 62, "note": "wide enough for a lock"}
  },
  "materials": {
    "oak": {"kind": "solid", "species": "white oak", "thickness": 23},
    "ply6": {"kind": "sheet", "species": "birch plywood", "thickness": 6}
  },
  "parts": {
    "left_stile": {
      "material": "oak", "batch": "october",
      "length": {"along": "z", "from": 0, "size": "door_height"},
      "width": {"along": "x", "from": 0, "size": "stile_width"},
      "thickness": {"along": "y", "from": 0}
    },
    "right_stile": {
      "material": "oak", "batch": "october",
      "length": {"along": "z", "from": 0, "size": "door_height"},
      "width": {"along": "x", "to": "door_width", "size": "stile_width"},
      "thickness": {"along": "y", "from": 0}
    },
    "top_rail": {
      "material": "oak",
      "length": {"along": "x", "from": "left_stile.right", "to": "right_stile.left"},
      "width": {"along": "z", "to": "left_stile.top", "size": "stile_width"},
      "thickness": {"along": "y", "from": 0}
    },
    "bottom_rail": {
      "material": "oak",
      "length": {"along": "x", "from": "left_stile.right", "to": "right_stile.left"},
      "width": {"along": "z", "from": 0, "size": "stile_width"},
      "thickness": {"along": "y", "from": 0}
    },
    "panel": {
      "material": "ply6",
      "length": {"along": "z", "from": "bottom_rail.top", "to": "top_rail.bottom"},
      "width": {"along": "x", "from": "left_stile.right", "to": "right_stile.left"},
      "thickness": {"along": "y", "centre": 11.5}
    }
  },
  "joints": {
    "top_left": {"kind": "haunched-mortise-tenon", "tenon": "top_rail", "mortise": "left_stile"},
    "top_right": {"kind": "haunched-mortise-tenon", "tenon": "top_rail", "mortise": "right_stile"},
    "bottom_left": {"kind": "haunched-mortise-tenon", "tenon": "bottom_rail", "mortise": "left_stile"},
    "bottom_right": {"kind": "haunched-mortise-tenon", "tenon": "bottom_rail", "mortise": "right_stile"},
    "panel_in_frame": {
      "kind": "panel-groove", "panel": "panel",
      "frame": ["left_stile", "right_stile", "top_rail", "bottom_rail"]
    }
  }
}
)";

}  // namespace dryfit::test
