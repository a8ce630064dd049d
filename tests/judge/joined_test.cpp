#include "judge/joined.hpp"

#include <array>
#include <cmath>
#include <gtest/gtest.h>

#include "colour/delta_e.hpp"

namespace huewright {
namespace {

ColourReading lit(const Lab<D50>& lab, double by) {
  const Vec3 v = by * toVec(toXyz(lab));
  ColourReading r;
  r.xyz = {v[0], v[1], v[2]};
  r.lab = toLab(r.xyz);
  return r;
}

const Lab<D50> kTeal{41, -28, -14};

TEST(Joined, FactorsOnTheLightCancel) {
  ColourReading a = lit(kTeal, 1.2), b = lit(kTeal, 0.8), c = lit(kTeal, 1 / (1.2 * 0.8));
  a.pixels = 900;
  b.pixels = 500;
  c.pixels = 700;
  b.clipped = 0.1;
  c.masked = 0.2;
  const ColourReading r = joined(std::array<const ColourReading*, 3>{&a, &b, &c});
  EXPECT_LT(deltaE2000(r.lab, kTeal), 1e-9);
  EXPECT_EQ(r.pixels, 500u);
  EXPECT_EQ(r.clipped, 0.1);
  EXPECT_EQ(r.masked, 0.2);
}

TEST(Joined, ABlackChannelIsAveragedPlainly) {
  ColourReading black;
  const ColourReading teal = lit(kTeal, 1);
  const ColourReading r = joined(std::array<const ColourReading*, 2>{&black, &teal});
  EXPECT_NEAR(r.xyz.Y, 0.5 * teal.xyz.Y, 1e-12);
}

TEST(Joined, EachCautionStandsOnce) {
  Reading a, b;
  a.cautions = {{CautionCode::Glare, "the panel"}};
  b.cautions = {{CautionCode::Glare, "the panel"}, {CautionCode::Glare, "the card"}};
  addCautions(a, b);
  ASSERT_EQ(a.cautions.size(), 2u);
  EXPECT_EQ(a.cautions[1].detail, "the card");
}

}  // namespace
}  // namespace huewright
