#include "export/drawing/balloon_ring.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>
#include <utility>

#include "export/drawing/draughting.h"
#include "export/drawing/gutter.h"
#include "export/drawing/spread.h"
#include "kernel/tolerance.h"

namespace dryfit::exporting {
namespace {

constexpr double kPitch = 8.8;         ///< from one balloon to the next
constexpr double kCorner = 4.4;        ///< kept from the corners, where dimensions stand out
constexpr double kDotClear = 1.8;      ///< between a leader and another's end
constexpr double kBalloonClear = 0.7;  ///< between a leader and another's rim
constexpr double kFault = 150;         ///< what a fault weighs, mm of leader
constexpr double kLeastSlope = 0.5;    ///< sine of the angle between leader and side
constexpr double kSlant = 60;          ///< what lying flat weighs

double distance(Point2 a, Point2 b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

double turn(Point2 a, Point2 b, Point2 c) {
  return (b.x - a.x) * (c.y - a.y) - (b.y - a.y) * (c.x - a.x);
}

bool isFlat(Side side) {
  return side == Side::top || side == Side::bottom;
}

/// A place for a balloon.
struct Port {
  Point2 at;
  Side side = Side::top;
};

/// Where a balloon stands and what place it points at.
struct Seat {
  std::size_t port = 0;
  Point2 end;
  double cost = 0;
};

/// As many places as the four sides hold. Where they are too few the upper side runs over.
std::vector<Port> portsOf(const Box2& box, std::size_t needed) {
  std::vector<Port> ports;
  const auto row = [&](Side side, Point2 from, Point2 to, std::size_t more) {
    const double length = distance(from, to);
    const double room = std::max(0.0, length - 2 * kCorner);
    const auto count = static_cast<std::size_t>(room / kPitch) + 1 + more;
    const double pitch = more == 0 && count > 1 ? room / static_cast<double>(count - 1) : kPitch;
    const Point2 along{(to.x - from.x) / length, (to.y - from.y) / length};
    const double first = length / 2 - pitch * static_cast<double>(count - 1) / 2;
    for (std::size_t i = 0; i < count; ++i) {
      const double s = first + pitch * static_cast<double>(i);
      ports.push_back({{from.x + along.x * s, from.y + along.y * s}, side});
    }
  };
  const Box2 ring = box.grown(kRingAway);
  row(Side::left, {ring.min.x, box.min.y}, {ring.min.x, box.max.y}, 0);
  row(Side::right, {ring.max.x, box.min.y}, {ring.max.x, box.max.y}, 0);
  row(Side::bottom, {box.min.x, ring.min.y}, {box.max.x, ring.min.y}, 0);
  const std::size_t below = ports.size();
  row(Side::top, {box.min.x, ring.max.y}, {box.max.x, ring.max.y}, 0);
  if (ports.size() >= needed) return ports;
  const std::size_t lack = needed - ports.size();
  ports.resize(below);
  row(Side::top, {box.min.x, ring.max.y}, {box.max.x, ring.max.y}, lack);
  return ports;
}

/// Seats the items so that leaders are short and in nobody's way.
class Seating {
 public:
  Seating(const std::vector<RingItem>& items, std::vector<Port> ports)
      : items_(items), ports_(std::move(ports)), taken_(ports_.size(), false) {}

  std::vector<RingBalloon> find() {
    for (std::size_t i = 0; i < items_.size(); ++i) {
      seats_.push_back(bestSeat(i));
      taken_[seats_.back().port] = true;
    }
    constexpr int kMostPasses = 40;
    for (int pass = 0; pass < kMostPasses; ++pass) {
      const bool moved = moveEach();
      if (!swapPairs() && !moved) break;
    }
    for (const Side side : {Side::left, Side::right, Side::top, Side::bottom}) straighten(side);
    std::vector<RingBalloon> ring;
    for (std::size_t i = 0; i < items_.size(); ++i) {
      ring.push_back({items_[i].item, place(i), seats_[i].end, items_[i].behind});
    }
    return ring;
  }

 private:
  [[nodiscard]] Point2 place(std::size_t i) const { return ports_[seats_[i].port].at; }

  [[nodiscard]] static double leaderCost(const Port& port, const LeaderEnd& end) {
    const double length = distance(port.at, end.at);
    const double away =
        isFlat(port.side) ? std::fabs(port.at.y - end.at.y) : std::fabs(port.at.x - end.at.x);
    return length + end.cost + kSlant * std::max(0.0, kLeastSlope - away / length);
  }

  /// Faults between a leader and a seated item's.
  [[nodiscard]] double faults(Point2 port, Point2 end, std::size_t other) const {
    const Point2 theirs = place(other);
    const Point2 theirEnd = seats_[other].end;
    int count = 0;
    if (segmentsCross(port, end, theirs, theirEnd)) ++count;
    if (distanceToSegment(theirEnd, port, end) < kDotClear) ++count;
    if (distanceToSegment(end, theirs, theirEnd) < kDotClear) ++count;
    if (distanceToSegment(theirs, port, end) < kBalloonRadius + kBalloonClear) ++count;
    if (distanceToSegment(port, theirs, theirEnd) < kBalloonRadius + kBalloonClear) ++count;
    return kFault * count;
  }

  /// What an item costs in a seat, given the other seats; `skip` is left out of account.
  [[nodiscard]] double costOf(std::size_t i, const Seat& seat, double enough,
                              std::size_t skip) const {
    double cost = seat.cost;
    for (std::size_t j = 0; j < seats_.size() && cost < enough; ++j) {
      if (j != i && j != skip) cost += faults(ports_[seat.port].at, seat.end, j);
    }
    return cost;
  }

  /// The best place to point at from one port.
  [[nodiscard]] std::pair<Seat, double> bestAt(std::size_t i, std::size_t port, double enough,
                                               std::size_t skip) const {
    Seat best{port, {}, 0};
    for (const LeaderEnd& end : items_[i].ends) {
      const Seat seat{port, end.at, leaderCost(ports_[port], end)};
      if (seat.cost >= enough) continue;
      const double cost = costOf(i, seat, enough, skip);
      if (cost < enough) {
        enough = cost;
        best = seat;
      }
    }
    return {best, enough};
  }

  [[nodiscard]] Seat bestSeat(std::size_t i) const {
    Seat best;
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t p = 0; p < ports_.size(); ++p) {
      if (taken_[p]) continue;
      const auto [seat, cost] = bestAt(i, p, least, i);
      if (cost < least) {
        least = cost;
        best = seat;
      }
    }
    return best;
  }

  bool moveEach() {
    bool moved = false;
    for (std::size_t i = 0; i < seats_.size(); ++i) {
      double least =
          costOf(i, seats_[i], std::numeric_limits<double>::infinity(), i) - kernel::kOnPaper;
      Seat best = seats_[i];
      bool better = false;
      for (std::size_t p = 0; p < ports_.size(); ++p) {
        if (taken_[p] && p != seats_[i].port) continue;
        const auto [seat, cost] = bestAt(i, p, least, i);
        if (cost >= least) continue;
        least = cost;
        best = seat;
        better = true;
      }
      if (!better) continue;
      taken_[seats_[i].port] = false;
      seats_[i] = best;
      taken_[best.port] = true;
      moved = true;
    }
    return moved;
  }

  bool swapPairs() {
    constexpr double kAny = std::numeric_limits<double>::infinity();
    bool swapped = false;
    for (std::size_t i = 0; i < seats_.size(); ++i) {
      for (std::size_t j = i + 1; j < seats_.size(); ++j) {
        const Seat mine = seats_[i];
        const Seat theirs = seats_[j];
        // Each is counted without the other, their faults with each other once.
        const double now =
            costOf(i, mine, kAny, j) + costOf(j, theirs, kAny, i) + faults(place(i), mine.end, j);
        const auto [first, cost] = bestAt(i, theirs.port, now, j);
        if (cost >= now) continue;
        seats_[i] = first;
        const auto [second, more] = bestAt(j, mine.port, now - cost, j);
        if (cost + more < now - kernel::kOnPaper) {
          seats_[j] = second;
          swapped = true;
        } else {
          seats_[i] = mine;
        }
      }
    }
    return swapped;
  }

  [[nodiscard]] double total() const {
    double sum = 0;
    for (std::size_t i = 0; i < seats_.size(); ++i) {
      sum += distance(place(i), seats_[i].end);
      for (std::size_t j = 0; j < i; ++j) sum += faults(place(i), seats_[i].end, j);
    }
    return sum;
  }

  /// Moves the balloons of a side along it to where their leaders are straightest, if that does
  /// no harm.
  void straighten(Side side) {
    const auto along = [&](Point2 p) { return isFlat(side) ? p.x : p.y; };
    std::vector<std::size_t> here;
    double low = std::numeric_limits<double>::infinity();
    double high = -low;
    for (const Port& port : ports_) {
      if (port.side != side) continue;
      low = std::min(low, along(port.at));
      high = std::max(high, along(port.at));
    }
    for (std::size_t i = 0; i < seats_.size(); ++i) {
      if (ports_[seats_[i].port].side == side) here.push_back(i);
    }
    std::ranges::sort(here, {}, [&](std::size_t i) { return along(place(i)); });
    std::vector<double> wanted;
    wanted.reserve(here.size());
    for (const std::size_t i : here) wanted.push_back(along(seats_[i].end));
    const std::vector<double> places = spread(wanted, kPitch, low, high);
    const std::vector<Port> before = ports_;
    const double cost = total();
    for (std::size_t k = 0; k < here.size(); ++k) {
      Point2& at = ports_[seats_[here[k]].port].at;
      (isFlat(side) ? at.x : at.y) = places[k];
    }
    const bool over = !places.empty() && places.back() > high + kernel::kOnPaper;
    if (over || total() > cost + kernel::kOnPaper) ports_ = before;
  }

  const std::vector<RingItem>& items_;
  std::vector<Port> ports_;
  std::vector<bool> taken_;
  std::vector<Seat> seats_;
};

}  // namespace

bool segmentsCross(Point2 a, Point2 b, Point2 c, Point2 d) {
  return (turn(a, b, c) > 0) != (turn(a, b, d) > 0) && (turn(c, d, a) > 0) != (turn(c, d, b) > 0);
}

double distanceToSegment(Point2 p, Point2 a, Point2 b) {
  const Point2 d{b.x - a.x, b.y - a.y};
  const double square = d.x * d.x + d.y * d.y;
  const double t =
      square == 0 ? 0 : std::clamp(((p.x - a.x) * d.x + (p.y - a.y) * d.y) / square, 0.0, 1.0);
  return distance(p, {a.x + d.x * t, a.y + d.y * t});
}

std::size_t ringRoom(const Box2& outline) {
  return portsOf(outline, 0).size();
}

std::vector<RingBalloon> ringOf(const Box2& outline, const std::vector<RingItem>& items) {
  return Seating(items, portsOf(outline, items.size())).find();
}

}  // namespace dryfit::exporting
