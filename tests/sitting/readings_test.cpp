#include <gtest/gtest.h>

#include "cli/run.hpp"
#include "session/advise_json.hpp"
#include "session/tagged_photo.hpp"
#include "sitting_case.hpp"
#include "support/temp_dir.hpp"

namespace huewright {
namespace {

using Readings = fixtures::SittingCase;

TEST_F(Readings, AReadingNeedsToKnowHowItWasSprayed) {
  Sitting sitting = open();
  apply(sitting, act::AddToSeries{});
  EXPECT_TRUE(sitting.state().notice.bad);
  apply(sitting, act::OpenPhotos{{mat_photo}, PhotoRole::First});
  apply(sitting, act::AddToSeries{});
  EXPECT_TRUE(sitting.state().notice.bad);
  EXPECT_FALSE(sitting.state().plan.series);
}

TEST_F(Readings, TagsTellHowPanelsWereSprayed) {
  const fixtures::TempDir folder;
  Sitting sitting = open();
  const auto photo = fixtures::shootTagged(folder.path() / "tagged.png", {{"frame 1", TagParts{1, 4}, 3, 5}, {"frame 2", TagParts{1, 3}, 4, 6}});
  apply(sitting, act::OpenPhotos{{photo}, PhotoRole::First});
  ASSERT_TRUE(sitting.state().judged) << sitting.state().judge_trouble;
  ASSERT_GE(sitting.state().judged->looks.size(), 2U);
  EXPECT_EQ(sitting.state().judged->looks[0].find("The tag \"frame "), 0U);
  apply(sitting, act::AddToSeries{});
  ASSERT_TRUE(sitting.state().plan.series) << sitting.state().notice.sentence;
  const Series& series = *sitting.state().plan.series;
  ASSERT_EQ(series.panels.size(), 2U);
  EXPECT_EQ(series.carrier_per_tint, 5);
  EXPECT_EQ(series.panels[0].name, "frame 1");
  EXPECT_EQ(series.panels[0].weak, 4);
  EXPECT_EQ(series.panels[1].piece, "frame 2");
  EXPECT_EQ(series.panels[1].coats, 4);
  EXPECT_EQ(series.panels[1].carrier_per_tint, 6);
  apply(sitting, act::AddToSeries{});  // once more: nothing is added
  EXPECT_TRUE(sitting.state().notice.bad);
  EXPECT_EQ(sitting.state().plan.series->panels.size(), 2U);
}

TEST_F(Readings, AFullSeriesTakesNoMore) {
  const fixtures::TempDir folder;
  Sitting sitting = open();
  Series series;
  series.ground = NamedGround{"", {80, 0, 0}};
  series.panels.resize(kMostSeriesPanels - 1, SeriesPanel{.strong = 1, .weak = 4, .coats = 3, .lab = {50, -20, -5}, .ground = {}, .carrier_per_tint = {}, .stage = {}, .uncleared = {}, .name = {}, .piece = {}});
  apply(sitting, act::SetSeries{series});
  const auto photo = fixtures::shootTagged(folder.path() / "tagged.png", {{"frame 1", TagParts{1, 4}, 3, 5}, {"frame 2", TagParts{1, 3}, 4, 5}});
  apply(sitting, act::OpenPhotos{{photo}, PhotoRole::First});
  ASSERT_TRUE(sitting.state().judged) << sitting.state().judge_trouble;
  apply(sitting, act::AddToSeries{});  // two more do not fit
  EXPECT_TRUE(sitting.state().notice.bad);
  EXPECT_NE(sitting.state().notice.sentence.find("it holds 59 of at most 60 panels"), std::string::npos) << sitting.state().notice.sentence;
  EXPECT_EQ(sitting.state().plan.series->panels.size(), kMostSeriesPanels - 1);
  series.panels.pop_back();
  apply(sitting, act::SetSeries{series});
  apply(sitting, act::AddToSeries{});
  EXPECT_FALSE(sitting.state().notice.bad) << sitting.state().notice.sentence;
  EXPECT_EQ(sitting.state().plan.series->panels.size(), kMostSeriesPanels);
}

TEST_F(Readings, AdvisesAsTheCommandLine) {
  Sitting sitting = open();
  apply(sitting, act::OpenSeries{samples / "teal-series.json"});
  ASSERT_TRUE(sitting.state().series.advice) << sitting.state().series.trouble;
  const Outcome told = run({"advise", (samples / "teal-series.json").string(), "--json"}, false);
  EXPECT_EQ(adviseJson(*sitting.state().series.advice), told.out);
  EXPECT_TRUE(sitting.state().series.plot);
  EXPECT_EQ(sitting.state().series.rows.size(), sitting.state().plan.series->panels.size());
  EXPECT_GE(sitting.state().series.grounds.size(), 2u);
}

TEST_F(Readings, GroundsThatAreAddedAreShownEachInItsPlaceAndTakenBack) {
  Sitting sitting = open();
  apply(sitting, act::OpenSeries{samples / "teal-series.json"});
  const std::size_t before = sitting.state().series.grounds.size();
  Series series = *sitting.state().plan.series;
  const auto own = series.ground;
  ASSERT_TRUE(own);
  series.grounds.insert(series.grounds.begin(), {"as its own", own->lab});
  series.grounds.push_back({"night", {12, 0, 0}});
  apply(sitting, act::SetSeries{series, "adding a ground"});
  const auto& shown = sitting.state().series.grounds;
  ASSERT_EQ(shown.size(), before + 2);
  EXPECT_TRUE(sitting.state().series.own_ground);
  EXPECT_EQ(shown[0].name, own->name);
  EXPECT_EQ(shown[1].name, "as its own");
  EXPECT_EQ(shown[1].mixed->rgb, shown[0].mixed->rgb);
  EXPECT_EQ(shown.back().name, "night");
  ASSERT_TRUE(shown.back().mixed);
  EXPECT_LT(shown.back().mixed->rgb[1], shown[0].mixed->rgb[1]);  // a transparent coat over black is dark
  for (std::size_t i = 1; i < shown.size(); ++i) EXPECT_EQ(shown[i].name, series.grounds[i - 1].name);
  apply(sitting, act::Undo{});
  EXPECT_EQ(sitting.state().series.grounds.size(), before);
  EXPECT_EQ(sitting.state().redo_words, "adding a ground");
}

TEST_F(Readings, APanelThatIsBareGroundIsTheSeriesGround) {
  Sitting sitting = open();
  apply(sitting, act::UseAsGround{});
  EXPECT_TRUE(sitting.state().notice.bad);  // nothing is judged yet
  apply(sitting, act::OpenPhotos{{mat_photo}, PhotoRole::First});
  apply(sitting, act::UseAsGround{});
  ASSERT_TRUE(sitting.state().plan.series && sitting.state().plan.series->ground);
  const JudgeReport& report = *sitting.state().judged->report;
  EXPECT_EQ(sitting.state().plan.series->ground->lab.L, report.reading.panels[report.main].lab.L);
  apply(sitting, act::NewSeries{});
  EXPECT_FALSE(sitting.state().plan.series);
}

}  // namespace
}  // namespace huewright
