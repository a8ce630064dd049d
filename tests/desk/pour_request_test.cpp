#include "desk/pour_request.hpp"

#include <gtest/gtest.h>
#include <set>

#include "teal_job.hpp"

namespace huewright::desk {
namespace {

TEST(PourRequest, TheNextMixIsPouredUntilOneIsAccepted) {
  SittingState state = tealJob();
  auto request = pourRequestOf({}, state);
  ASSERT_TRUE(request);
  EXPECT_FALSE(poursAccepted(state));
  EXPECT_EQ(request->recipe.tints[0].name, "teal, strong");
  EXPECT_EQ(request->recipe.tints[0].parts, 2);
  EXPECT_EQ(request->recipe.tints[1].parts, 3);
  EXPECT_EQ(request->recipe.carrier, 5);
  EXPECT_EQ(request->need.coats, 4.0);
  state.plan.series->accepted = tealPanel(1, 2, 3, {});
  state.plan.series->accepted->carrier_per_tint = 6;
  request = pourRequestOf({}, state);
  ASSERT_TRUE(request);
  EXPECT_TRUE(poursAccepted(state));
  EXPECT_EQ(request->recipe.tints[1].parts, 2);
  EXPECT_EQ(request->recipe.carrier, 6);
  EXPECT_EQ(request->need.coats, 3.0);
}

TEST(PourRequest, WithoutAMixThereIsNone) {
  EXPECT_FALSE(pourRequestOf({}, {}));
  SittingState state = tealJob();
  state.series.advice = nullptr;
  EXPECT_FALSE(pourRequestOf({}, state));
}

TEST(PourRequest, ItIsOneThatCanBePoured) {
  const auto report = pour(*pourRequestOf({}, tealJob()));
  ASSERT_TRUE(report);
  // 0.5 m² · 4 coats · 25 µm ÷ (1 − 0.5) + 15 mL, worked by hand.
  EXPECT_NEAR(report->total_ml, 115, 1e-9);
}

TEST(PourRequest, AScaleCountsOnlyWithAllDensities) {
  PourViewState cup;
  cup.scale_g = 0.01;
  cup.strong_density = 1.05;
  EXPECT_FALSE(pourRequestOf(cup, tealJob())->gauge);
  cup.weak_density = 1.01;
  cup.carrier_density = 0.88;
  const auto request = pourRequestOf(cup, tealJob());
  ASSERT_TRUE(request->gauge);
  EXPECT_EQ(request->gauge->step, 0.01);
  EXPECT_EQ(request->gauge->by, PourBy::Scale);
  EXPECT_TRUE(pour(*request)->total_g);
}

TEST(PourRequest, EveryFieldIsSeenInItsTrace) {
  std::set<std::string> traces;
  const auto add = [&](const PourViewState& cup) { traces.insert(pourTrace(*pourRequestOf(cup, tealJob()))); };
  PourViewState cup;
  add(cup);
  add(cup);
  EXPECT_EQ(traces.size(), 1U);
  cup.area_m2 = 0.6, add(cup);
  cup.airbrush = true, add(cup);
  cup.loss = 0.3, add(cup);
  cup.film_um = 20, add(cup);
  cup.rest_ml = 5, add(cup);
  cup.cup_ml = 100, add(cup);
  cup.strong_density = 1.05, add(cup);
  cup.weak_density = 1.01, add(cup);
  cup.carrier_density = 0.88, add(cup);
  cup.scale_g = 0.01, add(cup);
  EXPECT_EQ(traces.size(), 11U);
}

}  // namespace
}  // namespace huewright::desk
