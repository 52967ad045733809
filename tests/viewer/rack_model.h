#pragma once

namespace dryfit::test {

/// A rack for folders, of our own: two ends, a top and a bottom between them, a back, and a shelf
/// twice, spread evenly. No joints yet.
inline constexpr auto kRackModel = R"({
  "format": "dryfit-model",
  "version": 1,
  "name": "Folder rack",
  "unit": "mm",
  "dimensions": {"width": 640, "height": 800, "depth": 300},
  "materials": {
    "ash": {"kind": "solid", "species": "white ash", "thickness": 20},
    "ply": {"kind": "sheet", "species": "birch plywood", "thickness": 6}
  },
  "parts": {
    "left_end": {
      "material": "ash",
      "length": {"along": "z", "from": 0, "to": "height"},
      "width": {"along": "y", "from": 0, "to": "depth"},
      "thickness": {"along": "x", "from": 0}
    },
    "right_end": {
      "material": "ash",
      "length": {"along": "z", "from": 0, "to": "height"},
      "width": {"along": "y", "from": 0, "to": "depth"},
      "thickness": {"along": "x", "to": "width"}
    },
    "top": {
      "material": "ash",
      "length": {"along": "x", "from": "left_end.right", "to": "right_end.left"},
      "width": {"along": "y", "from": 0, "to": "back.front"},
      "thickness": {"along": "z", "to": "height"}
    },
    "bottom": {
      "material": "ash",
      "length": {"along": "x", "from": "left_end.right", "to": "right_end.left"},
      "width": {"along": "y", "from": 0, "to": "back.front"},
      "thickness": {"along": "z", "from": 60}
    },
    "shelf": {
      "material": "ash",
      "repeat": {"count": 2, "spread": {"along": "z", "from": "bottom.top", "to": "top.bottom"}},
      "length": {"along": "x", "from": "left_end.right", "to": "right_end.left"},
      "width": {"along": "y", "from": 20, "to": "back.front"},
      "thickness": {"along": "z"}
    },
    "back": {
      "material": "ply",
      "length": {"along": "z", "from": 60, "to": "height"},
      "width": {"along": "x", "from": "left_end.right", "to": "right_end.left"},
      "thickness": {"along": "y", "to": "depth"}
    }
  }
})";

}  // namespace dryfit::test
