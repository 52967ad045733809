#include "joinery/piece/place_parts.h"

#include <fmt/format.h>
#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>

#include "joinery/base/plain_text.h"
#include "joinery/base/size_limits.h"
#include "joinery/formula/expression.h"
#include "joinery/piece/made_size.h"
#include "joinery/piece/size_graph.h"
#include "joinery/piece/tapers.h"

namespace dryfit::joinery {
namespace {

using kernel::Frame;
using kernel::Vec3;

int indexOf(Axis axis) {
  return static_cast<int>(axis);
}

Vec3 directionOf(Axis axis) {
  Vec3 v;
  v.set(indexOf(axis), 1);
  return v;
}

/// Works out turns and places the parts of one model whose sizes are known.
class Placer {
 public:
  Placer(Piece& piece, ExpressionCache& expressions) : piece_(piece), expressions_(expressions) {
    if (piece.basis == Basis::drawn) return;  // drawn sizes leave real wood out of account
    for (const Mark& mark : piece.model.marks) marks_.emplace(mark.part, &mark);
    for (const Measurement& m : piece.model.measurements) {
      measurements_.emplace(std::tuple(m.scope, m.name, m.size), &m);
    }
  }

  Result<void> placeAll() {
    const Model& model = piece_.model;
    if (auto known = workOutGroups(); !known) return known;
    for (std::size_t i = 0; i < model.parts.size(); ++i) {
      const Part& part = model.parts[i];
      const auto own = turnOf(part.turn, "parts." + part.name + ".turn");
      if (!own) return tl::unexpected(own.error());
      auto placed = place(part, PartId(i));
      if (!placed) return tl::unexpected(placed.error());
      turn(*placed, frameOf(*own));
      turnWithGroups(*placed, part.group);
      piece_.parts.push_back(std::move(*placed));
    }
    return {};
  }

 private:
  [[nodiscard]] std::optional<double> valueOf(const std::string& name) const {
    const auto it = piece_.values.find(name);
    if (it == piece_.values.end()) return std::nullopt;
    return it->second;
  }

  /// A group with its turn worked out.
  struct KnownGroup {
    std::optional<Frame> turn;
    bool opens = false;
    std::string within;
    std::optional<std::size_t> swing;  ///< of the piece
  };

  Result<void> workOutGroups() {
    for (const Group& group : piece_.model.groups) {
      auto turn = turnOf(group.turn, "groups." + group.name + ".turn");
      if (!turn) return tl::unexpected(turn.error());
      KnownGroup& known = groups_[group.name];
      known = {frameOf(*turn), group.opens, group.within, {}};
      if (!group.opens || !*turn) continue;
      known.swing = piece_.swings.size();
      piece_.swings.push_back({group.name, (*turn)->at, (*turn)->about, (*turn)->degrees, {}});
    }
    for (const auto& [name, group] : groups_) {
      if (!group.swing) continue;
      for (std::string around = group.within; !around.empty(); around = groups_[around].within) {
        if (!groups_[around].turn) continue;
        return fail(ErrorCode::badModel,
                    fmt::format("the group {} opens within {}, which is turned itself",
                                inQuotes(name), inQuotes(around)),
                    "groups." + name, "what opens must stand square in the piece");
      }
    }
    return {};
  }

  /// Turns a part with its group, then with what that stands within.
  void turnWithGroups(PlacedPart& part, const std::string& innermost) {
    part.closed = part.frame;
    for (std::string name = innermost; !name.empty();) {
      const auto found = groups_.find(name);
      if (found == groups_.end()) return;
      const KnownGroup& group = found->second;
      if (group.swing) piece_.swings[*group.swing].parts.push_back(part.id);
      turn(part, group.turn);
      if (!group.opens && group.turn) part.closed = group.turn->after(part.closed);
      name = group.within;
    }
  }

  static void turn(PlacedPart& part, const std::optional<Frame>& by) {
    if (!by) return;
    part.frame = by->after(part.frame);
    part.turned = true;
  }

  /// `error` where a name is unknown, with the nearest known one.
  [[nodiscard]] Error withNearest(Error error, const Expression& expression) const {
    const auto names = namesIn(expression);
    if (error.code != ErrorCode::unknownName || !names) return error;
    std::vector<std::string> known;
    for (const auto& [name, value] : piece_.values) known.push_back(name);
    for (const std::string& name : *names) {
      if (valueOf(name)) continue;
      const std::string mend = nearestMend(name, known);
      if (!mend.empty()) error.mend = mend;
      break;
    }
    return error;
  }

  /// A turn with its numbers known.
  struct KnownTurn {
    kernel::Point3 at;
    Axis about = Axis::x;
    double degrees = 0;
  };

  /// The placement that a turn stands for; none where it turns by nothing.
  static std::optional<Frame> frameOf(const std::optional<KnownTurn>& turn) {
    if (!turn || turn->degrees == 0) return std::nullopt;
    return Frame::rotation(turn->at, directionOf(turn->about), Angle::degrees(turn->degrees));
  }

  Result<std::optional<KnownTurn>> turnOf(const std::optional<Turn>& turn,
                                          const std::string& place) const {
    if (!turn) return std::optional<KnownTurn>();
    const auto lookup = [&](const std::string& name) { return valueOf(name); };
    const Unit unit = piece_.model.unit;
    const Result<double> angle = expressions_.evaluateNumber(turn->angle, unit, lookup);
    if (!angle) {
      return tl::unexpected(withNearest(angle.error(), turn->angle).within(place + ".angle"));
    }
    if (std::fabs(*angle) > 360) {
      return fail(ErrorCode::badDimension, fmt::format("the angle is {:.6g} degrees", *angle),
                  place + ".angle", "angles must be between -360 and 360 degrees");
    }
    kernel::Point3 at;
    for (int i = 0; i < 3; ++i) {
      const std::string where = fmt::format("{}.at[{}]", place, i);
      const Result<double> value = expressions_.evaluateLength(turn->at[i], unit, lookup);
      if (!value) return tl::unexpected(withNearest(value.error(), turn->at[i]).within(where));
      if (Result<void> fine = checkCoordinate(*value); !fine) {
        return tl::unexpected(fine.error().within(where));
      }
      at.set(i, *value);
    }
    return std::optional(KnownTurn{at, turn->about, *angle});
  }

  /// The part as it is drawn, before any turn.
  [[nodiscard]] Result<PlacedPart> place(const Part& part, PartId id) const {
    PlacedPart placed;
    placed.id = id;
    placed.along = {part.length.along, part.width.along, part.thickness.along};
    constexpr std::array<const char*, 3> kSizes{"length", "width", "thickness"};
    for (int i = 0; i < 3; ++i) {
      placed.size.set(i, *valueOf(part.name + "." + kSizes[i]));
      const Axis axis = placed.along[i];
      const auto end = [&](bool far) {
        return *valueOf(part.name + "." + std::string(nameOf(faceOf(axis, far))));
      };
      placed.span.min.set(indexOf(axis), end(false));
      placed.span.max.set(indexOf(axis), end(true));
    }
    for (int i = 0; i < 3; ++i) {
      const auto asked = askedSize(part, i);
      if (!asked) return tl::unexpected(asked.error());
      placed.asked.set(i, asked->value_or(placed.size[i]));
    }
    placed.frame = drawnFrame(placed);
    placed.grain = grainOf(part);
    return withMarks(part, std::move(placed));
  }

  /// What is asked of a size that the part's mark fixes; none where it asks for what is made: a
  /// thickness that is left to a material or batch that was measured since.
  [[nodiscard]] Result<std::optional<double>> askedSize(const Part& part, int axis) const {
    const auto mark = marks_.find(part.name);
    if (mark == marks_.end() || !madeSize(*mark->second, partAxis(axis))) return std::nullopt;
    const auto size = static_cast<SizeName>(axis);
    using Scope = Measurement::Scope;
    if (const Measurement* own = measured(Scope::part, part.name, size)) {
      return expressions_
          .evaluateLength(own->value, piece_.model.unit,
                          [](const std::string&) { return std::optional<double>(); })
          .map([](double mm) { return std::optional(mm); });
    }
    const Span& span = axis == 0 ? part.length : axis == 1 ? part.width : part.thickness;
    auto given = spanSize(span);
    if (!given || *given || size != SizeName::thickness) return given;
    if (measured(Scope::batch, part.batch, size) ||
        measured(Scope::material, part.material, size)) {
      return std::nullopt;
    }
    return valueOf(part.material + ".thickness");
  }

  [[nodiscard]] const Measurement* measured(Measurement::Scope scope, const std::string& name,
                                            SizeName size) const {
    const auto found = measurements_.find({scope, name, size});
    return found == measurements_.end() ? nullptr : found->second;
  }

  /// The size that a span is given; none where it leaves its size to the material.
  [[nodiscard]] Result<std::optional<double>> spanSize(const Span& span) const {
    const auto lookup = [&](const std::string& name) { return valueOf(name); };
    double size = 0;
    const auto add = [&](const std::optional<Expression>& end, double factor) -> Result<void> {
      if (!end) return {};
      const auto value = expressions_.evaluateLength(*end, piece_.model.unit, lookup);
      if (!value) return tl::unexpected(value.error());
      size += factor * *value;
      return {};
    };
    if (span.size) {
      if (auto added = add(span.size, 1); !added) return tl::unexpected(added.error());
      return size;
    }
    if (int(span.from.has_value()) + int(span.to.has_value()) + int(span.centre.has_value()) < 2) {
      return std::nullopt;
    }
    const double half = span.centre ? 2 : 1;  // from the middle to an end is half of it
    for (const auto& [end, factor] : {std::pair(&span.to, half), {&span.from, -half}}) {
      if (auto added = add(*end, factor); !added) return tl::unexpected(added.error());
    }
    const double towards = span.from ? 2 : -2;
    if (auto added = add(span.centre, towards); !added) return tl::unexpected(added.error());
    return size;
  }

  static std::optional<PartAxis> grainOf(const Part& part) {
    if (part.grain == Grain::length) return PartAxis::length;
    if (part.grain == Grain::width) return PartAxis::width;
    return std::nullopt;
  }

  /// Origin at a corner, x along length, y along width; where z then runs against its axis, the
  /// corner is on the far thickness face.
  static Frame drawnFrame(const PlacedPart& part) {
    Frame frame{part.span.min, directionOf(part.along[0]), directionOf(part.along[1]), {}};
    frame.z = frame.x.cross(frame.y);
    const int thickness = indexOf(part.along[2]);
    if (frame.z[thickness] < 0) frame.origin.set(thickness, part.span.max[thickness]);
    return frame;
  }

  static Result<PlacedPart> withMarks(const Part& part, PlacedPart placed) {
    const auto mark = [&](const std::optional<Face>& given, int axis) {
      return placed.local(given.value_or(faceOf(placed.along[axis], false)));
    };
    placed.faceSide = mark(part.faceSide, 2);
    placed.faceEdge = mark(part.faceEdge, 1);
    const auto wrong = [&](const std::string& key, int axis, const std::string& across) {
      const Axis along = placed.along[axis];
      return fail(
          ErrorCode::faceNotAcross, "this face is not at right angles to the " + across,
          "parts." + part.name + "." + key,
          fmt::format("use {} or {}", nameOf(faceOf(along, false)), nameOf(faceOf(along, true))));
    };
    if (placed.faceSide.axis != 2) return wrong("face_side", 2, "thickness");
    if (placed.faceEdge.axis != 1) return wrong("face_edge", 1, "width");
    return placed;
  }

  Piece& piece_;
  ExpressionCache& expressions_;
  std::map<std::string, KnownGroup> groups_;
  std::map<std::string, const Mark*> marks_;  ///< by part; none where the sizes are the drawn ones
  std::map<std::tuple<Measurement::Scope, std::string, SizeName>, const Measurement*> measurements_;
};

}  // namespace

Result<Piece> placeParts(const Model& model, Basis basis) {
  SizeMemory memory;
  return placeParts(model, basis, memory);
}

namespace {

Result<Piece> placeAllParts(const Model& model, Basis basis, SizeMemory& memory) {
  memory.numbersWorkedOut = 0;
  Result<SizeGraph> sizes = SizeGraph::build(model, basis, memory.expressions);
  if (!sizes) return tl::unexpected(sizes.error());
  Result<std::vector<double>> values =
      sizes->values(memory.expressions, memory.sizes ? &*memory.sizes : nullptr, memory.values,
                    memory.numbersWorkedOut);
  if (!values) return tl::unexpected(values.error());
  Piece piece;
  piece.model = model;
  piece.basis = basis;
  for (std::size_t i = 0; i < values->size(); ++i) {
    piece.values.emplace(sizes->graph().node(i).name, (*values)[i]);
  }
  if (Result<void> placed = Placer(piece, memory.expressions).placeAll(); !placed) {
    return tl::unexpected(placed.error());
  }
  if (Result<void> tapered = placeTapers(piece, memory.expressions); !tapered) {
    return tl::unexpected(tapered.error());
  }
  memory.sizes = std::move(*sizes);
  memory.values = std::move(*values);
  return piece;
}

}  // namespace

Result<Piece> placeParts(const Model& model, Basis basis, SizeMemory& memory) {
  Result<Piece> piece = placeAllParts(model, basis, memory);
  if (piece || !model.authoredPlace) return piece;
  Error error = piece.error();
  error.where = model.authoredPlace(error.where);
  return tl::unexpected(std::move(error));
}

}  // namespace dryfit::joinery
