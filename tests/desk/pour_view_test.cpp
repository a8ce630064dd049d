#include <gtest/gtest.h>

#include "desk_frames.hpp"
#include "teal_job.hpp"

namespace huewright::desk {
namespace {

Frames pourPage() { return Frames(Page::Mixes, [](DeskState& view, Drawing& d) { drawPour(view, d); }); }

TEST(PourView, AsksOnceAndAgainAfterAChange) {
  Frames frames = pourPage();
  frames.state = tealJob();
  frames.frame();
  ASSERT_TRUE(only<act::WorkOutPour>(frames.out));
  EXPECT_TRUE(only<act::WorkOutPour>(frames.out)->request.out.empty());
  for (int i = 0; i < 5; ++i) {
    frames.frame();
    EXPECT_TRUE(frames.out.empty());
  }
  const auto at = frames.find("desk", {0, "##number"});  // the area
  ASSERT_TRUE(at);
  frames.clicked(at->x, at->y);
  const Actions done = frames.typed("0.8");
  ASSERT_TRUE(only<act::WorkOutPour>(done));
  EXPECT_EQ(only<act::WorkOutPour>(done)->request.need.areas[0].m2, 0.8);
  frames.state.plan.series->accepted = tealPanel(1, 2, 3, {});
  frames.frame();
  ASSERT_TRUE(only<act::WorkOutPour>(frames.out)) << "another mix was accepted";
}

TEST(PourView, ANumberOutOfItsRangeIsSaidAndAsksNothing) {
  Frames frames = pourPage();
  frames.state = tealJob();
  frames.frames(2);
  const auto at = frames.find("desk", {1, "##number"});  // the loss
  ASSERT_TRUE(at);
  frames.clicked(at->x, at->y);
  EXPECT_TRUE(frames.typed("96").empty());
  EXPECT_EQ(frames.view.series.trouble, "Loss: a number from 0 to 95.");
}

TEST(PourView, NothingReachesBeyondTheRightEdge) {
  for (const float text : {1.0f, 3.0f})
    for (const bool weighed : {false, true}) {
      Frames frames(Page::Mixes, [](DeskState& view, Drawing& d) { drawPour(view, d); }, 1280, 720, text);
      frames.state = tealJob();
      if (weighed) frames.view.series.cup.strong_density = frames.view.series.cup.weak_density = frames.view.series.cup.carrier_density = 1;
      frames.frame();
      const auto* asked = only<act::WorkOutPour>(frames.out);
      ASSERT_TRUE(asked);
      frames.state.pour.request = asked->request;
      frames.state.pour.report = std::make_shared<PourReport>(*pour(asked->request));
      frames.frames(2);
      EXPECT_LE(frames.tooWide(), 0.5f);
    }
}

TEST(PourView, WithoutAMixItAsksNothing) {
  Frames frames = pourPage();
  frames.state.plan.series = Series{};
  frames.frames(2);
  EXPECT_TRUE(frames.out.empty());
}

}  // namespace
}  // namespace huewright::desk
