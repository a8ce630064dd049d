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
