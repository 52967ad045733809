#include <gtest/gtest.h>

#include <cstdlib>
#include <random>

#include "joinery/layout/lay_out.h"
#include "tests/support/layout_check.h"
#include "tests/support/layout_random.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"

namespace dryfit::joinery {
namespace {

/// How many times as many jobs as usual: the environment variable DRYFIT_LAYOUT_TIMES.
int times() {
  const char* text = std::getenv("DRYFIT_LAYOUT_TIMES");
  return text == nullptr ? 1 : std::max(1, std::atoi(text));
}

std::string joined(const std::vector<std::string>& lines) {
  std::string text;
  for (const std::string& line : lines) text += line + "\n";
  return text;
}

bool sameCuts(const Layout& a, const Layout& b) {
  if (a.stock.size() != b.stock.size() || a.unplaced.size() != b.unplaced.size()) return false;
  for (std::size_t s = 0; s < a.stock.size(); ++s) {
    const StockLayout &one = a.stock[s], &two = b.stock[s];
    if (one.item != two.item || one.copy != two.copy || one.offcuts != two.offcuts) return false;
    if (one.blanks.size() != two.blanks.size() || one.cuts.size() != two.cuts.size()) return false;
    for (std::size_t i = 0; i < one.blanks.size(); ++i) {
      if (one.blanks[i].blank != two.blanks[i].blank || one.blanks[i].at != two.blanks[i].at) {
        return false;
      }
    }
    for (std::size_t i = 0; i < one.cuts.size(); ++i) {
      if (one.cuts[i].piece != two.cuts[i].piece || one.cuts[i].at != two.cuts[i].at) return false;
    }
  }
  return true;
}

void layOutManyJobs(int count, int blanksMost, std::uint64_t salt) {
  for (int n = 0; n < count; ++n) {
    const std::uint64_t seed = test::seed() + salt + static_cast<std::uint64_t>(n);
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937_64 random(seed);
    const test::LayoutJob job = test::randomLayoutJob(random, blanksMost);
    const auto layout = layOut(job.blanks, job.stock, job.settings);
    ASSERT_TRUE(layout) << layout.error().line();
    ASSERT_TRUE(layout->finished);
    const auto faults = test::faultsOf(*layout, job.stock);
    ASSERT_TRUE(faults.empty()) << joined(faults);
  }
}

TEST(Layout, OfAnySmallJobCanBeCutAndLosesNoPart) {
  layOutManyJobs(test::repetitions(2'000) * times(), 8, 1'000'000);
}

TEST(Layout, OfAnyMediumJobCanBeCutAndLosesNoPart) {
  layOutManyJobs(test::repetitions(200) * times(), 40, 5'000'000);
}

TEST(Layout, IsTheSameForTheSameJob) {
  for (int n = 0; n < test::repetitions(60) * times(); ++n) {
    const std::uint64_t seed = test::seed() + 7'000'000 + static_cast<std::uint64_t>(n);
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937_64 random(seed);
    const test::LayoutJob job = test::randomLayoutJob(random, 20);
    const auto one = layOut(job.blanks, job.stock, job.settings);
    const auto two = layOut(job.blanks, job.stock, job.settings);
    ASSERT_TRUE(one && two);
    ASSERT_TRUE(sameCuts(*one, *two));
  }
}

TEST(Layout, StoppedEarlyIsStillWhole) {
  for (int n = 0; n < test::repetitions(100) * times(); ++n) {
    const std::uint64_t seed = test::seed() + 8'000'000 + static_cast<std::uint64_t>(n);
    SCOPED_TRACE("seed " + std::to_string(seed));
    std::mt19937_64 random(seed);
    const test::LayoutJob job = test::randomLayoutJob(random, 30);
    int asked = 0;
    const auto layout =
        layOut(job.blanks, job.stock, job.settings, [&](double) { return ++asked < n % 7; });
    ASSERT_TRUE(layout);
    const auto faults = test::faultsOf(*layout, job.stock);
    ASSERT_TRUE(faults.empty()) << joined(faults);
  }
}

}  // namespace
}  // namespace dryfit::joinery
