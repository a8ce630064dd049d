#include "mix/stages.hpp"

#include <gtest/gtest.h>

#include "colour/delta_e.hpp"
#include "mix/series_scene.hpp"

namespace huewright {
namespace {

using namespace mixing;

/// What a film without clear looks like; invented, see clear_shift_test.cpp.
Lab<D50> withoutClear(const Lab<D50>& cleared) {
  Vec3 dry = sharpened(cleared);
  for (double& v : dry) v = 0.04 + v * (1.15 - 0.2 * v);
  return labOfSharpened(dry);
}

TEST(Stages, OneStageIsLeftAlone) {
  Series series = paintedSeries(kTwoByTwo, 0.3, 4, 0.2, 0, 1);
  for (SeriesPanel& panel : series.panels) panel.stage = "cured";
  series.panels[1].stage.clear();
  const StagedSeries staged = oneStage(series);
  EXPECT_EQ(staged.series.panels.size(), 4U);
  EXPECT_TRUE(staged.cautions.empty());
}

TEST(Stages, PanelsWithoutClearAreLeftOutAndNamed) {
  Series series = paintedSeries(kTwoByTwo, 0.3, 4, 0.2, 0, 1);
  series.panels[1].stage = "flashed";
  series.panels[2].stage = "wet";
  const StagedSeries staged = oneStage(series);
  EXPECT_EQ(staged.from, (std::vector<std::size_t>{0, 3}));
  ASSERT_EQ(staged.cautions.size(), 1U);
  EXPECT_EQ(staged.cautions[0].code, CautionCode::StagesMixed);
  EXPECT_NE(sentence(staged.cautions[0]).find("Panel 2 (1:3, 5 coats) and panel 3 (1:1, 3 coats) have no clear yet"), std::string::npos) << sentence(staged.cautions[0]);
}

TEST(Stages, HalfClearedPanelsTellWhatTheClearWillDo) {
  Series series = paintedSeries(kTwoByTwo, 0.3, 4, 0.2, 0, 1);
  const Lab<D50> truth = series.panels[2].lab;
  series.panels[0].uncleared = withoutClear(series.panels[0].lab);
  series.panels[1].uncleared = withoutClear(series.panels[1].lab);
  series.panels[2].stage = "flashed";
  series.panels[2].lab = withoutClear(truth);
  EXPECT_GT(deltaE2000(series.panels[2].lab, truth), 3);
  const StagedSeries staged = oneStage(series);
  ASSERT_EQ(staged.series.panels.size(), 4U);
  ASSERT_EQ(staged.forecasts.size(), 1U);
  EXPECT_EQ(staged.forecasts[0].panel, 2U);
  EXPECT_LT(deltaE2000(staged.forecasts[0].lab, truth), 1);
  EXPECT_GT(staged.forecasts[0].sd, series.sigma);
  EXPECT_GT(staged.extra[2], 0);
  EXPECT_EQ(staged.extra[0], 0);
  EXPECT_EQ(staged.cautions.size(), 1U);
}

TEST(Stages, NoPanelWithClearIsSaid) {
  Series series = paintedSeries(kTwoByTwo, 0.3, 4, 0.2, 0, 1);
  for (SeriesPanel& panel : series.panels) panel.stage = "flashed";
  const StagedSeries staged = oneStage(series);
  EXPECT_EQ(staged.series.panels.size(), 4U);
  EXPECT_EQ(staged.cautions.size(), 1U);
}

}  // namespace
}  // namespace huewright
