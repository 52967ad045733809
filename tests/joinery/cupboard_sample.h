#pragma once

#include <string>

#include "joinery/fit/dry_fit.h"
#include "joinery/joints/evaluate.h"
#include "joinery/making/marks.h"
#include "tests/joinery/model_samples.h"

namespace dryfit::joinery {

/// A cupboard front between two walls: a framed panel with a scribe strip on either side that takes
/// up what the walls leave.
inline std::string cupboardText() {
  return R"({
  "format": "dryfit-model",
  "version": 1,
  "name": "Cupboard front",
  "unit": "mm",
  "dimensions": {
    "opening_width": {"value": 900, "note": "between the walls"},
    "front_height": 700,
    "scribe_width": 20,
    "stile_width": 62,
    "rail_width": 70,
    "tenon": 32
  },
  "materials": {
    "oak": {"kind": "solid", "species": "white oak", "thickness": 23},
    "ply6": {"kind": "sheet", "species": "birch plywood", "thickness": 6}
  },
  "groups": {
    "front": {},
    "scribes": {}
  },
  "parts": {
    "left_scribe": {
      "material": "oak", "group": "scribes",
      "length": {"along": "z", "from": 0, "size": "front_height"},
      "width": {"along": "x", "from": 0, "to": "left_stile.left"},
      "thickness": {"along": "y", "from": 0}
    },
    "left_stile": {
      "material": "oak", "group": "front", "batch": "october",
      "length": {"along": "z", "from": 0, "size": "front_height"},
      "width": {"along": "x", "from": "scribe_width", "size": "stile_width"},
      "thickness": {"along": "y", "from": 0},
      "face_edge": "right"
    },
    "right_stile": {
      "material": "oak", "group": "front", "batch": "october",
      "length": {"along": "z", "from": 0, "size": "front_height"},
      "width": {"along": "x", "to": "opening_width - scribe_width", "size": "stile_width"},
      "thickness": {"along": "y", "from": 0},
      "face_edge": "left"
    },
    "right_scribe": {
      "material": "oak", "group": "scribes",
      "length": {"along": "z", "from": 0, "size": "front_height"},
      "width": {"along": "x", "from": "right_stile.right", "to": "opening_width"},
      "thickness": {"along": "y", "from": 0}
    },
    "top_rail": {
      "material": "oak", "group": "front",
      "length": {"along": "x", "from": "left_stile.right", "to": "right_stile.left"},
      "width": {"along": "z", "to": "front_height", "size": "rail_width"},
      "thickness": {"along": "y", "from": 0},
      "face_edge": "bottom"
    },
    "bottom_rail": {
      "material": "oak", "group": "front",
      "length": {"along": "x", "from": "left_stile.right", "to": "right_stile.left"},
      "width": {"along": "z", "from": 0, "size": "rail_width"},
      "thickness": {"along": "y", "from": 0},
      "face_edge": "top"
    },
    "panel": {
      "material": "ply6", "group": "front",
      "length": {"along": "z", "from": "bottom_rail.top", "to": "top_rail.bottom"},
      "width": {"along": "x", "from": "left_stile.right", "to": "right_stile.left"},
      "thickness": {"along": "y", "centre": "oak.thickness / 2"},
      "grain": "none"
    }
  },
  "joints": {
    "top_left": {
      "kind": "haunched-mortise-tenon", "tenon": "top_rail", "mortise": "left_stile",
      "tenon_length": "tenon"
    },
    "top_right": {
      "kind": "haunched-mortise-tenon", "tenon": "top_rail", "mortise": "right_stile",
      "tenon_length": "tenon"
    },
    "bottom_left": {
      "kind": "haunched-mortise-tenon", "tenon": "bottom_rail", "mortise": "left_stile",
      "tenon_length": "tenon"
    },
    "bottom_right": {
      "kind": "haunched-mortise-tenon", "tenon": "bottom_rail", "mortise": "right_stile",
      "tenon_length": "tenon"
    },
    "field": {
      "kind": "panel-groove", "panel": "panel",
      "frame": ["left_stile", "right_stile", "top_rail", "bottom_rail"]
    },
    "left_edge": {"kind": "edge-joint", "first": "left_scribe", "second": "left_stile"},
    "right_edge": {"kind": "edge-joint", "first": "right_scribe", "second": "right_stile"}
  }
}
)";
}

inline DryFit fitOf(const Model& model, Basis basis = Basis::measured) {
  Result<DryFit> fit = dryFit(model, basis);
  if (!fit) throw std::runtime_error(fit.error().line());
  return std::move(*fit);
}

inline std::vector<Finding> findingsOfKind(const DryFit& fit, FindingKind kind) {
  std::vector<Finding> found;
  for (const Finding& f : fit.findings) {
    if (f.kind == kind) found.push_back(f);
  }
  return found;
}

inline int errorsIn(const DryFit& fit) {
  int errors = 0;
  for (const Finding& f : fit.findings) {
    errors += f.severity == Severity::error ? 1 : 0;
    if (f.severity == Severity::error) ADD_FAILURE() << f.text;
  }
  return errors;
}

/// Marks a part in its file at the sizes it has now.
inline void mark(ModelFile& file, const std::string& part, MarkState state) {
  const Result<Piece> piece = evaluate(file.model(), Basis::measured);
  if (!piece) throw std::runtime_error(piece.error().line());
  const Result<void> set = file.setMark(markFor(*piece, partNamed(*piece, part).id, state));
  if (!set) throw std::runtime_error(set.error().line());
}

}  // namespace dryfit::joinery
