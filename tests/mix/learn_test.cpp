#include "mix/learn.hpp"

#include <gtest/gtest.h>

#include "mix/mix_scene.hpp"

namespace huewright {
namespace {

using namespace mixing;

Predictor predictorAfter(std::vector<PanelReading> panels) {
  auto fit = fitTints(panels, loosePriors(), {.sigma = 0.3});
  EXPECT_TRUE(fit);
  return Predictor(std::move(*fit), std::move(panels));
}

TEST(Learn, APlanShrinksWhatIsNotKnown) {
  render::Random random(6);
  const Predictor predictor = predictorAfter({made(0.25, 4, 1, 0.3, random)});
  const Aim aim(predictor, madeColour(0.4, 3), kMadeGround, 1 / 7.0);
  const LearnPlan plan = whatTeachesMost(aim, {}, 0.35, 3);
  ASSERT_FALSE(plan.panels.empty());
  EXPECT_LT(plan.sd_after, plan.sd_before);
  EXPECT_TRUE(plan.sentence.starts_with("What would teach the most: "));
  // That the plan does what it says: its panels, sprayed and read, bring the spread near the stated one.
  std::vector<PanelReading> panels = predictor.panels();
  for (const PlannedPanel& panel : plan.panels)
    for (const double coats : panel.coats) panels.push_back(made(panel.parts[0] / double(panel.parts[0] + panel.parts[1]), coats, 1, 0.3, random));
  const Predictor after = predictorAfter(panels);
  const Prediction p = Aim(after, aim.target(), kMadeGround, 1 / 7.0).predict({0.35, 0.65}, 3);
  const Mat3 metric = deltaVector(p.lab, p.lab).by_panel;
  EXPECT_LT(std::sqrt(trace(metric * p.covariance * transpose(metric))), 2.5 * plan.sd_after + 0.3);
}

// The value of a stepped panel is that of one piece: what it promises is what a fit of its strips, told to be one piece, then knows; taken for panels of their own they would seem to teach more.
TEST(Learn, ASteppedPanelIsWorthOnePiece) {
  render::Random random(6);
  auto fit = fitTints({}, loosePriors(), {.sigma = 0.1, .film_sd = 0.03});
  ASSERT_TRUE(fit);
  const Predictor nothing(*fit, {});
  const Aim aim(nothing, madeColour(0.4, 3), kMadeGround, 1 / 7.0);
  const LearnPlan plan = whatTeachesMost(aim, {.coats_low = 3, .coats_high = 3}, 0.4, 3);
  ASSERT_EQ(plan.panels.size(), 1U);
  ASSERT_GT(plan.panels[0].coats.size(), 1U);
  const auto spreadAfter = [&](int piece) {
    std::vector<PanelReading> strips;
    for (const double coats : plan.panels[0].coats) {
      strips.push_back(made(plan.panels[0].parts[0] / double(plan.panels[0].parts[0] + plan.panels[0].parts[1]), coats, 1, 0, random));
      strips.back().piece = piece;
    }
    const auto after = fitTints(strips, loosePriors(), {.sigma = 0.1, .film_sd = 0.03});
    EXPECT_TRUE(after);
    Prediction p = Aim(Predictor(*after, {}), aim.target(), kMadeGround, 1 / 7.0).predict({0.4, 0.6}, 3);
    const Mat3 metric = deltaVector(p.lab, p.lab).by_panel;
    return std::sqrt(trace(metric * p.covariance * transpose(metric)) - kMisfit * kMisfit);
  };
  const double as_piece = spreadAfter(0), as_panels = spreadAfter(kNoPiece);
  EXPECT_NEAR(plan.sd_after / as_piece, 1, 0.3) << plan.sd_after;
  EXPECT_LT(as_panels, 0.8 * as_piece);
}

TEST(Learn, FewPanelsAreEnoughWhenMuchIsKnown) {
  const LearnPlan plan = whatTeachesMost(knowingAim(madeColour(0.4, 3)), {}, 0.4, 3);
  EXPECT_LT(plan.sd_before, kKnownWell);
  EXPECT_EQ(plan.panels.size(), 1U);
}

TEST(Learn, KeepsToTheLimitsOfParts) {
  render::Random random(6);
  const Predictor predictor = predictorAfter({});
  const Aim aim(predictor, madeColour(0.4, 3), kMadeGround, 1 / 7.0);
  for (const PlannedPanel& panel : whatTeachesMost(aim, {.max_total_parts = 3}, 0.35, 3).panels) {
    EXPECT_LE(panel.parts[0] + panel.parts[1], 3);
    EXPECT_GT(panel.parts[0], 0);
    EXPECT_GT(panel.parts[1], 0);
  }
}

TEST(Learn, PlansInWords) {
  EXPECT_EQ(planWords({{{1, 3}, {1, 2, 3, 4}}}), "a stepped panel of 1:3 with 1, 2, 3 and 4 coats side by side");
  EXPECT_EQ(planWords({{{1, 4}, {4}}, {{1, 2}, {4}}}), "1:4 and 1:2, both at 4 coats");
  EXPECT_EQ(planWords({{{1, 4}, {3}}, {{1, 4}, {5}}, {{1, 2}, {3}}, {{1, 2}, {5}}}), "1:4 and 1:2, each at 3 and 5 coats");
}

}  // namespace
}  // namespace huewright
