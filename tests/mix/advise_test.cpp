#include "mix/advise.hpp"

#include <algorithm>
#include <gtest/gtest.h>

#include "mix/mix_scene.hpp"
#include "mix/series_scene.hpp"

namespace huewright {
namespace {

using namespace mixing;

bool hasCaution(const Advice& advice, CautionCode code) { return std::ranges::any_of(advice.cautions, [&](const Caution& c) { return c.code == code; }); }

TEST(Advise, FourPanelsGiveTheCardsMix) {
  const auto advice = advise(paintedSeries(kTwoByTwo, 0.4, 4, 0.2, 0.01, 3));
  ASSERT_TRUE(advice);
  ASSERT_TRUE(advice->next);
  EXPECT_EQ(advice->next->choice.coats, 4);
  EXPECT_NEAR(advice->next->choice.share(), 0.4, 0.035);
  EXPECT_LE(advice->share_low, 0.4);
  EXPECT_GE(advice->share_high, 0.4);
  EXPECT_TRUE(advice->reach.reachable);
  EXPECT_FALSE(advice->learn) << advice->learn->sd_before;
  EXPECT_FALSE(hasCaution(*advice, CautionCode::FewPanels));
  EXPECT_FALSE(hasCaution(*advice, CautionCode::ShareOrCoats));
  EXPECT_TRUE(advice->sentence.starts_with("Next spray ")) << advice->sentence;
}

TEST(Advise, NothingSprayedYetSaysWhatTeaches) {
  const auto advice = advise(paintedSeries({}, 0.4, 4, 0.2, 0, 3));
  ASSERT_TRUE(advice);
  EXPECT_FALSE(advice->next);
  ASSERT_TRUE(advice->learn);
  EXPECT_TRUE(hasCaution(*advice, CautionCode::FewPanels));
  EXPECT_EQ(advice->sentence.find("Nothing is known of these tints yet"), 0U);
}

TEST(Advise, OnePanelOfUnknownTintsLearnsFirst) {
  const auto advice = advise(paintedSeries({{1, 3, 3}}, 0.5, 5, 0.3, 0, 3));
  ASSERT_TRUE(advice);
  EXPECT_TRUE(advice->learn);
  EXPECT_TRUE(hasCaution(*advice, CautionCode::FewPanels));
  EXPECT_EQ(advice->sentence.find("What is known is little"), 0U) << advice->sentence;
}

TEST(Advise, PanelsOfOneNumberOfCoatsDoNotTellShareAndCoatsApart) {
  const auto advice = advise(paintedSeries({{1, 4, 4}, {1, 2, 4}, {1, 1, 4}}, 0.3, 4, 0.3, 0.03, 5));
  ASSERT_TRUE(advice);
  const auto found = std::ranges::find(advice->cautions, CautionCode::ShareOrCoats, &Caution::code);
  ASSERT_NE(found, advice->cautions.end());
  EXPECT_NE(sentence(*found).find("all have 4 coats"), std::string::npos);
}

TEST(Advise, KnownTintsGiveAFirstMix) {
  Series single = paintedSeries({{1, 0, 1}, {1, 0, 2}, {1, 0, 4}, {0, 1, 1}, {0, 1, 3}, {0, 1, 6}, {1, 1, 3}}, 0.4, 4, 0.2, 0.02, 9);
  const auto known = groundwork(single, {});
  ASSERT_TRUE(known);
  const TintFile file = tintFileOf(known->fit, {"teal, strong", "aqua, weak"}, nextGround(single));
  Series series = paintedSeries({}, 0.4, 4, 0.2, 0, 3);
  series.strong_name = "teal, strong";
  series.weak_name = "aqua, weak";
  const auto advice = advise(series, {.tints = file, .part_coats = {}});
  ASSERT_TRUE(advice) << sentence(advice.error());
  ASSERT_TRUE(advice->next);
  EXPECT_EQ(advice->sentence.find("First spray "), 0U) << advice->sentence << advice->learn->sd_before;
  render::Paint paint;
  paint.share = advice->next->choice.share();
  paint.coats = advice->next->choice.coats;
  EXPECT_LT(deltaE2000(render::labOf(paint), *series.target), 2);

  series.strong_name = series.weak_name = "moss";
  EXPECT_EQ(advise(series, {.tints = file, .part_coats = {}}).error().code, Code::TintFileUnusable);
}

// Two tints that one series told together are surer in a mix than each alone.
TEST(Advise, TintsOfOneFileGoTogether) {
  const auto known = groundwork(paintedSeries(kTwoByTwo, 0.4, 4, 0.2, 0.01, 3), {});
  ASSERT_TRUE(known);
  TintFile file = tintFileOf(known->fit, {"teal, strong", "aqua, weak"}, paintedSeries({}, 0.4, 4, 0.2, 0, 3).ground->lab);
  const Series next = paintedSeries({}, 0.4, 4, 0.2, 0, 3);
  const auto together = advise(next, {.tints = file, .part_coats = {}});
  file.together.clear();
  const auto apart = advise(next, {.tints = file, .part_coats = {}});
  ASSERT_TRUE(together && apart && together->next && apart->next);
  EXPECT_LT(together->next->best.sd, 0.7 * apart->next->best.sd);
  EXPECT_LT(together->next->choice.high, apart->next->choice.high);
}

TEST(Advise, AMislabelledSteppedPanelIsLeftOutAsAWhole) {
  Series series = steppedSeries({{1, 3}, {1, 4}, {1, 1}, {2, 1}}, 0.2, 0.02, 3);
  for (std::size_t i = 4; i < 8; ++i) std::swap(series.panels[i].strong, series.panels[i].weak);
  const auto advice = advise(series);
  ASSERT_TRUE(advice);
  const auto found = std::ranges::find(advice->cautions, CautionCode::PanelOdd, &Caution::code);
  ASSERT_NE(found, advice->cautions.end());
  EXPECT_NE(sentence(*found).find("Stepped panel \"B\" (4:1) does not go with the others; it would as 1:4"), std::string::npos) << sentence(*found);
  EXPECT_EQ(advice->panels, 12U);
  EXPECT_EQ(advice->fit.pieces, 3U);
}

TEST(Advise, AMislabelledPanelIsNamedAndLeftOut) {
  Series series = paintedSeries({{1, 3, 3}, {1, 3, 5}, {1, 1, 3}, {1, 1, 5}, {1, 2, 4}, {2, 1, 3}}, 0.4, 4, 0.2, 0.01, 3);
  std::swap(series.panels[1].strong, series.panels[1].weak);
  const auto advice = advise(series);
  ASSERT_TRUE(advice);
  const auto found = std::ranges::find(advice->cautions, CautionCode::PanelOdd, &Caution::code);
  ASSERT_NE(found, advice->cautions.end());
  EXPECT_NE(sentence(*found).find("Panel 2 (3:1, 5 coats) does not go with the others; it would as 1:3"), std::string::npos) << sentence(*found);
  EXPECT_EQ(advice->panels, 5U);
  EXPECT_NEAR(advice->next->choice.share(), 0.4, 0.06);
}

TEST(Advise, TenIdenticalPanelsAreOnePanel) {
  Series series = paintedSeries({{1, 3, 4}}, 0.3, 4, 0.3, 0, 1);
  for (int i = 0; i < 9; ++i) series.panels.push_back(series.panels.front());
  const auto advice = advise(series);
  ASSERT_TRUE(advice);
  EXPECT_EQ(advice->panels, 1U);
  EXPECT_TRUE(hasCaution(*advice, CautionCode::SeriesCopies));
}

TEST(Advise, AnImpossibleTargetIsSaid) {
  Series series = paintedSeries(kTwoByTwo, 0.4, 4, 0.2, 0.01, 3);
  series.target = Lab<D50>{50, 45, 20};
  const auto advice = advise(series);
  ASSERT_TRUE(advice);
  EXPECT_FALSE(advice->reach.reachable);
  EXPECT_TRUE(hasCaution(*advice, CautionCode::OtherPigment));
  EXPECT_NE(advice->sentence.find("The card cannot be reached with these tints"), std::string::npos);
  EXPECT_NE(advice->sentence.find("greener"), std::string::npos) << advice->sentence;
}

TEST(Advise, FilmSpreadSetsAFloor) {
  const auto advice = advise(paintedSeries(kTwoByTwo, 0.4, 4, 0.2, 0.01, 3));
  ASSERT_TRUE(advice);
  // Five per cent of four coats are a fifth of a coat; the renderer says what that moves.
  render::Paint paint;
  paint.share = 0.4;
  paint.coats = 4;
  const Lab<D50> card = render::labOf(paint);
  paint.film = 1.05;
  EXPECT_NEAR(advice->film_floor, deltaE2000(render::labOf(paint), card), 0.15);
  EXPECT_TRUE(hasCaution(*advice, CautionCode::FilmFloor));
}

TEST(Advise, OnThePartIsAnsweredForTheAcceptedMix) {
  Series series = paintedSeries(kTwoByTwo, 0.4, 4, 0.2, 0.01, 3);
  series.accepted = SeriesPanel{};
  series.accepted->strong = 2;
  series.accepted->weak = 3;
  series.accepted->coats = 4;
  const auto advice = advise(series, {.tints = {}, .part_coats = 3});
  ASSERT_TRUE(advice && advice->part);
  EXPECT_EQ(advice->part->step, PartStep::OneMoreThenStop);
  EXPECT_EQ(advice->sentence, advice->part->sentence);
  Series none = paintedSeries({}, 0.4, 4, 0.2, 0, 3);
  EXPECT_EQ(advise(none, {.tints = {}, .part_coats = 3}).error().code, Code::SeriesUnusable);
}

TEST(Advise, WithoutTargetOrGroundIsRefused) {
  Series series = paintedSeries(kTwoByTwo, 0.4, 4, 0.2, 0.01, 3);
  series.target.reset();
  EXPECT_EQ(advise(series).error().code, Code::SeriesUnusable);
  series = paintedSeries({}, 0.4, 4, 0.2, 0.01, 3);
  series.ground.reset();
  EXPECT_EQ(advise(series).error().code, Code::SeriesUnusable);
}

}  // namespace
}  // namespace huewright
