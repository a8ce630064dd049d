#include "sitting/words.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

TEST(SittingWords, ASwatchSaysWhatTheScreenCannotShow) {
  // Neutral L* 50 is sRGB 119 (119.0 by IEC 61966-2-1 and CIE 15); b* 110 at L* 50 lies far outside.
  const Swatch grey = swatchOf({50, 0, 0});
  EXPECT_EQ(grey.rgb, (std::array<std::uint8_t, 3>{119, 119, 119}));
  EXPECT_FALSE(grey.outside);
  EXPECT_EQ(grey.lab, "L* 50.0  a* 0.0  b* 0.0");
  EXPECT_TRUE(swatchOf({50, 0, 110}).outside);
  EXPECT_EQ(swatchOf({50, -0.0, 0}).lab, grey.lab);
}

TEST(SittingWords, TheLineHoldsDistanceIntervalAndTolerance) {
  Verdict v;
  v.de00 = 3.44;
  v.low = 2.91;
  v.high = 3.88;
  v.tolerance = 0.5;
  EXPECT_EQ(distanceLine(v), "ΔE00 3.4 (2.9 to 3.9), near enough is 0.5");
}

TEST(SittingWords, FactsAreOneLine) {
  PhotoFacts facts;
  facts.format = "JPEG";
  facts.size = {4032, 3024};
  facts.encoding = "sRGB (assumed)";
  EXPECT_EQ(factsWords(facts), "JPEG, 4032 × 3024, sRGB (assumed)");
}

TEST(SittingWords, ASeriesWithoutAdviceSaysWhy) {
  Series series;
  series.target = Lab<D50>{50, -20, -5};
  series.panels.push_back({.strong = 1, .weak = 4, .coats = 3, .lab = {50, -20, -5}, .ground = {}, .carrier_per_tint = {}, .stage = {}, .uncleared = {}, .name = {}, .piece = {}});
  const SeriesShown shown = seriesShown(series, fail(Code::SeriesUnusable, "it has no ground"), fail(Code::SeriesUnusable));
  ASSERT_EQ(shown.rows.size(), 1u);
  EXPECT_DOUBLE_EQ(shown.rows[0].de00, 0);
  EXPECT_EQ(shown.trouble, "The series cannot be used: it has no ground.");
  EXPECT_FALSE(shown.advice);
  EXPECT_TRUE(shown.target);
  EXPECT_FALSE(shown.ground);
}

}  // namespace
}  // namespace huewright
