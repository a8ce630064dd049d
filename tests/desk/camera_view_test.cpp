#include <gtest/gtest.h>

#include "desk_frames.hpp"

namespace huewright::desk {
namespace {

/// Two chart photos and a usable profile.
SittingState taught() {
  SittingState state;
  state.plan.chart_photos = {"one.jpg", "two.jpg"};
  state.camera.photos.resize(2);
  state.camera.health = Health::Usable;
  state.camera.sentences = {"The profile is usable.", "Two patches are burnt out: photograph the chart a little darker."};
  state.camera.cautions = {"A caution that is rather long, so that it must be broken into several lines at any width."};
  return state;
}

Frames cameraPage(float text = 1) { return Frames(Page::Camera, [](DeskState& view, Drawing& d) { drawCamera(view, d); }, 1280, 720, text); }

TEST(CameraView, EveryActionHasItsKey) {
  for (const auto& [what, want] : {std::pair{Do::AddChart, Asking::Chart}, std::pair{Do::SaveProfile, Asking::SaveProfile}, std::pair{Do::UseProfile, Asking::Profile}}) {
    Frames frames = cameraPage();
    frames.state = taught();
    frames.frames(2);
    EXPECT_TRUE(only<act::ListFolder>(frames.pressed(what)));
    EXPECT_EQ(frames.view.browser.asking, want);
  }
  Frames frames = cameraPage();
  frames.state = taught();
  frames.frames(2);
  frames.pressed(Do::NextChart);
  EXPECT_EQ(frames.view.camera.photo, 1);
  const Actions done = frames.pressed(Do::RemoveChart);
  ASSERT_TRUE(only<act::DropChartPhoto>(done));
  EXPECT_EQ(only<act::DropChartPhoto>(done)->index, 1U);
  frames.pressed(Do::NextChart);
  EXPECT_EQ(frames.view.camera.photo, 0);
}

TEST(CameraView, AProfileThatIsNotUsableIsNotKept) {
  Frames frames = cameraPage();
  frames.state = taught();
  frames.state.camera.health = Health::NotUsable;
  frames.frames(2);
  EXPECT_TRUE(frames.pressed(Do::SaveProfile).empty());
  EXPECT_EQ(frames.view.browser.asking, Asking::Nothing);
}

TEST(CameraView, AProfileInUseIsLetGoByTheSameKey) {
  Frames frames = cameraPage();
  frames.state.plan.choices.profile = "camera.json";
  frames.frames(2);
  const Actions done = frames.pressed(Do::UseProfile);
  ASSERT_TRUE(only<act::UseProfile>(done));
  EXPECT_FALSE(only<act::UseProfile>(done)->file);
}

TEST(CameraView, ThePhotoThatIsShownIsOneThatIsThere) {
  Frames frames = cameraPage();
  frames.state = taught();
  frames.view.camera.photo = 1;
  frames.state.plan.chart_photos.pop_back();
  frames.frame();
  EXPECT_EQ(frames.view.camera.photo, 0);
}

TEST(CameraView, NothingReachesBeyondTheRightEdge) {
  for (const float text : {1.0f, 2.0f, 3.0f})
    for (const bool charts : {false, true}) {
      SCOPED_TRACE(testing::Message() << charts << " at " << text);
      Frames frames = cameraPage(text);
      if (charts) frames.state = taught();
      frames.frames(3);
      EXPECT_LE(frames.tooWide(), 0.5f);
    }
}

}  // namespace
}  // namespace huewright::desk
