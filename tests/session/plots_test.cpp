#include "session/plots.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <gtest/gtest.h>
#include <set>
#include <sstream>

#include "colour/delta_e.hpp"
#include "session/series_files.hpp"
#include "support/temp_dir.hpp"
#include "support/xml_fault.hpp"

namespace huewright {
namespace {

namespace fs = std::filesystem;

using namespace series_files;

Series plotSeries() { return readSeries(textOf(kTealSeries)).value(); }

SeriesPlot plotted(const Series& series) { return seriesPlotOf(series, {}, advise(series).value()).value(); }

TEST(Plots, NamesEndInSvg) {
  for (const char* good : {"a.svg", "b/c.SVG"}) EXPECT_FALSE(wrongPlotName(good)) << good;
  for (const char* bad : {"a.png", "svg", "", "a.svg.txt", "folder.svg/"}) EXPECT_TRUE(wrongPlotName(bad)) << bad;
}

TEST(Plots, TheCurveGoesThroughTheNextMix) {
  const Series series = plotSeries();
  const Advice advice = advise(series).value();
  const SeriesPlot plot = seriesPlotOf(series, {}, advice).value();
  ASSERT_EQ(plot.curve.size(), 101U);
  EXPECT_EQ(plot.curve.front().share, 0);
  EXPECT_EQ(plot.curve.back().share, 1);
  const SeriesPlotStep& step = plot.curve[40];  // 2:3
  EXPECT_NEAR(step.de00, advice.next->choice.de00, 1e-9);
  EXPECT_NEAR(step.low, advice.next->choice.low, 1e-9);
  EXPECT_NEAR(step.high, advice.next->choice.high, 1e-9);
  EXPECT_EQ(plot.next.label, "next: 2:3, 4 coats");
  // Where the curve is lowest, there is the best share.
  const auto lowest = std::ranges::min_element(plot.curve, {}, &SeriesPlotStep::de00);
  EXPECT_NEAR(lowest->share, advice.next->best.share, 0.0101);
  for (const SeriesPlotStep& s : plot.curve) EXPECT_TRUE(s.low <= s.de00 && s.de00 <= s.high * 1.001) << s.share;
}

TEST(Plots, PanelsAreDrawnAsTheyWereRead) {
  const Series series = plotSeries();
  const SeriesPlot plot = plotted(series);
  ASSERT_EQ(plot.panels.size(), 4U);
  EXPECT_EQ(plot.panels[0].label, "1:3, 3 coats");
  for (std::size_t i = 0; i < 4; ++i) {
    const SeriesPlotPanel& panel = plot.panels[i];
    EXPECT_NEAR(panel.de00, deltaE2000(series.panels[i].lab, *series.target), 1e-9);
    // σ of one axis is 0.3 / √3, and along the difference 1.96 of it.
    EXPECT_NEAR(panel.de00 - panel.low, 1.96 * 0.3 / std::sqrt(3.0), 1e-6);
    EXPECT_GT(panel.high, panel.de00);
    EXPECT_LT(panel.high, panel.de00 + 0.6);
    EXPECT_FALSE(panel.left_out);
    EXPECT_FALSE(panel.at_these_coats);  // 3 and 5, the next has 4
    EXPECT_LT(deltaE2000(panel.predicted, panel.lab), 1) << panel.label;
  }
}

TEST(Plots, PanelsOfTheSameCoatsAreTold) {
  Series series = plotSeries();
  SeriesPanel four = series.panels[0];
  four.coats = 4;
  four.lab = {52.9, -22.2, -5.9};
  series.panels.push_back(four);
  EXPECT_TRUE(plotted(series).panels[4].at_these_coats);
  series.panels[4].ground = Lab<D50>{70, 5, 10};
  const SeriesPlot over_another = plotted(series);
  EXPECT_FALSE(over_another.panels[4].at_these_coats);
  EXPECT_EQ(over_another.small_print.size(), 2U);
}

TEST(Plots, AnOddPanelIsCrossedAndACopyDrawnOnce) {
  Series series = plotSeries();
  for (const auto& [strong, weak, lab] : {std::tuple{2, 3, Lab<D50>{48.4, -23.9, -6.9}}, std::tuple{1, 2, Lab<D50>{50.1, -23.2, -6.7}}, std::tuple{1, 3, Lab<D50>{52.9, -22.2, -5.9}}}) {
    SeriesPanel panel = series.panels[0];
    panel.strong = strong;
    panel.weak = weak;
    panel.coats = 4;
    panel.lab = lab;
    series.panels.push_back(panel);
  }
  series.panels.insert(series.panels.begin(), series.panels[0]);  // a copy
  SeriesPanel odd = series.panels[0];
  odd.coats = 5;
  odd.weak = 4;
  odd.lab = {38, -20, -16};
  series.panels.insert(series.panels.begin() + 2, odd);
  const SeriesPlot plot = plotted(series);
  ASSERT_EQ(plot.panels.size(), 8U);
  for (const SeriesPlotPanel& panel : plot.panels) EXPECT_EQ(panel.left_out, panel.label == "1:4, 5 coats") << panel.label;
  std::set<std::size_t> places;
  for (const SeriesPlotPanel& panel : plot.panels) {
    places.insert(panel.place);
    ASSERT_LT(panel.place, series.panels.size());
    EXPECT_EQ(panel.lab, series.panels[panel.place].lab) << panel.label;
  }
  EXPECT_EQ(places.size(), 8U);
}

TEST(Plots, AForecastOfTheClearIsSaidAndWider) {
  Series series = plotSeries();
  // Invented: without clear a panel looks paler by 6 in L* and by a fifth in chroma.
  const auto dry = [](const Lab<D50>& lab) { return Lab<D50>{lab.L + 6, 0.8 * lab.a, 0.8 * lab.b}; };
  series.panels[0].uncleared = dry(series.panels[0].lab);
  series.panels[1].uncleared = dry(series.panels[1].lab);
  const Lab<D50> truth = series.panels[2].lab;
  series.panels[2].lab = dry(truth);
  series.panels[2].stage = "flashed";
  const SeriesPlot plot = plotted(series);
  ASSERT_EQ(plot.panels.size(), 4U);
  EXPECT_EQ(plot.panels[2].label, "1:1, 3 coats, cleared by the forecast");
  EXPECT_LT(deltaE2000(plot.panels[2].lab, truth), 2);
  EXPECT_GT(plot.panels[2].de00 - plot.panels[2].low, plot.panels[3].de00 - plot.panels[3].low + 0.05);
  EXPECT_EQ(plot.small_print.size(), 2U);
}

TEST(Plots, WithNothingKnownThereIsNothingToDraw) {
  Series series = plotSeries();
  series.panels.clear();
  EXPECT_EQ(seriesPlotOf(series, {}, advise(series).value()).error().code, Code::SeriesUnusable);
}

TEST(Plots, AdviseWritesTheDrawing) {
  const fixtures::TempDir folder;
  AdviseRequest request;
  request.series = kTealSeries;
  request.plot = folder.path() / "plot.svg";
  ASSERT_TRUE(adviseOn(request));
  EXPECT_EQ(fixtures::xmlFault(textOf(*request.plot)), "");
  ASSERT_TRUE(adviseOn(request));  // one that is there is replaced
  request.save_tints = folder.path() / "tints.json";
  request.plot = folder.path() / "none" / "plot.svg";
  EXPECT_EQ(adviseOn(request).error().code, Code::WriteFailed);
  EXPECT_FALSE(fs::exists(*request.save_tints));  // so that it can be asked for again
  request.plot = folder.path() / "plot.png";
  EXPECT_EQ(adviseOn(request).error().code, Code::BadChoice);
  EXPECT_FALSE(fs::exists(*request.plot));
}

TEST(Plots, GroundsAreDrawnWithTheirWords) {
  const fixtures::TempDir folder;
  GroundsRequest request;
  request.series = kTealSeries;
  request.plot = folder.path() / "grounds.svg";
  const auto report = groundsOf(request);
  ASSERT_TRUE(report);
  EXPECT_EQ(fixtures::xmlFault(textOf(*request.plot)), "");
  const GroundsPlot plot = groundsPlotOf(*report);
  EXPECT_EQ(plot.title, "The mix advised next, 2:3, 4 coats");
  ASSERT_EQ(plot.rows.size(), 4U);
  EXPECT_NE(plot.rows[2].words.find("It looks browner and deeper"), std::string::npos) << plot.rows[2].words;
  EXPECT_TRUE(plot.rows[2].warning.starts_with("At 1 coat")) << plot.rows[2].warning;
  EXPECT_EQ(plot.rows[3].lab, report->looks[3].lab);
  request.plot = folder.path() / "none" / "grounds.svg";
  EXPECT_EQ(groundsOf(request).error().code, Code::WriteFailed);
  request.plot = folder.path() / "grounds.pdf";
  EXPECT_EQ(groundsOf(request).error().code, Code::BadChoice);
}

}  // namespace
}  // namespace huewright
