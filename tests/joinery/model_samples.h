#pragma once

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <random>
#include <string>

#include "joinery/file/model_file.h"
#include "joinery/piece/place_parts.h"

namespace dryfit::joinery {

/// A door of two stiles, two rails and a panel, with one thing of every sort that a model can hold.
inline std::string doorText() {
  return R"({
  "format": "dryfit-model",
  "version": 1,
  "name": "Demo door",
  "unit": "mm",
  "brief": {"width": 400, "height": 600, "depth": 23, "tolerance": 2, "approved": ["depth"]},
  "dimensions": {
    "door_width": 400,
    "stile_width": {"value": 62, "note": "wide enough for a lock"},
    "rail_width": "stile_width + 1 in"
  },
  "materials": {
    "oak": {"kind": "solid", "species": "white oak", "thickness": 23},
    "ply": {"kind": "sheet", "species": "birch plywood", "thickness": 6, "note": "sanded"}
  },
  "groups": {
    "door": {"turn": {"about": "z", "at": [0, "oak.thickness", 0], "angle": 0}}
  },
  "parts": {
    "left_stile": {
      "label": "Left stile", "material": "oak", "group": "door", "batch": "october",
      "length": {"along": "z", "from": 0, "size": 600},
      "width": {"along": "x", "from": 0, "size": "stile_width"},
      "thickness": {"along": "y", "from": 0},
      "face_side": "front", "face_edge": "right", "note": "the straightest board"
    },
    "right_stile": {
      "material": "oak", "group": "door",
      "length": {"along": "z", "from": 0, "size": 600},
      "width": {"along": "x", "to": "door_width", "size": "stile_width"},
      "thickness": {"along": "y", "from": 0}
    },
    "top_rail": {
      "material": "oak", "group": "door",
      "length": {"along": "x", "from": "left_stile.right", "to": "right_stile.left"},
      "width": {"along": "z", "to": "left_stile.top", "size": "rail_width"},
      "thickness": {"along": "y", "from": 0}
    },
    "bottom_rail": {
      "material": "oak", "group": "door",
      "length": {"along": "x", "from": "left_stile.right", "to": "right_stile.left"},
      "width": {"along": "z", "from": 0, "size": "rail_width"},
      "thickness": {"along": "y", "from": 0}
    },
    "panel": {
      "material": "ply", "group": "door",
      "length": {"along": "z", "from": "bottom_rail.top", "to": "top_rail.bottom"},
      "width": {"along": "x", "from": "left_stile.right", "to": "right_stile.left"},
      "thickness": {"along": "y", "centre": "oak.thickness / 2"},
      "grain": "none"
    }
  },
  "joints": {
    "top_left": {"kind": "blind-mortise-tenon", "tenon": "top_rail", "mortise": "left_stile"},
    "top_right": {"kind": "blind-mortise-tenon", "tenon": "top_rail", "mortise": "right_stile"},
    "field": {
      "kind": "panel-groove", "panel": "panel",
      "frame": ["left_stile", "right_stile", "top_rail", "bottom_rail"], "note": "left dry"
    }
  },
  "measured": {
    "parts": {"left_stile": {"width": 60.8}},
    "batches": {"october": {"thickness": "7/8 in"}},
    "materials": {"oak": {"thickness": 22.3}}
  }
}
)";
}

/// `text` with its first `from` replaced. The test fails where there is none.
inline std::string replaced(std::string text, const std::string& from, const std::string& to) {
  const std::size_t at = text.find(from);
  EXPECT_NE(at, std::string::npos) << from;
  return at == std::string::npos ? text : text.replace(at, from.size(), to);
}

/// A door with everything that a model can say on buying.
inline std::string pricedDoor() {
  std::string text = doorText();
  text = replaced(text, "\"thickness\": 23}",
                  R"("thickness": 23, "rough": {"price": 4000, "waste": 0.2}})");
  text = replaced(text, "\"note\": \"sanded\"}",
                  R"("note": "sanded", "edging": "strip", "rough": {"price": 60}})");
  text = replaced(text, "\"grain\": \"none\"", R"("grain": "none", "edging": ["left", "top"])");
  return replaced(text, "\"groups\": {",
                  R"("currency": "EUR",
  "edging": {"strip": {"price": 1.5, "note": "birch"}},
  "hardware": {"butt_hinge": {"count": 2, "price": 7.5, "note": "brass"}, "knob": {"count": 1}},
  "finish": {"coats": 2, "area_per_litre": 10, "price": 30},
  "groups": {)");
}

inline ModelFile fileFrom(const std::string& text) {
  Result<ModelFile> file = ModelFile::parse(text, "test.dryfit");
  if (!file) throw std::runtime_error(file.error().line());
  return *file;
}

inline Piece pieceFrom(const std::string& text, Basis basis = Basis::drawn) {
  const ModelFile file = fileFrom(text);
  Result<Piece> piece = placeParts(file.model(), basis);
  if (!piece) throw std::runtime_error(piece.error().line());
  return *piece;
}

inline const PlacedPart& partNamed(const Piece& piece, const std::string& name) {
  for (const PlacedPart& part : piece.parts) {
    if (piece.part(part.id).name == name) return part;
  }
  throw std::runtime_error("no part " + name);
}

/// A random model that can be evaluated: a row of boards, each standing on one before it, in random
/// spelling: units, notes, order of keys, nested arithmetic.
class RandomModel {
 public:
  explicit RandomModel(unsigned seed) : random_(seed) {}

  std::string text() {
    std::string text = R"({"version": 1, "format": "dryfit-model", "name": "Random \u00e9 )" +
                       std::to_string(pick(1000)) + R"(", "unit": ")" +
                       std::string(unit_ = units_[pick(3)]) + "\",\n";
    const int dimensions = 1 + pick(6);
    text += "\"dimensions\": {";
    for (int i = 0; i < dimensions; ++i) {
      const std::string value = i == 0 ? number() : oneOf({number(), reads("d", i), inches()});
      text += fmt::format("{}\"d{}\": {}", i ? "," : "", i,
                          pick(2) ? value : "{\"note\": \"n\\n\", \"value\": " + value + "}");
    }
    text += fmt::format(
        "}},\n\"materials\": {{\"oak\": {{\"kind\": \"solid\", \"thickness\": {}, "
        "\"species\": \"white oak\"}}}},\n\"parts\": {{",
        number());
    const int parts = 1 + pick(8);
    for (int i = 0; i < parts; ++i) text += (i ? ",\n" : "") + part(i);
    text += "},\n\"joints\": {";
    for (int i = 1; i < parts; ++i) {
      text +=
          fmt::format("{}\"j{}\": {{\"kind\": \"butt\", \"first\": \"p{}\", \"second\": \"p{}\"}}",
                      i > 1 ? "," : "", i, i, i - 1);
    }
    text += "},\n\"measured\": {\"parts\": {";
    if (pick(2)) text += fmt::format("\"p{}\": {{\"width\": {}}}", pick(parts), number());
    return text + "}}}";
  }

 private:
  int pick(int count) { return static_cast<int>(random_() % static_cast<unsigned>(count)); }
  std::string oneOf(std::initializer_list<std::string> list) {
    return *(list.begin() + pick(static_cast<int>(list.size())));
  }
  std::string number() {
    return oneOf({std::to_string(1 + pick(90)), fmt::format("{}.{}", 1 + pick(90), 1 + pick(9)),
                  fmt::format("{}.50", 1 + pick(90)), "1.5e1"});
  }
  std::string inches() { return fmt::format("\"{} {}/8 in\"", 1 + pick(3), 1 + pick(7)); }
  std::string reads(const std::string& letter, int below) {
    return fmt::format("\"{}{} + {}\"", letter, pick(below), 1 + pick(5));
  }
  std::string part(int i) {
    const std::string before = i == 0 ? "0" : fmt::format("\"p{}.top\"", pick(i));
    const std::string label =
        oneOf({"", "\"label\": \"Brett \xc3\xa4\\\"\", ", "\"note\": \"kept\\t\\\"\", "});
    return fmt::format(
        "\"p{}\": {{{}\"material\": \"oak\", \"length\": {{\"along\": \"x\", \"from\": 0, "
        "\"size\": "
        "{}}}, \"width\": {{\"along\": \"z\", \"from\": {}, \"size\": {}}}, \"thickness\": {}}}",
        i, label, number(), before, number(),
        oneOf({"{\"along\": \"y\", \"from\": 0}", "{\"along\": \"y\", \"centre\": \"d0\"}",
               "{\"along\": \"y\", \"to\": 0, \"size\": " + number() + "}"}));
  }

  std::mt19937 random_;
  const char* units_[3] = {"mm", "cm", "in"};
  std::string unit_;
};

}  // namespace dryfit::joinery
