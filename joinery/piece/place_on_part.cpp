#include "joinery/piece/place_on_part.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

constexpr std::array kFaces{Face::left, Face::right,  Face::front,
                            Face::back, Face::bottom, Face::top};
constexpr double kLookingAtEachOther = -1 + 1e-9;  // cosine between two flat faces that meet

using kernel::Point3;
using kernel::Vec3;

const PlacedPart& placedOf(const Piece& piece, PartId id) {
  return piece.parts[id.index()];
}

/// How far a point lies outside a face's plane; < 0 within the wood.
double beyond(const PlacedPart& part, LocalFace face, Point3 at) {
  const double along = part.frame.local(at)[face.axis];
  return face.far ? along - part.size[face.axis] : -along;
}

/// The part's face whose outward direction is nearest to the given one, and that the point lies
/// least within where two are alike.
LocalFace faceLooking(const PlacedPart& part, Point3 at, Vec3 outward) {
  const Vec3 own = part.frame.localDirection(outward);
  LocalFace best;
  double most = -1e300;
  for (int axis = 0; axis < 3; ++axis) {
    for (const bool far : {false, true}) {
      const LocalFace face{axis, far};
      const double fit = own[axis] * face.sign() + 1e-6 * beyond(part, face, at);
      if (fit <= most) continue;
      most = fit;
      best = face;
    }
  }
  return best;
}

/// The faces of the two other axes that the point is nearest to, nearest first.
std::array<LocalFace, 2> nearestBeside(const PlacedPart& part, LocalFace face, Point3 at) {
  const Point3 own = part.frame.local(at);
  std::array<LocalFace, 2> beside{};
  std::array<double, 2> distance{};
  for (int i = 0; i < 2; ++i) {
    const int axis = (face.axis + 1 + i) % 3;
    const bool far = own[axis] > part.size[axis] / 2;
    beside[i] = {axis, far};
    distance[i] = std::abs(far ? part.size[axis] - own[axis] : own[axis]);
  }
  if (distance[1] < distance[0]) std::swap(beside[0], beside[1]);
  return beside;
}

PlaceOnPart placeOf(PartId part, std::vector<Face> faces) {
  std::ranges::sort(faces);
  return {part, std::move(faces)};
}

/// Whether two flat faces share area: the second's outline, in the first part's frame, overlaps.
bool shareArea(const Piece& piece, const PlacedPart& part, LocalFace face,
               const PlaceOnPart& other) {
  const auto corners = outlineOf(piece, other);
  for (int i = 1; i <= 2; ++i) {
    const int axis = (face.axis + i) % 3;
    double low = 1e300, high = -1e300;
    for (const Point3& corner : corners) {
      const double at = part.frame.local(corner)[axis];
      low = std::min(low, at);
      high = std::max(high, at);
    }
    if (std::min(high, part.size[axis]) - std::max(low, 0.0) <= kernel::kContact) return false;
  }
  return true;
}

}  // namespace

std::string writtenName(const Piece& piece, const PlaceOnPart& place) {
  std::string words;
  for (const Face face : place.faces) {
    if (!words.empty()) words += " + ";
    words += writtenName(piece, PartFace{place.part, face});
  }
  return words;
}

std::vector<PartFace> facesOf(const std::vector<PlaceOnPart>& places) {
  std::vector<PartFace> faces;
  for (const PlaceOnPart& place : places) {
    if (place.kind() == PlaceKind::face) faces.push_back({place.part, place.faces[0]});
  }
  return faces;
}

std::string wordsFor(const Piece& piece, const PlaceOnPart& place) {
  std::string words = piece.label(place.part) + ",";
  for (const Face face : place.faces) words += " " + std::string(nameOf(face));
  switch (place.kind()) {
    case PlaceKind::face:
      return words + " face";
    case PlaceKind::edge:
      return words + " edge";
    case PlaceKind::corner:
      break;
  }
  return words + " corner";
}

std::vector<Point3> outlineOf(const Piece& piece, const PlaceOnPart& place) {
  const PlacedPart& part = placedOf(piece, place.part);
  Point3 start{};
  std::array<bool, 3> held{};
  for (const Face named : place.faces) {
    const LocalFace face = part.local(named);
    held[static_cast<std::size_t>(face.axis)] = true;
    start.set(face.axis, face.far ? part.size[face.axis] : 0);
  }
  std::vector<Point3> corners{start};
  for (int axis = 0; axis < 3; ++axis) {
    if (held[static_cast<std::size_t>(axis)]) continue;
    // There along the near side, and back along the far one, so that four go round.
    for (std::size_t i = corners.size(); i-- > 0;) {
      Point3 far = corners[i];
      far.set(axis, part.size[axis]);
      corners.push_back(far);
    }
  }
  for (Point3& corner : corners) corner = part.frame.place(corner);
  return corners;
}

Vec3 outwardOf(const Piece& piece, const PlaceOnPart& place) {
  const PlacedPart& part = placedOf(piece, place.part);
  Vec3 sum;
  for (const Face face : place.faces) sum = sum + part.frame.turn(part.local(face).outward());
  return sum.unit();
}

PlaceOnPart placeAt(const Piece& piece, PartId id, Point3 at, Vec3 outward, PlaceKind kind) {
  const PlacedPart& part = placedOf(piece, id);
  const LocalFace face = faceLooking(part, at, outward);
  std::vector<Face> faces{part.named(face)};
  const auto beside = nearestBeside(part, face, at);
  if (kind != PlaceKind::face) faces.push_back(part.named(beside[0]));
  if (kind == PlaceKind::corner) faces.push_back(part.named(beside[1]));
  return placeOf(id, std::move(faces));
}

std::vector<PlaceOnPart> placesOf(PartId part, PlaceKind kind) {
  std::vector<PlaceOnPart> places;
  for (std::size_t i = 0; i < kFaces.size(); ++i) {
    if (kind == PlaceKind::face) places.push_back({part, {kFaces[i]}});
    for (std::size_t j = i + 1; j < kFaces.size() && kind != PlaceKind::face; ++j) {
      if (axisOf(kFaces[i]) == axisOf(kFaces[j])) continue;
      if (kind == PlaceKind::edge) places.push_back({part, {kFaces[i], kFaces[j]}});
      for (std::size_t k = j + 1; k < kFaces.size() && kind == PlaceKind::corner; ++k) {
        if (axisOf(kFaces[k]) == axisOf(kFaces[j])) continue;
        places.push_back({part, {kFaces[i], kFaces[j], kFaces[k]}});
      }
    }
  }
  return places;
}

std::vector<PlaceOnPart> touching(const Piece& piece, const PlaceOnPart& place) {
  const PlacedPart& part = placedOf(piece, place.part);
  std::vector<PlaceOnPart> found;
  for (const Face named : place.faces) {
    const LocalFace face = part.local(named);
    const Vec3 outward = part.frame.turn(face.outward());
    for (const PlacedPart& other : piece.parts) {
      if (other.id == part.id) continue;
      for (const Face theirs : kFaces) {
        const PlaceOnPart against{other.id, {theirs}};
        if (outwardOf(piece, against).dot(outward) > kLookingAtEachOther) continue;
        const auto corners = outlineOf(piece, against);
        const bool flat = std::ranges::all_of(corners, [&](const Point3& corner) {
          return std::abs(beyond(part, face, corner)) <= kernel::kContact;
        });
        if (flat && shareArea(piece, part, face, against)) found.push_back(against);
      }
    }
  }
  return found;
}

}  // namespace dryfit::joinery
