#include "joinery/checks/wood.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "joinery/checks/round_cuts.h"
#include "joinery/checks/words.h"
#include "joinery/formula/length_text.h"
#include "joinery/joints/joint_kind.h"
#include "joinery/joints/joint_kinds.h"
#include "joinery/trade/rules.h"
#include "kernel/solid.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery::checking {
namespace {

using kernel::Box3;
using kernel::Solid;

/// Where a cut takes nothing of its part, the wood beside it has no end.
constexpr double kNoWall = std::numeric_limits<double>::infinity();

/// The wood a tool takes, as a solid. Error emptyResult where it misses the part.
Result<Solid> takenBy(const Box3& overall, const Feature& cut) {
  Result<Solid> tool = kernel::makeTool(cut.tool);
  if (!tool) return tool;
  Result<Solid> body = kernel::makeBox(overall);
  if (!body) return body;
  return kernel::common(*body, std::array{*tool});
}

/// All that the meeting of two cuts depends on.
kernel::Recipe questionOf(const Box3& overall, const Feature& a, const Feature& b) {
  using Kind = kernel::Step::Kind;
  return {kernel::Block{overall, {}}, {{Kind::remove, {a.tool}}, {Kind::remove, {b.tool}}}};
}

Result<kernel::Overlap> sharedBySolids(const Box3& overall, const Feature& a, const Feature& b) {
  const Result<Solid> taken = takenBy(overall, a);
  const Result<Solid> tool = kernel::makeTool(b.tool);
  if (!taken || !tool) {
    const Error& error = taken ? tool.error() : taken.error();
    if (error.code == ErrorCode::emptyResult) return kernel::Overlap{};
    return tl::unexpected(error);
  }
  return kernel::overlap(*taken, *tool);
}

Result<double> wallBySolids(const Box3& overall, const Feature& a, const Feature& b) {
  const Result<Solid> first = takenBy(overall, a);
  const Result<Solid> second = takenBy(overall, b);
  if (first && second) return kernel::distance(*first, *second);
  const Error& error = first ? second.error() : first.error();
  if (error.code == ErrorCode::emptyResult) return kNoWall;
  return tl::unexpected(error);
}

/// `work`'s answer, or the one remembered for the same two cuts. Errors are not remembered.
template <class Memory, class Work>
auto askOnce(Memory* memory, const Box3& overall, const Feature& a, const Feature& b,
             const Work& work) {
  if (memory == nullptr) return work(overall, a, b);
  kernel::Recipe question = questionOf(overall, a, b);
  if (const auto* known = memory->find(question)) return decltype(work(overall, a, b))(*known);
  auto answer = work(overall, a, b);
  if (answer) memory->keep(std::move(question), *answer);
  return answer;
}

/// True where the ranges of two boxes along `axis` coincide, or one contains the other.
bool inLine(const Box3& a, const Box3& b, int axis) {
  const double low = b.min[axis] - a.min[axis];
  const double high = b.max[axis] - a.max[axis];
  const double most = lengthBy(RuleId::inLineMost).mm();
  return (low >= -most && high <= most) || (low <= most && high >= -most);
}

/// The two joints share two or more mates: their panels, shelves or rails are of one frame.
bool inOneFrame(const Piece& piece, JointId a, JointId b) {
  const auto& first = piece.joints[a.index()].mates;
  const auto& second = piece.joints[b.index()].mates;
  return std::count_if(first.begin(), first.end(), [&](PartId mate) {
           return std::find(second.begin(), second.end(), mate) != second.end();
         }) >= 2;
}

double distanceOf(const Box3& a, const Box3& b) {
  double sum = 0;
  for (int axis = 0; axis < 3; ++axis) {
    const double apart = std::max({0.0, b.min[axis] - a.max[axis], a.min[axis] - b.max[axis]});
    sum += apart * apart;
  }
  return std::sqrt(sum);
}

}  // namespace

bool isSquare(const Feature& feature) {
  const auto* block = std::get_if<kernel::Block>(&feature.tool);
  return block != nullptr && block->frame == kernel::Frame{};
}

int runAxis(const Feature& feature) {
  if (feature.run) return *feature.run;
  const int a = (feature.face.axis + 1) % 3;
  const int b = (feature.face.axis + 2) % 3;
  const kernel::Vec3 size = feature.extent.size();
  return size[a] >= size[b] ? a : b;
}

int crossAxis(const Feature& feature) {
  return 3 - feature.face.axis - runAxis(feature);
}

Box3 reach(const Box3& overall, const Feature& cut) {
  return kernel::boundsOf(cut.tool).common(overall);
}

BoxTree treeOf(const Box3& overall, const std::vector<const Feature*>& cuts) {
  std::vector<Box3> boxes;
  boxes.reserve(cuts.size());
  for (const Feature* cut : cuts) boxes.push_back(reach(overall, *cut));
  return BoxTree(std::move(boxes));
}

std::vector<const Feature*> cutsOf(const PlacedPart& part) {
  std::vector<const Feature*> cuts;
  for (const Feature& feature : part.features) {
    if (feature.stage == Stage::cut) cuts.push_back(&feature);
  }
  return cuts;
}

Result<SharedCut> sharedCut(const Box3& overall, const Feature& a, const Feature& b,
                            CheckMemory* memory) {
  const Box3 box = reach(overall, a).common(reach(overall, b));
  if (box.empty()) return SharedCut{};
  if (isSquare(a) && isSquare(b)) return SharedCut{box.volume(), box};
  if (roundWall(overall, a, b).value_or(0) > kernel::kContact) return SharedCut{};
  auto* known = memory == nullptr ? nullptr : &memory->sharedCuts;
  const Result<kernel::Overlap> shared = askOnce(known, overall, a, b, sharedBySolids);
  if (!shared) return tl::unexpected(shared.error());
  return SharedCut{shared->volume, shared->bounds};
}

Result<double> wallBetween(const Box3& overall, const Feature& a, const Feature& b,
                           CheckMemory* memory) {
  if (reach(overall, a).empty() || reach(overall, b).empty()) return kNoWall;
  if (isSquare(a) && isSquare(b)) return distanceOf(reach(overall, a), reach(overall, b));
  if (const auto wall = roundWall(overall, a, b)) return *wall;
  return askOnce(memory == nullptr ? nullptr : &memory->walls, overall, a, b, wallBySolids);
}

bool isOrdinaryMeeting(const Piece& piece, const Feature& a, const Feature& b) {
  if (traitsOf(a.purpose).meetsAny || traitsOf(b.purpose).meetsAny) return true;
  const bool runA = runsAlong(a.purpose);
  const bool runB = runsAlong(b.purpose);
  const bool sameFace = a.face == b.face;
  if (runA && runB) return sameFace || inOneFrame(piece, a.joint, b.joint);
  if (runA == runB || !sameFace) return false;
  const Feature& run = runA ? a : b;
  const Feature& pocket = runA ? b : a;
  return isPocket(pocket.purpose) && inLine(run.extent, pocket.extent, crossAxis(run));
}

const Feature* insertOf(const Piece& piece, const Feature& cut) {
  const std::optional<Purpose> wanted = traitsOf(cut.purpose).roomFor;
  if (!wanted) return nullptr;
  for (const PartId mate : piece.joints[cut.joint.index()].mates) {
    if (mate == cut.part) continue;
    for (const Feature& feature : piece.parts[mate.index()].featuresOf(cut.joint)) {
      if (feature.stage == Stage::insert && feature.purpose == wanted) return &feature;
    }
  }
  return nullptr;
}

std::optional<double> numberOf(const PlacedJoint& joint, std::string_view parameter) {
  std::string name(parameter);
  std::ranges::replace(name, '_', ' ');
  const auto found = std::ranges::find(joint.values, name, &JointValue::name);
  if (found == joint.values.end()) return std::nullopt;
  return found->value;
}

namespace {

/// The number of the joint by which the depth of a cut is set, if its kind has one.
std::string_view depthParameter(const Piece& piece, const Feature& cut) {
  const JointKind* kind = jointKindNamed(piece.joint(cut.joint).kind);
  if (kind == nullptr) return {};
  if (cut.purpose == Purpose::haunchSocket) return "haunch_length";
  for (const std::string_view name : {"groove_depth", "tenon_length", "tongue_length", "depth"}) {
    if (std::ranges::find(kind->parameters(), name, &Parameter::name) != kind->parameters().end()) {
      return name;
    }
  }
  return {};
}

std::string shallowerWords(const Piece& piece, const Feature& cut, double value, Unit unit) {
  const std::string most = atMostWords(value, unit);
  if (cut.purpose == Purpose::dowelHole) {
    return fmt::format("let the dowels of {} go at most {} into each part",
                       nameOf(piece, cut.joint), most);
  }
  const Feature* insert = insertOf(piece, cut);
  return fmt::format("make {} at most {} {}", nameOf(piece, insert == nullptr ? cut : *insert),
                     most, insert == nullptr ? "deep" : "long");
}

}  // namespace

std::optional<MendingNumber> shallower(const Piece& piece, const Feature& cut, double by,
                                       Unit unit) {
  const std::string_view parameter = depthParameter(piece, cut);
  const Feature* insert = insertOf(piece, cut);
  const Feature& named = insert == nullptr ? cut : *insert;
  const double now = numberOf(piece.joints[cut.joint.index()], parameter)
                         .value_or(named.extent.size()[named.face.axis]);
  if (now - by < lengthBy(RuleId::cutLeast).mm()) return std::nullopt;
  const double value = toldAtMost(Length::mm(now - by), unit).mm();
  return MendingNumber{cut.joint, std::string(parameter), value,
                       shallowerWords(piece, cut, value, unit)};
}

bool isSolidWood(const Piece& piece, PartId part) {
  const std::string& name = piece.part(part).material;
  const auto& materials = piece.model.materials;
  const auto found = std::find_if(materials.begin(), materials.end(),
                                  [&](const Material& m) { return m.name == name; });
  return found == materials.end() || found->kind == MaterialKind::solid;
}

bool fallsShort(double found, double least) {
  return found < least - lengthBy(RuleId::limitSlack).mm() - kernel::kContact;
}

WallLimit wallLimit(const PlacedPart& part, int axis, const Feature& cut) {
  const WallLimit usual{lengthBy(RuleId::mortiseWallLeast).mm(), &rule(RuleId::mortiseWallLeast)};
  if (std::holds_alternative<kernel::Cylinder>(cut.tool)) {
    return {lengthBy(RuleId::dowelWallLeast).mm(), &rule(RuleId::dowelWallLeast)};
  }
  const bool beside = axis != cut.face.axis;
  if (!beside && isPocket(cut.purpose)) return usual;
  // In thin stock a wall is as thick as the cut beside it is wide, as when stock is cut in thirds;
  // and a quarter, where the cut may take half.
  const double share = shareBy(RuleId::cutWallShare) * part.size[axis];
  const double least = beside ? std::fmin(share, cut.extent.size()[axis]) : share;
  if (least >= usual.least) return usual;
  return {least, &rule(RuleId::cutWallShare)};
}

WallLimit limitBetween(const PlacedPart& part, const Feature& a, const Feature& b) {
  const bool pocketFirst = isPocket(a.purpose) || !isPocket(b.purpose);
  const Feature& one = pocketFirst ? a : b;
  const Feature& other = pocketFirst ? b : a;
  const WallLimit first = wallLimit(part, one.face.axis, one);
  if (isPocket(one.purpose) && !isPocket(other.purpose)) return first;
  const WallLimit second = wallLimit(part, other.face.axis, other);
  return second.least < first.least ? second : first;
}

kernel::Frame relativeFrame(const kernel::Frame& outer, const kernel::Frame& inner) {
  kernel::Frame frame = outer.inverse().after(inner);
  if (!frame.isSquare()) return frame;
  for (kernel::Vec3* axis : {&frame.x, &frame.y, &frame.z}) {
    *axis = {std::round(axis->x), std::round(axis->y), std::round(axis->z)};
  }
  return frame;
}

void setPlace(Finding& finding, const kernel::Frame& frame, const kernel::Box3& box) {
  finding.at = frame.place(box.centre());
  finding.box = kernel::boundsOf(frame, box);
}

void setEither(Finding& finding, const std::optional<MendingNumber>& a,
               const std::optional<MendingNumber>& b, const std::string& otherwise) {
  std::string text;
  for (const auto* change : {&a, &b}) {
    if (!*change) continue;
    finding.changes.push_back(**change);
    text += (text.empty() ? "" : ", or ") + (*change)->words;
  }
  finding.mend = sentence(text.empty() ? otherwise : text);
}

}  // namespace dryfit::joinery::checking
