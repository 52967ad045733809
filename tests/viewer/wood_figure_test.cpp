#include "viewer/look/wood_figure.h"

#include <gtest/gtest.h>

#include <cstdlib>

#include "joinery/trade/species.h"

namespace dryfit::viewer {
namespace {

joinery::Material solidOf(const std::string& species) {
  joinery::Material wood;
  wood.name = "stock";
  wood.species = species;
  return wood;
}

/// Mean step of grey from pixel to pixel, along the picture's width and down its height.
std::pair<double, double> steps(const QImage& image) {
  double along = 0, down = 0;
  for (int y = 0; y < image.height(); ++y) {
    for (int x = 0; x < image.width(); ++x) {
      const int here = qGray(image.pixel(x, y));
      along += std::abs(here - qGray(image.pixel((x + 1) % image.width(), y)));
      down += std::abs(here - qGray(image.pixel(x, (y + 1) % image.height())));
    }
  }
  const double all = image.width() * image.height();
  return {along / all, down / all};
}

/// Mean step over the picture's edges, where its next copy begins.
std::pair<double, double> seams(const QImage& image) {
  double along = 0, down = 0;
  for (int y = 0; y < image.height(); ++y) {
    along += std::abs(qGray(image.pixel(0, y)) - qGray(image.pixel(image.width() - 1, y)));
  }
  for (int x = 0; x < image.width(); ++x) {
    down += std::abs(qGray(image.pixel(x, 0)) - qGray(image.pixel(x, image.height() - 1)));
  }
  return {along / image.height(), down / image.width()};
}

TEST(WoodFigure, RunsAlongTheGrainOfEverySpecies) {
  for (const std::string& name : joinery::speciesNames()) {
    const QImage figure = longFigure(structureOf(solidOf(name)));
    ASSERT_FALSE(figure.isNull()) << name;
    const auto [along, down] = steps(figure);
    // A pixel is 1.17 mm long and 0.47 mm high: the figure still changes far more across.
    EXPECT_GT(down, 1.5 * along) << name;
  }
}

TEST(WoodFigure, GoesOnOverItsEdges) {
  for (const auto structure :
       {WoodStructure::ringPorous, WoodStructure::semiRingPorous, WoodStructure::diffusePorous,
        WoodStructure::conifer, WoodStructure::plies}) {
    const QImage figure = longFigure(structure);
    const auto [along, down] = steps(figure);
    const auto [alongSeam, downSeam] = seams(figure);
    EXPECT_LT(alongSeam, 2 * along + 1);
    EXPECT_LT(downSeam, 2 * down + 1);
  }
}

TEST(WoodFigure, IsByTheStructureOfTheWood) {
  // USDA Wood Handbook (FPL-GTR-190), chapter 3 names oak and ash as ring-porous, maple as
  // diffuse-porous (from memory).
  EXPECT_EQ(structureOf(solidOf("white oak")), WoodStructure::ringPorous);
  EXPECT_EQ(structureOf(solidOf("european ash")), WoodStructure::ringPorous);
  EXPECT_EQ(structureOf(solidOf("hard maple")), WoodStructure::diffusePorous);
  EXPECT_EQ(structureOf(solidOf("norway spruce")), WoodStructure::conifer);
  joinery::Material sheet = solidOf("birch plywood");
  sheet.kind = joinery::MaterialKind::sheet;
  EXPECT_EQ(structureOf(sheet), WoodStructure::plies);
  sheet.species = "fibreboard";
  EXPECT_TRUE(longFigure(structureOf(sheet)).isNull()) << "it has no grain to show";
}

}  // namespace
}  // namespace dryfit::viewer
