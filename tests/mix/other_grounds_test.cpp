#include "mix/other_grounds.hpp"

#include <gtest/gtest.h>

#include "colour/delta_e.hpp"
#include "mix/mix_scene.hpp"

namespace huewright {
namespace {

using namespace mixing;

const std::vector<NamedGround> kFourGrounds{{"bright silver", kMadeGround}, {"pearl white", {90, 0, 3}}, {"pale gold", {72, 4, 22}}, {"graphite", {38, 0, -1}}};

TEST(OtherGrounds, LooksAreThoseOfTheTintsOverEachGround) {
  const auto looks = overGrounds(knowingPredictor(), 0.3, 1 / 7.0, 3, kFourGrounds);
  ASSERT_EQ(looks.size(), 4U);
  EXPECT_TRUE(looks[0].words.empty());
  for (const GroundLook& look : looks) {
    EXPECT_LT(deltaE2000(look.lab, madeColour(0.3, 3, look.ground)), 0.25) << look.name;
    EXPECT_GT(look.sd, 0);
  }
  EXPECT_EQ(looks[1].words.substr(0, 7), "lighter");
  EXPECT_NE(looks[2].words.find("browner"), std::string::npos) << looks[2].words;
  EXPECT_EQ(looks[3].words.substr(0, 6), "deeper");
}

TEST(OtherGrounds, SameGroundIsMuchTheSame) {
  const auto looks = overGrounds(knowingPredictor(), 0.3, 1 / 7.0, 3, {kFourGrounds[0], {"silver again", {79.1, 0, 2}}});
  EXPECT_EQ(looks[1].words, "much the same");
}

// The renderer's orange at one coat over silver and gold: the truth is in its spectra, and the fitted model must say what they say.
TEST(OtherGrounds, LeanAtFewCoatsIsComputedNotAssumed) {
  render::Random random(3);
  for (const render::Pair pair : render::kPairs)
    for (const render::Ground ground : {render::Ground::BrightSilver, render::Ground::PaleGold}) {
      render::Paint paint;
      paint.pair = pair;
      paint.ground = ground;
      std::vector<PanelReading> panels;
      for (const double share : {0.0, 0.2, 0.4})
        for (const double coats : {1.0, 2.0, 4.0, 5.0}) {
          paint.share = share;
          paint.coats = coats;
          panels.push_back(rendered(paint, 1, 0, random));
        }
      auto fit = fitTints(panels, loosePriors(), {.sigma = 0.1, .film_sd = 0.01});
      ASSERT_TRUE(fit);
      const NamedGround bare{"ground", labOfSharpened(panels[0].ground)};
      const Predictor predictor(std::move(*fit), panels);
      const auto looks = overGrounds(predictor, 0.2, tintPart(5), 5, {bare});
      paint.share = 0.2;
      double largest = 0;
      paint.coats = 5;
      const double finished = hueDegrees(toVec(render::labOf(paint)));
      for (const double few : {1.0, 2.0}) {
        paint.coats = few;
        if (chroma(toVec(render::labOf(paint))) >= 4) largest = std::max(largest, std::abs(std::remainder(hueDegrees(toVec(render::labOf(paint))) - finished, 360)));
      }
      // Within 4 degrees of the threshold either answer is right.
      if (largest > kLeanDegrees + 4) {
        EXPECT_FALSE(looks[0].lean.empty()) << render::nameOf(ground) << largest;
      }
      if (largest < kLeanDegrees - 4) {
        EXPECT_TRUE(looks[0].lean.empty()) << render::nameOf(ground) << largest << looks[0].lean;
      }
    }
}

TEST(OtherGrounds, AThinYellowThatLeansIsCaught) {
  // A made tint that takes out blue first and green late, over a bluish silver: few coats look green, many yellow.
  const std::vector<Tint> tints{{{0.2, 0.5, 6}, {0, 0, 0}}, {{0.1, 0.3, 3}, {0, 0, 0}}};
  const NamedGround bluish{"bluish silver", {76, -6, -16}};
  std::vector<PanelReading> panels;
  for (const double share : {0.0, 0.5, 1.0})
    for (const double coats : {1.0, 2.0, 4.0, 6.0}) {
      PanelReading panel{{share, 1 - share}, 1 / 7.0, coats, sharpened(bluish.lab), {}, 0};
      panel.lab = filmLab(tints, {panel.shares, panel.tint_part, coats}, panel.ground);
      panels.push_back(panel);
    }
  auto fit = fitTints(panels, loosePriors(), {.sigma = 0.1, .film_sd = 0.01});
  ASSERT_TRUE(fit);
  const auto looks = overGrounds(Predictor(std::move(*fit), panels), 0.3, 1 / 7.0, 6, {bluish});
  EXPECT_NE(looks[0].lean.find("greener"), std::string::npos) << looks[0].lean;
}

}  // namespace
}  // namespace huewright
