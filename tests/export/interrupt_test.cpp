// What an interrupt from the keyboard does while long work runs.

#include "export/verbs/interrupt.h"

#include <gtest/gtest.h>

#include <csignal>

namespace dryfit::test {
namespace {

using exporting::InterruptWatch;

TEST(Interrupt, IsNotedOnceForEachWatch) {
  for (int run = 0; run < 3; ++run) {
    const InterruptWatch watch;
    EXPECT_FALSE(InterruptWatch::interrupted()) << run;
    ASSERT_EQ(std::raise(SIGINT), 0);
    EXPECT_TRUE(InterruptWatch::interrupted()) << run;
  }
}

TEST(Interrupt, StopsTheWorkThatAsks) {
  const InterruptWatch watch;
  const joinery::Progress progress = exporting::untilInterrupted({});
  EXPECT_TRUE(progress(1, 2));
  ASSERT_EQ(std::raise(SIGINT), 0);
  EXPECT_FALSE(progress(2, 2));
}

TEST(InterruptDeathTest, EndsTheProgramAtOnceTheSecondTime) {
  EXPECT_EXIT(
      {
        const InterruptWatch watch;
        std::raise(SIGINT);
        std::raise(SIGINT);
      },
      ::testing::KilledBySignal(SIGINT), "");
}

TEST(Interrupt, IsStillIgnoredWhereItWas) {
  struct sigaction ignored {
  }, before{}, after{};
  ignored.sa_handler = SIG_IGN;
  sigaction(SIGINT, &ignored, &before);
  {
    const InterruptWatch watch;
    std::raise(SIGINT);
    std::raise(SIGINT);
    EXPECT_FALSE(InterruptWatch::interrupted());
  }
  sigaction(SIGINT, &before, &after);
  EXPECT_EQ(after.sa_handler, SIG_IGN);
}

}  // namespace
}  // namespace dryfit::test
