// Drawings are made on all cores, and by several threads at once that share solids and pictures.

#include <gtest/gtest.h>

#include <latch>
#include <string>
#include <thread>
#include <vector>

#include "export/drawing/drawing_set.h"
#include "export/drawing/svg_writer.h"
#include "joinery/fit/dry_fit.h"
#include "tests/support/batch_model.h"

namespace dryfit::exporting {
namespace {

using joinery::Basis;

std::vector<std::string> drawn(const joinery::DryFit& fit, ViewMemory* memory) {
  const auto sheets = drawAll(fit, joinery::Unit::mm, {}, memory);
  if (!sheets) return {sheets.error().line()};
  std::vector<std::string> all;
  for (const NamedSheet& named : *sheets) all.push_back(named.name + svgText(named.sheet));
  return all;
}

joinery::DryFit fitOf(const joinery::Model& model) {
  return joinery::dryFit(model, Basis::drawn).value();
}

/// A door of square work, and a shelf with round holes.
std::vector<joinery::Model> models() {
  return {test::batchOfDoors(5), test::dowelledShelves(1)};
}

TEST(SharedDrawings, AreTheSameFromSeveralThreadsAsFromOne) {
  for (const joinery::Model& model : models()) {
    SCOPED_TRACE(model.name);
    const std::vector<std::string> alone = drawn(fitOf(model), nullptr);
    ASSERT_GT(alone.size(), 2U);
    const joinery::DryFit shared = fitOf(model);
    std::vector<std::vector<std::string>> together(2);
    {
      std::latch start(2);
      std::vector<std::jthread> threads;
      for (auto& mine : together) {
        threads.emplace_back([&] {
          start.arrive_and_wait();
          mine = drawn(shared, nullptr);
        });
      }
    }
    for (const auto& mine : together) EXPECT_EQ(mine, alone);
  }
}

TEST(SharedDrawings, AreTheSameWithAMemoryThatAllCoresShare) {
  for (const joinery::Model& model : models()) {
    SCOPED_TRACE(model.name);
    const joinery::DryFit fit = fitOf(model);
    ViewMemory memory;
    const std::vector<std::string> first = drawn(fit, &memory);
    EXPECT_EQ(drawn(fit, &memory), first);
    EXPECT_EQ(drawn(fit, nullptr), first);
  }
}

/// The window draws a piece on one thread while another fits the next state of it.
TEST(SharedDrawings, AreTheSameWhileThePieceIsCheckedAgain) {
  const joinery::DryFit fit = fitOf(test::dowelledShelves(1));
  const std::vector<std::string> alone = drawn(fit, nullptr);
  std::vector<std::string> meanwhile;
  Result<std::vector<joinery::Finding>> findings;
  {
    const std::jthread draughtsman([&] { meanwhile = drawn(fit, nullptr); });
    findings = joinery::checkPiece(fit.piece, fit.solids);
  }
  EXPECT_EQ(meanwhile, alone);
  ASSERT_TRUE(findings);
  EXPECT_TRUE(*findings == fit.findings);
}

}  // namespace
}  // namespace dryfit::exporting
