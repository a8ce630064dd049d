#include "session/live_watch.hpp"

#include <gtest/gtest.h>

#include "support/fake_camera.hpp"
#include "support/live_case.hpp"
#include "support/live_frames.hpp"
#include "support/temp_dir.hpp"

namespace huewright {
namespace {

using fixtures::FakeCamera;
using fixtures::FakeStep;
using fixtures::liveRequest;
using fixtures::LiveScene;
using fixtures::liveSession;
using std::chrono::milliseconds;

std::vector<FakeStep> sceneSteps(LiveScene& scene, int frames, double dx = 0) {
  std::vector<FakeStep> steps;
  for (int i = 0; i < frames; ++i) steps.emplace_back(Frame{.size = scene.size(), .rgb = scene.frame(2, dx)});
  return steps;
}

CameraFacts factsOf(const LiveScene& scene, bool live) { return {.name = "fake", .size = scene.size(), .rate = 30, .compressed = false, .live = live}; }

/// All that is told until the end.
std::vector<LiveEvent> eventsOf(LiveWatch& watch, std::size_t most = 100) {
  std::vector<LiveEvent> events;
  while (events.size() < most) {
    auto event = watch.next({});
    if (!event) {
      ADD_FAILURE() << sentence(event.error());
      break;
    }
    if (!*event) break;
    events.push_back(std::move(**event));
  }
  return events;
}

CameraFeed::Open once(FakeCamera camera) {
  auto held = std::make_shared<std::unique_ptr<Camera>>(std::make_unique<FakeCamera>(std::move(camera)));
  return [held]() -> Result<std::unique_ptr<Camera>> {
    if (!*held) return fail(Code::CameraUnusable, "It is gone");
    return std::move(*held);
  };
}

TEST(LiveWatch, JudgesEveryThirdFrameOfThirtyASecondAndTheLast) {
  LiveScene scene("on-the-mat.jpg", 700);
  auto watch = LiveWatch::open(liveSession(), liveRequest(), {}, once(FakeCamera(factsOf(scene, false), sceneSteps(scene, 12))));
  ASSERT_TRUE(watch) << sentence(watch.error());
  int seen = 0;
  watch->onFrame([&](const Frame& frame) { seen += frame.size == scene.size(); });
  const auto events = eventsOf(*watch);
  std::vector<double> frames;
  for (const LiveEvent& event : events) {
    if (event.news) {
      EXPECT_EQ(event.news->kind, FeedNews::Kind::End);
      continue;
    }
    ASSERT_TRUE(event.verdict->report) << sentence(*event.verdict->problem);
    frames.push_back(event.verdict->frames);
  }
  EXPECT_EQ(frames, (std::vector<double>{1, 4, 7, 10, 12}));
  EXPECT_EQ(seen, 12);
  EXPECT_EQ(watch->lastFrame()->number, 11U);
}

TEST(LiveWatch, OtherChoicesHoldFromTheNextFrameOn) {
  LiveScene scene("on-the-mat.jpg", 700);
  auto watch = LiveWatch::open(liveSession(), liveRequest(), {}, once(FakeCamera(factsOf(scene, false), sceneSteps(scene, 8))));
  ASSERT_TRUE(watch) << sentence(watch.error());
  const auto first = watch->next({});
  ASSERT_TRUE(first && *first && (*first)->verdict->report);
  JudgeRequest other = liveRequest();
  other.grey_y = 7;
  EXPECT_EQ(watch->judgeBy(liveSession(), other).error().code, Code::BadNumber);
  EXPECT_EQ((*watch->next({}))->verdict->frames, 4);  // nothing has changed
  other = liveRequest();
  other.tolerance = 3;
  ASSERT_TRUE(watch->judgeBy(liveSession(), other));
  const auto events = eventsOf(*watch);
  ASSERT_FALSE(events.empty() || !events.back().verdict);
  EXPECT_EQ(events.back().verdict->frames, 4);
  EXPECT_EQ(events.back().verdict->report->verdicts.front().tolerance, 3);
}

TEST(LiveWatch, BegunAnewAtTheEndOfAFilmThereIsNothingLeftToJudge) {
  LiveScene scene("on-the-mat.jpg", 400);
  auto watch = LiveWatch::open(liveSession(), liveRequest(), {}, once(FakeCamera(factsOf(scene, false), sceneSteps(scene, 2))));
  ASSERT_TRUE(watch) << sentence(watch.error());
  ASSERT_TRUE((*watch->next({}))->verdict);
  const auto end = watch->next({});
  ASSERT_TRUE(end && *end && (*end)->news);
  watch->beginAnew();
  const auto none = watch->next({});
  ASSERT_TRUE(none);
  EXPECT_FALSE(*none);
}

TEST(LiveWatch, ACameraThatComesBackIsLookedAtAnew) {
  LiveScene scene("on-the-mat.jpg", 700);
  int opened = 0;
  const auto open = [&]() -> Result<std::unique_ptr<Camera>> {
    ++opened;
    if (opened == 2) return fail(Code::CameraUnusable, "It is away");
    if (opened > 3) return fail(Code::CameraUnusable, "It is gone for good");
    return std::make_unique<FakeCamera>(factsOf(scene, true), sceneSteps(scene, 5, opened == 1 ? 0 : 40));
  };
  auto watch = LiveWatch::open(liveSession(), liveRequest(), {0}, open, {milliseconds(1), 100, 1000});
  ASSERT_TRUE(watch);
  std::vector<FeedNews::Kind> news;
  std::vector<double> frames;
  std::vector<double> lefts;
  for (int i = 0; i < 13; ++i) {
    const auto event = watch->next({});
    ASSERT_TRUE(event && *event);
    if ((*event)->news) news.push_back((*event)->news->kind);
    else if ((*event)->verdict->report) frames.push_back((*event)->verdict->frames), lefts.push_back((*event)->verdict->regions.panels[0].corners[0].x);
    if (news.size() == 3) break;
  }
  EXPECT_EQ(news, (std::vector{FeedNews::Kind::Away, FeedNews::Kind::Back, FeedNews::Kind::Away}));
  EXPECT_EQ(frames, (std::vector<double>{1, 2, 3, 4, 5, 1, 2, 3, 4, 5}));
  EXPECT_NEAR(lefts.back() - lefts.front(), 40, 2);
}

TEST(LiveWatch, AStopEndsIt) {
  LiveScene scene("on-the-mat.jpg", 700);
  std::stop_source stop;
  std::vector<FakeStep> steps = sceneSteps(scene, 1);
  steps.emplace_back(std::function<void()>([&] { stop.request_stop(); }));
  auto watch = LiveWatch::open(liveSession(), liveRequest(), {}, once(FakeCamera(factsOf(scene, true), steps)));
  ASSERT_TRUE(watch);
  ASSERT_TRUE(watch->next(stop.get_token())->has_value());
  EXPECT_FALSE(watch->next(stop.get_token())->has_value());
}

TEST(LiveWatch, WhatCannotBeOpenedIsSaid) {
  const auto none = [] -> Result<std::unique_ptr<Camera>> { return fail(Code::CameraUnusable, "There is no camera"); };
  EXPECT_EQ(LiveWatch::open(liveSession(), liveRequest(), {}, none).error().code, Code::CameraUnusable);
  JudgeRequest request = liveRequest();
  request.swapped = "b.jpg";
  bool opened = false;
  const auto open = [&] -> Result<std::unique_ptr<Camera>> { return opened = true, fail(Code::CameraUnusable, ""); };
  EXPECT_EQ(LiveWatch::open(liveSession(), request, {}, open).error().code, Code::BadChoice);
  EXPECT_FALSE(opened);
}

TEST(TakeStill, TakesTheNextNumberAndReplacesNothing) {
  const fixtures::TempDir folder;
  const Frame frame{.size = {2, 1}, .rgb = {1, 2, 3, 4, 5, 6}};
  EXPECT_EQ(takeStill(frame, folder.path()).value().filename(), "still-001.png");
  EXPECT_EQ(takeStill(frame, folder.path()).value().filename(), "still-002.png");
  EXPECT_TRUE(Photo::open(folder.path() / "still-001.png")->traces().live);
  EXPECT_EQ(takeStill(frame, folder.path() / "none").error().code, Code::WriteFailed);
}

}  // namespace
}  // namespace huewright
