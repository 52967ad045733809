// A piece whose doors and lids stand open: the brief is judged with them closed.

#include <gmock/gmock.h>

#include "tests/joinery/cupboard_sample.h"
#include "tests/joinery/model_samples.h"

namespace dryfit::joinery {
namespace {

using ::testing::IsEmpty;

std::vector<Finding> envelopeOf(const std::string& group) {
  const std::string text = replaced(doorText(), "\"angle\": 0}", "\"angle\": 80}" + group);
  return findingsOfKind(fitOf(fileFrom(text).model(), Basis::drawn), FindingKind::envelope);
}

TEST(AnOpenDoor, IsJudgedByTheBriefAsIfItWereClosed) {
  EXPECT_THAT(envelopeOf(", \"opens\": true"), IsEmpty());
}

TEST(APartThatStandsAskew, IsJudgedByTheBriefAsItStands) {
  EXPECT_THAT(envelopeOf(""), ::testing::Not(IsEmpty()));
}

}  // namespace
}  // namespace dryfit::joinery
