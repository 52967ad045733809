// A piece opened out: together at nothing, every joint clear in the end, every part on the way in
// which its joints part.

#include "joinery/building/opened_out.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <map>

#include "joinery/fit/dry_fit.h"
#include "kernel/solid.h"
#include "tests/support/random_answers.h"

namespace dryfit::test {
namespace {

using joinery::Basis;
using joinery::DryFit;
using joinery::OpenedOut;
using joinery::PartId;
using kernel::Vec3;

std::vector<std::pair<std::string, DryFit>> pieces() {
  std::vector<std::pair<std::string, DryFit>> all;
  for (const joinery::Starter& starter : builtInStarters()) {
    all.emplace_back(starter.name,
                     joinery::dryFit(starterFile(starter).model(), Basis::drawn).value());
  }
  for (const char* demo : {"wall-rack", "reading-table", "periodicals-cupboard", "chart-chest"}) {
    const auto file =
        joinery::ModelFile::load(std::string(DRYFIT_MODELS "/") + demo + ".dryfit").value();
    all.emplace_back(demo, joinery::dryFit(file.model(), Basis::drawn).value());
  }
  return all;
}

double away(Vec3 a, Vec3 b) {
  return (a - b).norm();
}

TEST(OpenedOut, IsTogetherAtNothingAndGoesOnWithoutAJump) {
  for (const auto& [name, fit] : pieces()) {
    const OpenedOut open = OpenedOut::of(fit.piece);
    for (std::size_t i = 0; i < fit.piece.parts.size(); ++i) {
      const PartId part(i);
      EXPECT_EQ(open.offset(part, 0), Vec3{}) << name;
      double gone = 0;
      Vec3 before{};
      for (int step = 1; step <= 200; ++step) {
        const Vec3 now = open.offset(part, step / 200.0);
        gone += away(now, before);
        // No more in one step than an even walk through its longest stage.
        EXPECT_LT(away(now, before), 5000.0 * std::max(1, open.stages()) / 200) << name;
        before = now;
      }
      EXPECT_GE(gone, before.norm() - 1e-6) << name;
    }
  }
}

TEST(OpenedOut, LeavesNoPartInAnother) {
  for (const auto& [name, fit] : pieces()) {
    const OpenedOut open = OpenedOut::of(fit.piece);
    std::vector<kernel::Solid> solids;
    for (std::size_t i = 0; i < fit.piece.parts.size(); ++i) {
      kernel::Frame to;
      to.origin = kernel::Point3{} + open.offset(PartId(i), 1);
      solids.push_back(fit.placed(PartId(i)).placed(to));
    }
    for (std::size_t i = 0; i < solids.size(); ++i) {
      for (std::size_t j = 0; j < i; ++j) {
        const auto a = solids[i].bounds(), b = solids[j].bounds();
        bool apart = false;
        for (int k = 0; k < 3; ++k) apart = apart || a.max[k] <= b.min[k] || b.max[k] <= a.min[k];
        if (apart) continue;
        EXPECT_LT(kernel::overlap(solids[i], solids[j]).value().volume, 1.0)
            << name << ": " << fit.piece.part(PartId(i)).name << " and "
            << fit.piece.part(PartId(j)).name;
      }
    }
  }
}

TEST(OpenedOut, PartsEveryJointAlongItsOwnWayOrKeepsItClosed) {
  for (const auto& [name, fit] : pieces()) {
    const OpenedOut open = OpenedOut::of(fit.piece);
    for (const joinery::PlacedJoint& joint : fit.piece.joints) {
      if (joint.notCut || joint.homeDirection.norm() < 0.5) continue;  // the kind names no way
      const bool closed = std::ranges::count(open.closed(), joint.id) > 0;
      for (std::size_t i = 1; i < joint.mates.size(); ++i) {
        // The first move of the two against each other.
        for (int step = 1; step <= 400; ++step) {
          const double share = step / 400.0;
          const Vec3 gap = open.offset(joint.mates[0], share) - open.offset(joint.mates[i], share);
          if (gap.norm() < 1e-6) {
            EXPECT_TRUE(step < 400 || closed) << name << ": " << fit.piece.joint(joint.id).name;
            continue;
          }
          if (i > 1) break;  // the joint names the way of its first two mates
          EXPECT_NEAR(gap.dot(joint.homeDirection) / gap.norm() / joint.homeDirection.norm(), -1,
                      1e-3)
              << name << ": " << fit.piece.joint(joint.id).name;
          break;
        }
      }
    }
  }
}

TEST(OpenedOut, KeepsASubAssemblyWholeUntilItIsClear) {
  const auto file = joinery::ModelFile::load(DRYFIT_MODELS "/chart-chest.dryfit").value();
  const auto piece = joinery::evaluate(file.model(), Basis::drawn).value();
  const OpenedOut open = OpenedOut::of(piece);
  ASSERT_GT(open.stages(), 1);
  // In the first stage all parts of one drawer go one way.
  const double share = 1.0 / open.stages();
  std::map<std::string, Vec3> byDrawer;
  for (std::size_t i = 0; i < piece.parts.size(); ++i) {
    const std::string& name = piece.part(PartId(i)).name;
    const std::size_t dot = name.find('.');
    if (dot == std::string::npos) continue;
    const Vec3 by = open.offset(PartId(i), share);
    const auto [first, isNew] = byDrawer.emplace(name.substr(0, dot), by);
    EXPECT_NEAR(away(first->second, by), 0, 1e-6) << name;
  }
  EXPECT_GT(byDrawer.size(), 2U);
}

}  // namespace
}  // namespace dryfit::test
