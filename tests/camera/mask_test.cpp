#include "camera/mask.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <random>
#include <span>
#include <stdexcept>

#include "camera/hand_grid.hpp"
#include "colour/rgb.hpp"
#include "photo/photo.hpp"
#include "support/fixtures.hpp"
#include "support/temp_dir.hpp"

namespace huewright {
namespace {

TEST(Mask, PureTextureKeepsNearlyEverything) {
  std::mt19937_64 rng(9);
  std::normal_distribution<double> n;
  const auto kept = mask(gridOf([&](int, int) { return 0.3 * (1 + 0.05 * n(rng)); }));
  EXPECT_GT(count(kept, Kept::Yes), kept.size() * 97 / 100);
}

TEST(Mask, ASpotOfGlareAndItsSoftRimAreTaken) {
  const auto kept = mask(gridOf([](int x, int y) {
    const double r = std::hypot(x - 20.0, y - 18.0);
    return 0.3 + 0.3 * std::clamp((9 - r) / 4, 0.0, 1.0);
  }));
  EXPECT_EQ(kept[18 * 48 + 20], Kept::Glare);
  EXPECT_EQ(kept[18 * 48 + 28], Kept::Glare);  // the rim, a twelfth of the core
  EXPECT_EQ(kept[18 * 48 + 36], Kept::Yes);
  EXPECT_EQ(count(kept, Kept::Shadow), 0u);
}

TEST(Mask, AShadowIsAShadow) {
  const auto kept = mask(gridOf([](int x, int) { return x < 10 ? 0.2 : 0.3; }));
  EXPECT_EQ(kept[5], Kept::Shadow);
  EXPECT_EQ(kept[30], Kept::Yes);
}

TEST(Mask, ASlopeIsKept) {
  const auto kept = mask(gridOf([](int x, int) { return 0.3 * (1 + 0.004 * x); }));
  EXPECT_EQ(count(kept, Kept::Yes), kept.size());
}

/// A smooth surface that a lamp lights a little warmer at one side, as a JPEG; all channels are multiplied by `lamp` in a spot.
Grid smoothJpeg(fixtures::Code3 code, double warmer, int quality, double lamp) {
  fixtures::Picture picture = fixtures::flat({480, 360}, code);
  for (int y = 0; y < 360; ++y)
    for (int x = 0; x < 480; ++x)
      for (std::size_t k = 0; k < 3; ++k) {
        const double light = lamp > 1 && std::hypot(x - 200, y - 180) < 60 ? lamp : 1.0, tint = 1 + (1 - double(k)) * warmer * (x - 240) / 480;
        picture.at(x, y)[k] = static_cast<std::uint16_t>(std::lround(255 * srgbFromLinear(light * tint * srgbToLinear(code[k] / 255.0))));
      }
  const fixtures::TempDir dir;
  auto photo = Photo::open(dir.put("smooth.jpg", fixtures::jpeg(picture, {.quality = quality})));
  if (!photo) throw std::runtime_error(sentence(photo.error()));
  const Rect all{0, 0, 480, 360};
  const auto raster = photo->pixels(std::span(&all, 1));
  return makeGrid(raster->front(), toQuad(all));
}

struct SmoothCase {
  fixtures::Code3 code;
  double warmer;
  int quality;
};

TEST(Mask, TheStepsInWhichAJpegKeepsASmoothSurfaceAreNoGlare) {
  for (const auto& [code, warmer, quality] : {SmoothCase{{118, 118, 118}, 0.02, 90}, SmoothCase{{118, 118, 118}, 0.04, 80}, SmoothCase{{60, 70, 40}, 0.02, 90},
                                              SmoothCase{{30, 60, 110}, 0.03, 75}, SmoothCase{{190, 150, 90}, 0.03, 75}}) {
    const Grid g = smoothJpeg(code, warmer, quality, 1);
    EXPECT_EQ(count(mask(g), Kept::Yes), g.full.size()) << code[0] << " at quality " << quality;
  }
}

TEST(Mask, ALampOnASmoothJpegIsSeen) {
  for (const auto& [code, warmer, quality] : {SmoothCase{{118, 118, 118}, 0.02, 90}, SmoothCase{{60, 70, 40}, 0.02, 90}, SmoothCase{{190, 150, 90}, 0.03, 75}}) {
    const Grid g = smoothJpeg(code, warmer, quality, 1.15);
    const auto kept = mask(g);
    EXPECT_EQ(kept[18 * 48 + 20], Kept::Glare) << code[0] << " at quality " << quality;
    EXPECT_EQ(kept[18 * 48 + 40], Kept::Yes) << code[0] << " at quality " << quality;
  }
}

}  // namespace
}  // namespace huewright
