#include "paper/grounds_plot.hpp"

#include <array>
#include <cmath>
#include <gtest/gtest.h>

#include "colour/rgb.hpp"
#include "paper/type_apart.hpp"
#include "support/xml_fault.hpp"

namespace huewright {
namespace {

GroundsPlot inventedGrounds() {
  GroundsPlot plot;
  plot.title = "The accepted mix, 2:3, 4 coats";
  plot.rows = {{"silver & bright", "The others are held against this one.", "", {79, 0, 2}, {48, -24, -7}},
               {"gold", "It looks browner and deeper, ΔE00 9.4. Lab 43.4, -18.4, 3.5, known within about ΔE00 8.9.",
                "At 1 coat it leans redder and yellower than the finished colour, and at 2 coats it still does so though a little less: do not stop or judge there. This goes on for a while, so that "
                "the row grows higher than its swatches, and the next one must make room for it.", {72, 7, 17}, {43, -18, 3}},
               {"graphite", "It looks deeper.", "", {38, -1, -2}, {22, -13, -6}}};
  plot.small_print = {"All colours are the model's, not measured."};
  return plot;
}

TEST(GroundsPlot, SwatchesTouchInTheirColours) {
  const GroundsPlot plot = inventedGrounds();
  const auto picture = groundsPlotPicture(plot, 127);
  ASSERT_TRUE(picture);
  // Down the middle of each column, the colours in the order of the rows.
  const auto has = [&](double mm, const Lab<D50>& lab) {
    const auto wanted = toSrgb8(lab);
    const auto x = static_cast<std::size_t>(mm * 5), width = static_cast<std::size_t>(picture->size.width);
    for (std::size_t y = 0; y < static_cast<std::size_t>(picture->size.height); ++y) {
      const std::size_t i = 3 * (y * width + x);
      if (std::array<unsigned char, 3>{picture->rgb[i], picture->rgb[i + 1], picture->rgb[i + 2]} == wanted) return true;
    }
    return false;
  };
  for (const GroundsPlotRow& row : plot.rows) {
    EXPECT_TRUE(has(8 + 12, row.ground)) << row.name;
    EXPECT_TRUE(has(8 + 23.5, row.ground)) << row.name;   // up to the edge,
    EXPECT_TRUE(has(8 + 24.5, row.lab)) << row.name;      // and on from it
    EXPECT_FALSE(has(8 + 36, row.ground)) << row.name;
  }
  EXPECT_TRUE(has(8 + 60, plot.rows.front().lab));
}

TEST(GroundsPlot, AllTypeLiesOnThePageAndNoneOnOther) {
  const GroundsPlotInk ink = groundsPlotInk(inventedGrounds());
  EXPECT_GT(ink.type.size(), 15U);
  drawn::expectTypeApart(ink.type, ink.page, 7, 4);
}

TEST(GroundsPlot, TheSvgIsWellFormedAndWhatSrgbCannotShowIsSaid) {
  GroundsPlot plot = inventedGrounds();
  const auto svg = groundsPlotSvg(plot);
  ASSERT_TRUE(svg);
  EXPECT_EQ(fixtures::xmlFault(*svg), "");
  EXPECT_TRUE(*svg == *groundsPlotSvg(plot));
  const std::size_t before = groundsPlotInk(plot).type.size();
  plot.rows[2].lab = {50, -80, -40};
  EXPECT_EQ(groundsPlotInk(plot).type.size(), before + 1);
}

TEST(GroundsPlot, RefusesWhatCannotBeDrawn) {
  for (const double dpi : {0.0, 1e9, std::nan("")}) EXPECT_FALSE(groundsPlotPicture(inventedGrounds(), dpi)) << dpi;
  EXPECT_EQ(groundsPlotSvg({}).error().code, Code::Internal);
}

}  // namespace
}  // namespace huewright
