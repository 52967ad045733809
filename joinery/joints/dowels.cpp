#include <array>

#include "joinery/joints/kinds.h"
#include "joinery/joints/parameters.h"

namespace dryfit::joinery {
namespace {

/// A row of dowels, with holes in both mates.
class Dowels final : public JointKind {
 public:
  [[nodiscard]] std::string_view name() const override { return "dowels"; }
  [[nodiscard]] std::span<const Role> roles() const override {
    static constexpr std::array<Role, 2> kRoles{{{"end"}, {"face"}}};
    return kRoles;
  }
  [[nodiscard]] std::span<const Parameter> parameters() const override {
    static const std::vector<Parameter> list = {
        faceParameter("end_face", "face of the end mate that meets the other"),
        {"count", Parameter::Type::number, "number of dowels", {}},
        lengthParameter("diameter", "of dowels and holes"),
        lengthParameter("depth", "how far a dowel goes into each mate"),
        lengthParameter("spacing", "from middle to middle"),
        lengthParameter("edge_distance", "from the edge to the middle of the outer dowels")};
    return list;
  }
  [[nodiscard]] Result<JointCut> cut(const JointContext& context) const override;
};

Result<JointCut> Dowels::cut(const JointContext&) const {
  return fail(ErrorCode::badJoint, "this kind of joint cannot be cut yet");
}

}  // namespace

std::unique_ptr<const JointKind> makeDowels() {
  return std::make_unique<Dowels>();
}

}  // namespace dryfit::joinery
