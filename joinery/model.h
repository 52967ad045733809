#pragma once

#include <array>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "joinery/face.h"
#include "joinery/purchase_needs.h"
#include "kernel/units.h"

namespace dryfit::joinery {

/// Units a model file or a report may use. Inside the program every length is in millimetres.
enum class Unit { mm, cm, inch };

/// A value as its author wrote it: a number, or an expression over names ("case_width - 2*stock",
/// "left_stile.right", "1 3/8 in"). Bare numbers are in the file's unit.
struct Expression {
  std::string text;
  bool isNumber = false;  ///< written as a JSON number, and written back as one
  friend bool operator==(const Expression&, const Expression&) = default;
};

/// What a named number counts. All are worked out alike; it tells how the number is shown.
enum class Quantity { length, angle, number };

/// A named number that other expressions may use.
struct Dimension {
  std::string name;
  Expression value;
  Quantity quantity = Quantity::length;  ///< angle: degrees
  std::string note;
};

enum class MaterialKind { solid, sheet };

/// Solid timber or sheet goods of one thickness.
struct Material {
  std::string name;
  MaterialKind kind = MaterialKind::solid;
  std::string species;  ///< solid: a row of the species table; sheet: free text
  Expression thickness;
  RoughNeeds rough;    ///< how it is bought
  std::string edging;  ///< of its parts' edges, one of Model::edging; may be empty
};

/// Where a part lies along one axis. Two of from, to, size and centre are given; for thickness,
/// `size` may be left out and is then the material's thickness.
struct Span {
  Axis along = Axis::x;
  std::optional<Expression> from, to, size, centre;
};

/// Turning out of square, about an axis of the piece through a point.
struct Turn {
  Axis about = Axis::x;
  std::array<Expression, 3> at;  ///< x, y, z
  Expression angle;              ///< degrees, right-hand rule about the axis
};

/// Which size of a part the grain runs along.
enum class Grain { length, width, none };

/// One part. Its three spans lie on three different axes.
struct Part {
  std::string name;
  std::string label;  ///< words for the bench; the name with blanks where empty
  std::string material;
  std::string group;  ///< may be empty
  std::string batch;  ///< boards it was cut from; may be empty
  Span length, width, thickness;
  Grain grain = Grain::length;
  std::optional<Face> faceSide, faceEdge;  ///< DEFAULT: the near face across thickness and width
  std::optional<Turn> turn;
  std::string match;         ///< parts of one text come from one board; may be empty
  int spare = 0;             ///< how many are made beyond the one
  std::vector<Face> edging;  ///< edges and ends that get an edging
};

/// Parts that belong together; may be turned as one (a sloped lid).
struct Group {
  std::string name;
  std::optional<Turn> turn;
};

/// One role of a joint and the parts that fill it: {"tenon", {"top_rail"}}.
struct RoleFilling {
  std::string role;
  std::vector<std::string> parts;
};

/// A joint: its kind, its mates by role, and the numbers its author chose. What is not given comes
/// from the rules table.
struct Joint {
  std::string name;
  std::string kind;
  std::vector<RoleFilling> mates;
  std::vector<std::pair<std::string, Expression>> parameters;
};

/// What the client asked for.
struct Brief {
  std::optional<Expression> width, height, depth;
  Expression tolerance{"0", true};    ///< allowed deviation either way
  std::vector<std::string> approved;  ///< which of "width", "height", "depth" may deviate
};

enum class SizeName { length, width, thickness };

/// A size read off real wood. A part's own measurement wins over its batch, the batch over the
/// material.
struct Measurement {
  enum class Scope { part, batch, material };
  Scope scope = Scope::part;
  std::string name;
  SizeName size = SizeName::thickness;  ///< batch and material: thickness only
  Expression value;
};

/// A whole design, as written. Lists keep the author's order. Names are unique within a list and
/// across dimensions, materials and parts, since expressions share one set of names.
struct Model {
  std::string name;
  Unit unit = Unit::mm;
  Brief brief;
  std::vector<Dimension> dimensions;
  std::vector<Material> materials;
  std::vector<Group> groups;
  std::vector<Part> parts;
  std::vector<Joint> joints;
  std::vector<Measurement> measurements;
  std::string currency;  ///< of all prices, as the maker writes it; may be empty
  std::vector<EdgingGoods> edging;
  std::vector<HardwareGoods> hardware;  ///< beside what the joints need
  std::optional<FinishNeeds> finish;
};

}  // namespace dryfit::joinery
