#pragma once

#include <array>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "joinery/base/face.h"
#include "joinery/base/ids.h"
#include "joinery/model/model.h"
#include "joinery/piece/purposes.h"
#include "kernel/geometry.h"
#include "kernel/recipe.h"
#include "kernel/result.h"
#include "kernel/units.h"

namespace dryfit::joinery {

/// A design may be looked at with its drawn sizes or with the sizes measured on real wood.
enum class Basis { drawn, measured };

/// The order in which a part is worked. All features of one stage happen together.
enum class Stage {
  extend,  ///< add: lengthen the blank where a shoulder is not square
  shape,   ///< remove: cut shoulders to the mate's face
  insert,  ///< add: tenons, tongues, panel edges beyond the sight size
  cut,     ///< remove: mortises, grooves, housings, rebates, holes
};

/// One thing a joint does to one part.
struct Feature {
  PartId part;
  JointId joint;
  Purpose purpose = Purpose::tenon;
  Stage stage = Stage::cut;
  kernel::Tool tool;     ///< what is added or removed, in the part's frame; cuts may over-run faces
  kernel::Box3 extent;   ///< the finished size of it, in the part's frame, without over-run
  LocalFace face;        ///< the face of the part it stands on or enters by
  bool through = false;  ///< meant to come out on the far side
  bool stopped = false;  ///< groove, housing: does not run out at both ends
  std::optional<int> run = std::nullopt;  ///< groove, housing, rebate: axis along which it runs
  friend bool operator==(const Feature&, const Feature&) = default;
};

/// A taper of one part with its numbers known.
struct PlacedTaper {
  std::string name;        ///< of the entry in the model
  LocalFace face;          ///< that the wood is taken from; across width or thickness
  bool narrowFar = false;  ///< the narrow end has the greater coordinate along the length
  double by = 0;           ///< mm taken off at the narrow end
  double from = 0;         ///< mm from the wide end's shoulder to where it starts
  bool measured = false;   ///< the board came out so
  kernel::Tool tool;       ///< the wedge, in the part's frame; over-runs faces

  /// mm taken off at `x` along a blank of this length.
  [[nodiscard]] double depthAt(double x, double length) const;
  friend bool operator==(const PlacedTaper&, const PlacedTaper&) = default;
};

/// A part with all its numbers known.
///
/// The part's frame has its origin at a corner of the blank, x along length, y along width and
/// z along thickness (right-handed, so z may run against the axis of the piece). The blank is the
/// part from shoulder to shoulder; tenons and tongues stand beyond it.
struct PlacedPart {
  PartId id;
  kernel::Vec3 size;            ///< blank: length, width, thickness, mm; all > 0
  kernel::Vec3 asked;           ///< the same as the design asks for it, where a mark holds `size`
  kernel::Box3 span;            ///< as drawn in the axes of the piece, before turning
  kernel::Frame frame;          ///< part's frame to the piece
  kernel::Frame closed;         ///< the same with what opens closed
  std::array<Axis, 3> along{};  ///< axis of the piece (before turning) of length, width, thickness
  bool turned = false;
  std::optional<PartAxis> grain = PartAxis::length;  ///< none: no grain direction
  LocalFace faceSide{2, false}, faceEdge{1, false};
  /// Nobody named the mark, and the face opposite would do as well.
  bool faceSideFree = false, faceEdgeFree = false;
  std::vector<PlacedTaper> tapers;
  std::vector<Feature> features;  ///< in the order of the joints

  /// What one joint does to this part. O(log features).
  [[nodiscard]] std::span<const Feature> featuresOf(JointId joint) const;
  [[nodiscard]] kernel::Box3 blank() const { return {{0, 0, 0}, {size.x, size.y, size.z}}; }
  [[nodiscard]] LocalFace local(Face face) const;
  [[nodiscard]] Face named(LocalFace face) const;
  /// Blank and all that is added to it, in the part's frame: the size to cut, tenons included.
  [[nodiscard]] kernel::Box3 overall() const;
  /// How it is made: blank, then the stages in order.
  [[nodiscard]] kernel::Recipe recipe() const;
  friend bool operator==(const PlacedPart&, const PlacedPart&) = default;
};

/// A number of a joint, as chosen by its author or by the rules table.
struct JointValue {
  std::string name;
  double value = 0;  ///< mm, or a plain number where `isLength` is false
  bool isLength = true;
  bool given = false;  ///< written by the author
  std::string source;  ///< rule it came from; empty where given
  friend bool operator==(const JointValue&, const JointValue&) = default;
};

/// A bought item that a joint needs.
struct HardwareItem {
  std::string name;
  int count = 0;
  friend bool operator==(const HardwareItem&, const HardwareItem&) = default;
};

/// Play that a joint's cut leaves alike on both cheeks.
struct SharedPlay {
  int axis = 2;           ///< of the first mate, across the cheeks
  bool ofPocket = false;  ///< the pocket is the wider; else what goes in is the thinner
  friend bool operator==(const SharedPlay&, const SharedPlay&) = default;
};

/// A joint with all its numbers known. Its features are in the parts.
struct PlacedJoint {
  JointId id;
  std::vector<PartId> mates;            ///< in the order of the kind's roles
  kernel::Vec3 homeDirection{0, 0, 0};  ///< in which the first mate slides home, in the piece
  double gap = 0;     ///< mm between the faces that should touch; < 0 where they overlap
  PartId gapTo;       ///< the mate that the first one has this gap to; one of the mates
  LocalFace gapFace;  ///< of the first mate, where the gap is
  kernel::Point3 at;  ///< middle of the joint, in the piece
  bool glued = true;
  double fit = 0;                 ///< play across the cheeks, mm; < 0 where tight
  double fitMin = 0, fitMax = 0;  ///< allowance, from the rules table
  std::string fitSource;
  std::optional<SharedPlay> sharedPlay;  ///< taken to one cheek by setOutFromOneLine
  std::vector<JointValue> values;
  std::vector<HardwareItem> hardware;
  /// Why nothing could be cut of it; its mates are then as they were without it, `gapTo` is the
  /// mate that does not fit, and of the rest only `mates` and `at` tell anything.
  std::optional<Error> notCut;
  friend bool operator==(const PlacedJoint&, const PlacedJoint&) = default;
};

/// A door, lid or flap: parts that turn together about a line of the piece to open it.
struct Swing {
  std::string group;
  kernel::Point3 at;  ///< on the line
  Axis about = Axis::x;
  double degrees = 0;         ///< by which it is drawn open; 0: closed
  std::vector<PartId> parts;  ///< in the order of the model; `closed` is where they are shut
  friend bool operator==(const Swing&, const Swing&) = default;
};

/// The whole design with every number known: pure data, no solids yet.
struct Piece {
  Model model;  ///< what it was made from
  Basis basis = Basis::drawn;
  std::map<std::string, double> values;  ///< every name an expression can use, in mm
  std::vector<PlacedPart> parts;         ///< index = PartId
  std::vector<PlacedJoint> joints;       ///< index = JointId
  std::vector<Swing> swings;             ///< in the order of the model's groups

  [[nodiscard]] const Part& part(PartId id) const { return model.parts[id.index()]; }
  [[nodiscard]] const Joint& joint(JointId id) const { return model.joints[id.index()]; }
  /// Words for the bench: the part's label, or its name with blanks.
  [[nodiscard]] std::string label(PartId id) const;
};

}  // namespace dryfit::joinery
