#include "joinery/making/readings.h"

#include <gmock/gmock.h>

#include <cmath>
#include <random>

#include "joinery/making/frame_advice.h"
#include "tests/joinery/cupboard_sample.h"

namespace dryfit::joinery {
namespace {

using kernel::Point2;
using ::testing::HasSubstr;
using ::testing::Not;

double apart(Point2 a, Point2 b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

/// Corners clockwise from the top left, and what a perfect tape reads of them.
FrameReadings readingsOf(const std::array<Point2, 4>& c) {
  return {apart(c[0], c[2]),
          apart(c[3], c[1]),
          apart(c[0], c[1]),
          apart(c[3], c[2]),
          apart(c[0], c[3]),
          apart(c[1], c[2]),
          {}};
}

FrameReadings toTheHalf(FrameReadings r) {
  for (double* length : {&r.falling, &r.rising, &r.top, &r.bottom, &r.left, &r.right}) {
    *length = std::round(*length * 2) / 2;
  }
  return r;
}

FrameShape shapeFrom(const FrameReadings& readings) {
  const auto shape = frameFrom(readings);
  if (!shape) throw std::runtime_error(shape.error().line());
  return *shape;
}

// Euclid, Elements I.47: sides of 900 and 1200 have a diagonal of 1500.
TEST(Readings, ASquareFrameIsSquare) {
  const FrameShape shape = shapeFrom({1500, 1500, 1200, 1200, 900, 900, {}});
  for (const double angle : shape.angle) EXPECT_NEAR(angle, 90, 1e-9);
  EXPECT_NEAR(shape.rack, 0, 1e-9);
  EXPECT_NEAR(shape.disagreement, 0, 1e-9);
  EXPECT_TRUE(shape.readingsAgree);
}

// In a parallelogram of base w whose top has gone e to the right, the squares of the diagonals
// differ by 4 w e (cosine rule, Elements II.12 and II.13).
TEST(Readings, OfAParallelogramGiveTheLean) {
  std::mt19937 random(1);
  std::uniform_real_distribution<double> width(300, 1500), lean(-30, 30);
  for (int i = 0; i < 200; ++i) {
    const double w = width(random), h = width(random), e = lean(random);
    const double d = w * w + h * h;
    const FrameShape shape =
        shapeFrom({std::sqrt(d - 2 * w * e), std::sqrt(d + 2 * w * e), w, w, h, h, {}});
    EXPECT_NEAR(shape.rack, e, 1e-6);
    EXPECT_NEAR(shape.rackAngle, std::asin(e / h) * 180 / M_PI, 1e-7);
    EXPECT_NEAR(shape.moreAtTop(), 0, 1e-7);
    EXPECT_NEAR(shape.disagreement, 0, 1e-7);
  }
}

// Ptolemy: in an isosceles trapezium with parallel sides a, b and legs c, diagonal² = a b + c².
TEST(Readings, OfATrapeziumGiveALongSideAndNoLean) {
  std::mt19937 random(2);
  std::uniform_real_distribution<double> width(300, 1500), more(-20, 20);
  for (int i = 0; i < 200; ++i) {
    const double bottom = width(random), top = bottom + more(random), leg = width(random);
    const double d = std::sqrt(top * bottom + leg * leg);
    const FrameShape shape = shapeFrom({d, d, top, bottom, leg, leg, {}});
    EXPECT_NEAR(shape.rack, 0, 1e-6);
    EXPECT_NEAR(shape.moreAtTop(), top - bottom, 1e-7);
    EXPECT_NEAR(shape.moreAtLeft(), 0, 1e-7);
  }
}

std::array<Point2, 4> randomFrame(std::mt19937& random, double off) {
  std::uniform_real_distribution<double> size(300, 1500), by(-off, off);
  const double w = size(random), h = size(random);
  std::array<Point2, 4> c{Point2{0, h}, {w, h}, {w, 0}, {0, 0}};
  for (std::size_t i = 0; i < 3; ++i) c[i].x += by(random);
  for (std::size_t i = 0; i < 2; ++i) c[i].y += by(random);
  return c;
}

TEST(Readings, OfAnyFrameGiveItsCorners) {
  std::mt19937 random(3);
  for (int i = 0; i < 300; ++i) {
    const auto c = randomFrame(random, 40);
    const FrameShape shape = shapeFrom(readingsOf(c));
    for (std::size_t k = 0; k < 4; ++k) {
      EXPECT_NEAR(shape.corner[k].x, c[k].x, 1e-5);
      EXPECT_NEAR(shape.corner[k].y, c[k].y, 1e-5);
    }
    EXPECT_NEAR(shape.angle[0] + shape.angle[1] + shape.angle[2] + shape.angle[3], 360, 1e-8);
  }
}

TEST(Readings, ReadToHalfAMillimetreAlwaysAgree) {
  std::mt19937 random(4);
  for (int i = 0; i < 500; ++i) {
    const FrameShape shape = shapeFrom(toTheHalf(readingsOf(randomFrame(random, 5))));
    EXPECT_TRUE(shape.readingsAgree) << shape.disagreement;
  }
}

TEST(Readings, AMisreadTapeIsNoticed) {
  std::mt19937 random(5);
  for (int i = 0; i < 200; ++i) {
    FrameReadings r = toTheHalf(readingsOf(randomFrame(random, 2)));
    (i % 2 == 0 ? r.falling : r.rising) += 10;  // the tape's centimetre
    EXPECT_FALSE(shapeFrom(r).readingsAgree);
  }
}

TEST(Readings, CornersThatWereReadCountToo) {
  const double lean = 6;
  const std::array<Point2, 4> c{Point2{lean, 600}, {800 + lean, 600}, {800, 0}, {0, 0}};
  FrameReadings r = readingsOf(c);
  r.corners[3] = 90 - std::atan(lean / 600) * 180 / M_PI;
  EXPECT_NEAR(shapeFrom(r).disagreement, 0, 1e-6);
  r.corners[3] = 92;
  EXPECT_FALSE(shapeFrom(r).readingsAgree);
}

TEST(Readings, LengthsThatCloseNoFrameAreRefused) {
  EXPECT_FALSE(frameFrom({3000, 1500, 1200, 1200, 900, 900, {}}));
  EXPECT_FALSE(frameFrom({1500, 200, 1200, 1200, 900, 900, {}}));
  EXPECT_FALSE(frameFrom({0, 1500, 1200, 1200, 900, 900, {}}));
  FrameReadings r{1500, 1500, 1200, 1200, 900, 900, {}};
  r.corners[0] = 9;
  EXPECT_FALSE(frameFrom(r));
}

class FrameAdvice : public ::testing::Test {
 protected:
  FrameAdvice() : piece_(fitOf(fileFrom(cupboardText()).model()).piece) {
    for (const char* name : {"left_stile", "right_stile", "top_rail", "bottom_rail", "panel"}) {
      parts_.push_back(partNamed(piece_, name).id);
    }
    look_ = *frameOf(piece_, parts_);
  }
  [[nodiscard]] std::string said(const FrameReadings& readings) const {
    std::string text;
    for (const auto& line : adviceFor(piece_, look_, shapeFrom(readings), Unit::mm)) {
      text += line + "\n";
    }
    return text;
  }

  Piece piece_;
  std::vector<PartId> parts_;
  FrameLook look_;
};

TEST_F(FrameAdvice, KnowsTheMembersOfTheFrame) {
  EXPECT_NEAR(look_.width, 860, 1e-9);
  EXPECT_NEAR(look_.height, 700, 1e-9);
  ASSERT_TRUE(look_.top && look_.bottom && look_.left && look_.right && look_.panel);
  EXPECT_EQ(piece_.part(look_.top->part).name, "top_rail");
  EXPECT_EQ(piece_.part(look_.left->part).name, "left_stile");
  EXPECT_TRUE(look_.top->shouldered);
  EXPECT_FALSE(look_.left->shouldered);
  EXPECT_EQ(piece_.part(*look_.panel).name, "panel");
  EXPECT_GT(look_.panelGap, 0);
  EXPECT_FALSE(frameOf(piece_, {parts_[0]}));
}

TEST_F(FrameAdvice, ASquareFrameIsLeftAlone) {
  const double d = std::hypot(860, 700);
  EXPECT_THAT(said({d, d, 860, 860, 700, 700, {}}), HasSubstr("square"));
}

TEST_F(FrameAdvice, ARackedFrameIsPulledAcrossItsLongDiagonal) {
  const double d = 860.0 * 860 + 700.0 * 700, e = 4;
  const std::string text =
      said({std::sqrt(d - 2 * 860 * e), std::sqrt(d + 2 * 860 * e), 860, 860, 700, 700, {}});
  EXPECT_THAT(text, HasSubstr("4 mm to the right"));
  EXPECT_THAT(text, HasSubstr("0.33°"));
  EXPECT_THAT(text, HasSubstr("from the bottom left to the top right"));
  EXPECT_THAT(text, HasSubstr("clamp"));
  EXPECT_THAT(text, Not(HasSubstr("Trim")));
}

TEST_F(FrameAdvice, ALongTopRailIsTrimmedAtItsShoulders) {
  const double d = std::sqrt(861.5 * 860 + 700.0 * 700);
  const std::string text = said({d, d, 861.5, 860, 700, 700, {}});
  EXPECT_THAT(text, HasSubstr("Trim a shoulder of top rail by 1.5 mm, or both by 0.75 mm each"));
  EXPECT_THAT(text, HasSubstr("1.5 mm wider at the top than at the bottom"));
  EXPECT_THAT(text, HasSubstr("pulling would not help"));
  EXPECT_THAT(text, Not(HasSubstr("clamp")));
}

TEST_F(FrameAdvice, AShortRailIsNamedAsWell) {
  const double d = std::sqrt(858.0 * 860 + 700.0 * 700);
  const std::string text = said({d, d, 860, 858, 700, 700, {}});
  EXPECT_THAT(text, HasSubstr("Trim a shoulder of top rail by 2 mm"));
  EXPECT_THAT(text, HasSubstr("short one is bottom rail, by 2 mm"));
}

TEST_F(FrameAdvice, ALongStileIsTrimmedAtItsEnd) {
  const double d = std::sqrt(702.0 * 700 + 860.0 * 860);
  EXPECT_THAT(said({d, d, 860, 860, 702, 700, {}}), HasSubstr("Trim an end of left stile by 2 mm"));
}

TEST_F(FrameAdvice, EveryJointIsToBeHomeBeforeAnythingIsPulledOrTrimmed) {
  const double square = std::hypot(860, 700);
  EXPECT_THAT(said({square, square, 860, 860, 700, 700, {}}), Not(HasSubstr("home")));
  const double d = 860.0 * 860 + 700.0 * 700, e = 4;
  const std::string racked =
      said({std::sqrt(d - 2 * 860 * e), std::sqrt(d + 2 * 860 * e), 860, 860, 700, 700, {}});
  EXPECT_EQ(racked.find("First see that every joint is home"), 0U) << racked;
  const double wide = std::sqrt(861.5 * 860 + 700.0 * 700);
  const std::string trimmed = said({wide, wide, 861.5, 860, 700, 700, {}});
  EXPECT_EQ(trimmed.find("First see that every joint is home"), 0U) << trimmed;
  EXPECT_LT(trimmed.find("home"), trimmed.find("Trim"));
}

TEST_F(FrameAdvice, ReadingsThatDisagreeAreReadAgainFirst) {
  const double d = std::hypot(860, 700);
  const std::string text = said({d + 10, d, 860, 860, 700, 700, {}});
  EXPECT_EQ(text.find("The readings do not agree"), 0U) << text;
}

}  // namespace
}  // namespace dryfit::joinery
