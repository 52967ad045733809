#pragma once

#include <array>
#include <functional>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "joinery/base/face.h"
#include "joinery/base/unit.h"
#include "joinery/formula/expression.h"
#include "joinery/model/purchase_needs.h"
#include "joinery/model/question.h"
#include "kernel/units.h"

namespace dryfit::joinery {

/// What a named number counts. All are worked out alike; it tells how the number is shown.
enum class Quantity { length, angle, number };

/// A named number that other expressions may use.
struct Dimension {
  std::string name;
  Expression value;
  Quantity quantity = Quantity::length;  ///< angle: degrees
  bool whole = false;                    ///< a number that counts
  std::optional<Question> question = {};
  std::string note;
};

/// A wood that the table of species does not have, as the author knows it.
struct OwnWood {
  std::string name;
  double density = 0;                 ///< kg/m³ at 12 % moisture
  double radial = 0, tangential = 0;  ///< change of width per 1 % of moisture, as a share
  std::string hardness;               ///< "soft", "medium" or "hard"; may be empty
  std::string source;                 ///< where the numbers come from
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
  std::optional<Face> faceSide, faceEdge;  ///< DEFAULT: see piece/face_marks.h
  std::optional<Turn> turn;
  std::string match;         ///< parts of one text come from one board; may be empty
  int spare = 0;             ///< how many are made beyond the one
  std::vector<Face> edging;  ///< edges and ends that get an edging
};

/// Parts that belong together; may be turned as one (a sloped shelf, a door that stands open).
struct Group {
  std::string name;
  std::optional<Turn> turn;
  bool opens = false;  ///< the turn opens it: the brief is judged without
  std::string within;  ///< a group that it turns with; may be empty
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

/// A size read off real wood. What a part's mark fixes wins over its own measurement, that over its
/// batch, the batch over the material.
struct Measurement {
  enum class Scope { part, batch, material };
  Scope scope = Scope::part;
  std::string name;
  SizeName size = SizeName::thickness;  ///< batch and material: thickness only
  Expression value;
};

/// How wet the wood of a part, batch or material was when it was measured.
struct Moisture {
  Measurement::Scope scope = Measurement::Scope::part;
  std::string name;
  double percent = 0;  ///< of the dry weight
};

/// Wood taken off one face of parts, from nothing to `by` at their narrow ends: a taper that is
/// meant, or one that boards came out with.
struct Taper {
  std::string name;
  std::vector<std::string> parts;
  SizeName size = SizeName::width;  ///< width or thickness
  std::optional<Face> face;  ///< DEFAULT: opposite the face edge (width) or face side (thickness)
  Face narrowEnd = Face::bottom;  ///< an end of the length
  Expression by;                  ///< how much narrower that end is
  Expression from{"0", true};     ///< where it starts, from the wide end's shoulder
  bool measured = false;          ///< read off real wood: no part of the drawn design
};

/// How far a part is made. Each state fixes what those before it fix, and more.
enum class MarkState {
  rough,     ///< nothing
  machined,  ///< width and thickness
  cut,       ///< length, tenons included
  jointed,   ///< all that its joints add and take
};

/// What one joint had given a part or taken from it when the part was marked.
struct MadeFeature {
  std::string joint;
  std::string purpose;  ///< "mortise"
  kernel::Box3 extent;  ///< mm, in the part's frame
  friend bool operator==(const MadeFeature&, const MadeFeature&) = default;
};

/// A part that is made, and the sizes it was made to, mm. They stay as recorded whatever the design
/// asks for later.
struct Mark {
  std::string part;
  MarkState state = MarkState::rough;
  kernel::Vec3 overall;  ///< length, width, thickness; unless rough
  kernel::Vec3 blank;    ///< from shoulder to shoulder; 0 where an old file does not say
  std::vector<MadeFeature> features;  ///< jointed only
  friend bool operator==(const Mark&, const Mark&) = default;
};

/// A whole design, as written. Lists keep the author's order. Names are unique within a list and
/// across dimensions, materials and parts, since expressions share one set of names.
struct Model {
  std::string name;
  std::string note;  ///< what the piece is, in a sentence; may be empty
  Unit unit = Unit::mm;
  Brief brief;
  std::vector<Dimension> dimensions;
  std::vector<WordChoice> choices;
  std::vector<OwnWood> woods;
  std::vector<Material> materials;
  std::vector<Group> groups;
  std::vector<Part> parts;
  std::vector<Joint> joints;
  std::vector<Measurement> measurements;
  std::vector<Moisture> moistures;
  std::vector<Taper> tapers;
  std::vector<Mark> marks;      ///< at most one a part
  std::vector<double> cutters;  ///< chisels and cutters of the shop, mm, rising; empty: the usual
  std::string currency;         ///< of all prices, as the maker writes it; may be empty
  std::vector<EdgingGoods> edging;
  std::vector<HardwareGoods> hardware;  ///< beside what the joints need
  std::optional<FinishNeeds> finish;
  /// Copies that are measured or marked but not there, as "shelf_3" where there are two shelves:
  /// what is known of them waits until they are there again.
  std::vector<std::string> setAside;
  /// Where the author wrote what repeats and sub-assemblies put at a place of the model; as it is,
  /// for all else. May be empty.
  std::function<std::string(const std::string& place)> authoredPlace;
};

/// How many dimensions are the author's own: they come first, before those of copies of
/// sub-assemblies ("drawer_2.gap").
[[nodiscard]] std::size_t ownDimensions(const Model& model);

}  // namespace dryfit::joinery
