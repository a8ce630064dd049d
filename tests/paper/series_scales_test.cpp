#include "paper/series_scales.hpp"

#include <cmath>
#include <gtest/gtest.h>

namespace huewright {
namespace {

/// Invented: a curve of two straight lines that is 0 at 0.4 and 10 at 0.2 and 0.6; panels at 0.25 and 0.5.
SeriesPlot vShaped() {
  SeriesPlot plot;
  for (int i = 0; i <= 20; ++i) plot.curve.push_back({i / 20.0, 50 * std::abs(i / 20.0 - 0.4), 0, 0});
  plot.panels.resize(2);
  plot.panels[0].share = 0.25;
  plot.panels[0].high = 6;
  plot.panels[1].share = 0.5;
  plot.panels[1].high = 3;
  plot.next.at = {0.4, 0, 0, 2};
  return plot;
}

TEST(SeriesScales, HoldAllThatIsMeasured) {
  const SeriesPlotScales scales = seriesPlotScales(vShaped());
  EXPECT_NEAR(scales.share_low, 0.1, 1e-9);   // 0.25 − 0.12, to the tenth below
  EXPECT_NEAR(scales.share_high, 0.7, 1e-9);  // 0.5 + 0.12, to the tenth above
  EXPECT_NEAR(scales.top, 16, 1e-9);          // the curve's 15 at 0.1 and 0.7, to the next tick
  EXPECT_NEAR(scales.at(0.1, 0).x, scales.room.x, 1e-9);
  EXPECT_NEAR(scales.at(0.7, 16).x, scales.room.x + scales.room.width, 1e-9);
  EXPECT_NEAR(scales.at(0.7, 16).y, scales.room.y, 1e-9);
  EXPECT_NEAR(scales.at(0.4, 4).y, scales.room.y + 0.75 * scales.room.height, 1e-9);
}

TEST(SeriesScales, ASteepCurveDoesNotPressThePanelsDown) {
  SeriesPlot plot = vShaped();
  for (SeriesPlotStep& step : plot.curve) step.de00 *= 20;
  EXPECT_NEAR(seriesPlotScales(plot).top, 20, 1e-9);  // three times 6, to the next tick
  plot.panels.clear();
  plot.next.at.high = 0.1;
  EXPECT_GE(seriesPlotScales(plot).top, 2);
}

TEST(SeriesScales, TheCurveIsCutAtTheTop) {
  const SeriesPlot plot = vShaped();
  SeriesPlotScales scales = seriesPlotScales(plot);
  EXPECT_EQ(shownCurve(plot.curve, scales).size(), 1U);
  scales.top = 9;  // 0.22 and 0.58
  const auto runs = shownCurve(plot.curve, scales);
  ASSERT_EQ(runs.size(), 1U);
  EXPECT_NEAR(runs[0].front().x, scales.at(0.22, 9).x, 1e-6);
  EXPECT_NEAR(runs[0].front().y, scales.room.y, 1e-6);
  EXPECT_NEAR(runs[0].back().x, scales.at(0.58, 9).x, 1e-6);
  // A curve that is high in the middle comes in two.
  SeriesPlot hill = plot;
  for (SeriesPlotStep& step : hill.curve) step.de00 = 15 - step.de00;
  EXPECT_EQ(shownCurve(hill.curve, scales).size(), 2U);
}

}  // namespace
}  // namespace huewright
