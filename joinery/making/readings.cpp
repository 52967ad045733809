#include "joinery/making/readings.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <vector>

#include "joinery/base/size_limits.h"
#include "joinery/trade/rules.h"
#include "kernel/units.h"

namespace dryfit::joinery {
namespace {

using kernel::Point2;

constexpr int kUnknowns = 5;
using Unknowns =
    std::array<double, kUnknowns>;  // bottom, x and y of top left, x and y of top right

constexpr int kSteps = 50;
constexpr double kSettled = 1e-11;  // mm

constexpr std::array<Corner, 4> kCorners{Corner::topLeft, Corner::topRight, Corner::bottomRight,
                                         Corner::bottomLeft};

std::size_t at(Corner corner) {
  return static_cast<std::size_t>(corner);
}

std::array<Point2, 4> cornersOf(const Unknowns& u) {
  return {Point2{u[1], u[2]}, Point2{u[3], u[4]}, Point2{u[0], 0}, Point2{0, 0}};
}

double between(const Point2& a, const Point2& b) {
  return std::hypot(b.x - a.x, b.y - a.y);
}

/// Inner angle at a corner, degrees.
double angleAt(const std::array<Point2, 4>& corner, std::size_t i) {
  const Point2& here = corner[i];
  const Point2& next = corner[(i + 1) % 4];
  const Point2& last = corner[(i + 3) % 4];
  const Point2 a{next.x - here.x, next.y - here.y};
  const Point2 b{last.x - here.x, last.y - here.y};
  // Clockwise corners: turning from the next to the last is turning to the right.
  const double sine = a.y * b.x - a.x * b.y;
  const double cosine = a.x * b.x + a.y * b.y;
  return Angle::radians(std::atan2(sine, cosine)).degrees();
}

/// Shape less reading, in mm; an angle counts as many mm as a tape is finer or coarser than it.
std::vector<double> residuals(const FrameReadings& r, const Unknowns& u) {
  const auto c = cornersOf(u);
  const auto& [topLeft, topRight, bottomRight, bottomLeft] = c;
  std::vector<double> out{
      between(topLeft, topRight) - r.top,        between(bottomLeft, bottomRight) - r.bottom,
      between(topLeft, bottomLeft) - r.left,     between(topRight, bottomRight) - r.right,
      between(topLeft, bottomRight) - r.falling, between(bottomLeft, topRight) - r.rising};
  const double perDegree = lengthBy(RuleId::tapeStep).mm() / angleBy(RuleId::angleStep).degrees();
  for (const Corner corner : kCorners) {
    const auto& read = r.corners[at(corner)];
    if (read) out.push_back((angleAt(c, at(corner)) - *read) * perDegree);
  }
  return out;
}

/// Solves m x = b by elimination with pivots; false where m has no inverse.
bool solve(std::array<Unknowns, kUnknowns> m, Unknowns b, Unknowns& x) {
  constexpr std::size_t n = kUnknowns;
  for (std::size_t col = 0; col < n; ++col) {
    std::size_t pivot = col;
    for (std::size_t row = col; row < n; ++row) {
      if (std::fabs(m[row][col]) > std::fabs(m[pivot][col])) pivot = row;
    }
    if (std::fabs(m[pivot][col]) < 1e-12) return false;
    std::swap(m[pivot], m[col]);
    std::swap(b[pivot], b[col]);
    for (std::size_t row = col + 1; row < n; ++row) {
      const double factor = m[row][col] / m[col][col];
      for (std::size_t k = col; k < n; ++k) m[row][k] -= factor * m[col][k];
      b[row] -= factor * b[col];
    }
  }
  for (std::size_t row = n; row-- > 0;) {
    double sum = b[row];
    for (std::size_t k = row + 1; k < n; ++k) sum -= m[row][k] * x[k];
    x[row] = sum / m[row][row];
  }
  return true;
}

double squares(const std::vector<double>& values) {
  double sum = 0;
  for (const double v : values) sum += v * v;
  return sum;
}

/// One step of Gauss and Newton, shortened until it helps. Returns how far it went.
double improve(const FrameReadings& r, Unknowns& u) {
  constexpr double kProbe = 1e-4;
  const std::vector<double> now = residuals(r, u);
  std::vector<Unknowns> slope(now.size());
  for (std::size_t k = 0; k < kUnknowns; ++k) {
    Unknowns more = u, less = u;
    more[k] += kProbe;
    less[k] -= kProbe;
    const auto above = residuals(r, more);
    const auto below = residuals(r, less);
    for (std::size_t i = 0; i < now.size(); ++i) {
      slope[i][k] = (above[i] - below[i]) / (2 * kProbe);
    }
  }
  std::array<Unknowns, kUnknowns> normal{};
  Unknowns right{}, step{};
  for (std::size_t i = 0; i < now.size(); ++i) {
    for (std::size_t a = 0; a < kUnknowns; ++a) {
      right[a] -= slope[i][a] * now[i];
      for (std::size_t b = 0; b < kUnknowns; ++b) normal[a][b] += slope[i][a] * slope[i][b];
    }
  }
  if (!solve(normal, right, step)) return 0;
  double share = 1;
  for (int halved = 0; halved < 20; ++halved, share /= 2) {
    Unknowns next = u;
    for (std::size_t k = 0; k < kUnknowns; ++k) next[k] += share * step[k];
    if (squares(residuals(r, next)) > squares(now)) continue;
    u = next;
    double far = 0;
    for (const double s : step) far = std::fmax(far, std::fabs(share * s));
    return far;
  }
  return 0;
}

Result<void> checkReadings(const FrameReadings& r) {
  for (const double length : {r.falling, r.rising, r.top, r.bottom, r.left, r.right}) {
    if (const auto fine = checkSize(length); !fine) {
      return fail(ErrorCode::badMeasurement, fine.error().what, {}, fine.error().mend);
    }
  }
  for (const auto& corner : r.corners) {
    if (!corner || (*corner > 45 && *corner < 135)) continue;
    return fail(ErrorCode::badMeasurement, fmt::format("a corner of {:.6g} degrees", *corner), {},
                "write the inside angle, near 90 degrees");
  }
  // Each diagonal spans two triangles.
  const auto closes = [](double diagonal, double a, double b) {
    return diagonal < a + b && diagonal > std::fabs(a - b);
  };
  const bool fine = closes(r.falling, r.left, r.bottom) && closes(r.falling, r.top, r.right) &&
                    closes(r.rising, r.bottom, r.right) && closes(r.rising, r.left, r.top);
  if (fine) return {};
  return fail(ErrorCode::badMeasurement, "no frame can have these widths, heights and diagonals",
              {}, "a diagonal is shorter than a width and a height together; read them again");
}

/// The most that rounding each of six lengths to a step can part them from one frame: half a step
/// times (1 + sqrt 2) / 2, that of the diagonals of a square.
double roundingOf(double step) {
  return step / 2 * (1 + std::numbers::sqrt2) / 2;
}

FrameShape shapeOf(const FrameReadings& r, const Unknowns& u) {
  FrameShape shape;
  shape.corner = cornersOf(u);
  const auto& [topLeft, topRight, bottomRight, bottomLeft] = shape.corner;
  for (std::size_t i = 0; i < 4; ++i) shape.angle[i] = angleAt(shape.corner, i);
  shape.top = between(topLeft, topRight);
  shape.bottom = between(bottomLeft, bottomRight);
  shape.left = between(topLeft, bottomLeft);
  shape.right = between(topRight, bottomRight);
  shape.falling = between(topLeft, bottomRight);
  shape.rising = between(bottomLeft, topRight);
  shape.rackAngle = (shape.angle[at(Corner::topLeft)] + shape.angle[at(Corner::bottomRight)] -
                     shape.angle[at(Corner::topRight)] - shape.angle[at(Corner::bottomLeft)]) /
                    4;
  shape.rack = (shape.left + shape.right) / 2 * std::sin(Angle::degrees(shape.rackAngle).radians());
  for (const double residual : residuals(r, u)) {
    shape.disagreement = std::fmax(shape.disagreement, std::fabs(residual));
  }
  shape.readingsAgree = shape.disagreement <= roundingOf(lengthBy(RuleId::tapeStep).mm());
  return shape;
}

}  // namespace

Result<FrameShape> frameFrom(const FrameReadings& readings) {
  if (const auto fine = checkReadings(readings); !fine) return tl::unexpected(fine.error());
  const double width = (readings.top + readings.bottom) / 2;
  const double height = (readings.left + readings.right) / 2;
  Unknowns u{width, 0, height, width, height};
  for (int i = 0; i < kSteps; ++i) {
    if (improve(readings, u) < kSettled) break;
  }
  return shapeOf(readings, u);
}

}  // namespace dryfit::joinery
