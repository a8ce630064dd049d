#include "colour/ramp.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <string_view>

#include "colour/delta_e.hpp"
#include "colour/rgb.hpp"

namespace huewright {
namespace {

/// What somebody with that deficiency sees of an 8-bit colour.
struct Sight {
  std::string_view name;
  Mat3 linear;  ///< of linear sRGB
};
// Machado, Oliveira, Fernandes: A Physiologically-based Model for Simulation of Color Vision Deficiency, IEEE Transactions on Visualization and
// Computer Graphics 15 (2009), the authors' table of matrices for severity 1.0, linear RGB.
constexpr Sight kSights[] = {
    {"usual", Mat3::identity()},
    {"protanopia", {{{{0.152286, 1.052583, -0.204868}, {0.114503, 0.786281, 0.099216}, {-0.003882, -0.048116, 1.051998}}}}},
    {"deuteranopia", {{{{0.367322, 0.860646, -0.227968}, {0.280085, 0.672501, 0.047413}, {-0.011820, 0.042940, 0.968881}}}}},
    {"tritanopia", {{{{1.255528, -0.076749, -0.178779}, {-0.078411, 0.930809, 0.147602}, {0.004733, 0.691367, 0.303900}}}}},
};

Lab<D50> seen(const std::array<unsigned char, 3>& code, const Sight& sight) {
  Vec3 light;
  for (std::size_t k = 0; k < 3; ++k) light[k] = srgbToLinear(code[k] / 255.0);
  light = sight.linear * light;
  for (double& v : light) v = std::clamp(v, 0.0, 1.0);
  return toLab(toXyzD50({light[0], light[1], light[2]}));
}

TEST(Ramp, StepsAreEven) {
  double shortest = 1e9, longest = 0;
  for (int i = 0; i < 64; ++i) {
    const double step = deltaE2000(rampLab(i / 64.0), rampLab((i + 1) / 64.0));
    shortest = std::min(shortest, step);
    longest = std::max(longest, step);
  }
  EXPECT_LT(longest / shortest, 1.05);
  EXPECT_GT(64 * shortest, 60);  // and there are many of them
}

TEST(Ramp, TheCodesAreEvenToo) {  // as far as 8 bits can show: between shares 1/15 apart
  double shortest = 1e9, longest = 0;
  for (std::size_t i = 0; i + 17 < 256; i += 17) {
    const double step = deltaE2000(seen(rampCodes()[i], kSights[0]), seen(rampCodes()[i + 17], kSights[0]));
    shortest = std::min(shortest, step);
    longest = std::max(longest, step);
  }
  EXPECT_LT(longest / shortest, 1.15);
}

TEST(Ramp, LightnessFallsAllTheWay) {
  for (int i = 0; i < 255; ++i) EXPECT_GT(rampLab(i / 255.0).L, rampLab((i + 1) / 255.0).L + 0.1) << i;
  EXPECT_GT(rampLab(0).L, 93);
  EXPECT_LT(rampLab(1).L, 18);
}

TEST(Ramp, EveryColourIsInsideSrgb) {
  for (int i = 0; i <= 255; ++i) {
    const LinearSrgb rgb = toLinearSrgb(toXyz(rampLab(i / 255.0)));
    for (const double v : {rgb.r, rgb.g, rgb.b}) {
      EXPECT_GE(v, 0) << i;
      EXPECT_LE(v, 1) << i;
    }
  }
}

TEST(Ramp, TheColourBlindCanReadIt) {
  for (const Sight& sight : kSights) {
    // Between shares 1/51 apart, so that the rounding to 8 bits does not count.
    for (std::size_t i = 0; i + 5 < 256; i += 5)
      EXPECT_GT(seen(rampCodes()[i], sight).L, seen(rampCodes()[i + 5], sight).L + 0.3) << sight.name << " at " << i;
    for (int tenth = 0; tenth < 10; ++tenth)
      EXPECT_GE(deltaE2000(seen(rampCode(tenth / 10.0), sight), seen(rampCode((tenth + 1) / 10.0), sight)), 4) << sight.name << " at " << tenth;
  }
}

TEST(Ramp, EndsAndWhatLiesBeyond) {
  EXPECT_EQ(rampCode(-3), rampCodes().front());
  EXPECT_EQ(rampCode(0), rampCodes().front());
  EXPECT_EQ(rampCode(1), rampCodes().back());
  EXPECT_EQ(rampCode(1e300), rampCodes().back());
  EXPECT_EQ(rampCode(std::nan("")), rampCodes().front());
  EXPECT_EQ(rampCode(0.5), rampCodes()[128]);
  EXPECT_EQ(rampLab(2), rampLab(1));
}

}  // namespace
}  // namespace huewright
