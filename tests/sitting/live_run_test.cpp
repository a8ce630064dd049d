#include "sitting/live_run.hpp"

#include <gtest/gtest.h>

#include "live_case.hpp"

namespace huewright {
namespace {

using fixtures::comes;
using fixtures::matFrames;
using fixtures::operator+;

const Session& runSession() {
  static const Session kSession = Session::open(HUEWRIGHT_SOURCE_DIR "/calib").value();
  return kSession;
}

LiveWish runWish() {
  LiveWish wish;
  wish.judge.photo = "0";
  wish.judge.grey_y = 0.19;
  return wish;
}

/// The last that is told, when it is over.
LiveNow toTheEnd(LiveRun& run) {
  LiveNow last;
  EXPECT_TRUE(comes([&] {
    if (auto now = run.take()) last = std::move(*now);
    return last.over;
  }));
  return last;
}

TEST(LiveRun, AFilmsNumbersAreThoseOfTheWatchItself) {
  const auto frames = matFrames(16);
  auto direct = LiveWatch::open(runSession(), runWish().judge, {}, [&] { return fixtures::FakeOpener(false, {frames})("0"); });
  ASSERT_TRUE(direct);
  std::optional<LiveVerdict> wanted;
  while (true) {
    auto event = direct->next({});
    ASSERT_TRUE(event);
    if (!*event) break;
    if ((*event)->verdict) wanted = (*event)->verdict;
  }
  ASSERT_TRUE(wanted && wanted->report) << (wanted && wanted->problem ? sentence(*wanted->problem) : "");

  std::atomic<int> woken = 0;
  LiveRun run(runSession(), runWish(), fixtures::quickWays({false, {frames}}), [&] { ++woken; });
  const LiveNow now = toTheEnd(run);
  ASSERT_TRUE(now.judged) << now.trouble;
  const JudgeReport& report = *now.judged->report;
  ASSERT_EQ(report.verdicts.size(), wanted->report->verdicts.size());
  for (std::size_t i = 0; i < report.verdicts.size(); ++i) {
    EXPECT_EQ(report.verdicts[i].de00, wanted->report->verdicts[i].de00) << i;
    EXPECT_EQ(report.verdicts[i].low, wanted->report->verdicts[i].low) << i;
  }
  EXPECT_EQ(now.frames, wanted->frames);
  EXPECT_EQ(now.noise, wanted->noise);
  EXPECT_EQ(now.regions.panels, wanted->regions.panels);
  EXPECT_EQ(now.state_words, "Steady: 16 frames are averaged.");
  EXPECT_NE(now.noise_words, "");
  EXPECT_EQ(now.held, "A film: there is nothing to hold.");
  ASSERT_TRUE(now.frame && now.picture);
  EXPECT_EQ(now.frame->rgb, std::get<Frame>(frames.back()).rgb);
  EXPECT_EQ(now.picture->size, now.frame->size);
  EXPECT_GT(woken, 0);
}

TEST(LiveRun, AFilmIsShownAsFastAsItWasShot) {
  fixtures::LiveScene scene("on-the-mat.jpg", 400);
  const Frame one{.size = scene.size(), .rgb = scene.frame(), .number = 0, .seconds = 0};
  LiveWays ways = fixtures::quickWays({false, {std::vector<fixtures::FakeStep>(13, one)}});
  ways.film_in_time = true;
  const auto begun = std::chrono::steady_clock::now();
  std::atomic<int> woken = 0;
  LiveRun run(runSession(), runWish(), ways, [&] { ++woken; });
  toTheEnd(run);
  EXPECT_GE(std::chrono::steady_clock::now() - begun, std::chrono::milliseconds(400));  // 13 frames, the last 12/30 s after the first
  EXPECT_LE(woken, 10);
}

TEST(LiveRun, UnpluggedItIsWaitedForAndGoesOn) {
  const auto frames = matFrames(8);
  LiveRun run(runSession(), runWish(), fixtures::quickWays({true, {frames, frames}}), {});
  bool away = false, back = false;
  std::string away_words;
  ASSERT_TRUE(comes([&] {
    if (const auto now = run.take()) {
      if (now->away) away = true, away_words = now->trouble;
      EXPECT_FALSE(now->away && now->judged);
      back = back || (away && !now->away && now->judged);
    }
    return back;
  }));
  EXPECT_NE(away_words.find("is away"), std::string::npos) << away_words;
}

TEST(LiveRun, WhatIsHeldIsSaid) {
  LiveRun run(runSession(), runWish(), fixtures::quickWays({true, {matFrames(8)}}), {});
  std::string held;
  ASSERT_TRUE(comes([&] {
    if (const auto now = run.take(); now && !now->held.empty()) held = now->held;
    return !held.empty();
  }));
  EXPECT_NE(held.find("xposure"), std::string::npos) << held;
  EXPECT_TRUE(held.ends_with('.'));
}

TEST(LiveRun, ItStopsAtOnceWhileACameraIsWaitedFor) {
  LiveWays ways = fixtures::quickWays({true, {matFrames(2)}});
  ways.times.again = std::chrono::hours(1);
  LiveRun run(runSession(), runWish(), ways, {});
  ASSERT_TRUE(comes([&] {
    const auto now = run.take();
    return now && now->away;
  }));
  const auto begun = std::chrono::steady_clock::now();
  run.stop();
  EXPECT_TRUE(toTheEnd(run).over);
  EXPECT_LT(std::chrono::steady_clock::now() - begun, std::chrono::seconds(5));
}

TEST(LiveRun, AnotherRunWaitsForTheFirstToLetTheCameraGo) {
  LiveWays ways = fixtures::quickWays({true, {matFrames(2)}});
  ways.times.again = std::chrono::hours(1);
  auto first = std::make_unique<LiveRun>(runSession(), runWish(), ways, nullptr);
  ASSERT_TRUE(comes([&] {
    const auto now = first->take();
    return now && now->away;
  }));
  LiveRun second(runSession(), runWish(), fixtures::quickWays({false, {matFrames(3)}}), {}, std::move(first));
  EXPECT_TRUE(toTheEnd(second).judged);
}

TEST(LiveRun, MarksCountWhereTheFramesHaveTheirSize) {
  const auto frames = matFrames(4);
  const Size size = std::get<Frame>(frames.front()).size;
  LiveRun finder(runSession(), runWish(), fixtures::quickWays({false, {frames}}), {});
  const LiveNow found = toTheEnd(finder);
  ASSERT_TRUE(found.judged);
  EXPECT_FALSE(found.by_marks);

  LiveWish wish = runWish();
  wish.by_marks = true;
  Regions marks = found.judged->report->regions;
  marks.panels.resize(1);
  wish.marks = LiveMarks{marks, size};
  LiveRun run(runSession(), wish, fixtures::quickWays({false, {frames}}), {});
  const LiveNow now = toTheEnd(run);
  ASSERT_TRUE(now.judged) << now.trouble;
  EXPECT_TRUE(now.by_marks);
  EXPECT_EQ(now.judged->panels.size(), 1u);

  wish.marks->size.width += 1;
  LiveRun other(runSession(), wish, fixtures::quickWays({false, {frames}}), {});
  const LiveNow by_mat = toTheEnd(other);
  ASSERT_TRUE(by_mat.judged);
  EXPECT_EQ(by_mat.judged->panels.size(), 3u);
  EXPECT_FALSE(by_mat.by_marks);
}

/// What is shown at the end when, after a verdict on the first four frames, four more are to be judged by other choices.
template <class Change>
LiveNow judgedByAnother(const Change& change) {
  auto go = std::make_shared<std::atomic<bool>>(false);
  auto frames = matFrames(4);
  frames.push_back(fixtures::waitFor(go));
  LiveRun run(runSession(), runWish(), fixtures::quickWays({false, {frames + matFrames(4, 700, 9)}}), {});
  EXPECT_TRUE(comes([&] {
    const auto now = run.take();
    return now && now->judged;
  }));
  LiveWish other = runWish();
  change(other.judge);
  run.judgeBy(other);
  *go = true;
  return toTheEnd(run);
}

TEST(LiveRun, ChoicesThatChangeBeginAnew) {
  const LiveNow now = judgedByAnother([](JudgeRequest& judge) { judge.tolerance = 3; });
  ASSERT_TRUE(now.judged) << now.trouble;
  EXPECT_EQ(now.judged->panels[0].line.substr(now.judged->panels[0].line.size() - 3), "3.0");
  EXPECT_LE(now.frames, 5);
}

TEST(LiveRun, ChoicesThatCannotBeJudgedByAreSaidAndTheCameraGoesOn) {
  const LiveNow now = judgedByAnother([](JudgeRequest& judge) { judge.grey_y = 7; });
  EXPECT_FALSE(now.judged);
  EXPECT_NE(now.trouble, "");
  EXPECT_EQ(now.frame->number, 7u);
}

TEST(LiveRun, ACameraThatIsNotThereIsSaid) {
  LiveRun run(runSession(), runWish(), fixtures::quickWays({true, {}}), {});
  const LiveNow now = toTheEnd(run);
  EXPECT_NE(now.trouble.find("There is no camera"), std::string::npos) << now.trouble;
  EXPECT_EQ(now.state_words, "");
}

}  // namespace
}  // namespace huewright
