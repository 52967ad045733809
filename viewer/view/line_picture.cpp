#include "viewer/view/line_picture.h"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>

namespace dryfit::viewer {
namespace {

constexpr double kMargin = 0.05;  // of the smaller side, round the lines

struct Window {
  double left = 1e300, right = -1e300, bottom = 1e300, top = -1e300;
};

Window windowRound(std::span<const kernel::ViewLine> lines) {
  Window all;
  for (const kernel::ViewLine& line : lines) {
    if (!line.visible) continue;
    for (const kernel::Point2 p : line.points) {
      all.left = std::min(all.left, p.x);
      all.right = std::max(all.right, p.x);
      all.bottom = std::min(all.bottom, p.y);
      all.top = std::max(all.top, p.y);
    }
  }
  return all;
}

}  // namespace

Result<std::string> linePicture(std::span<const kernel::Solid> solids,
                                const kernel::Viewpoint& from, QSize size) {
  if (size.width() < 1 || size.height() < 1) {
    return fail(ErrorCode::badDimension, "a picture needs a width and a height");
  }
  const auto lines = kernel::hiddenLines(solids, from);
  if (!lines) return tl::unexpected<Error>(lines.error());
  const Window all = windowRound(*lines);
  const double width = size.width(), height = size.height();
  const double margin = kMargin * std::min(width, height);
  const double across = std::max(1e-6, all.right - all.left);
  const double upwards = std::max(1e-6, all.top - all.bottom);
  const double scale = std::min((width - 2 * margin) / across, (height - 2 * margin) / upwards);
  const double x0 = (width - across * scale) / 2, y0 = (height - upwards * scale) / 2;
  std::string paths;
  for (const kernel::ViewLine& line : *lines) {
    if (!line.visible) continue;
    char step = 'M';
    for (const kernel::Point2 p : line.points) {
      fmt::format_to(std::back_inserter(paths), "{}{:.2f} {:.2f}", step,
                     x0 + (p.x - all.left) * scale, y0 + (all.top - p.y) * scale);
      step = 'L';
    }
  }
  return fmt::format(
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
      "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{0}\" height=\"{1}\" "
      "viewBox=\"0 0 {0} {1}\">\n"
      "<rect width=\"{0}\" height=\"{1}\" fill=\"#ffffff\"/>\n"
      "<path d=\"{2}\" fill=\"none\" stroke=\"#2d2a26\" stroke-width=\"{3:.2f}\" "
      "stroke-linecap=\"round\" stroke-linejoin=\"round\"/>\n</svg>\n",
      size.width(), size.height(), paths, std::max(0.8, std::min(width, height) / 800));
}

}  // namespace dryfit::viewer
