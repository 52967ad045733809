#include "joinery/piece/tapers.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "joinery/base/plain_text.h"
#include "joinery/base/size_limits.h"
#include "joinery/piece/over_run.h"

namespace dryfit::joinery {
namespace {

/// The wedge that turns a straight part into a tapered one. It runs past the face, both other
/// faces and the narrow end, so that no skin is left.
kernel::Tool wedgeOf(const PlacedTaper& taper, const kernel::Vec3& size) {
  const int across = taper.face.axis;
  const int third = 3 - across;
  const double past = kOverRun + std::fmax(size.y, size.z);
  const double slope = taper.by / (size.x - taper.from);
  const auto point = [&](double along, double deep) {
    return kernel::Point2{taper.narrowFar ? along : size.x - along,
                          taper.face.far ? size[across] - deep : deep};
  };
  kernel::Prism prism;
  // Begins a little outside the wood, so that the slope cuts the face clean.
  prism.outline = {point(taper.from - kOverRun, -slope * kOverRun),
                   point(size.x + past, slope * (size.x + past - taper.from)),
                   point(size.x + past, -slope * kOverRun - kOverRun),
                   point(taper.from - kOverRun, -slope * kOverRun - kOverRun)};
  prism.height = size[third] + 2 * kOverRun;
  if (across == 1) {
    prism.frame.origin = {0, 0, -kOverRun};
  } else {
    prism.frame = {{0, size.y + kOverRun, 0}, {1, 0, 0}, {0, 0, 1}, {0, -1, 0}};
  }
  return prism;
}

class TaperPlacer {
 public:
  TaperPlacer(Piece& piece, ExpressionCache& expressions)
      : piece_(piece), expressions_(expressions) {}

  Result<void> place(const Taper& taper) {
    const std::string place = "tapers." + taper.name;
    const Result<double> by = length(taper.by, place + ".by");
    if (!by) return tl::unexpected(by.error());
    const Result<double> from = length(taper.from, place + ".from");
    if (!from) return tl::unexpected(from.error());
    if (*by <= 0) {
      return fail(ErrorCode::badDimension, fmt::format("the taper is {:.6g} mm", *by),
                  place + ".by", "write how much narrower the narrow end is");
    }
    for (const std::string& name : taper.parts) {
      const auto at = std::ranges::find(piece_.model.parts, name, &Part::name);
      if (at == piece_.model.parts.end()) continue;  // the reader saw to it
      PlacedPart& part = piece_.parts[static_cast<std::size_t>(at - piece_.model.parts.begin())];
      if (auto placed = give(taper, part, name, *by, *from); !placed) return placed;
    }
    return {};
  }

 private:
  [[nodiscard]] Result<double> length(const Expression& expression, const std::string& place) {
    const auto lookup = [&](const std::string& name) -> std::optional<double> {
      const auto found = piece_.values.find(name);
      if (found == piece_.values.end()) return std::nullopt;
      return found->second;
    };
    const auto value = expressions_.evaluateLength(expression, piece_.model.unit, lookup);
    if (!value) return tl::unexpected(value.error().within(place));
    if (const auto fine = checkCoordinate(*value); !fine) {
      return tl::unexpected(fine.error().within(place));
    }
    return *value;
  }

  Result<void> give(const Taper& taper, PlacedPart& part, const std::string& name, double by,
                    double from) {
    const std::string place = "tapers." + taper.name;
    const bool width = taper.size == SizeName::width;
    const int axis = width ? 1 : 2;
    const LocalFace marked = width ? part.faceEdge : part.faceSide;
    // The marked faces stay straight: they are what the part is measured from.
    const LocalFace face = taper.face ? part.local(*taper.face) : LocalFace{axis, !marked.far};
    if (face.axis != axis) {
      return fail(ErrorCode::faceNotAcross,
                  fmt::format("this face is not at right angles to the {} of {}",
                              width ? "width" : "thickness", name),
                  place + ".face", facesText(part, axis));
    }
    const LocalFace end = part.local(taper.narrowEnd);
    if (end.axis != 0) {
      return fail(ErrorCode::faceNotAcross,
                  fmt::format("this is not an end of the length of {}", name),
                  place + ".narrow_end", facesText(part, 0));
    }
    if (from < 0 || from > part.size.x - kLeastSize) {
      return fail(ErrorCode::badDimension,
                  fmt::format("the taper would start {:.6g} mm along {}, which is {:.6g} mm long",
                              from, name, part.size.x),
                  place + ".from", "start it on the part");
    }
    double all = by;
    for (const PlacedTaper& other : part.tapers) {
      if (other.face.axis == axis) all += other.by;
    }
    if (all > part.size[axis] - kLeastSize) {
      return fail(ErrorCode::badDimension,
                  fmt::format("{:.6g} mm is taken off {}, which is {:.6g} mm there", all, name,
                              part.size[axis]),
                  place + ".by", "leave some wood at the narrow end");
    }
    PlacedTaper placed{taper.name, face, end.far, by, from, taper.measured, {}};
    placed.tool = wedgeOf(placed, part.size);
    part.tapers.push_back(std::move(placed));
    return {};
  }

  static std::string facesText(const PlacedPart& part, int axis) {
    return fmt::format("use {} or {}", nameOf(part.named({axis, false})),
                       nameOf(part.named({axis, true})));
  }

  Piece& piece_;
  ExpressionCache& expressions_;
};

}  // namespace

Result<void> placeTapers(Piece& piece, ExpressionCache& expressions) {
  TaperPlacer placer(piece, expressions);
  const std::vector<Taper> tapers = piece.model.tapers;
  for (const Taper& taper : tapers) {
    if (taper.measured && piece.basis == Basis::drawn) continue;
    if (auto placed = placer.place(taper); !placed) return placed;
  }
  return {};
}

}  // namespace dryfit::joinery
