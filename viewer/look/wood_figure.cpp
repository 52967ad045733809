#include "viewer/look/wood_figure.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <numbers>
#include <string>

namespace dryfit::viewer {
namespace {

/// How strongly it shows; shares of the light that is taken away.
struct Strength {
  double rings = 0;  ///< by the rings
  double pores = 0;  ///< by pores and fibres
  int years = 1;     ///< rings over `kFigureAcross`
};

Strength strengthOf(WoodStructure structure) {
  switch (structure) {
    case WoodStructure::ringPorous:
      return {0.20, 0.20, 26};
    case WoodStructure::semiRingPorous:
      return {0.20, 0.14, 20};
    case WoodStructure::diffusePorous:
      return {0.09, 0.07, 18};
    case WoodStructure::conifer:
      return {0.24, 0.04, 24};
    case WoodStructure::plies:
      return {0.08, 0.08, 10};
    case WoodStructure::none:
      break;
  }
  return {};
}

/// How dark a place of a year's ring is, by the share of the year that has gone: 0 to 1.
double ringShade(WoodStructure structure, double year) {
  switch (structure) {
    case WoodStructure::ringPorous:
      return std::exp(-5 * year);
    case WoodStructure::semiRingPorous:
      return std::pow(1 - year, 1.5);
    case WoodStructure::conifer:
      return year * year * year;
    default:
      return 0.5 - 0.5 * std::cos(2 * std::numbers::pi * year);
  }
}

/// Numbers without order, the same at every start: 0 to 1.
double scattered(std::uint32_t x, std::uint32_t y) {
  std::uint32_t h = x * 0x9E3779B1U ^ (y + 0x7F4A7C15U) * 0x85EBCA6BU;
  h ^= h >> 15U;
  h *= 0xC2B2AE35U;
  h ^= h >> 13U;
  return h / 4294967295.0;
}

/// Smooth noise over [0,1) x [0,1) that goes on over the edges: `across` x `down` knots.
double noise(double u, double v, std::uint32_t across, std::uint32_t down) {
  const double x = u * across, y = v * down;
  const auto i = static_cast<std::uint32_t>(x), k = static_cast<std::uint32_t>(y);
  const auto smooth = [](double t) { return t * t * (3 - 2 * t); };
  const double s = smooth(x - i), t = smooth(y - k);
  const auto at = [&](std::uint32_t dx, std::uint32_t dy) {
    return scattered((i + dx) % across, (k + dy) % down);
  };
  return std::lerp(std::lerp(at(0, 0), at(1, 0), s), std::lerp(at(0, 1), at(1, 1), s), t);
}

/// How far a ring wanders across the board along it: of the picture's height.
double wander(double u, double v) {
  constexpr double kTurn = 2 * std::numbers::pi;
  return 0.020 * std::cos(kTurn * u + 1.3) + 0.011 * std::cos(kTurn * (2 * u + v) + 4.1) +
         0.005 * std::cos(kTurn * (3 * u - 2 * v) + 0.7);
}

/// Where only the peaks of a noise count.
double peaks(double n) {
  constexpr double kFrom = 0.6;
  return std::max(0.0, n - kFrom) / (1 - kFrom);
}

template <typename Shade>
QImage imageOf(int width, int height, Shade shade) {
  QImage image(width, height, QImage::Format_RGB888);
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      const double taken = shade((x + 0.5) / width, (y + 0.5) / height);
      const int grey = std::clamp(static_cast<int>(std::lround(255 * (1 - taken))), 0, 255);
      image.setPixel(x, y, qRgb(grey, grey, grey));
    }
  }
  return image;
}

constexpr int kLongWidth = 256, kLongHeight = 128, kEndWidth = 128, kEndHeight = 64;

}  // namespace

WoodStructure structureOf(const joinery::Material& material) {
  return joinery::structureOf(material.species.empty() ? material.name : material.species,
                              material.kind == joinery::MaterialKind::sheet);
}

QImage longFigure(WoodStructure structure) {
  if (structure == WoodStructure::none) return {};
  const Strength strength = strengthOf(structure);
  return imageOf(kLongWidth, kLongHeight, [&](double u, double v) {
    const double years = strength.years * (v + wander(u, v) + 1);
    const double ring = ringShade(structure, years - std::floor(years));
    // Pores are cut along their length: short dark strokes along the grain.
    const double pores = peaks(noise(u, v, 64, 128));
    const bool inRings = structure == WoodStructure::ringPorous;
    // Broad streaks tell the way of the grain from afar, where single rings run together.
    const double streak = noise(u, v, 2, 14);
    return strength.rings * (ring + 0.8 * streak) +
           strength.pores * pores * (inRings ? 0.3 + ring : 1.0);
  });
}

QImage endFigure(WoodStructure structure) {
  if (structure == WoodStructure::none) return {};
  const Strength strength = strengthOf(structure);
  if (structure == WoodStructure::plies) {
    constexpr double kPly = kFigureEndHeight / 54;  // mm, an even number of them
    return imageOf(kEndWidth, kEndHeight, [&](double u, double v) {
      const bool crossed = static_cast<int>(v * kFigureEndHeight / kPly) % 2 == 1;
      return (crossed ? 0.28 : 0.0) + strength.pores * peaks(noise(u, v, 64, 64));
    });
  }
  constexpr double kPith = 70;  // mm below the lower edge of the picture
  return imageOf(kEndWidth, kEndHeight, [&](double u, double v) {
    const double x = (u - 0.5) * kFigureEndWidth, y = v * kFigureEndHeight + kPith;
    const double years = std::hypot(x, y) * strength.years / kFigureAcross;
    const double ring = ringShade(structure, years - std::floor(years));
    return 1.3 * strength.rings * ring + strength.pores * peaks(noise(u, v, 128, 64));
  });
}

}  // namespace dryfit::viewer
