#include "joinery/checks/wood.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "joinery/checks/round_cuts.h"
#include "joinery/checks/words.h"
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

std::optional<std::string> shallowerText(const Piece& piece, const Feature& cut, double by,
                                         Unit unit) {
  const Feature* insert = insertOf(piece, cut);
  const Feature& named = insert == nullptr ? cut : *insert;
  const double left = named.extent.size()[named.face.axis] - by;
  if (left < lengthBy(RuleId::cutLeast).mm()) return std::nullopt;
  return fmt::format("make {} at most {} {}", nameOf(piece, named), atMostWords(left, unit),
                     insert == nullptr ? "deep" : "long");
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

double wallLimit(const PlacedPart& part, int axis, bool pocket) {
  const double least = lengthBy(RuleId::mortiseWallLeast).mm();
  if (pocket) return least;
  return std::min(least, shareBy(RuleId::cutWallShare) * part.size[axis]);
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

std::string eitherText(const std::optional<std::string>& a, const std::optional<std::string>& b,
                       const std::string& otherwise) {
  if (a && b) return sentence(*a + ", or " + *b);
  return sentence(a ? *a : b ? *b : otherwise);
}

}  // namespace dryfit::joinery::checking
