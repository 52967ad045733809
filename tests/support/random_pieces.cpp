#include "tests/support/random_pieces.h"

#include <cstdlib>
#include <numbers>
#include <string>

namespace dryfit::test {
namespace {

using kernel::Block;
using kernel::Box3;
using kernel::Cylinder;
using kernel::Frame;
using kernel::Point3;
using kernel::Recipe;
using kernel::Step;
using kernel::Tool;
using kernel::Vec3;

constexpr double kGrid = 0.5;

int whole(std::mt19937_64& random, int low, int high) {
  return std::uniform_int_distribution<int>(low, high)(random);
}
double onGrid(std::mt19937_64& random, double low, double high) {
  return kGrid * whole(random, static_cast<int>(low / kGrid), static_cast<int>(high / kGrid));
}
double real(std::mt19937_64& random, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(random);
}
bool chance(std::mt19937_64& random, double p) {
  return real(random, 0, 1) < p;
}

Vec3 randomDirection(std::mt19937_64& random) {
  std::normal_distribution<double> normal;
  Vec3 v;
  do {
    v = {normal(random), normal(random), normal(random)};
  } while (v.norm() < 1e-3);
  return v.unit();
}

/// A box that sticks on a face of the blank, as a tenon does: flush sides are likely.
Box3 addition(std::mt19937_64& random, const Box3& blank) {
  Box3 box = randomBoxIn(random, blank);
  const int axis = whole(random, 0, 2);
  const double out = onGrid(random, 5, 60);
  if (chance(random, 0.5)) {
    box.max.set(axis, blank.max[axis] + out);
    box.min.set(axis, blank.max[axis] - (chance(random, 0.5) ? 0 : 2));
  } else {
    box.min.set(axis, blank.min[axis] - out);
    box.max.set(axis, blank.min[axis] + (chance(random, 0.5) ? 0 : 2));
  }
  for (int other = 0; other < 3; ++other) {
    // Within the blank sideways, so that the two are one body.
    if (other == axis) continue;
    box.min.set(other, std::fmax(box.min[other], blank.min[other]));
    box.max.set(other, std::fmin(box.max[other], blank.max[other]));
  }
  return box;
}

Tool removal(std::mt19937_64& random, const Box3& blank, PieceKind kind) {
  const Box3 box = randomBoxIn(random, blank);
  if (kind.round && chance(random, 0.4)) {
    const int axis = whole(random, 0, 2);
    Vec3 along;
    along.set(axis, 1);
    Point3 base = box.centre();
    base.set(axis, blank.min[axis] - 1);
    return Cylinder{base, along, onGrid(random, 2, 12),
                    chance(random, 0.5) ? blank.size()[axis] + 2 : onGrid(random, 5, 20)};
  }
  if (kind.turned && chance(random, 0.5)) {
    const Angle angle = Angle::radians(real(random, -0.6, 0.6));
    return Block{box, Frame::rotation(box.centre(), randomDirection(random), angle)};
  }
  return Block{box, {}};
}

}  // namespace

std::uint64_t seed() {
  const char* given = std::getenv("DRYFIT_SEED");
  return given ? std::stoull(given) : 20'240'229;
}

Box3 randomBoxIn(std::mt19937_64& random, const Box3& within) {
  Box3 box;
  for (int axis = 0; axis < 3; ++axis) {
    const double size = within.size()[axis];
    const double length = onGrid(random, std::fmax(kGrid, size / 10), size * 0.7);
    const double start = within.min[axis] + onGrid(random, -length / 2, size - length / 2);
    box.min.set(axis, start);
    box.max.set(axis, start + length);
    const int flush = whole(random, 0, 5);
    if (flush == 0 && box.max[axis] > within.min[axis]) box.min.set(axis, within.min[axis]);
    if (flush == 1 && box.min[axis] < within.max[axis]) box.max.set(axis, within.max[axis]);
  }
  return box;
}

Recipe randomPiece(std::mt19937_64& random, PieceKind kind) {
  const Box3 blank{{}, {onGrid(random, 100, 900), onGrid(random, 30, 120), onGrid(random, 18, 60)}};
  Recipe recipe{Block{blank, {}}, {}};
  if (const int count = whole(random, 0, 3); count > 0) {
    Step add{Step::Kind::add, {}};
    for (int i = 0; i < count; ++i) add.tools.emplace_back(Block{addition(random, blank), {}});
    recipe.steps.push_back(std::move(add));
  }
  Step remove{Step::Kind::remove, {}};
  for (int i = whole(random, 1, 5); i > 0; --i) {
    remove.tools.push_back(removal(random, blank, kind));
  }
  recipe.steps.push_back(std::move(remove));
  return recipe;
}

Frame randomFrame(std::mt19937_64& random) {
  Frame frame = Frame::rotation({}, randomDirection(random),
                                Angle::radians(real(random, -1, 1) * std::numbers::pi));
  frame.origin = {real(random, -1000, 1000), real(random, -1000, 1000), real(random, -1000, 1000)};
  return frame;
}

}  // namespace dryfit::test
