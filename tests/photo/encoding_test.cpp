#include "photo/encoding.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "photo/expect.hpp"

namespace huewright {
namespace {

using namespace fixtures;

struct Told {
  PhotoFacts facts;
  std::array<double, 3> xyz{};
};

/// How an 8-bit code comes out.
Told tell(const ColourTag& tag, Encoding encoding, std::array<std::uint8_t, 3> code = {200, 90, 30}) {
  Told told;
  told.facts.path = "x.jpg";
  const auto path = chooseColour(tag, encoding, told.facts);
  EXPECT_TRUE(path);
  if (!path) return told;
  float xyz[3] = {};
  (*path)->convert({0, 0, 1, Sample::Code8, 3, code.data()}, 0, 1, xyz);
  told.xyz = {xyz[0], xyz[1], xyz[2]};
  return told;
}

std::array<double, 3> light(const Primaries& primaries, double (*curve)(double)) {
  const Vec3 v = rgbToXyzD50(primaries) * Vec3{curve(200 / 255.0), curve(90 / 255.0), curve(30 / 255.0)};
  return {v[0], v[1], v[2]};
}
double straight(double c) { return c; }
double adobe(double c) { return std::pow(c, 563.0 / 256.0); }

TEST(Encoding, nothingSaidIsTakenForSrgb) {
  const Told told = tell({}, Encoding::Auto);
  EXPECT_EQ(told.facts.encoding, "sRGB (assumed)");
  EXPECT_FALSE(told.facts.tagged);
  expectNear(told.xyz, light(kSrgbPrimaries, srgbToLinear), 3e-7, "sRGB");
}

TEST(Encoding, aNameIsObeyed) {
  const Told told = tell({{}, false, adobeByName()}, Encoding::Auto);
  EXPECT_EQ(told.facts.encoding, "Adobe RGB");
  EXPECT_TRUE(told.facts.tagged);
  expectNear(told.xyz, light(kAdobePrimaries, adobe), 3e-7, "Adobe RGB");
}

TEST(Encoding, aProfileGoesBeforeAName) {
  const Told told = tell({displayP3Profile(), false, adobeByName()}, Encoding::Auto);
  EXPECT_EQ(told.facts.encoding, "Display P3, made for a test");
  EXPECT_TRUE(told.facts.tagged);
  expectNear(told.xyz, light(kP3D65Primaries, srgbToLinear), 4e-5, "P3");
}

TEST(Encoding, linearAsToldKeepsPrimariesThatAreKnown) {
  const Told plain = tell({}, Encoding::Linear);
  EXPECT_EQ(plain.facts.encoding, "linear (as told)");
  EXPECT_TRUE(plain.facts.linear);
  EXPECT_FALSE(plain.facts.tagged);
  expectNear(plain.xyz, light(kSrgbPrimaries, straight), 3e-7, "plain");

  const Told p3 = tell({displayP3Profile(), false, {}}, Encoding::Linear);
  EXPECT_TRUE(p3.facts.linear);
  EXPECT_EQ(p3.facts.encoding, "linear (as told), primaries of Display P3, made for a test");
  expectNear(p3.xyz, light(kP3D65Primaries, straight), 4e-5, "P3");

  expectNear(tell({{}, false, adobeByName()}, Encoding::Linear).xyz, light(kAdobePrimaries, straight), 3e-7, "Adobe RGB");
  expectNear(tell({tableProfile(), false, {}}, Encoding::Linear).xyz, light(kSrgbPrimaries, straight), 3e-7, "tables have no primaries");
}

TEST(Encoding, srgbAsToldOverridesTheFile) {
  const Told told = tell({displayP3Profile(), false, {}}, Encoding::Srgb);
  EXPECT_EQ(told.facts.encoding, "sRGB (as told)");
  EXPECT_FALSE(told.facts.tagged);
  expectNear(told.xyz, light(kSrgbPrimaries, srgbToLinear), 3e-7, "sRGB");
}

TEST(Encoding, aBrokenProfileMattersOnlyWhenItIsAsked) {
  for (const ColourTag& tag : {ColourTag{brokenProfile(), false, {}}, ColourTag{{}, true, {}}, ColourTag{cmykProfile(), false, {}}}) {
    PhotoFacts facts;
    facts.path = "x.jpg";
    const auto path = chooseColour(tag, Encoding::Auto, facts);
    ASSERT_FALSE(path);
    EXPECT_EQ(path.error().code, Code::ProfileUnusable);
    EXPECT_EQ(path.error().detail, "x.jpg");
    tell(tag, Encoding::Linear);
    tell(tag, Encoding::Srgb);
  }
}

TEST(Encoding, linearProfilesAreSeenAsLinear) { EXPECT_TRUE(tell({linearSrgbProfile(), false, {}}, Encoding::Auto).facts.linear); }

TEST(Encoding, codePoints) {
  struct Row {
    int primaries, transfer;
    const char* name;
    double power;
  };
  // ITU-T H.273 (07/2021), tables 2 and 3
  const Row rows[] = {{1, 13, "sRGB", 0},   {1, 1, "sRGB", 0},    {2, 13, "sRGB", 0},          {1, 2, "sRGB", 0},
                      {12, 13, "Display P3", 0}, {9, 14, "BT.2020", 0}, {12, 8, "Display P3, linear", 1}, {1, 4, "sRGB, power curve", 2.2}};
  for (const Row& row : rows) {
    const auto named = namedByCodePoints(row.primaries, row.transfer, "x");
    ASSERT_TRUE(named && *named) << row.primaries << "/" << row.transfer;
    EXPECT_EQ((*named)->name, row.name);
    EXPECT_EQ((*named)->power, row.power);
  }
  const auto unspecified = namedByCodePoints(2, 2, "x");
  ASSERT_TRUE(unspecified);
  EXPECT_FALSE(*unspecified);
  for (const auto& [primaries, transfer] : {std::pair{9, 16}, {9, 18}, {1, 16}, {22, 13}, {1, 11}}) {
    const auto named = namedByCodePoints(primaries, transfer, "x");
    ASSERT_FALSE(named);
    EXPECT_EQ(named.error().code, Code::PhotoUnsupported);
  }
}

}  // namespace
}  // namespace huewright
