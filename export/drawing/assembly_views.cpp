#include "export/drawing/assembly_views.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <optional>
#include <set>
#include <string>
#include <utility>

#include "export/drawing/sight_lines.h"
#include "kernel/tolerance.h"

namespace dryfit::exporting {
namespace {

using joinery::PartGroup;
using joinery::PartId;
using joinery::PlacedPart;
using kernel::Point3;
using kernel::Vec3;
using kernel::Viewpoint;

constexpr int kGrid = 15;            ///< places tried along and across each part
constexpr std::size_t kEnough = 24;  ///< places to choose from for a leader's end

/// A side to look from.
struct Look {
  Viewpoint eye;
  std::string_view name;
};

/// The three views in projection first.
const std::array<Look, 6>& looks() {
  static const std::array<Look, 6> kLooks{
      Look{{{1, 0, 0}, {0, 0, 1}}, "front"}, Look{{{1, 0, 0}, {0, 1, 0}}, "top"},
      Look{{{0, -1, 0}, {0, 0, 1}}, "left"}, Look{{{-1, 0, 0}, {0, 0, 1}}, "back"},
      Look{{{0, 1, 0}, {0, 0, 1}}, "right"}, Look{{{1, 0, 0}, {0, -1, 0}}, "below"}};
  return kLooks;
}
constexpr std::size_t kInProjection = 3;

/// What an eye sees of one part.
struct Sight {
  PartId part;
  std::vector<PointerEnd> ends;
  double worth = 0;  ///< 0: not seen
};

/// Where a line of sight enters a part's blank: how far along; none where it misses.
std::optional<double> entry(const PlacedPart& part, Point3 from, Vec3 along) {
  const Point3 o = part.frame.local(from);
  const Vec3 d = part.frame.localDirection(along);
  double enter = -std::numeric_limits<double>::infinity();
  double leave = std::numeric_limits<double>::infinity();
  for (int axis = 0; axis < 3; ++axis) {
    if (std::fabs(d[axis]) < kernel::kAlongAxis) {
      if (o[axis] <= kernel::kSnap || o[axis] >= part.size[axis] - kernel::kSnap)
        return std::nullopt;
      continue;
    }
    const double a = -o[axis] / d[axis];
    const double b = (part.size[axis] - o[axis]) / d[axis];
    enter = std::max(enter, std::min(a, b));
    leave = std::min(leave, std::max(a, b));
  }
  if (enter >= leave - kernel::kSnap) return std::nullopt;
  return enter;
}

/// Some of the places, over the whole of what is seen, and the one nearest to the middle.
std::vector<PointerEnd> fewOf(const std::vector<PointerEnd>& all) {
  if (all.size() <= kEnough) return all;
  std::vector<PointerEnd> few;
  for (std::size_t i = 0; i < kEnough; ++i) few.push_back(all[i * all.size() / kEnough]);
  few.push_back(*std::ranges::min_element(all, {}, &PointerEnd::off));
  return few;
}

/// The parts as seen by one eye.
class Watcher {
 public:
  Watcher(const joinery::Piece& piece, const SightLines& lines, const Viewpoint& eye)
      : piece_(piece), lines_(lines), eye_(eye), sight_(-eye.right.cross(eye.up)) {
    for (const PlacedPart& part : piece.parts) {
      flat_.push_back(Projection{eye, {}}.of(kernel::boundsOf(part.frame, part.blank())));
      const kernel::Box3 box = kernel::boundsOf(part.frame, part.overall());
      whole_.push_back(Projection{eye, {}}.of(box));
      far_ = std::max({far_, (box.min - Point3{}).norm(), (box.max - Point3{}).norm()});
    }
  }

  /// True where the first part's picture lies over the second's, and nearer to the eye.
  [[nodiscard]] bool liesBefore(std::size_t first, std::size_t second) const {
    if (!flat_[first].grown(-kernel::kSnap).overlaps(flat_[second].grown(-kernel::kSnap)))
      return false;
    Box2 both = flat_[first];
    both.min = {std::max(both.min.x, flat_[second].min.x),
                std::max(both.min.y, flat_[second].min.y)};
    both.max = {std::min(both.max.x, flat_[second].max.x),
                std::min(both.max.y, flat_[second].max.y)};
    const Point3 from = start(both.centre());
    const auto a = entry(piece_.parts[first], from, sight_);
    const auto b = entry(piece_.parts[second], from, sight_);
    return a && b && *a < *b - kernel::kSnap;
  }

  /// What is seen of one part with some others taken away, as the blanks give it.
  [[nodiscard]] Sight see(std::size_t part, const std::vector<bool>& away) const {
    Sight sight{piece_.parts[part].id, {}, 0};
    std::vector<std::size_t> others;
    for (std::size_t i = 0; i < flat_.size(); ++i) {
      if (i != part && !away[i] && flat_[i].overlaps(flat_[part])) others.push_back(i);
    }
    std::array<std::array<bool, kGrid>, kGrid> seen{};
    const Box2& box = flat_[part];
    const auto at = [&](int i, int j) {
      return Point2{box.min.x + box.width() * (i + 0.5) / kGrid,
                    box.min.y + box.height() * (j + 0.5) / kGrid};
    };
    int count = 0;
    for (int i = 0; i < kGrid; ++i) {
      for (int j = 0; j < kGrid; ++j) {
        seen[i][j] = isSeen(part, start(at(i, j)), others);
        count += seen[i][j] ? 1 : 0;
      }
    }
    double nearest = 1;
    for (int i = 1; i + 1 < kGrid; ++i) {
      for (int j = 1; j + 1 < kGrid; ++j) {
        // Wood on all sides of the leader's end, so that it stands on no edge.
        if (!seen[i][j] || !seen[i - 1][j] || !seen[i + 1][j] || !seen[i][j - 1] ||
            !seen[i][j + 1]) {
          continue;
        }
        const Point3 from = start(at(i, j));
        const double off = std::hypot((i + 0.5) / kGrid - 0.5, (j + 0.5) / kGrid - 0.5);
        nearest = std::min(nearest, off);
        sight.ends.push_back(
            {from + sight_ * entry(piece_.parts[part], from, sight_).value_or(0), off});
      }
    }
    if (sight.ends.empty()) return sight;
    const double area = box.width() * box.height() * count / (kGrid * kGrid);
    sight.worth = std::sqrt(area) / (1 + nearest);
    return sight;
  }

  /// Keeps enough of the places at which finished wood is seen, and moves them onto it; false where
  /// there is none. Blanks know nothing of cuts, tenons and tapers, and lines of sight that do are
  /// dear, so only what has been chosen is looked at so closely.
  [[nodiscard]] bool keepsFinished(Sight& sight, const std::vector<bool>& away) const {
    const std::size_t part = sight.part.index();
    for (const auto& some : {fewOf(sight.ends), sight.ends}) {
      std::vector<PointerEnd> good;
      for (const PointerEnd& end : some) {
        if (const auto at = finishedAt(part, end.at, away)) good.push_back({*at, end.off});
        if (good.size() > kEnough) break;
      }
      if (good.empty()) continue;
      sight.ends = std::move(good);
      return true;
    }
    return false;
  }

  /// The middle of a part, whatever lies before it.
  [[nodiscard]] Point3 middle(std::size_t part) const {
    return piece_.parts[part].frame.place(piece_.parts[part].blank().centre());
  }

 private:
  /// The point before everything from which the eye looks at a place of its picture.
  [[nodiscard]] Point3 start(Point2 flat) const {
    return Point3{} + eye_.right * flat.x + eye_.up * flat.y - sight_ * (2 * far_ + 1);
  }

  [[nodiscard]] bool isSeen(std::size_t part, Point3 from,
                            const std::vector<std::size_t>& others) const {
    const auto own = entry(piece_.parts[part], from, sight_);
    return own && std::ranges::none_of(others, [&](std::size_t i) {
             const auto theirs = entry(piece_.parts[i], from, sight_);
             return theirs && *theirs < *own - kernel::kSnap;
           });
  }

  /// The finished wood of a part that is seen at a place, with more of it in sight all round.
  [[nodiscard]] std::optional<Point3> finishedAt(std::size_t part, Point3 place,
                                                 const std::vector<bool>& away) const {
    const Point2 at = Projection{eye_, {}}.of(place);
    const double x = flat_[part].width() / (2 * kGrid);
    const double y = flat_[part].height() / (2 * kGrid);
    for (const Point2 off : {Point2{-x, 0}, Point2{x, 0}, Point2{0, -y}, Point2{0, y}}) {
      if (!finishedSeen(part, {at.x + off.x, at.y + off.y}, away)) return std::nullopt;
    }
    const auto far = finishedSeen(part, at, away);
    if (!far) return std::nullopt;
    return start(at) + sight_ * *far;
  }

  /// How far a line of sight goes until it meets the part; none where it misses it or meets another
  /// before it.
  [[nodiscard]] std::optional<double> finishedSeen(std::size_t part, Point2 at,
                                                   const std::vector<bool>& away) const {
    const auto own = meets(part, at);
    if (!own) return std::nullopt;
    for (std::size_t i = 0; i < whole_.size(); ++i) {
      if (i == part || away[i] || !whole_[i].contains({at, at}, 0)) continue;
      const auto theirs = meets(i, at);
      if (theirs && *theirs < *own + kernel::kContact) return std::nullopt;
    }
    return own;
  }

  [[nodiscard]] std::optional<double> meets(std::size_t part, Point2 at) const {
    const kernel::Frame& frame = piece_.parts[part].frame;
    return lines_.meets(part, frame.local(start(at)), frame.localDirection(sight_));
  }

  const joinery::Piece& piece_;
  const SightLines& lines_;
  Viewpoint eye_;
  Vec3 sight_;
  std::vector<Box2> flat_;   ///< of the blanks
  std::vector<Box2> whole_;  ///< with tenons and tongues
  double far_ = 0;
};

/// Shares the groups out among views.
class ViewFinder {
 public:
  ViewFinder(const joinery::Piece& piece, const SightLines& lines,
             const std::vector<PartGroup>& groups)
      : piece_(piece), groups_(groups), known_(groups.size(), false) {
    for (const Look& look : looks()) watchers_.emplace_back(piece, lines, look.eye);
  }

  std::vector<AssemblyView> find() {
    pointInProjection();
    while (hasUnknown() && addView()) {
    }
    pointThrough();
    return std::move(views_);
  }

 private:
  /// One more view that could be drawn.
  struct Choice {
    std::size_t look = 0;
    std::vector<int> without;
    std::vector<std::pair<std::size_t, Sight>> shows;  ///< group, and how it is seen
    double worth = 0;
  };

  [[nodiscard]] bool hasUnknown() const { return std::ranges::count(known_, false) > 0; }

  [[nodiscard]] Sight bestOf(std::size_t group, std::size_t look,
                             const std::vector<bool>& away) const {
    Sight best;
    for (const PartId id : groups_[group].parts) {
      Sight here = watchers_[look].see(id.index(), away);
      if (here.worth > best.worth + kernel::kRounding &&
          watchers_[look].keepsFinished(here, away)) {
        best = std::move(here);
      }
    }
    return best;
  }

  void pointAt(AssemblyView& view, std::size_t group, Sight sight) {
    view.pointers.push_back({groups_[group].number, sight.part, false, std::move(sight.ends)});
    known_[group] = true;
  }

  void pointInProjection() {
    const std::vector<bool> nothing(piece_.parts.size(), false);
    static constexpr std::array<const char*, kInProjection> kNames{"Front", "Top", "Left"};
    for (std::size_t i = 0; i < kInProjection; ++i) {
      views_.push_back({kNames[i], looks()[i].eye, {}, {}});
    }
    for (std::size_t g = 0; g < groups_.size(); ++g) {
      std::optional<std::pair<std::size_t, Sight>> best;
      for (std::size_t i = 0; i < kInProjection; ++i) {
        Sight here = bestOf(g, i, nothing);
        // The front view is read first.
        if (i == 0) here.worth *= 1.5;
        if (here.worth > (best ? best->second.worth + kernel::kRounding : 0))
          best = {i, std::move(here)};
      }
      if (best) pointAt(views_[best->first], g, std::move(best->second));
    }
  }

  /// The groups already pointed at, parts of which lie before one that is not.
  [[nodiscard]] std::vector<int> inTheWay(std::size_t look) const {
    std::vector<int> numbers;
    for (std::size_t g = 0; g < groups_.size(); ++g) {
      if (known_[g] && hidesUnknown(g, look)) numbers.push_back(groups_[g].number);
    }
    addWholeDoors(numbers);
    std::ranges::sort(numbers);
    return numbers;
  }

  /// What opens comes off whole: the rest of a door would hang in the air.
  void addWholeDoors(std::vector<int>& numbers) const {
    std::set<std::string> doors;
    for (const PartGroup& group : groups_) {
      if (std::ranges::find(numbers, group.number) == numbers.end()) continue;
      for (const PartId id : group.parts) {
        const std::string& door = piece_.part(id).group;
        const auto known = std::ranges::find(piece_.model.groups, door, &joinery::Group::name);
        if (known != piece_.model.groups.end() && known->opens) doors.insert(door);
      }
    }
    for (std::size_t g = 0; g < groups_.size(); ++g) {
      const bool ofDoors = std::ranges::all_of(
          groups_[g].parts, [&](PartId id) { return doors.contains(piece_.part(id).group); });
      const int number = groups_[g].number;
      if (!ofDoors || !known_[g] || std::ranges::find(numbers, number) != numbers.end()) continue;
      numbers.push_back(number);
    }
  }

  [[nodiscard]] bool hidesUnknown(std::size_t group, std::size_t look) const {
    return std::ranges::any_of(groups_[group].parts, [&](PartId part) {
      for (std::size_t g = 0; g < groups_.size(); ++g) {
        if (known_[g]) continue;
        for (const PartId hidden : groups_[g].parts) {
          if (watchers_[look].liesBefore(part.index(), hidden.index())) return true;
        }
      }
      return false;
    });
  }

  [[nodiscard]] Choice choiceOf(std::size_t look, std::vector<int> without) const {
    std::vector<bool> away(piece_.parts.size(), false);
    for (const PartGroup& group : groups_) {
      if (std::ranges::find(without, group.number) == without.end()) continue;
      for (const PartId id : group.parts) away[id.index()] = true;
    }
    Choice choice{look, std::move(without), {}, 0};
    for (std::size_t g = 0; g < groups_.size(); ++g) {
      if (known_[g]) continue;
      Sight sight = bestOf(g, look, away);
      if (sight.worth == 0) continue;
      choice.worth += 1;
      choice.shows.emplace_back(g, std::move(sight));
    }
    // What shows as much is better seen from the front, and with nothing taken away.
    if (look != 0) choice.worth *= 0.9;
    if (!choice.without.empty()) choice.worth *= 0.9;
    return choice;
  }

  /// Adds the view that shows most of what is not yet pointed at; false where none shows any.
  bool addView() {
    Choice best;
    for (std::size_t look = 0; look < looks().size(); ++look) {
      std::vector<Choice> choices;
      if (look >= kInProjection) choices.push_back(choiceOf(look, {}));
      if (auto way = inTheWay(look); !way.empty()) {
        choices.push_back(choiceOf(look, std::move(way)));
      }
      for (Choice& choice : choices) {
        if (choice.worth > best.worth + kernel::kRounding) best = std::move(choice);
      }
    }
    if (best.worth == 0) return false;
    const std::string_view side = looks()[best.look].name;
    const std::string from = side == "top"     ? "from above"
                             : side == "below" ? "from below"
                                               : fmt::format("from the {}", side);
    AssemblyView view{best.without.empty() ? "View " + from : "Inside, " + from,
                      looks()[best.look].eye,
                      best.without,
                      {}};
    for (auto& [group, sight] : best.shows) pointAt(view, group, std::move(sight));
    views_.push_back(std::move(view));
    return true;
  }

  void pointThrough() {
    for (std::size_t g = 0; g < groups_.size(); ++g) {
      if (known_[g]) continue;
      const PartId part = groups_[g].parts.front();
      views_.front().pointers.push_back(
          {groups_[g].number, part, true, {{watchers_.front().middle(part.index()), 0}}});
    }
  }

  const joinery::Piece& piece_;
  const std::vector<PartGroup>& groups_;
  std::vector<Watcher> watchers_;
  std::vector<bool> known_;
  std::vector<AssemblyView> views_;
};

}  // namespace

Result<std::vector<AssemblyView>> assemblyViews(const joinery::Piece& piece,
                                                const std::vector<kernel::Solid>& solids,
                                                const std::vector<PartGroup>& groups) {
  const auto lines = SightLines::of(solids);
  if (!lines) return tl::unexpected(lines.error());
  return ViewFinder(piece, *lines, groups).find();
}

Viewpoint isometricEye() {
  const double third = std::sqrt(3.0) / 3;
  const Vec3 right = Vec3{1, 1, 0}.unit();
  const Vec3 toEye{third, -third, third};
  return {right, toEye.cross(right)};
}

std::string numberRanges(const std::vector<int>& ascending) {
  std::string text;
  for (std::size_t i = 0; i < ascending.size();) {
    std::size_t last = i;
    while (last + 1 < ascending.size() && ascending[last + 1] == ascending[last] + 1) ++last;
    text += text.empty() ? "" : ", ";
    text += std::to_string(ascending[i]);
    if (last > i) text += (last == i + 1 ? ", " : "–") + std::to_string(ascending[last]);
    i = last + 1;
  }
  return text;
}

}  // namespace dryfit::exporting
