#include <gtest/gtest.h>

#include "desk_frames.hpp"
#include "teal_job.hpp"

namespace huewright::desk {
namespace {

Frames mixesPage(float text = 1) { return Frames(Page::Mixes, [](DeskState& view, Drawing& d) { drawSeries(view, d); }, 1280, 720, text); }

TEST(SeriesView, NothingReachesBeyondTheRightEdge) {
  for (const float text : {1.0f, 2.0f, 3.0f})
    for (const char* what : {"nothing", "empty", "job", "grounds", "pour"}) {
      SCOPED_TRACE(testing::Message() << what << " at " << text);
      Frames frames = mixesPage(text);
      const std::string_view now = what;
      if (now != "nothing") frames.state = tealJob();
      if (now == "empty") frames.state.plan.series = Series{}, frames.state.series = {};
      frames.view.series.grounds = now == "grounds";
      frames.view.series.pour = now == "pour";
      frames.view.series.selected = 1;
      frames.frames(3);
      EXPECT_LE(frames.tooWide(), 0.5f);
    }
}

TEST(SeriesView, EveryActionHasItsKey) {
  const auto asks = [](Do what, Asking want, bool saved = false) {
    Frames frames = mixesPage();
    frames.state = tealJob();
    if (saved) frames.state.plan.series_file = "job.json";
    frames.frames(2);
    const Actions done = frames.pressed(what);
    EXPECT_EQ(frames.view.browser.asking, want) << keyLine(what).word;
    EXPECT_EQ(only<act::ListFolder>(done) != nullptr, want != Asking::Nothing) << keyLine(what).word;
    return done;
  };
  asks(Do::OpenSeries, Asking::Series);
  asks(Do::SaveSeries, Asking::SaveSeries);
  const Actions saved = asks(Do::SaveSeries, Asking::Nothing, true);
  ASSERT_TRUE(only<act::SaveSeries>(saved));
  EXPECT_TRUE(only<act::SaveSeries>(saved)->file.empty());
  asks(Do::SaveSeriesAs, Asking::SaveSeries, true);
  asks(Do::UseTints, Asking::Tints);
  asks(Do::WriteSheet, Asking::Sheet);
  EXPECT_TRUE(only<act::NewSeries>(asks(Do::NewSeries, Asking::Nothing)));
}

TEST(SeriesView, TheSheetIsOfTheMixThatIsPoured) {
  Frames frames = mixesPage();
  frames.state = tealJob();
  frames.view.series.cup.area_m2 = 0.8;
  frames.frames(2);
  frames.pressed(Do::WriteSheet);
  ASSERT_TRUE(frames.view.browser.pour);
  EXPECT_EQ(frames.view.browser.pour->recipe.tints[0].parts, 2);
  EXPECT_EQ(frames.view.browser.pour->need.areas[0].m2, 0.8);
}

TEST(SeriesView, PourAndGroundsTakeTurns) {
  Frames frames = mixesPage();
  frames.state = tealJob();
  frames.frames(2);
  frames.pressed(Do::PourCup);
  EXPECT_TRUE(frames.view.series.pour);
  frames.pressed(Do::OtherGrounds);
  EXPECT_TRUE(frames.view.series.grounds);
  EXPECT_FALSE(frames.view.series.pour);
  frames.pressed(Do::OtherGrounds);
  EXPECT_FALSE(frames.view.series.grounds);
}

TEST(SeriesView, KnownTintsAreLetGoByTheSameKey) {
  Frames frames = mixesPage();
  frames.state = tealJob();
  frames.state.plan.tints = "tints.json";
  frames.frames(2);
  const Actions done = frames.pressed(Do::UseTints);
  ASSERT_TRUE(only<act::UseTints>(done));
  EXPECT_FALSE(only<act::UseTints>(done)->file);
  EXPECT_EQ(frames.view.browser.asking, Asking::Nothing);
}

TEST(SeriesView, WithoutAMixThereIsNothingToPour) {
  Frames frames = mixesPage();
  frames.state.plan.series = Series{};
  frames.frames(2);
  frames.pressed(Do::PourCup);
  frames.pressed(Do::WriteSheet);
  EXPECT_FALSE(frames.view.series.pour);
  EXPECT_EQ(frames.view.browser.asking, Asking::Nothing);
}

TEST(SeriesView, WithoutASeriesOnlyOpeningAndBeginningDoAnything) {
  Frames frames = mixesPage();
  frames.frames(2);
  for (const Do what : {Do::SaveSeries, Do::SaveSeriesAs, Do::UseTints, Do::OtherGrounds, Do::PourCup, Do::WriteSheet, Do::AcceptMix, Do::RemoveReading, Do::NextReading}) EXPECT_TRUE(frames.pressed(what).empty()) << keyLine(what).word;
  EXPECT_FALSE(frames.pressed(Do::OpenSeries).empty());
}

}  // namespace
}  // namespace huewright::desk
