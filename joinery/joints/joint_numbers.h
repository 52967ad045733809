#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "joinery/joints/insert.h"
#include "joinery/joints/joint_kind.h"
#include "joinery/trade/rules.h"

namespace dryfit::joinery {

/// Gathers the numbers of one joint: the author's where given, else those of the rules table, each
/// with its source.
class JointNumbers {
 public:
  explicit JointNumbers(const JointContext& context) : context_(&context) {}

  /// The author's value of `parameter`, or `byRule`; recorded under the parameter's name with
  /// blanks ("tenon length").
  double length(std::string_view parameter, double byRule, RuleId id);
  double number(std::string_view parameter, double byRule, RuleId id);
  /// As length, and the value must lie above 0. Error: numberTooSmall.
  [[nodiscard]] Result<double> positive(std::string_view parameter, double byRule, RuleId id);
  /// As length, and the value must not lie below 0. Error: numberTooSmall.
  [[nodiscard]] Result<double> notNegative(std::string_view parameter, double byRule, RuleId id);
  /// Records a length that follows from others. `given`: its author wrote it.
  void record(std::string_view name, double value, bool given,
              std::optional<RuleId> id = std::nullopt);

  [[nodiscard]] std::vector<JointValue> take() { return std::move(values_); }

 private:
  const JointContext* context_;
  std::vector<JointValue> values_;
};

/// Which clearance a joint is held to.
enum class FitClass { glued, sliding, none };

/// The joint's own numbers that all kinds share. `mating` gives gap, direction and middle; on a
/// slanting shoulder that is fitted to the mate's face the gap is 0.
[[nodiscard]] PlacedJoint placedJoint(const JointContext& context, const Mating& mating,
                                      FitClass fitClass, double fit);
/// Sets play, allowance and its source.
void setFit(PlacedJoint& joint, FitClass fitClass, double fit);

/// The face an author named with a word parameter. Words are checked before any joint is cut.
[[nodiscard]] std::optional<Face> faceWord(const JointContext& context, std::string_view parameter);

/// Across the thickness: what stands, and the wider pocket it goes into.
struct Cheeks {
  Stretch insert, pocket;
  /// Where the play lies half on either side, until the face marks are known.
  bool shared = false, ofPocket = false;

  [[nodiscard]] std::optional<SharedPlay> sharedPlay(int axis) const {
    return shared ? std::optional(SharedPlay{axis, ofPocket}) : std::nullopt;
  }
};

/// Shares the play out over both cheeks of a nominal stretch. The cutter makes the pocket, so the
/// insert is the one made smaller; where one cheek is flush with the blank, the other has all the
/// play, and where both are, the board itself goes in and the pocket is the wider. Error:
/// jointLeavesNothing where the play leaves nothing of the insert.
[[nodiscard]] Result<Cheeks> cheeksOf(Stretch nominal, Stretch blank, double fit);

/// Error matesAskew where the second mate's face slants so much that one end of the insert does not
/// reach it.
[[nodiscard]] Result<void> entersAllRound(const Mating& mating, const Insert& insert);

/// +1 where the part's own axis runs with the axis of the piece (before turning), else -1.
[[nodiscard]] double farSign(const PlacedPart& part, int axis);

/// Where something of nominal `thickness` lies across the first mate's thickness: in the middle of
/// the contact, or of the blank moved by the author's `offset`. Error: jointOutgrowsPart
/// when it does not fit.
[[nodiscard]] Result<Stretch> acrossThickness(const JointContext& context, const Mating& mating,
                                              double thickness);

}  // namespace dryfit::joinery
