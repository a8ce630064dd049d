#include "paper/series_plot.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <gtest/gtest.h>

#include "colour/rgb.hpp"
#include "paper/series_scales.hpp"
#include "paper/type_apart.hpp"
#include "support/xml_fault.hpp"

namespace huewright {
namespace {

constexpr double kPlotDpi = 127;  // five pixels a millimetre

double curveOf(double share) { return 0.5 + 30 * std::abs(share - 0.4); }

/// Invented: a curve of two straight lines, and panels in grey and in colour.
SeriesPlot inventedPlot(int more = 0) {
  SeriesPlot plot;
  plot.sentence = "Next spray 2:3 at 4 coats: it should come within ΔE00 0.5 (0.0 to 2.0).";
  plot.strong = "teal <strong> & dark";
  plot.coats = "4 coats";
  for (int i = 0; i <= 50; ++i) {
    const double share = i / 50.0, de00 = curveOf(share);
    plot.curve.push_back({share, de00, std::max(de00 - 2, 0.0), de00 + 2});
  }
  plot.panels = {{"1:3, 3 coats", 0.25, 10, 9.5, 10.5, {60, 20, 5}, {59, 20, 5}, false, false},
                 {"1:1, 4 coats", 0.5, 3.5, 3, 4, {45, -20, -5}, {45, -21, -5}, true, false},
                 {"1:4, 5 coats", 0.2, 12, 11.6, 12.4, {40, 0, 0}, {50, 0, 0}, false, true}};
  for (int i = 0; i < more; ++i) {
    const double share = 0.3 + 0.02 * (i % 5);
    plot.panels.push_back({"3:5, 3.5 coats", share, 2.0 + 0.1 * i, 1.7 + 0.1 * i, 2.3 + 0.1 * i, {50, -20, 5.0 + i}, {50, -21, 5.0 + i}, i % 2 == 0, false});
  }
  plot.next = {"next: 2:3, 4 coats", {0.4, 0.5, 0, 2}, 0.37, 0.45, {48, -24, -7}};
  plot.target = {48, -23.7, -7.2};
  plot.small_print = {"One line of small print that is long enough to be broken into two, since it goes on and on about how far a panel may be off and why, and ends here."};
  return plot;
}

/// Reads colours by the plot's own shares and distances.
struct PlotReader {
  explicit PlotReader(const SeriesPlot& plot) : picture(*seriesPlotPicture(plot, kPlotDpi)), scales(seriesPlotScales(plot)), top(seriesPlotInk(plot).plot_top) {}
  std::array<unsigned char, 3> at(double share, double de00, double right = 0, double down = 0) const {
    const Point p = scales.at(share, de00);
    const auto pixel = [](double mm) { return static_cast<std::size_t>(mm * kPlotDpi / 25.4); };
    const std::size_t i = 3 * (pixel(p.y + top + down) * static_cast<std::size_t>(picture.size.width) + pixel(p.x + right));
    return {picture.rgb[i], picture.rgb[i + 1], picture.rgb[i + 2]};
  }
  DrawnPicture picture;
  SeriesPlotScales scales;
  double top;
};

TEST(SeriesPlot, TheCurvePassesWhereItShould) {
  const PlotReader plot(inventedPlot());
  for (const double share : {0.05, 0.1, 0.3, 0.46, 0.55, 0.65}) {
    EXPECT_LT(plot.at(share, curveOf(share))[0], 60) << share;
    EXPECT_GT(plot.at(share, curveOf(share) + 0.6)[0], 180) << share;
    EXPECT_GT(plot.at(share, curveOf(share) - 0.6)[0], 180) << share;
  }
}

TEST(SeriesPlot, TheBandIsGreyAndEndsWhereItShould) {
  const PlotReader plot(inventedPlot());
  for (const double share : {0.1, 0.3, 0.55}) {
    for (const double off : {-1.7, 1.7}) EXPECT_EQ(plot.at(share, curveOf(share) + off), (std::array<unsigned char, 3>{222, 222, 222})) << share;
    EXPECT_EQ(plot.at(share, curveOf(share) + 2.4), (std::array<unsigned char, 3>{255, 255, 255})) << share;
  }
}

TEST(SeriesPlot, PanelsStandAtTheirDistanceInTheirColour) {
  const SeriesPlot invented = inventedPlot();
  const PlotReader plot(invented);
  for (const SeriesPlotPanel& panel : invented.panels) {
    if (panel.left_out) EXPECT_EQ(plot.at(panel.share, panel.de00), (std::array<unsigned char, 3>{0, 0, 0}));
    else EXPECT_EQ(plot.at(panel.share, panel.de00), toSrgb8(panel.lab)) << panel.label;
  }
  EXPECT_EQ(plot.at(0.4, 0.5, 1), toSrgb8(invented.next.lab));
  // The caps of the ranges.
  EXPECT_LT(plot.at(0.25, 10.5, 2.6)[0], 60);
  EXPECT_LT(plot.at(0.25, 9.5, -2.6)[0], 60);
  // The best shares lie thick on the foot.
  EXPECT_LT(plot.at(0.38, 0, 0, 0.5)[0], 60);
  EXPECT_GT(plot.at(0.55, 0, 0, 0.5)[0], 180);
}

TEST(SeriesPlot, APanelOnTheNextMixStaysToBeSeen) {
  SeriesPlot invented = inventedPlot();
  invented.panels.push_back({"2:3, 4 coats", 0.4, 0.5, 0.2, 0.8, {48, 30, 0}, {48, 29, 0}, true, false});
  const PlotReader plot(invented);
  EXPECT_EQ(plot.at(0.4, 0.5), toSrgb8({48, 30, 0}));
  EXPECT_EQ(plot.at(0.4, 0.5, 3), toSrgb8(invented.next.lab));
}

TEST(SeriesPlot, AllTypeLiesOnThePageAndNoneOnOther) {
  for (const int more : {0, 9, 20, 40, 57}) {
    const SeriesPlotInk ink = seriesPlotInk(inventedPlot(more));
    EXPECT_GT(ink.type.size(), 30U);
    SCOPED_TRACE(more);
    drawn::expectTypeApart(ink.type, ink.page, 4, 4);
  }
}

TEST(SeriesPlot, PanelsOfOneMixThatLieTogetherShareALabel) {
  SeriesPlot plot = inventedPlot();
  const std::size_t before = seriesPlotInk(plot).type.size();
  plot.panels.push_back(plot.panels[0]);
  plot.panels.back().de00 += 0.2;
  // Its cell of swatches has five lines: three words, its name and its distance. In the plot there is none more.
  EXPECT_EQ(seriesPlotInk(plot).type.size(), before + 5);
  plot.panels.back().de00 -= 3;
  EXPECT_EQ(seriesPlotInk(plot).type.size(), before + 6);
}

// A crowd of panels that bear different names: some are not named in the drawing, which is said below it, and the crossed one is not among them.
TEST(SeriesPlot, WhereThereIsNoRoomForNamesThatIsSaid) {
  SeriesPlot plot = inventedPlot();
  const auto lines = [](const SeriesPlot& of) { return seriesPlotInk(of).type.size(); };
  const std::size_t few = lines(plot);
  for (int i = 0; i < 57; ++i) {
    const double de00 = 1.5 + 0.05 * i;
    plot.panels.push_back({std::to_string(i) + ":5, 3.5 coats", 0.3 + 0.003 * ((i * 7) % 19), de00, de00 - 0.3, de00 + 0.3, {50, -20, 5.0}, {50, -21, 5.0}, i % 2 == 0, false});
  }
  const std::size_t many = lines(plot);
  EXPECT_LT(many, few + 57 * 6 + 1);   // a cell of swatches has five lines, a name in the drawing is a sixth
  EXPECT_GT(many, few + 57 * 5 + 5);
  const auto svg = seriesPlotSvg(plot);
  ASSERT_TRUE(svg);
}

TEST(SeriesPlot, WhatSrgbCannotShowIsSaid) {
  SeriesPlot plot = inventedPlot();
  const std::size_t before = seriesPlotInk(plot).type.size();
  plot.panels[1].lab = {50, -80, -40};
  EXPECT_EQ(seriesPlotInk(plot).type.size(), before + 1);
}

TEST(SeriesPlot, TheSvgIsWellFormedAndTheSameTwice) {
  const SeriesPlot plot = inventedPlot(9);
  const auto svg = seriesPlotSvg(plot);
  ASSERT_TRUE(svg);
  EXPECT_EQ(fixtures::xmlFault(*svg), "");
  EXPECT_TRUE(*svg == *seriesPlotSvg(plot));
  for (const char* wrong : {"nan", "inf\"", "inf "}) EXPECT_EQ(svg->find(wrong), std::string::npos) << wrong;
}

TEST(SeriesPlot, RefusesWhatCannotBeDrawn) {
  SeriesPlot plot = inventedPlot();
  for (const double dpi : {0.0, -1.0, 1e9, std::nan("")}) EXPECT_FALSE(seriesPlotPicture(plot, dpi)) << dpi;
  plot.curve.clear();
  EXPECT_EQ(seriesPlotSvg(plot).error().code, Code::Internal);
}

}  // namespace
}  // namespace huewright
