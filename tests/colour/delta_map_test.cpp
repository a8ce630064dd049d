#include "colour/delta_map.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <gtest/gtest.h>
#include <random>
#include <vector>

#include "colour/delta_e.hpp"

namespace huewright {
namespace {

/// The map of one colour, and what deltaE2000 says of the same single-precision XYZ.
struct Both {
  double fast = 0, plain = 0;
  Lab<D50> pixel;
};
std::vector<Both> both(const std::vector<Lab<D50>>& pixels, const Lab<D50>& colour) {
  std::vector<float> xyz, de00(pixels.size());
  for (const Lab<D50>& lab : pixels)
    for (const double v : toVec(toXyz(lab))) xyz.push_back(static_cast<float>(v));
  deltaMap(xyz, Mat3::identity(), colour, de00);
  std::vector<Both> out(pixels.size());
  for (std::size_t i = 0; i < pixels.size(); ++i) {
    const auto at = [&](std::size_t k) { return static_cast<double>(xyz[3 * i + k]); };
    out[i].pixel = toLab(Xyz<D50>{at(0), at(1), at(2)});
    out[i].fast = static_cast<double>(de00[i]);
    out[i].plain = deltaE2000(out[i].pixel, colour);
  }
  return out;
}

double allowed(double de00) { return 0.002 + 1e-4 * de00; }

/// Degrees by which the two hues fall short of being opposed.
double shortOfOpposed(const Lab<D50>& a, const Lab<D50>& b) {
  return std::abs(180 - std::abs(hueDegrees(toVec(a)) - hueDegrees(toVec(b))));
}

TEST(DeltaMap, AgreesWithThePlainPathAllOverTheGamut) {
  std::mt19937 rng(2000);
  std::uniform_real_distribution<double> lightness(0, 100), chromatic(-100, 100);
  double worst = 0, furthest = 0;
  for (int round = 0; round < 400; ++round) {
    const Lab<D50> colour{lightness(rng), chromatic(rng), chromatic(rng)};
    std::normal_distribution<double> step(0, round % 2 ? 3 : 30);
    std::vector<Lab<D50>> pixels(1000);
    for (auto& p : pixels) p = {std::clamp(colour.L + step(rng), 0.0, 110.0), colour.a + step(rng), colour.b + step(rng)};
    for (const Both& b : both(pixels, colour)) {
      if (shortOfOpposed(b.pixel, colour) < 1e-4) continue;
      worst = std::max(worst, std::abs(b.fast - b.plain) / allowed(b.plain));
      furthest = std::max(furthest, b.plain);
      ASSERT_NEAR(b.fast, b.plain, allowed(b.plain)) << b.pixel.L << " " << b.pixel.a << " " << b.pixel.b << " from " << colour.L << " " << colour.a
                                                     << " " << colour.b;
    }
  }
  EXPECT_GT(furthest, 40);  // far colours were among them
  RecordProperty("worst_share_of_allowed", std::to_string(worst));
}

TEST(DeltaMap, NearTheColourItselfItIsFinerStill) {
  std::mt19937 rng(7);
  std::uniform_real_distribution<double> lightness(15, 95), chromatic(-60, 60);
  std::normal_distribution<double> step(0, 0.3);
  for (int round = 0; round < 200; ++round) {
    const Lab<D50> colour{lightness(rng), chromatic(rng), chromatic(rng)};
    std::vector<Lab<D50>> pixels(100);
    for (auto& p : pixels) p = {colour.L + step(rng), colour.a + step(rng), colour.b + step(rng)};
    for (const Both& b : both(pixels, colour)) ASSERT_NEAR(b.fast, b.plain, 3e-4);
  }
}

TEST(DeltaMap, NearNeutral) {
  std::mt19937 rng(11);
  std::normal_distribution<double> small(0, 0.5);
  for (const Lab<D50>& colour : {Lab<D50>{50, 0, 0}, Lab<D50>{50, 0.3, -0.2}, Lab<D50>{30, 5, -40}, Lab<D50>{60, 40, 10}, Lab<D50>{1, 0, 0}}) {
    std::vector<Lab<D50>> pixels(2000);
    for (auto& p : pixels) p = {std::max(0.0, colour.L + 2 * small(rng)), small(rng), small(rng)};
    for (const Both& b : both(pixels, colour)) {
      if (shortOfOpposed(b.pixel, colour) < 1e-3 || chroma(toVec(b.pixel)) < 0.001) continue;
      ASSERT_NEAR(b.fast, b.plain, allowed(b.plain)) << b.pixel.a << " " << b.pixel.b << " from " << colour.a << " " << colour.b;
    }
  }
}

TEST(DeltaMap, ANeutralPixelIsWithinWhatTheHeaderSays) {
  for (const double h : {0.0, 90.0, 200.0, 260.0, 275.0, 290.0})
    for (const double c : {1e-6, 1e-4, 9e-4})
      for (int turn = 0; turn < 360; turn += 7) {
        const double way = turn * 0.017453292519943295, hue = h * 0.017453292519943295;
        const Lab<D50> colour{40, 70 * std::cos(hue), 70 * std::sin(hue)};
        const auto b = both({{40, c * std::cos(way), c * std::sin(way)}}, colour).front();
        ASSERT_NEAR(b.fast, b.plain, 0.05) << h << " " << c << " " << turn;
      }
}

// Sharma, Wu, Dalal (2005), table 1: the pairs round the hue tie, near neutral, far apart, and of real samples.
TEST(DeltaMap, PublishedPairs) {
  struct Row {
    Lab<D50> one, two;
    double de00, or_else;
  };
  for (const Row& r : {Row{{50.0, 2.6772, -79.7751}, {50.0, 0.0, -82.7485}, 2.0425, 2.0425},
                       Row{{50.0, 3.1571, -77.2803}, {50.0, 0.0, -82.7485}, 2.8615, 2.8615},
                       Row{{50.0, -0.9009, -85.5211}, {50.0, 0.0, -82.7485}, 1.0, 1.0},
                       Row{{50.0, 0.0, 0.0}, {50.0, -1.0, 2.0}, 2.3669, 2.3669},
                       Row{{50.0, 2.49, -0.001}, {50.0, -2.49, 0.0009}, 7.1792, 7.1792},
                       Row{{50.0, 2.49, -0.001}, {50.0, -2.49, 0.001}, 7.1792, 7.2195},  // the tie itself
                       Row{{50.0, 2.49, -0.001}, {50.0, -2.49, 0.0012}, 7.2195, 7.2195},
                       Row{{50.0, -0.001, 2.49}, {50.0, 0.0009, -2.49}, 4.8045, 4.8045},
                       Row{{50.0, -0.001, 2.49}, {50.0, 0.0011, -2.49}, 4.7461, 4.7461},
                       Row{{50.0, 2.5, 0.0}, {73.0, 25.0, -18.0}, 27.1492, 27.1492},
                       Row{{50.0, 2.5, 0.0}, {56.0, -27.0, -3.0}, 31.903, 31.903},
                       Row{{22.7233, 20.0904, -46.694}, {23.0331, 14.973, -42.5619}, 2.0373, 2.0373},
                       Row{{90.8027, -2.0831, 1.441}, {91.1528, -1.6435, 0.0447}, 1.4441, 1.4441},
                       Row{{6.7747, -0.2908, -2.4247}, {5.8714, -0.0985, -2.2286}, 0.6377, 0.6377},
                       Row{{2.0776, 0.0795, -1.135}, {0.9033, -0.0636, -0.5514}, 0.9082, 0.9082}}) {
    for (const auto& [pixel, colour] : {std::pair{r.one, r.two}, std::pair{r.two, r.one}}) {
      const double fast = both({pixel}, colour).front().fast;
      EXPECT_LT(std::min(std::abs(fast - r.de00), std::abs(fast - r.or_else)), allowed(r.de00) + 5e-5) << r.one.a << " " << r.two.a << ": " << fast;
    }
  }
}

TEST(DeltaMap, OpposedHuesGiveOneOfTheTwoValuesThatMeet) {
  for (int turn = 0; turn < 360; turn += 3) {
    const double way = turn * 0.017453292519943295;
    const Lab<D50> colour{50, 20 * std::cos(way), 20 * std::sin(way)}, pixel{52, -12 * std::cos(way), -12 * std::sin(way)};
    const auto turned = [&](double by) { return Lab<D50>{52, -12 * std::cos(way + by), -12 * std::sin(way + by)}; };
    const double low = deltaE2000(turned(-1e-5), colour), high = deltaE2000(turned(1e-5), colour);
    const double fast = both({pixel}, colour).front().fast;
    EXPECT_LT(std::min(std::abs(fast - low), std::abs(fast - high)), allowed(high) + 0.001) << turn;
  }
}

TEST(DeltaMap, CorrectionComesFirst) {
  const Mat3 correction{{{{1.2, 0.02, 0}, {0.01, 1.1, -0.02}, {0, 0.03, 0.9}}}};
  const Lab<D50> colour{45, -25, -12};
  const std::array<float, 3> xyz{0.11f, 0.16f, 0.21f};
  std::array<float, 1> de00{};
  deltaMap(xyz, correction, colour, de00);
  const Vec3 v = correction * Vec3{double{xyz[0]}, double{xyz[1]}, double{xyz[2]}};
  EXPECT_NEAR(static_cast<double>(de00[0]), deltaE2000(toLab(Xyz<D50>{v[0], v[1], v[2]}), colour), 0.001);
}

TEST(DeltaMap, DarkAndNegativePixels) {
  for (const float y : {-0.03f, 0.0f, 1e-6f, 0.0085f, 0.0089f}) {
    const std::array<float, 3> xyz{y, 0.9f * y, 0.7f * y};
    std::array<float, 1> de00{};
    deltaMap(xyz, Mat3::identity(), {3, 1, -2}, de00);
    const double plain = deltaE2000(toLab(Xyz<D50>{double{xyz[0]}, double{xyz[1]}, double{xyz[2]}}), {3, 1, -2});
    EXPECT_NEAR(static_cast<double>(de00[0]), plain, allowed(plain)) << y;
  }
}

TEST(DeltaMap, AnyNumberOfPixelsAndNoneBeyond) {
  const Lab<D50> colour{50, 10, 10};
  for (const std::size_t n : {std::size_t{0}, std::size_t{1}, std::size_t{7}, std::size_t{255}, std::size_t{256}, std::size_t{257}, std::size_t{700}}) {
    std::vector<float> xyz(3 * n), de00(n + 1, -1.0f);
    for (std::size_t i = 0; i < xyz.size(); ++i) xyz[i] = 0.1f + 0.0003f * static_cast<float>(i % 997);
    deltaMap(xyz, Mat3::identity(), colour, std::span(de00).first(n));
    for (std::size_t i = 0; i < n; ++i) {
      const Xyz<D50> at{double{xyz[3 * i]}, double{xyz[3 * i + 1]}, double{xyz[3 * i + 2]}};
      ASSERT_NEAR(static_cast<double>(de00[i]), deltaE2000(toLab(at), colour), 0.01) << i << " of " << n;
    }
    EXPECT_EQ(de00[n], -1.0f);
  }
}

}  // namespace
}  // namespace huewright
