#include "photo/icc.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "colour/lab.hpp"
#include "colour/rgb.hpp"
#include "photo/expect.hpp"

namespace huewright {
namespace {

using namespace fixtures;

std::array<double, 3> through(const ProfileColour& colour, std::array<std::uint16_t, 3> code, int bits) {
  float xyz[3] = {};
  const std::array<std::uint8_t, 3> narrow{static_cast<std::uint8_t>(code[0]), static_cast<std::uint8_t>(code[1]),
                                           static_cast<std::uint8_t>(code[2])};
  if (bits == 8)
    colour.path->convert({0, 0, 1, Sample::Code8, 3, narrow.data()}, 0, 1, xyz);
  else
    colour.path->convert({0, 0, 1, Sample::Code16, 3, code.data()}, 0, 1, xyz);
  return {xyz[0], xyz[1], xyz[2]};
}

TEST(Icc, agreesWithTheEnginesOwnFloatTransform) {
  const std::pair<const char*, Bytes> profiles[] = {
      {"sRGB", srgbProfile()}, {"P3", displayP3Profile()},      {"Adobe RGB", adobeRgbProfile()}, {"ProPhoto", proPhotoProfile()},
      {"swap", swapProfile()}, {"linear", linearSrgbProfile()}, {"tables", tableProfile()}};
  for (const auto& [name, bytes] : profiles)
    for (const int bits : {8, 10, 16}) {
      const auto colour = readProfile(bytes, bits);
      ASSERT_TRUE(colour) << name;
      const int most = (1 << bits) - 1;
      for (int i = 0; i < 125; ++i) {
        const auto node = [most](int step) { return static_cast<std::uint16_t>(step * most / 4); };
        const std::array code{node(i % 5), node(i / 5 % 5), node(i / 25)};
        const auto want = engineXyz(bytes, double(code[0]) / most, double(code[1]) / most, double(code[2]) / most);
        // Float on both sides; the largest value is 1.1. Worst seen: 4e-7.
        expectNear(through(*colour, code, bits), want, 1.5e-6, std::string(name) + " node " + std::to_string(i));
      }
    }
}

TEST(Icc, knownPrimariesComeOut) {
  // Against matrices computed from published primaries. A profile holds its colorants in steps of 1/65536, and its white is
  // levelled to D50 afterwards: 4e-5.
  const std::pair<Bytes, Primaries> rows[] = {{srgbProfile(), kSrgbPrimaries},
                                              {displayP3Profile(), kP3D65Primaries},
                                              {adobeRgbProfile(), kAdobePrimaries},
                                              {proPhotoProfile(), kRommPrimaries}};
  for (const auto& [bytes, primaries] : rows) {
    const auto colour = readProfile(bytes, 8);
    ASSERT_TRUE(colour && colour->to_xyz);
    const Mat3 want = rgbToXyzD50(primaries);
    for (std::size_t r = 0; r < 3; ++r)
      for (std::size_t c = 0; c < 3; ++c) EXPECT_NEAR((*colour->to_xyz)(r, c), want(r, c), 4e-5) << colour->name;
  }
}

TEST(Icc, theProfilesWhiteIsExactlyNeutral) {
  for (const Bytes& bytes :
       {srgbProfile(), displayP3Profile(), adobeRgbProfile(), proPhotoProfile(), swapProfile(), linearSrgbProfile(), tableProfile()}) {
    const auto colour = readProfile(bytes, 16);
    ASSERT_TRUE(colour);
    for (const auto code : {std::uint16_t{65535}, std::uint16_t{30000}}) {
      const auto xyz = through(*colour, {code, code, code}, 16);
      const Lab<D50> lab = toLab(Xyz<D50>{xyz[0], xyz[1], xyz[2]});
      if (code == 65535) {
        EXPECT_NEAR(lab.L, 100, 1e-4) << colour->name;
      }
      if (code == 65535 || colour->to_xyz) {
        EXPECT_NEAR(lab.a, 0, 1e-4) << colour->name;
        EXPECT_NEAR(lab.b, 0, 1e-4) << colour->name;
      }
    }
  }
}

TEST(Icc, tableProfileFollowsItsKnownMap) {
  const auto colour = readProfile(tableProfile(), 8);
  ASSERT_TRUE(colour);
  EXPECT_FALSE(colour->to_xyz);
  EXPECT_FALSE(colour->linear);
  for (const std::array<std::uint16_t, 3> code :
       {std::array<std::uint16_t, 3>{255, 255, 255}, {200, 180, 190}, {90, 120, 60}, {40, 50, 45}}) {
    const auto xyz = through(*colour, code, 8);
    const Lab<D50> lab = toLab(Xyz<D50>{xyz[0], xyz[1], xyz[2]});
    const auto want = tableProfileLab(code[0] / 255.0, code[1] / 255.0, code[2] / 255.0);
    // 16-bit table: a step of L* is 0.0015, of a* and b* 0.004.
    expectNear({lab.L, lab.a, lab.b}, want, 0.005, "Lab");
  }
}

TEST(Icc, namesAndStraightness) {
  EXPECT_EQ(readProfile(displayP3Profile(), 8)->name, "Display P3, made for a test");
  EXPECT_FALSE(readProfile(displayP3Profile(), 8)->linear);
  EXPECT_TRUE(readProfile(linearSrgbProfile(), 8)->linear);
  EXPECT_TRUE(readProfile(linearSrgbProfile(), 16)->linear);
}

TEST(Icc, refusesWhatCannotBeUsed) {
  EXPECT_FALSE(readProfile({}, 8));
  EXPECT_FALSE(readProfile(brokenProfile(), 8));
  EXPECT_FALSE(readProfile(cmykProfile(), 8));
  Bytes cut = srgbProfile();
  cut.resize(cut.size() / 2);
  EXPECT_FALSE(readProfile(cut, 8));
  Bytes link = srgbProfile();
  std::copy_n("link", 4, link.begin() + 12);
  EXPECT_FALSE(readProfile(link, 8));
}

}  // namespace
}  // namespace huewright
