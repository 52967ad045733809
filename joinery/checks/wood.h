#pragma once

#include <optional>
#include <string>
#include <vector>

#include "joinery/base/box_tree.h"
#include "joinery/checks/check_memory.h"
#include "joinery/piece/finding.h"
#include "joinery/piece/piece.h"
#include "kernel/recipe.h"
#include "kernel/result.h"

/// What the checks need to know of parts, features and the wood between them.
namespace dryfit::joinery::checking {

/// True when the tool is a box square to the part: box arithmetic is then exact.
[[nodiscard]] bool isSquare(const Feature& feature);
/// The axis along which it runs; where its kind says none, that of the greater extent on its face.
[[nodiscard]] int runAxis(const Feature& feature);
/// The other one.
[[nodiscard]] int crossAxis(const Feature& feature);

/// What a cut can take from a part: box round its tool, over-run included, within the part's
/// `overall` box.
[[nodiscard]] kernel::Box3 reach(const kernel::Box3& overall, const Feature& cut);
/// All cuts (Stage::cut) of a part.
[[nodiscard]] std::vector<const Feature*> cutsOf(const PlacedPart& part);
/// A tree over the reaches of cuts, numbered as they are.
[[nodiscard]] BoxTree treeOf(const kernel::Box3& overall, const std::vector<const Feature*>& cuts);

/// Wood that two tools would both take from a part, mm³, and the box round it. `overall` is the
/// part's.
struct SharedCut {
  double volume = 0;
  kernel::Box3 box;
};
/// Exact; by boxes where both are square, else by solids. Error: libraryFailure.
[[nodiscard]] Result<SharedCut> sharedCut(const kernel::Box3& overall, const Feature& a,
                                          const Feature& b, CheckMemory* memory = nullptr);
/// Least distance between two cuts within the part, mm; infinite where one of them takes nothing
/// of the part. Error: libraryFailure.
[[nodiscard]] Result<double> wallBetween(const kernel::Box3& overall, const Feature& a,
                                         const Feature& b, CheckMemory* memory = nullptr);
/// True where two cuts that meet, or nearly meet, are ordinary work: a mortise in line with the
/// groove it stands in, grooves and housings that run into each other in one face or in one frame,
/// and whatever runs into a rebate.
[[nodiscard]] bool isOrdinaryMeeting(const Piece& piece, const Feature& a, const Feature& b);

/// What stands in a mortise or haunch socket: its tenon or haunch in another mate, by whose length
/// the author sets the depth. Null for other cuts, which have a depth of their own.
[[nodiscard]] const Feature* insertOf(const Piece& piece, const Feature& cut);
/// "make the tenon of joint x at most 30 mm long" (in the reader's unit), so that the cut becomes
/// `by` mm shallower, and the number that says so; none where nothing would be left of it.
[[nodiscard]] std::optional<MendingNumber> shallower(const Piece& piece, const Feature& cut,
                                                     double by, Unit unit);
/// The joint's number of this name that its author can give, mm; none where it has none such.
[[nodiscard]] std::optional<double> numberOf(const PlacedJoint& joint, std::string_view parameter);

[[nodiscard]] bool isSolidWood(const Piece& piece, PartId part);

/// True where `found` falls short of the least that is allowed, by more than is told of a size.
[[nodiscard]] bool fallsShort(double found, double least);

/// Least wood beside a cut across `axis`, with its source: as beside a mortise; less beside what
/// runs along thin stock, and beside round holes, which leave no straight line to break along.
struct WallLimit {
  double least = 0;
  const Rule* rule = nullptr;
};
[[nodiscard]] WallLimit wallLimit(const PlacedPart& part, int axis, const Feature& cut);
/// The wood needed between two cuts: what the more delicate of them asks for.
[[nodiscard]] WallLimit limitBetween(const PlacedPart& part, const Feature& a, const Feature& b);

/// `inner`, stated in the coordinates of `outer`, with the rounding of square turns taken out.
[[nodiscard]] kernel::Frame relativeFrame(const kernel::Frame& outer, const kernel::Frame& inner);

/// Sets a finding's place from a box in a frame of the piece.
void setPlace(Finding& finding, const kernel::Frame& frame, const kernel::Box3& box);

/// Sets what is there of both changes as the finding's mend: "words, or words"; else `otherwise`.
void setEither(Finding& finding, const std::optional<MendingNumber>& a,
               const std::optional<MendingNumber>& b, const std::string& otherwise);

}  // namespace dryfit::joinery::checking
