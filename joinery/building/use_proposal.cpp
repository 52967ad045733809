#include "joinery/building/use_proposal.h"

#include <algorithm>
#include <array>
#include <optional>

#include "kernel/tolerance.h"

namespace dryfit::joinery {
namespace {

constexpr std::array<const char*, 3> kAxisNames{"x", "y", "z"};

class Proposal {
 public:
  Proposal(const ModelFile& file, const Piece& piece, const std::string& of)
      : file_(file), piece_(piece) {
    use_.of = of;
    use_.name = freeName(file, of);
    const std::vector<std::string> others = usesOf(file, of);
    if (!others.empty()) first_ = file.document().find("uses")->find(others.front());
  }

  NewUse run(const std::vector<PartFace>& faces) {
    for (const PartFace face : faces) {
      const auto i = static_cast<std::size_t>(axisOf(face.face));
      (isFarFace(face.face) ? from_ : to_)[i] = face;
    }
    findMiddle(faces);
    for (std::size_t i = 0; i < 3; ++i) use_.opening.push_back(along(i, faces));
    takeNeighbours();
    return use_;
  }

 private:
  [[nodiscard]] double reach(PartId part, std::size_t axis, bool far) const {
    return standsAt(piece_, {part, faceOf(static_cast<Axis>(axis), far)});
  }

  /// A point of the space that is meant.
  void findMiddle(const std::vector<PartFace>& faces) {
    constexpr double kInside = 1;  // mm before a face that has no other one
    for (std::size_t i = 0; i < 3; ++i) {
      if (from_[i] && to_[i]) {
        middle_[i] = (standsAt(piece_, *from_[i]) + standsAt(piece_, *to_[i])) / 2;
      } else if (from_[i] || to_[i]) {
        middle_[i] =
            from_[i] ? standsAt(piece_, *from_[i]) + kInside : standsAt(piece_, *to_[i]) - kInside;
      } else {
        double low = -1e300, high = 1e300;  // what all the parts have in common
        for (const PartFace face : faces) {
          low = std::max(low, reach(face.part, i, false));
          high = std::min(high, reach(face.part, i, true));
        }
        middle_[i] = faces.empty() ? 0 : (low + high) / 2;
      }
    }
  }

  /// What is met first from the middle.
  [[nodiscard]] std::optional<PartFace> met(std::size_t axis, bool upwards) const {
    std::optional<PartFace> nearest;
    for (const PlacedPart& part : piece_.parts) {
      const auto holds = [&](std::size_t other) {
        return reach(part.id, other, false) < middle_[other] - kernel::kContact &&
               reach(part.id, other, true) > middle_[other] + kernel::kContact;
      };
      if (!holds((axis + 1) % 3) || !holds((axis + 2) % 3)) continue;
      const PartFace face{part.id, faceOf(static_cast<Axis>(axis), !upwards)};
      const double at = standsAt(piece_, face);
      if (upwards ? at < middle_[axis] : at > middle_[axis]) continue;
      const double best = nearest ? standsAt(piece_, *nearest) : 0;
      if (!nearest || (upwards ? at < best : at > best)) nearest = face;
    }
    return nearest;
  }

  [[nodiscard]] NewSpan along(std::size_t axis, const std::vector<PartFace>& faces) {
    NewSpan span{kAxisNames[axis], {}, {}, {}, {}};
    if (!from_[axis] && !to_[axis]) {
      NewSpan sized = asInFirstUse(axis);
      if (!sized.size.empty()) return sized;
    }
    if (!from_[axis]) from_[axis] = met(axis, false);
    if (!to_[axis]) to_[axis] = met(axis, true);
    const auto flush = [&](bool far) -> std::string {
      if (faces.empty()) return {};
      return writtenName(piece_, {faces.front().part, faceOf(static_cast<Axis>(axis), far)});
    };
    span.from = from_[axis] ? writtenName(piece_, *from_[axis]) : flush(false);
    span.to = to_[axis] ? writtenName(piece_, *to_[axis]) : flush(true);
    return span;
  }

  [[nodiscard]] std::string firstText(const char* section, const std::string& key,
                                      const char* end) const {
    const JsonNode* node = first_ == nullptr ? nullptr : first_->find(section);
    if (node != nullptr) node = node->find(key);
    if (node != nullptr && end != nullptr) node = node->find(end);
    const bool plain =
        node != nullptr && (node->is(JsonNode::Type::text) || node->is(JsonNode::Type::number));
    return plain ? node->text : std::string();
  }
  [[nodiscard]] NewSpan asInFirstUse(std::size_t axis) const {
    const std::string key = kAxisNames[axis];
    return {key, firstText("opening", key, "from"), firstText("opening", key, "to"),
            firstText("opening", key, "size"), firstText("opening", key, "centre")};
  }

  void takeNeighbours() {
    const JsonNode* assemblies = file_.document().find("assemblies");
    const JsonNode* own = assemblies == nullptr ? nullptr : assemblies->find(use_.of);
    const JsonNode* names = own == nullptr ? nullptr : own->find("neighbours");
    if (names != nullptr) {
      for (const JsonMember& name : names->members) {
        use_.neighbours.emplace_back(name.value.text, neighbour(name.value.text));
      }
    }
    const JsonNode* values = first_ == nullptr ? nullptr : first_->find("values");
    if (values == nullptr) return;
    for (const JsonMember& value : values->members) {
      const std::string text = firstText("values", value.key, nullptr);
      if (!text.empty()) use_.values.emplace_back(value.key, text);
    }
  }
  [[nodiscard]] std::string neighbour(const std::string& name) const {
    std::string before = firstText("neighbours", name, nullptr);
    for (std::size_t i = 0; i < 3; ++i) {
      for (const char* end : {"from", "to"}) {
        const auto& bound = end == std::string("from") ? from_[i] : to_[i];
        const bool bounded =
            !before.empty() && firstText("opening", kAxisNames[i], end).starts_with(before + ".");
        if (bounded && bound) return piece_.part(bound->part).name;
      }
    }
    if (!before.empty()) return before;
    return from_[0] ? piece_.part(from_[0]->part).name : std::string();
  }

  const ModelFile& file_;
  const Piece& piece_;
  const JsonNode* first_ = nullptr;  ///< the first use of the same description
  std::array<std::optional<PartFace>, 3> from_, to_;
  std::array<double, 3> middle_{};
  NewUse use_;
};

}  // namespace

NewUse proposeUse(const ModelFile& file, const Piece& piece, const std::string& of,
                  const std::vector<PartFace>& faces) {
  return Proposal(file, piece, of).run(faces);
}

}  // namespace dryfit::joinery
