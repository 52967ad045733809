#include "joinery/building/joint_proposals.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <utility>

#include "joinery/fit/new_findings.h"
#include "joinery/joints/insert.h"
#include "joinery/joints/joint_kinds.h"
#include "joinery/making/measure.h"
#include "joinery/trade/rules.h"
#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

using kernel::Box3;

constexpr double kShareLeast = 1;  // mm: what touches by less does not meet

bool isSheet(const Piece& piece, PartId id) {
  const std::string& name = piece.part(id).material;
  const auto material = std::ranges::find(piece.model.materials, name, &Material::name);
  return material != piece.model.materials.end() && material->kind == MaterialKind::sheet;
}

Box3 boundsIn(const PlacedPart& part) {
  return kernel::boundsOf(part.frame, part.blank());
}

bool near(const Box3& a, const Box3& b, double most) {
  for (int axis = 0; axis < 3; ++axis) {
    if (a.min[axis] > b.max[axis] + most || b.min[axis] > a.max[axis] + most) return false;
  }
  return true;
}

/// Where sides of two parts lie on each other.
std::optional<Contact> touching(const PlacedPart& a, const PlacedPart& b) {
  const auto contact = findContact(a, b);
  if (!contact || std::fabs(contact->gap) > kernel::kGluedNear) return std::nullopt;
  if (contact->apart > kernel::kGluedNear) return std::nullopt;
  const kernel::Vec3 shared = contact->area.size();
  for (int axis = 0; axis < 3; ++axis) {
    if (axis != contact->face.axis && shared[axis] < kShareLeast) return std::nullopt;
  }
  return *contact;
}

/// True where the blanks of two square parts share wood.
bool crosses(const PlacedPart& a, const PlacedPart& b) {
  if (!a.frame.inverse().after(b.frame).isSquare()) return false;
  return near(boundsIn(a), boundsIn(b), -kShareLeast);
}

MeetingWay wayOf(int low, int high) {
  using enum MeetingWay;
  if (low == 0) return high == 0 ? endToEnd : high == 1 ? endToEdge : endToFace;
  if (low == 1) return high == 1 ? edgeToEdge : edgeToFace;
  return faceToFace;
}

/// True where the sides of `thin` that touch the other lie within the other's thickness, as a
/// panel's in its frame.
bool liesWithin(const Piece& piece, PartId thin, PartId member, const Contact& contact) {
  const PlacedPart &panel = piece.parts[thin.index()], &other = piece.parts[member.index()];
  if (contact.face.axis == 2 || contact.otherFace.axis == 2) return false;
  return panel.size.z <= shareBy(RuleId::grooveWidthShareMost) * other.size.z + kernel::kContact;
}

/// True where the first part is a rail rather than a shelf: it takes up less than half of the width
/// on which it stands.
bool isNarrowOn(const Piece& piece, PartId first, PartId second) {
  return piece.parts[first.index()].size.y < piece.parts[second.index()].size.y / 2;
}

/// True where the first part ends flush with an end of the second one, as a rail at the top of its
/// stile: a haunch is usual there.
bool atCorner(const Piece& piece, PartId first, PartId second) {
  const PlacedPart& other = piece.parts[second.index()];
  const Box3 inside =
      kernel::boundsOf(other.frame.inverse().after(piece.parts[first.index()].frame),
                       piece.parts[first.index()].blank());
  return std::fabs(inside.min.x) < kShareLeast ||
         std::fabs(inside.max.x - other.size.x) < kShareLeast;
}

std::string plain(std::string name) {
  std::ranges::replace(name, '.', '_');
  return name;
}

NewJoint jointOf(const ModelFile& file, const Piece& piece, const JointChoice& choice,
                 const std::vector<PartId>& parts) {
  const std::string first = piece.part(parts[0]).name;
  std::vector<std::string> others;
  for (std::size_t i = 1; i < parts.size(); ++i) others.push_back(piece.part(parts[i]).name);
  const std::string behind = parts.size() == 2 ? "_" + plain(others.front()) : "_frame";
  return {freeName(file, plain(first) + behind),
          std::string(choice.kind),
          {{std::string(choice.first), {first}}, {std::string(choice.second), std::move(others)}}};
}

int countOf(const std::vector<Finding>& findings, Severity severity) {
  return static_cast<int>(std::ranges::count(findings, severity, &Finding::severity));
}

/// Tries joints in a piece.
class Trial {
 public:
  Trial(const ModelFile& file, LiveFit& live) : file_(file), live_(live) {}

  Result<void> begin() {
    auto before = live_.update(file_.model(), usualBasis(file_.model()));
    if (!before) return tl::unexpected(before.error());
    before_ = std::move(*before);
    return {};
  }
  [[nodiscard]] const Piece& piece() const { return before_->piece; }

  /// Error: also where nothing of the joint can be cut there.
  Result<JointProposal> with(const NewJoint& joint, std::string_view why) {
    ModelFile changed = file_;
    if (auto added = addJoint(changed, joint); !added) return tl::unexpected(added.error());
    const auto after = live_.update(changed.model(), usualBasis(changed.model()));
    if (!after) return tl::unexpected(after.error());
    const Piece& piece = (*after)->piece;
    JointProposal proposal{joint, std::string(why), newFindings(*before_, **after), {}, {}, 0, 0};
    // One entry stands for a joint with each part of a list.
    for (const PlacedJoint& placed : piece.joints) {
      const std::string place = changed.authoredPlace("joints", piece.joint(placed.id).name);
      if (place != "joints." + joint.name) continue;
      if (placed.notCut) return tl::unexpected(*placed.notCut);
      proposal.numbers = placed.values;
      addHalves(placed, **after, proposal.halves);
    }
    for (const Finding& gone : newFindings(**after, *before_)) proposal.mends.push_back(gone.text);
    proposal.errors = countOf(proposal.findings, Severity::error);
    proposal.warnings = countOf(proposal.findings, Severity::warning);
    return proposal;
  }

 private:
  void addHalves(const PlacedJoint& joint, const DryFit& after,
                 std::vector<MateHalf>& halves) const {
    for (const PartId mate : joint.mates) {
      const PlacedPart& part = after.piece.parts[mate.index()];
      MateHalf half{mate, before_->solids[mate.index()], after.solids[mate.index()], part.frame, {},
                    {}};
      for (const Feature& feature : part.featuresOf(joint.id)) {
        half.place = half.place.empty() ? feature.extent : half.place.united(feature.extent);
        half.face = feature.face;
      }
      if (!half.place.empty()) halves.push_back(std::move(half));
    }
  }

  const ModelFile& file_;
  LiveFit& live_;
  std::shared_ptr<const DryFit> before_;
};

/// What makes a proposal worse, the least first. A butt holds nothing by itself, so a joint that
/// does is better even where the check has a word about it.
int demerit(const JointProposal& proposal, int place) {
  constexpr int kError = 1000, kWarning = 20, kButt = 50;
  return kError * proposal.errors + kWarning * proposal.warnings +
         (proposal.joint.kind == "butt" ? kButt : 0) + place;
}

std::vector<JointProposal> bestFirst(std::vector<std::pair<int, JointProposal>> ranked) {
  std::ranges::stable_sort(ranked, {}, [](const auto& one) { return one.first; });
  std::vector<JointProposal> proposals;
  proposals.reserve(ranked.size());
  for (auto& [rank, proposal] : ranked) proposals.push_back(std::move(proposal));
  return proposals;
}

std::vector<JointProposal> proposalsFor(const ModelFile& file, Trial& trial,
                                        const std::vector<PartId>& parts) {
  std::vector<std::pair<int, JointProposal>> ranked;
  const auto consider = [&](const JointChoice& choice, const std::vector<PartId>& order) {
    auto proposal = trial.with(jointOf(file, trial.piece(), choice, order), choice.why);
    if (!proposal) return;
    int place = static_cast<int>(ranked.size());
    if (choice.kind == "haunched-mortise-tenon" && atCorner(trial.piece(), order[0], order[1])) {
      place = -1;
    }
    constexpr int kBehindTenons = 5;
    if (choice.second == "side" && isNarrowOn(trial.piece(), order[0], order[1])) {
      place += kBehindTenons;
    }
    ranked.emplace_back(demerit(*proposal, place), std::move(*proposal));
  };
  if (parts.size() > 2) {
    for (const JointChoice& choice : panelChoices()) consider(choice, parts);
    return bestFirst(std::move(ranked));
  }
  const auto meeting = meetingOf(trial.piece(), parts[0], parts[1]);
  if (!meeting) return {};
  for (const JointChoice& choice : jointChoices()) {
    if (choice.way == meeting->way) consider(choice, {meeting->first, meeting->second});
  }
  return bestFirst(std::move(ranked));
}

/// The pairs that a joint holds already.
std::set<std::pair<std::size_t, std::size_t>> joinedPairs(const Piece& piece) {
  std::set<std::pair<std::size_t, std::size_t>> pairs;
  for (const PlacedJoint& joint : piece.joints) {
    for (std::size_t i = 1; i < joint.mates.size(); ++i) {
      pairs.insert(std::minmax(joint.mates[0].index(), joint.mates[i].index()));
    }
  }
  return pairs;
}

}  // namespace

std::optional<PartsMeeting> meetingOf(const Piece& piece, PartId a, PartId b) {
  const PlacedPart &first = piece.parts[a.index()], &second = piece.parts[b.index()];
  if (crosses(first, second)) return PartsMeeting{MeetingWay::cross, a, b};
  const auto contact = touching(first, second);
  if (!contact) return std::nullopt;
  int low = contact->face.axis, high = contact->otherFace.axis;
  // A sheet has no end grain: whichever of its narrow sides stands on a face, it stands like a
  // shelf.
  if (low == 1 && high == 2 && isSheet(piece, a)) low = 0;
  if (high == 1 && low == 2 && isSheet(piece, b)) high = 0;
  const bool turn = high < low;
  if (turn) std::swap(low, high);
  return PartsMeeting{wayOf(low, high), turn ? b : a, turn ? a : b};
}

Result<std::vector<JointProposal>> proposeJoints(const ModelFile& file, PartId a, PartId b,
                                                 LiveFit& live) {
  Trial trial(file, live);
  if (auto begun = trial.begin(); !begun) return tl::unexpected(begun.error());
  return proposalsFor(file, trial, {a, b});
}

Result<JointProposal> tryJoint(const ModelFile& file, const NewJoint& joint, const std::string& why,
                               LiveFit& live) {
  Trial trial(file, live);
  if (auto begun = trial.begin(); !begun) return tl::unexpected(begun.error());
  return trial.with(joint, why);
}

std::vector<OpenMeeting> openMeetings(const Piece& piece) {
  const auto joined = joinedPairs(piece);
  std::vector<Box3> boxes;
  boxes.reserve(piece.parts.size());
  for (const PlacedPart& part : piece.parts) boxes.push_back(boundsIn(part));
  std::vector<OpenMeeting> pairs;
  std::vector<std::vector<PartId>> members(piece.parts.size());  // of the frame round a panel
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    for (std::size_t k = i + 1; k < boxes.size(); ++k) {
      if (joined.contains({i, k}) || !near(boxes[i], boxes[k], kernel::kGluedNear)) continue;
      const PartId a(i), b(k);
      if (!meetingOf(piece, a, b)) continue;
      const auto contact = touching(piece.parts[i], piece.parts[k]);
      const auto back = touching(piece.parts[k], piece.parts[i]);
      if (contact && liesWithin(piece, a, b, *contact)) {
        members[i].push_back(b);
      } else if (back && liesWithin(piece, b, a, *back)) {
        members[k].push_back(a);
      } else {
        pairs.push_back({{a, b}});
      }
    }
  }
  // Panels last: their grooves follow the frame that is joined by then.
  for (std::size_t i = 0; i < members.size(); ++i) {
    if (members[i].empty()) continue;
    OpenMeeting meeting{{PartId(i)}};
    meeting.parts.insert(meeting.parts.end(), members[i].begin(), members[i].end());
    pairs.push_back(std::move(meeting));
  }
  return pairs;
}

Result<std::vector<MeetingChoices>> choicesWhereAllMeet(const ModelFile& file, LiveFit& live,
                                                        const Progress& progress) {
  ModelFile now = file;
  std::vector<MeetingChoices> all;
  Trial first(file, live);
  if (auto begun = first.begin(); !begun) return tl::unexpected(begun.error());
  const std::vector<OpenMeeting> meetings = openMeetings(first.piece());
  for (std::size_t i = 0; i < meetings.size(); ++i) {
    if (progress && !progress(static_cast<int>(i), static_cast<int>(meetings.size()))) {
      return fail(ErrorCode::cancelled, "stopped");
    }
    Trial trial(now, live);
    if (auto begun = trial.begin(); !begun) return tl::unexpected(begun.error());
    std::vector<JointProposal> proposals = proposalsFor(now, trial, meetings[i].parts);
    if (proposals.empty()) continue;
    if (auto added = addJoint(now, proposals.front().joint); !added) continue;
    all.push_back({std::move(proposals)});
  }
  return all;
}

Result<std::vector<JointProposal>> joinAllThatMeet(const ModelFile& file, LiveFit& live,
                                                   const Progress& progress) {
  auto meetings = choicesWhereAllMeet(file, live, progress);
  if (!meetings) return tl::unexpected(meetings.error());
  std::vector<JointProposal> all;
  all.reserve(meetings->size());
  for (MeetingChoices& meeting : *meetings) all.push_back(std::move(meeting.choices.front()));
  return all;
}

}  // namespace dryfit::joinery
