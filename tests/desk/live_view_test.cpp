#include <cstdlib>
#include <fstream>
#include <gtest/gtest.h>

#include "desk/views.hpp"
#include "desk_frames.hpp"
#include "live_job.hpp"
#include "sitting/live_case.hpp"
#include "temp_dir.hpp"

namespace huewright::desk {
namespace {

Frames livePage(float text = 1, float width = 1280, float height = 720) {
  return Frames(Page::Live, [](DeskState& view, Drawing& d) { drawLive(view, d); }, width, height, text);
}

TEST(LiveView, EveryActionHasItsKey) {
  Frames frames = livePage();
  fixtures::addLive(frames.state);
  fixtures::addArrivals(frames.state);
  frames.frames(2);
  EXPECT_TRUE(only<act::TakeStill>(frames.pressed(Do::TakeStill)));
  EXPECT_TRUE(only<act::BeginAnew>(frames.pressed(Do::BeginAnew)));
  EXPECT_TRUE(only<act::StopCamera>(frames.pressed(Do::StartStop)));
  EXPECT_TRUE(only<act::UnfollowFolder>(frames.pressed(Do::FollowFolder)));
  ASSERT_TRUE(only<act::FileByTags>(frames.pressed(Do::FileByTags)));
  frames.state.followed.by_tags = true;
  EXPECT_FALSE(only<act::FileByTags>(frames.pressed(Do::FileByTags))->on);
  const Actions marks = frames.pressed(Do::UseMarks);
  ASSERT_TRUE(only<act::UseMarks>(marks));
  EXPECT_TRUE(only<act::UseMarks>(marks)->on);
  frames.state.live.by_marks = true;
  const Actions next = frames.pressed(Do::NextCamera);
  ASSERT_TRUE(only<act::StartCamera>(next));
  EXPECT_EQ(only<act::StartCamera>(next)->source, "2");
  EXPECT_TRUE(only<act::StartCamera>(next)->by_marks);
  frames.pressed(Do::NextArrival);
  frames.pressed(Do::NextArrival);
  EXPECT_EQ(frames.view.live.arrival, 1);
  frames.pressed(Do::NextArrival);
  EXPECT_EQ(frames.view.live.arrival, 2);
  EXPECT_TRUE(only<act::OpenPhotos>(frames.pressed(Do::OpenArrival)));
  EXPECT_EQ(frames.view.look.page, Page::Panel);
  frames.pressed(Do::LiveSprayed);
  EXPECT_TRUE(frames.view.sprayed);
  frames.pressed(Do::VapourTold);
  EXPECT_TRUE(frames.view.look.vapour_told);
  for (const auto& [what, asking] : {std::pair{Do::OpenFilm, Asking::Film}, std::pair{Do::StillsFolder, Asking::Stills}}) {
    frames.pressed(what);
    EXPECT_EQ(frames.view.browser.asking, asking);
  }
}

TEST(LiveView, WithoutACameraItSaysWhatToDo) {
  Frames frames = livePage();
  frames.frames(2);
  EXPECT_TRUE(frames.pressed(Do::StartStop).empty());
  EXPECT_TRUE(frames.pressed(Do::TakeStill).empty());
  EXPECT_TRUE(frames.pressed(Do::BeginAnew).empty());
  EXPECT_TRUE(only<act::ListCameras>(frames.pressed(Do::NextCamera)));
  frames.state.live.cameras = {"0"};
  frames.frames(1);
  const Actions start = frames.pressed(Do::StartStop);
  ASSERT_TRUE(only<act::StartCamera>(start));
  EXPECT_EQ(only<act::StartCamera>(start)->source, "0");
  frames.pressed(Do::FollowFolder);
  EXPECT_EQ(frames.view.browser.asking, Asking::Follow);
}

TEST(LiveView, FitsNarrowWindowsAndLargeType) {
  for (const float text : {1.0f, 2.0f, 3.0f})
    for (const float width : {640.0f, 1280.0f})
      for (const bool runs : {false, true}) {
        Frames frames = livePage(text, width, 600);
        if (runs) fixtures::addLive(frames.state);
        fixtures::addArrivals(frames.state);
        frames.frames(2);
        EXPECT_LE(frames.tooWide(), 1.0f) << text << " " << width << " " << runs;
      }
}

TEST(LiveView, PanelAndCardTouchEdgeToEdge) {
  Frames frames = livePage();
  fixtures::addLive(frames.state);
  frames.frames(2);
  EXPECT_GT(fixtures::areaOf(fixtures::kLivePanel), 5000);
  EXPECT_NEAR(fixtures::areaOf(fixtures::kLivePanel), fixtures::areaOf(fixtures::kLiveCard), 0.02 * fixtures::areaOf(fixtures::kLiveCard));
}

/// The whole way in a real sitting, with a made-up camera: start, verdict, still, photo.
TEST(LiveView, AFilmIsStartedAndItsStillIsThePhotoOfThePanelPage) {
  const fixtures::TempDir dir;
  ::setenv("XDG_DATA_HOME", dir.path().c_str(), 1);
  SittingDevices devices;
  devices.camera = fixtures::quickWays({false, {fixtures::matFrames(5)}});
  devices.devices = dir.path();
  std::ofstream(dir.path() / "video0") << "";
  Sitting sitting = Sitting::open({HUEWRIGHT_SOURCE_DIR "/calib", HUEWRIGHT_SOURCE_DIR "/sample-images", {}}, {}, devices).value();
  sitting.apply(act::KeepStills{dir.path() / "stills"});
  fixtures::DeskDriver driver(1280, 720);
  driver.apply = [&](const Action& action) { sitting.apply(action); };
  const auto look = [&] {
    sitting.poll();
    driver.state = sitting.state();
    driver.frame();
  };
  look();
  driver.key(Do::PageLive);
  driver.key(Do::StartStop);
  look();
  EXPECT_TRUE(driver.state.live.running);
  ASSERT_TRUE(fixtures::comes([&] {
    look();
    return !driver.state.live.running;
  }));
  ASSERT_TRUE(driver.state.live.now.judged) << driver.state.live.now.trouble;
  const Swatch& panel = driver.state.live.now.judged->panels[driver.state.live.now.judged->main].swatch;
  EXPECT_GT(fixtures::areaOf(panel.rgb), 1000);
  driver.key(Do::TakeStill);
  sitting.settle();
  look();
  ASSERT_EQ(driver.state.plan.photos.size(), 1u) << driver.state.notice.sentence;
  EXPECT_TRUE(driver.state.judged) << driver.state.judge_trouble;
  driver.key(Do::Undo);
  look();
  EXPECT_TRUE(driver.state.plan.photos.empty());
  ::unsetenv("XDG_DATA_HOME");
}

}  // namespace
}  // namespace huewright::desk
