#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <string>

#include "joinery/checks/all.h"
#include "joinery/checks/severity.h"
#include "joinery/checks/wood.h"
#include "joinery/checks/words.h"
#include "joinery/formula/length_text.h"
#include "joinery/joints/insert.h"
#include "joinery/trade/rules.h"

namespace dryfit::joinery::checking {
namespace {

/// One proportion of one feature, and the rule it breaks.
struct Breach {
  double measured;
  double limit;  ///< in the unit of `measured`
  const Rule& rule;
  std::string text;
  std::string parameter;         ///< of the joint, that would mend it
  std::optional<double> change;  ///< to this, mm
  std::string mend;              ///< that change in words
  std::string otherwise = {};    ///< what else would do
};

void report(const PlacedPart& part, const Feature& feature, Breach breach,
            std::vector<Finding>& findings) {
  Finding f;
  f.kind = FindingKind::weak;
  f.severity = severityOf(f.kind);
  f.parts = {part.id};
  f.joint = feature.joint;
  setPlace(f, part.frame, feature.extent);
  f.measured = breach.measured;
  f.limit = breach.limit;
  f.unit = "mm";
  f.source = std::string(breach.rule.source);
  f.text = sentence(std::move(breach.text));
  f.ofOneJoint = true;
  if (breach.change) {
    f.changes = {{feature.joint, std::move(breach.parameter), breach.change, breach.mend}};
  }
  if (!breach.otherwise.empty()) breach.mend += ", or " + breach.otherwise;
  f.mend = sentence(std::move(breach.mend));
  findings.push_back(std::move(f));
}

double leastTold(double mm, Unit unit) {
  return toldAtLeast(Length::mm(mm), unit).mm();
}
double mostTold(double mm, Unit unit) {
  return toldAtMost(Length::mm(mm), unit).mm();
}

/// Thickness and width of a tenon lie across its projection. Its thickness is taken across the
/// thickness of the stock, whichever is the greater.
struct TenonSize {
  double length, width, thickness, stock;
};

TenonSize sizeOf(const PlacedPart& part, const Feature& tenon) {
  const int thick = thicknessAxis(tenon.face);
  const int wide = 3 - thick - tenon.face.axis;
  const kernel::Vec3 size = tenon.extent.size();
  return {size[tenon.face.axis], size[wide], size[thick], part.size[thick]};
}

/// The mortise across the thickness of the tenon that goes into it.
double thicknessOf(const Piece& piece, const PlacedPart& part, const Feature& tenon,
                   const Feature& mortise) {
  const kernel::Vec3 across = part.frame.axis(thicknessAxis(tenon.face));
  const kernel::Frame& mate = piece.parts[mortise.part.index()].frame;
  const int u = (mortise.face.axis + 1) % 3;
  const int v = (mortise.face.axis + 2) % 3;
  const bool alongU = std::fabs(across.dot(mate.axis(u))) >= std::fabs(across.dot(mate.axis(v)));
  return mortise.extent.size()[alongU ? u : v];
}

/// The mortise of a tenon. Null where the tenon stands in a groove.
const Feature* mortiseOf(const Piece& piece, const Feature& tenon) {
  for (const PartId mate : piece.joints[tenon.joint.index()].mates) {
    for (const Feature& feature : piece.parts[mate.index()].featuresOf(tenon.joint)) {
      if (traitsOf(feature.purpose).roomFor == tenon.purpose) return &feature;
    }
  }
  return nullptr;
}

/// The thickness of a tenon by its chisel: that of its mortise, from which the play is taken off.
/// The box round a leaning mortise is thicker than the chisel.
double nominalThickness(const Piece& piece, const PlacedPart& part, const Feature& tenon,
                        const Feature* mortise) {
  const double own = sizeOf(part, tenon).thickness;
  const double play = std::fmax(piece.joints[tenon.joint.index()].fit, 0);
  if (mortise == nullptr) return own + play;
  return std::clamp(thicknessOf(piece, part, tenon, *mortise), own, own + play);
}

void tenonThickness(const CheckInput& input, const PlacedPart& part, const Feature& tenon,
                    std::vector<Finding>& findings) {
  const Piece& piece = input.piece;
  const Unit unit = input.unit;
  TenonSize size = sizeOf(part, tenon);
  const Feature* mortise = mortiseOf(piece, tenon);
  size.thickness = nominalThickness(piece, part, tenon, mortise);
  const ShareRule least = RuleId::tenonThicknessShareLeast;
  const ShareRule most = RuleId::tenonThicknessShareMost;
  const double low = shareBy(least) * size.stock;
  const double high = shareBy(most) * size.stock;
  // A stub in a groove is as wide as its part, and as thick as the panel's groove asks.
  const bool thin = fallsShort(size.thickness, low) && mortise != nullptr;
  if (!thin && !fallsShort(high, size.thickness)) return;
  report(part, tenon,
         {size.thickness, thin ? low : high, rule((thin ? least : most).id()),
          fmt::format("{} on {} is {} thick in stock of {}: too {}", nameOf(piece, tenon),
                      piece.label(part.id), lengthWords(size.thickness, unit),
                      lengthWords(size.stock, unit),
                      thin ? "thin to be strong" : "thick to leave shoulders and cheeks"),
          "tenon_thickness", thin ? leastTold(low, unit) : mostTold(high, unit),
          thin ? fmt::format("make it at least {} thick", atLeastWords(low, unit))
               : fmt::format("make it at most {} thick", atMostWords(high, unit))},
         findings);
}

void tenonWidth(const CheckInput& input, const PlacedPart& part, const Feature& tenon,
                const Feature& mortise, std::vector<Finding>& findings) {
  const Piece& piece = input.piece;
  const Unit unit = input.unit;
  const TenonSize size = sizeOf(part, tenon);
  const double thickness = nominalThickness(piece, part, tenon, &mortise);
  const Rule& most = rule(RuleId::tenonWidthMostThicknesses);
  const double times = shareBy(RuleId::tenonWidthMostThicknesses);
  const double high = times * thickness;
  if (!fallsShort(high, size.width)) return;
  report(
      part, tenon,
      {size.width, high, most,
       fmt::format("{} on {} is {} wide, more than {:g} times its thickness of {}",
                   nameOf(piece, tenon), piece.label(part.id), lengthWords(size.width, unit), times,
                   lengthWords(thickness, unit)),
       "tenon_width", mostTold(high, unit),
       fmt::format("make it at most {} wide", atMostWords(high, unit)), "split it into two tenons"},
      findings);
}

/// True where another mortise enters the same stretch of the part by a face at right angles, as in
/// a corner leg: two tenons share the room that one has in a stile.
bool sharesItsRoom(const PlacedPart& mate, const Feature& mortise) {
  const std::vector<const Feature*> cuts = cutsOf(mate);
  return std::any_of(cuts.begin(), cuts.end(), [&](const Feature* other) {
    if (other->purpose != mortise.purpose || other->face.axis == mortise.face.axis) return false;
    const int along = 3 - other->face.axis - mortise.face.axis;
    return other->extent.min[along] < mortise.extent.max[along] &&
           mortise.extent.min[along] < other->extent.max[along];
  });
}

void tenonLength(const CheckInput& input, const PlacedPart& part, const Feature& tenon,
                 const Feature& mortise, std::vector<Finding>& findings) {
  const Piece& piece = input.piece;
  const Unit unit = input.unit;
  const PlacedPart& mate = piece.parts[mortise.part.index()];
  const double stock = mate.size[mortise.face.axis];
  const double length = sizeOf(part, tenon).length;
  // Long enough by either rule, as most are: no need to look who else is in the mate.
  const double greatest =
      std::max(shareBy(RuleId::legTenonLengthShareLeast), shareBy(RuleId::tenonLengthShareLeast));
  if (!fallsShort(length, greatest * stock)) return;
  const ShareRule least = sharesItsRoom(mate, mortise) ? ShareRule(RuleId::legTenonLengthShareLeast)
                                                       : ShareRule(RuleId::tenonLengthShareLeast);
  // In a wide board it need go no deeper than holds glued across the grain.
  double low = std::fmin(shareBy(least) * stock, lengthBy(RuleId::crossGrainWidthMost).mm());
  const double nominal = nominalThickness(piece, part, tenon, &mortise);
  const bool wide = stock > shareBy(RuleId::wideMateThicknesses) * nominal;
  if (least == ShareRule(RuleId::legTenonLengthShareLeast) || wide) {
    // In a leg, and in a rail that is wide for the tenon (bars of a headboard), either rule will
    // do: of the mate, or of the tenon's own thickness.
    low = std::fmin(low, shareBy(RuleId::tenonLengthThicknessesLeast) * nominal);
  }
  if (!fallsShort(length, low)) return;
  report(part, tenon,
         {length, low, rule(least.id()),
          fmt::format("{} on {} goes {} into the {} of {}: too short to hold", nameOf(piece, tenon),
                      piece.label(part.id), lengthWords(length, unit), lengthWords(stock, unit),
                      piece.label(mate.id)),
          "tenon_length", leastTold(low, unit),
          fmt::format("make it at least {} long", atLeastWords(low, unit))},
         findings);
}

void housingDepth(const CheckInput& input, const PlacedPart& part, const Feature& housing,
                  ShareRule most, std::vector<Finding>& findings) {
  const Piece& piece = input.piece;
  const Unit unit = input.unit;
  const double high = shareBy(most) * part.size[housing.face.axis];
  const double depth = housing.extent.size()[housing.face.axis];
  if (!fallsShort(high, depth)) return;
  report(part, housing,
         {depth, high, rule(most.id()),
          fmt::format("{} is {} deep, more than half of {}", nameOf(piece, housing),
                      lengthWords(depth, unit), piece.label(part.id)),
          "depth", mostTold(high, unit),
          fmt::format("make it at most {} deep", atMostWords(high, unit))},
         findings);
}

/// All tenons of one part on one face that go into one mate: a wide rail that stands on a narrow
/// tenon twists. Told once, at the first of them.
void tenonsOfRail(const CheckInput& input, const PlacedPart& part, const Feature& tenon,
                  const Feature& mortise, std::vector<Finding>& findings) {
  const Piece& piece = input.piece;
  const Unit unit = input.unit;
  double together = 0, grooves = 0;
  const int wide = 3 - thicknessAxis(tenon.face) - tenon.face.axis;
  for (const Feature& other : part.features) {
    if (other.stage == Stage::cut && traitsOf(other.purpose).leads && other.face.axis == wide) {
      grooves = std::fmax(grooves, other.extent.size()[wide]);
    }
    if (other.purpose != tenon.purpose || other.face != tenon.face) continue;
    const Feature* its = mortiseOf(piece, other);
    if (its == nullptr || its->part != mortise.part) continue;
    if (other.joint < tenon.joint) return;
    together += sizeOf(part, other).width;
  }
  const double rail = part.size[wide];
  if (rail <= lengthBy(RuleId::oneTenonWidthMost).mm()) return;
  const ShareRule least = RuleId::tenonsWidthShareLeast;
  const double low = shareBy(least) * rail - grooves;
  if (!fallsShort(together, low)) return;
  report(
      part, tenon,
      {together, low, rule(least.id()),
       fmt::format("{} is {} wide and stands in {} by tenons of {} in all: it can twist, and its "
                   "shoulders will not stay close",
                   piece.label(part.id), lengthWords(rail, unit),
                   piece.label(piece.parts[mortise.part.index()].id), lengthWords(together, unit)),
       "", std::nullopt,
       fmt::format("cut two tenons in line, each about {} wide: two joints between the same "
                   "parts, each with its own shoulders",
                   atLeastWords(rail / 4, unit))},
      findings);
}

}  // namespace

Result<void> proportion(const CheckInput& input, std::vector<Finding>& findings) {
  const Piece& piece = input.piece;
  for (const PlacedPart& part : piece.parts) {
    for (const Feature& feature : part.features) {
      const PurposeTraits& traits = traitsOf(feature.purpose);
      if (feature.stage == Stage::insert && traits.bears) {
        tenonThickness(input, part, feature, findings);
        // A stub in a groove is short and as wide as its part by its nature.
        const Feature* mortise = mortiseOf(piece, feature);
        if (mortise == nullptr) continue;
        tenonWidth(input, part, feature, *mortise, findings);
        tenonLength(input, part, feature, *mortise, findings);
        tenonsOfRail(input, part, feature, *mortise, findings);
      } else if (feature.stage == Stage::cut && traits.greatestDepth) {
        housingDepth(input, part, feature, *traits.greatestDepth, findings);
      }
    }
  }
  return {};
}

}  // namespace dryfit::joinery::checking
