#include "viewer/view/mate_picture.h"

#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <cmath>

#include "kernel/hidden_lines.h"
#include "viewer/look/look.h"

namespace dryfit::viewer {
namespace {

using kernel::Vec3;

constexpr double kRoom = 1.5;    // times the joint's own size in the picture
constexpr double kLeast = 25.0;  // mm, so that a small joint is not shown alone
constexpr double kLine = 1.4;    // pixels

Vec3 unit(Vec3 v) {
  return v * (1 / std::sqrt(v.dot(v)));
}

/// An eye that looks at a face of the part, from above and a little from the side.
kernel::Viewpoint eyeOn(const joinery::MateHalf& mate) {
  Vec3 outward{0, 0, 0};
  outward.set(mate.face.axis, mate.face.sign());
  outward = mate.frame.turn(outward);
  // In the piece: the viewer stands in front of it, to the right and above.
  const Vec3 away = unit(outward + Vec3{0.45, -0.7, 0.5});
  Vec3 up{0, 0, 1};
  if (std::fabs(away.z) > 0.95) up = {0, 1, 0};
  const Vec3 right = unit(up.cross(away));
  const Vec3 above = away.cross(right);
  // Lines are drawn in the part's frame.
  return {mate.frame.localDirection(right), mate.frame.localDirection(above)};
}

/// What of the drawing plane is shown: round the joint.
struct Window {
  double x = 0, y = 0;  ///< middle, mm
  double half = kLeast;
};

Window windowOn(const joinery::MateHalf& mate, const kernel::Viewpoint& eye) {
  double left = 1e300, right = -1e300, low = 1e300, high = -1e300;
  for (int corner = 0; corner < 8; ++corner) {
    const kernel::Box3& box = mate.place;
    const Vec3 p{(corner & 1) != 0 ? box.max.x : box.min.x,
                 (corner & 2) != 0 ? box.max.y : box.min.y,
                 (corner & 4) != 0 ? box.max.z : box.min.z};
    left = std::min(left, p.dot(eye.right));
    right = std::max(right, p.dot(eye.right));
    low = std::min(low, p.dot(eye.up));
    high = std::max(high, p.dot(eye.up));
  }
  return {(left + right) / 2, (low + high) / 2,
          std::max(kLeast, kRoom / 2 * std::max(right - left, high - low))};
}

}  // namespace

Result<QImage> matePicture(const joinery::MateHalf& mate, Half half, QSize pixels) {
  const kernel::Viewpoint eye = eyeOn(mate);
  const kernel::Solid& solid = half == Half::before ? mate.before : mate.after;
  const auto lines = kernel::hiddenLines(std::span(&solid, 1), eye);
  if (!lines) return tl::unexpected<Error>(lines.error());
  const Window window = windowOn(mate, eye);
  const double scale = std::min(pixels.width(), pixels.height()) / (2 * window.half);
  QImage image(pixels, QImage::Format_ARGB32_Premultiplied);
  image.fill(QColor(colour::sheet));
  QPainter painter(&image);
  painter.setRenderHint(QPainter::Antialiasing);
  QPainterPath path;
  for (const kernel::ViewLine& line : *lines) {
    if (!line.visible || line.points.empty()) continue;
    const auto at = [&](kernel::Point2 p) {
      return QPointF(pixels.width() / 2.0 + (p.x - window.x) * scale,
                     pixels.height() / 2.0 - (p.y - window.y) * scale);
    };
    path.moveTo(at(line.points.front()));
    for (const kernel::Point2 p : line.points) path.lineTo(at(p));
  }
  painter.strokePath(path,
                     QPen(QColor(colour::ink), kLine, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin));
  return image;
}

}  // namespace dryfit::viewer
