#include "joinery/building/opened_out.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <optional>
#include <utility>

#include "joinery/building/box_ways.h"
#include "joinery/piece/piece_bounds.h"

namespace dryfit::joinery {
namespace {

using kernel::Box3;
using kernel::Vec3;

/// Two parts of which the first moves off the second along `way`, so far that it is clear.
struct Parting {
  std::size_t first = 0, second = 0;
  Vec3 way;
  JointId joint;
};

/// "door_1" of "door_1.panel", at depth 1; empty where the name has no more levels.
std::string assemblyAt(const std::string& name, int depth) {
  std::size_t end = 0;
  for (int i = 0; i < depth; ++i) {
    end = name.find('.', end == 0 ? 0 : end + 1);
    if (end == std::string::npos) return {};
  }
  return name.substr(0, end);
}

}  // namespace

class Opener {
 public:
  explicit Opener(const Piece& piece) : piece_(piece) {
    out_.moves_.resize(piece.parts.size());
    for (const PlacedPart& part : piece.parts) {
      boxes_.push_back(kernel::boundsOf(part.frame, part.overall()));
    }
    room_ = std::max(kLeastRoom, kRoom * boundsOf(piece).size().norm());
    for (const PlacedJoint& joint : piece.joints) {
      if (joint.notCut) continue;
      const Vec3 home = joint.homeDirection;
      const std::size_t first = joint.mates[0].index();
      // A panel in a groove leaves each member of its frame another way, and the joint names only
      // its first; a panel laid in a rebate leaves all of them one way.
      const bool ofEach = home.norm() < kSameWay ||
                          (joint.mates.size() > 2 &&
                           sameLine(awayFrom(boxes_[joint.mates[1].index()], boxes_[first]), home));
      for (std::size_t i = 1; i < joint.mates.size(); ++i) {
        const std::size_t second = joint.mates[i].index();
        const Vec3 way =
            ofEach ? awayFrom(boxes_[second], boxes_[first]) : home * (-1 / home.norm());
        partings_.push_back({first, second, way, joint.id});
      }
    }
  }

  OpenedOut open() {
    std::vector<std::size_t> parts(piece_.parts.size());
    std::iota(parts.begin(), parts.end(), std::size_t{0});
    (void)open(parts, 0, 1);
    std::ranges::sort(out_.closed_);
    out_.closed_.erase(std::unique(out_.closed_.begin(), out_.closed_.end()), out_.closed_.end());
    return std::move(out_);
  }

 private:
  static constexpr double kRoom = 0.06;     // of the piece's diagonal, between parts opened out
  static constexpr double kLeastRoom = 15;  // mm
  static constexpr int kDeepest = 16;       // levels of sub-assemblies

  struct Group {
    std::vector<std::size_t> parts;
    Box3 box;     ///< as it stands
    Box3 opened;  ///< with all that opens within it
  };
  /// One group stands off another by so much at least.
  struct Order {
    std::size_t far = 0, near = 0;
    double by = 0;
  };

  Box3 boxOf(const std::vector<std::size_t>& parts) const {
    Box3 all = boxes_[parts.front()];
    for (const std::size_t part : parts) all = all.united(boxes_[part]);
    return all;
  }

  std::vector<Group> groupsOf(const std::vector<std::size_t>& parts, Together& together) const {
    std::map<std::size_t, Group> groups;
    for (const std::size_t part : parts) groups[together.of(part)].parts.push_back(part);
    std::vector<Group> list;
    for (auto& [root, group] : groups) {
      group.box = group.opened = boxOf(group.parts);
      list.push_back(std::move(group));
    }
    return list;
  }

  /// Groups that move as one along a way: what no joint parts along it stays together, and so does
  /// a sub-assembly.
  std::vector<Group> groupsAlong(const std::vector<std::size_t>& parts, Vec3 way, int depth) {
    Together together(piece_.parts.size());
    std::map<std::string, std::size_t> assemblies;
    std::vector<bool> here(piece_.parts.size());
    for (const std::size_t part : parts) {
      here[part] = true;
      const std::string name = assemblyAt(piece_.part(PartId(part)).name, depth);
      if (name.empty()) continue;
      const auto [first, isNew] = assemblies.emplace(name, part);
      if (!isNew) together.join(first->second, part);
    }
    for (const Parting& p : partings_) {
      if (!here[p.first] || !here[p.second]) continue;
      if (!sameLine(p.way, way)) together.join(p.first, p.second);
    }
    joinCircles(parts, way, here, together);
    return groupsOf(parts, together);
  }

  /// What would have to be on both sides of something else cannot move off it.
  void joinCircles(const std::vector<std::size_t>& parts, Vec3 way, const std::vector<bool>& here,
                   Together& together) {
    for (bool again = true; again;) {
      again = false;
      std::map<std::size_t, std::vector<std::size_t>> beyond;  // group: those it stands beyond
      for (const Parting& p : partings_) {
        if (!here[p.first] || !here[p.second]) continue;
        const double along = p.way.dot(way);
        const std::size_t far = together.of(along > 0 ? p.first : p.second);
        const std::size_t near = together.of(along > 0 ? p.second : p.first);
        if (far != near) beyond[far].push_back(near);
      }
      std::map<std::size_t, int> state;  // 1 on the way, 2 done
      std::vector<std::size_t> path;
      const auto visit = [&](const auto& self, std::size_t at) -> bool {
        state[at] = 1;
        path.push_back(at);
        for (const std::size_t next : beyond[at]) {
          if (state[next] == 2) continue;
          if (state[next] == 1) {
            const auto from = std::ranges::find(path, next);
            for (auto i = from; i != path.end(); ++i) together.join(next, *i);
            return true;
          }
          if (self(self, next)) return true;
        }
        path.pop_back();
        state[at] = 2;
        return false;
      };
      for (const std::size_t part : parts) {
        if (state[together.of(part)] != 0) continue;
        path.clear();
        if (visit(visit, together.of(part))) {
          again = true;
          break;
        }
      }
    }
  }

  /// The ways to try: of the joints among these parts.
  std::vector<Vec3> waysOf(const std::vector<std::size_t>& parts) const {
    std::vector<bool> here(piece_.parts.size());
    for (const std::size_t part : parts) here[part] = true;
    std::vector<Vec3> ways;
    for (const Parting& p : partings_) {
      if (!here[p.first] || !here[p.second]) continue;
      const auto same = [&](Vec3 way) { return sameLine(way, p.way); };
      if (std::ranges::none_of(ways, same)) ways.push_back(p.way);
    }
    return ways;
  }

  /// Opens these parts from `stage` on; the box round them when they are open.
  Box3 open(const std::vector<std::size_t>& parts, int stage, int depth) {
    if (parts.size() < 2) return boxOf(parts);
    if (const auto whole = takeOutLoose(parts, stage, depth)) return *whole;
    std::vector<Group> best;
    Vec3 bestWay;
    for (const Vec3 way : waysOf(parts)) {
      std::vector<Group> groups = groupsAlong(parts, way, depth);
      if (groups.size() > best.size() && parted(groups, way)) {
        best = std::move(groups);
        bestWay = way;
      }
    }
    if (best.size() < 2) {
      if (depth < kDeepest) return open(parts, stage, depth + 1);
      tellClosed(parts);
      return boxOf(parts);
    }
    for (Group& group : best) group.opened = open(group.parts, stage + 1, depth);
    return spread(best, bestWay, stage, ordersOf(best, bestWay), std::nullopt);
  }

  /// What no joint holds to the rest, as a drawer or a door, is taken out before all else: to the
  /// front where it can be, else wherever nothing stands before it.
  std::optional<Box3> takeOutLoose(const std::vector<std::size_t>& parts, int stage, int depth) {
    std::vector<Group> groups = looseGroups(parts);
    if (groups.size() < 2) return std::nullopt;
    const auto most = std::ranges::max_element(
        groups, {}, [](const Group& group) { return group.box.size().norm(); });
    std::iter_swap(groups.begin(), most);
    for (const Vec3 way : {Vec3{0, -1, 0}, Vec3{0, 1, 0}, Vec3{0, 0, 1}, Vec3{0, 0, -1},
                           Vec3{-1, 0, 0}, Vec3{1, 0, 0}}) {
      std::vector<Group> free;
      Group rest;
      for (const Group& group : groups) {
        const bool within = overlapping(group.box, groups[0].box);
        if (&group != groups.data() && within && isFree(group, parts, way)) {
          free.push_back(group);
        } else {
          rest.parts.insert(rest.parts.end(), group.parts.begin(), group.parts.end());
        }
      }
      if (free.empty()) continue;
      rest.box = boxOf(rest.parts);
      free.insert(free.begin(), rest);
      for (Group& group : free) group.opened = open(group.parts, stage + 1, depth);
      std::vector<Order> orders;
      for (std::size_t i = 1; i < free.size(); ++i) orders.push_back(apart(free, i, 0, way));
      return spread(free, way, stage, std::move(orders), 0);
    }
    return std::nullopt;
  }

  std::vector<Group> looseGroups(const std::vector<std::size_t>& parts) const {
    Together together(piece_.parts.size());
    std::vector<bool> here(piece_.parts.size());
    for (const std::size_t part : parts) here[part] = true;
    for (const Parting& p : partings_) {
      if (here[p.first] && here[p.second]) together.join(p.first, p.second);
    }
    return groupsOf(parts, together);
  }

  /// Nothing else of these parts stands before the group on that way.
  bool isFree(const Group& group, const std::vector<std::size_t>& parts, Vec3 way) const {
    for (const std::size_t other : parts) {
      if (std::ranges::find(group.parts, other) != group.parts.end()) continue;
      for (const std::size_t part : group.parts) {
        if (!inLine(boxes_[part], boxes_[other], way)) continue;
        if (most(boxes_[other], way) > least(boxes_[part], way) + kTouch) return false;
      }
    }
    return true;
  }

  /// Whether a joint parts any two of them.
  bool parted(const std::vector<Group>& groups, Vec3 way) const {
    const auto groupOf = [&](std::size_t part) {
      for (std::size_t i = 0; i < groups.size(); ++i) {
        if (std::ranges::find(groups[i].parts, part) != groups[i].parts.end()) return i;
      }
      return groups.size();
    };
    for (const Parting& p : partings_) {
      if (!sameLine(p.way, way)) continue;
      const std::size_t a = groupOf(p.first), b = groupOf(p.second);
      if (a != b && a < groups.size() && b < groups.size()) return true;
    }
    return false;
  }

  void tellClosed(const std::vector<std::size_t>& parts) {
    std::vector<bool> here(piece_.parts.size());
    for (const std::size_t part : parts) here[part] = true;
    for (const Parting& p : partings_) {
      if (here[p.first] && here[p.second]) out_.closed_.push_back(p.joint);
    }
  }

  /// Moves the groups apart along the way, of which `stays` stays where it is, or the middle one;
  /// the box round all of them then.
  Box3 spread(const std::vector<Group>& groups, Vec3 way, int stage, std::vector<Order> orders,
              std::optional<std::size_t> stays) {
    std::vector<double> at(groups.size());
    for (std::size_t round = 0; round <= groups.size() * groups.size(); ++round) {
      settle(orders, at);
      bool clear = true;
      for (std::size_t i = 0; i < groups.size() && clear; ++i) {
        for (std::size_t j = 0; j < i && clear; ++j) {
          const Box3 a = moved(groups[i].opened, way * at[i]);
          const Box3 b = moved(groups[j].opened, way * at[j]);
          // What stands as it did, side by side, may stay so.
          if (!overlapping(a, b) || overlapping(groups[i].box, groups[j].box)) continue;
          orders.push_back(apart(groups, i, j, way));
          clear = false;
        }
      }
      if (clear) break;
    }
    // Where the middle one stays, the piece opens to both sides.
    std::vector<double> sorted = at;
    std::ranges::sort(sorted);
    const double middle = stays ? at[*stays] : sorted[sorted.size() / 2];
    Box3 all = groups.front().opened;
    bool first = true;
    for (std::size_t i = 0; i < groups.size(); ++i) {
      const Vec3 by = way * (at[i] - middle);
      const Box3 box = moved(groups[i].opened, by);
      all = std::exchange(first, false) ? box : all.united(box);
      if (by.norm() < kTouch) continue;
      out_.stages_ = std::max(out_.stages_, stage + 1);
      for (const std::size_t part : groups[i].parts) out_.moves_[part].push_back({stage, by});
    }
    return all;
  }

  Order apart(const std::vector<Group>& groups, std::size_t far, std::size_t near, Vec3 way) const {
    return {far, near, most(groups[near].opened, way) - least(groups[far].opened, way) + room_};
  }

  std::vector<Order> ordersOf(const std::vector<Group>& groups, Vec3 way) const {
    std::vector<std::size_t> groupOf(piece_.parts.size(), groups.size());
    for (std::size_t i = 0; i < groups.size(); ++i) {
      for (const std::size_t part : groups[i].parts) groupOf[part] = i;
    }
    std::vector<Order> orders;
    for (const Parting& p : partings_) {
      const std::size_t a = groupOf[p.first], b = groupOf[p.second];
      if (a == b || a == groups.size() || b == groups.size()) continue;
      const bool ahead = p.way.dot(way) > 0;
      orders.push_back(apart(groups, ahead ? a : b, ahead ? b : a, way));
    }
    const auto joined = [&](std::size_t a, std::size_t b) {
      return std::ranges::any_of(orders, [&](const Order& o) {
        return (o.far == a && o.near == b) || (o.far == b && o.near == a);
      });
    };
    const std::size_t joints = orders.size();
    for (std::size_t i = 0; i < groups.size(); ++i) {
      for (std::size_t j = 0; j < groups.size(); ++j) {
        if (i == j || !inLine(groups[i].box, groups[j].box, way)) continue;
        if (least(groups[i].box, way) < most(groups[j].box, way) - kTouch) continue;
        if (joints > 0 && joined(i, j)) continue;
        // What stands beyond something without a joint must not be overtaken by it.
        const double needed = most(groups[j].opened, way) - least(groups[i].opened, way);
        orders.push_back({i, j, std::max(0.0, needed)});
      }
    }
    return orders;
  }

  /// The least places that keep all orders; where they go in circles, as far as they can be kept.
  static void settle(const std::vector<Order>& orders, std::vector<double>& at) {
    for (std::size_t round = 0; round <= at.size(); ++round) {
      bool moved = false;
      for (const Order& order : orders) {
        const double needed = at[order.near] + order.by;
        if (at[order.far] >= needed - kTouch) continue;
        at[order.far] = needed;
        moved = true;
      }
      if (!moved) return;
    }
  }

  const Piece& piece_;
  std::vector<Box3> boxes_;
  std::vector<Parting> partings_;
  double room_ = kLeastRoom;
  OpenedOut out_;
};

OpenedOut OpenedOut::of(const Piece& piece) {
  return Opener(piece).open();
}

kernel::Vec3 OpenedOut::offset(PartId part, double share) const {
  kernel::Vec3 sum;
  if (part.index() >= moves_.size()) return sum;
  for (const Move& move : moves_[part.index()]) {
    const double done = std::clamp(share * stages_ - move.stage, 0.0, 1.0);
    sum = sum + move.by * done;
  }
  return sum;
}

}  // namespace dryfit::joinery
