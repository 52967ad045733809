// Numbers left to the rules keep the rules: for every kind of joint, in each way it is meant to be
// used, on stock and widths as they occur in furniture, the check finds nothing to say of it, or
// says once that this wood does not suit the kind, and which kind would do; and that one does.

#include <gtest/gtest.h>

#include <algorithm>
#include <iterator>
#include <optional>
#include <random>
#include <set>

#include "joinery/joints/joint_kind.h"
#include "joinery/joints/joint_kinds.h"
#include "tests/support/meetings.h"
#include "tests/support/random_pieces.h"
#include "tests/support/repetitions.h"

namespace dryfit::test {
namespace {

using joinery::Finding;
using joinery::FindingKind;

constexpr double kStocks[] = {9, 12, 15, 18, 22, 27, 34, 45, 60};
constexpr double kWidths[] = {20, 32, 45, 60, 90, 140, 200, 330, 600};

std::string told(const std::vector<Finding>& findings) {
  std::string all;
  for (const Finding& f : findings) {
    all += "\n  " + std::string(nameOf(f.kind)) + ": " + f.text + " " + f.mend;
  }
  return all;
}

/// What the dry fit says of the joint "made".
std::vector<Finding> foundOf(const ModelText& text) {
  std::vector<Finding> own;
  const auto fit = dryFitOf(text.json());
  if (!fit) return own;
  std::ranges::copy_if(fit->findings, std::back_inserter(own), [&](const Finding& f) {
    return f.joint && fit->piece.joint(*f.joint).name == "made";
  });
  return own;
}

/// The kind that a mend names first, or none.
std::optional<std::string> kindNamed(const std::string& mend) {
  std::optional<std::string> first;
  std::size_t best = std::string::npos;
  for (const auto& kind : joinery::jointKinds()) {
    const std::size_t at = mend.find(std::string(kind->name()));
    if (at < best) {
      best = at;
      first = std::string(kind->name());
    }
  }
  return first;
}

/// How often what was said.
struct Count {
  int silent = 0, unsuited = 0, wide = 0, named = 0;
};

void holdsItsRules(const MeetingWay& way, const std::string& kind, const MeetingSizes& s,
                   Count& count) {
  SCOPED_TRACE(testing::Message() << way.name << ", " << kind << ": " << s.width << " x " << s.stock
                                  << " into " << s.otherWidth << " x " << s.otherStock);
  const std::vector<Finding> found = foundOf(meeting(way, kind, s));
  EXPECT_LE(found.size(), 1u) << told(found);
  if (found.empty()) {
    ++count.silent;
    return;
  }
  const Finding& f = found.front();
  const bool wide = f.kind == FindingKind::weak && f.mend.find("two tenons") != std::string::npos;
  EXPECT_TRUE(wide || f.kind == FindingKind::unsuited) << told(found);
  ++(wide ? count.wide : count.unsuited);
  if (wide) return;
  EXPECT_NE(f.text.find(kind), std::string::npos) << f.text;
  const auto instead = kindNamed(f.mend);
  if (!instead) return;
  ++count.named;
  const std::vector<Finding> then = foundOf(meeting(way, *instead, s));
  if (f.mend.find("two " + *instead) != std::string::npos) {
    ASSERT_EQ(then.size(), 1u) << told(found) << "\n and then" << told(then);
    EXPECT_NE(then.front().mend.find("two tenons"), std::string::npos) << told(then);
    return;
  }
  EXPECT_TRUE(then.empty()) << told(found) << "\n and then" << told(then);
}

TEST(Defaults, KeepTheRulesOnEveryStockAndWidth) {
  Count all;
  std::set<std::string> kinds;
  for (const MeetingWay& way : meetingWays()) {
    for (const std::string& kind : way.kinds) {
      kinds.insert(kind);
      Count count;
      for (const double stock : kStocks) {
        for (const double width : kWidths) {
          holdsItsRules(way, kind, {stock, width, std::max(stock, 18.0), 60}, count);
        }
      }
      std::printf(
          "%-32s %-24s silent %3d, unsuited %3d (%3d with a kind that would do), wide %3d\n",
          way.name.c_str(), kind.c_str(), count.silent, count.unsuited, count.named, count.wide);
      all.silent += count.silent;
      all.unsuited += count.unsuited;
      all.wide += count.wide;
    }
  }
  EXPECT_EQ(kinds.size(), joinery::jointKinds().size());
  EXPECT_GT(all.silent, 2 * (all.unsuited + all.wide));
}

TEST(Defaults, KeepTheRulesOnRandomPairsOfStock) {
  std::mt19937_64 random(seed());
  Count count;
  std::uniform_real_distribution<double> stock(9, 60), width(20, 600);
  for (int i = 0; i < repetitions(1500); ++i) {
    const auto& ways = meetingWays();
    const MeetingWay& way =
        ways[std::uniform_int_distribution<std::size_t>(0, ways.size() - 1)(random)];
    const std::string& kind =
        way.kinds[std::uniform_int_distribution<std::size_t>(0, way.kinds.size() - 1)(random)];
    const auto half = [&](auto& of) { return std::round(2 * of(random)) / 2; };
    const MeetingSizes sizes{half(stock), half(width), half(stock), half(width)};
    SCOPED_TRACE(testing::Message() << "seed " << seed() << ", round " << i);
    holdsItsRules(way, kind, sizes, count);
  }
  std::printf("random pairs: silent %d, unsuited %d (%d with a kind that would do), wide %d\n",
              count.silent, count.unsuited, count.named, count.wide);
}

}  // namespace
}  // namespace dryfit::test
