#include "colour/adapt.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

// CSS Color Module Level 4, section 10.2 sample code: D65 to D50 and back, "Bradford" matrices (W3C).
constexpr Mat3 kD65toD50{{{{1.0479298208405488, 0.022946793341019088, -0.05019222954313557},
                           {0.029627815688159344, 0.990434484573249, -0.01707382502938514},
                           {-0.009243058152591178, 0.015055144896577895, 0.7518742899580008}}}};
constexpr Mat3 kD50toD65{{{{0.9554734527042182, -0.023098536874261423, 0.0632593086610217},
                           {-0.028369706963208136, 1.0099954580058226, 0.021041398966943008},
                           {0.012314001688319899, -0.020507696433477912, 1.3303659366080753}}}};

double worst(const Mat3& a, const Mat3& b) {
  double w = 0;
  for (std::size_t r = 0; r < 3; ++r)
    for (std::size_t c = 0; c < 3; ++c) w = std::max(w, std::abs(a(r, c) - b(r, c)));
  return w;
}

TEST(Bradford, PublishedMatrices) {
  EXPECT_LT(worst(bradford(kWhite<D65>, kWhite<D50>), kD65toD50), 1e-7);
  EXPECT_LT(worst(bradford(kWhite<D50>, kWhite<D65>), kD50toD65), 1e-7);
}

TEST(Bradford, CarriesTheWhite) {
  const Vec3 a = kWhite<IlluminantA>;
  const Xyz<D50> there = adapt<D50>(Xyz<IlluminantA>{a[0], a[1], a[2]});
  EXPECT_LT(length(toVec(there) - kWhite<D50>), 1e-14);
}

TEST(Bradford, ThereAndBack) {
  const Lab<D65> lab{55, 20, -35};
  const Lab<D65> back = adapt<D65>(adapt<D50>(lab));
  EXPECT_LT(length(toVec(back) - toVec(lab)), 1e-10);
}

}  // namespace
}  // namespace huewright
