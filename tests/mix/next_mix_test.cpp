#include "mix/next_mix.hpp"

#include <gtest/gtest.h>

#include "mix/mix_support.hpp"

namespace huewright {
namespace {

using namespace mixing;

struct NextScene {
  std::vector<PanelReading> panels;
  Lab<D50> ground, target;
};

/// Two by two panels of teal over silver by the renderer, and a card of that paint.
NextScene twoByTwoScene(double card_share, double card_coats, double sigma, std::uint64_t seed) {
  render::Random random(seed);
  NextScene scene;
  render::Paint paint;
  for (const double share : {0.25, 0.5})
    for (const double coats : {3.0, 5.0}) {
      paint.share = share;
      paint.coats = coats;
      scene.panels.push_back(rendered(paint, 1, sigma, random));
    }
  scene.ground = labOfSharpened(scene.panels[0].ground);
  paint.share = card_share;
  paint.coats = card_coats;
  scene.target = render::labOf(paint);
  return scene;
}

NextMix nextOf(const NextScene& scene, double sigma, const MixLimits& limits, double last_share) {
  auto fit = fitTints(scene.panels, loosePriors(), {.sigma = sigma, .film_sd = 0.02});
  EXPECT_TRUE(fit);
  const Predictor predictor(std::move(*fit), scene.panels);
  return nextMix(Aim(predictor, scene.target, scene.ground, tintPart(5)), limits, LastPanel{last_share, scene.panels.back().coats});
}

TEST(NextMixTest, FindsTheCardsOwnMix) {
  for (const auto& [parts, coats] : {std::pair{std::vector{1, 2}, 4.0}, {std::vector{2, 3}, 3.0}, {std::vector{1, 4}, 5.0}}) {
    const NextMix next = nextOf(twoByTwoScene(parts[0] / double(parts[0] + parts[1]), coats, 0.1, 7), 0.1, {}, 0.5);
    EXPECT_EQ(next.choice.parts, parts);
    EXPECT_EQ(next.choice.coats, coats);
    EXPECT_LT(next.choice.de00, 0.4);
    EXPECT_EQ(next.choice.low, 0);
    EXPECT_EQ(next.direction, ShareWay::Decrease);
    EXPECT_GT(next.trust, 2);
  }
}

// A small closed loop on the renderer, all pairs and grounds; tests/figures.sh mix has the large one (97 % and 96 % with film spread).
TEST(NextMixTest, NextPanelOfATwoByTwoDesignMatches) {
  render::Random random(2024);
  int under = 0, right = 0, all = 0;
  for (int trial = 0; trial < 48; ++trial, ++all) {
    render::Paint paint;
    paint.pair = render::kPairs[trial % 3];
    paint.ground = render::kGrounds[trial / 3 % 4];
    NextScene scene;
    for (const double share : {0.25, 0.5})
      for (const double coats : {3.0, 5.0}) {
        paint.share = share;
        paint.coats = coats;
        scene.panels.push_back(rendered(paint, 1 + 0.02 * random.normal(), 0.3, random));
      }
    scene.ground = labOfSharpened(scene.panels[0].ground);
    paint.share = random.uniform(0.2, 0.6);
    paint.coats = 3 + trial % 3;
    scene.target = render::labOf(paint);
    const NextMix next = nextOf(scene, 0.3, {.max_total_parts = 24}, 0.5);
    right += next.choice.coats == paint.coats;
    paint.share = next.choice.share();
    paint.coats = next.choice.coats;
    under += deltaE2000(render::labOf(paint), scene.target) < 1;
  }
  EXPECT_GE(under, 0.93 * all);
  EXPECT_GE(right, 0.85 * all);
}

TEST(NextMixTest, DirectionFollowsTheLastPanel) {
  const NextScene scene = twoByTwoScene(1 / 3.0, 4, 0.2, 3);
  EXPECT_EQ(nextOf(scene, 0.2, {}, 0.2).direction, ShareWay::Increase);
  EXPECT_EQ(nextOf(scene, 0.2, {}, 1 / 3.0).direction, ShareWay::Keep);
  EXPECT_EQ(nextOf(scene, 0.2, {}, 0.6).direction, ShareWay::Decrease);
}

TEST(NextMixTest, OnePanelOfUnknownTintsGivesNoFalseDirection) {
  NextScene scene = twoByTwoScene(0.4, 4, 0.3, 5);
  // The card looks like the panel but for half a unit: less than what is known.
  scene.panels.resize(1);
  scene.target = scene.panels[0].lab;
  scene.target.L += 0.3;
  const NextMix next = nextOf(scene, 0.5, {}, 0.25);
  EXPECT_TRUE(next.direction == ShareWay::Unknown || next.direction == ShareWay::Keep);
}

TEST(NextMixTest, KeepsToTheLimits) {
  MixLimits limits;
  limits.max_total_parts = 4;
  limits.coats_low = 5;
  limits.coats_high = 5;
  const NextMix next = nextOf(twoByTwoScene(0.3, 4, 0.1, 7), 0.1, limits, 0.5);
  EXPECT_LE(next.choice.parts[0] + next.choice.parts[1], 4);
  EXPECT_EQ(next.choice.coats, 5);
  limits.lines_only = true;
  limits.max_total_parts = 8;
  const NextMix line = nextOf(twoByTwoScene(0.4, 4, 0.1, 7), 0.1, limits, 0.5);
  EXPECT_TRUE(line.choice.parts[0] == 1 || line.choice.parts[1] == 1);
  EXPECT_EQ(coatsWithin({.coats_low = 1.5, .coats_high = 3.9}), (std::vector<double>{2, 3}));
}

// Tints of one hue, the strong one twice the weak: share and coats trade exactly. 1:1 at 4 coats is pure strong at 3: (0.5 · 2 + 0.5) · 4 = 2 · 3.
Predictor oneHue(std::vector<PanelReading>& panels) {
  const std::vector<Tint> tints{{{3, 2, 1.6}, {0.05, 0.05, 0.05}}, {{1.5, 1, 0.8}, {0.05, 0.05, 0.05}}};
  for (const double share : {0.0, 0.5, 1.0})
    for (const double coats : {1.0, 2.0, 3.0, 4.0, 6.0}) {
      PanelReading panel{{share, 1 - share}, 1 / 7.0, coats, sharpened(Lab<D50>{79, 0, 2}), {}};
      panel.lab = filmLab(tints, {panel.shares, panel.tint_part, coats}, panel.ground);
      panels.push_back(panel);
    }
  auto fit = fitTints(panels, loosePriors(), {.sigma = 0.05, .film_sd = 0.01});
  EXPECT_TRUE(fit);
  return Predictor(std::move(*fit), panels);
}

TEST(NextMixTest, OfTwoThatAreAlikeTheStrongerUnlessItsCoatsAreTooFew) {
  std::vector<PanelReading> panels;
  const Predictor predictor = oneHue(panels);
  const Lab<D50> ground{79, 0, 2};
  const std::vector<double> half{0.5, 0.5};
  const Aim aim(predictor, predictor.labAt({half, 1 / 7.0, 4}, sharpened(ground)), ground, 1 / 7.0);
  const NextMix stronger = nextMix(aim, {}, {});
  EXPECT_EQ(stronger.choice.parts, (std::vector{1, 0}));
  EXPECT_EQ(stronger.choice.coats, 3);
  ASSERT_TRUE(stronger.twin);
  EXPECT_FALSE(stronger.kept_weaker);
  EXPECT_TRUE(stronger.shares_and_coats_trade);
  MixLimits patient;
  patient.even_coats = 4;
  const NextMix weaker = nextMix(aim, patient, {});
  EXPECT_GE(weaker.choice.coats, 4);
  EXPECT_TRUE(weaker.kept_weaker);
  ASSERT_TRUE(weaker.twin);
  EXPECT_LT(weaker.twin->coats, 4);
}

}  // namespace
}  // namespace huewright
