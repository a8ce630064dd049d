#include "session/live_judge.hpp"

#include <cmath>
#include <gtest/gtest.h>

#include "colour/delta_e.hpp"
#include "photo/write.hpp"
#include "session/tagged_photo.hpp"
#include "support/live_case.hpp"
#include "support/live_frames.hpp"
#include "support/temp_dir.hpp"

namespace huewright {
namespace {

using fixtures::liveRequest;
using fixtures::LiveScene;
using fixtures::liveSession;

LiveJudge live(JudgeRequest request = liveRequest()) { return LiveJudge::begin(liveSession(), std::move(request)).value(); }

double de00(const LiveVerdict& verdict) { return verdict.report->verdicts.front().de00; }

TEST(LiveJudge, LooksThenAveragesAndTheNoiseFalls) {
  LiveScene scene("on-the-mat.jpg", 900);
  LiveJudge judge = live();
  EXPECT_EQ(judge.take(scene.frame(), scene.size()), LiveState::Looking);
  const LiveVerdict first = judge.judge();
  ASSERT_TRUE(first.report) << sentence(*first.problem);
  EXPECT_EQ(first.state, LiveState::Steady);
  EXPECT_EQ(first.frames, 1);
  EXPECT_FALSE(first.noise);
  LiveVerdict later;
  for (int i = 0; i < 15; ++i) {
    EXPECT_EQ(judge.take(scene.frame(), scene.size()), LiveState::Steady) << i;
    later = judge.judge();
    EXPECT_EQ(later.noise.has_value(), i >= 3) << i;
  }
  EXPECT_EQ(later.frames, 16);
  ASSERT_TRUE(later.noise && later.frame_noise);
  EXPECT_GT(*later.frame_noise, 0.001);
  EXPECT_NEAR(*later.noise / *later.frame_noise, 0.25, 0.05);
  EXPECT_EQ(later.report->photo.path, liveRequest().photo);
}

TEST(LiveJudge, ASmallShakeIsFollowedAndTheVerdictStays) {
  LiveScene scene("on-the-mat.jpg");
  LiveJudge still = live(), shaken = live();
  std::mt19937 random(5);
  std::uniform_real_distribution<double> shake(-0.4, 0.4);
  double x = 0, y = 0;
  for (int i = 0; i < 24; ++i) {
    still.take(scene.frame(), scene.size());
    if (i == 0) still.judge(), shaken.take(scene.frame(), scene.size()), shaken.judge();
    x += shake(random), y += shake(random);
    EXPECT_EQ(shaken.take(scene.frame(2, x, y), scene.size()), LiveState::Steady) << i;
  }
  const LiveVerdict a = still.judge(), b = shaken.judge();
  ASSERT_TRUE(a.report && b.report);
  EXPECT_NEAR(de00(a), de00(b), 0.1);
  EXPECT_NEAR(b.regions.panels.front().corners[0].x - a.regions.panels.front().corners[0].x, x, 0.5);
}

TEST(LiveJudge, AFrameThatMovesIsLeftOutAndAfterwardsTheMatIsFoundAnew) {
  LiveScene scene("on-the-mat.jpg");
  LiveJudge judge = live();
  judge.take(scene.frame(), scene.size());
  const LiveVerdict before = judge.judge();
  for (int i = 1; i <= 6; ++i) EXPECT_EQ(judge.take(scene.frame(2, 10.0 * i, 4.0 * i), scene.size()), LiveState::Moving) << i;
  EXPECT_EQ(judge.judge().state, LiveState::Moving);
  LiveState state{};
  for (int i = 0; i < 8; ++i) state = judge.take(scene.frame(2, 60, 24), scene.size());
  EXPECT_NE(state, LiveState::Moving);
  const LiveVerdict after = judge.judge();
  ASSERT_TRUE(after.report);
  EXPECT_NEAR(after.regions.panels.front().corners[0].x - before.regions.panels.front().corners[0].x, 60, 2);
  EXPECT_NEAR(de00(after), de00(before), 0.1);
}

/// With places by hand, where the mat was found.
LiveJudge byHand(LiveScene& scene) {
  LiveJudge finder = live();
  finder.take(scene.frame(), scene.size());
  JudgeRequest request = liveRequest();
  request.regions = finder.judge().report->regions;
  return live(request);
}

TEST(LiveJudge, PlacesGivenByHandAreCarriedAlong) {
  LiveScene scene("on-the-mat.jpg", 900);
  LiveJudge judge = byHand(scene);
  judge.take(scene.frame(), scene.size());
  const LiveVerdict before = judge.judge();
  ASSERT_TRUE(before.report) << sentence(*before.problem);
  for (int i = 1; i <= 10; ++i) judge.take(scene.frame(2, 0.5 * i, 0, 0.1 * i), scene.size());
  for (int i = 0; i < 4; ++i) judge.take(scene.frame(2, 5, 0, 1), scene.size());
  const LiveVerdict after = judge.judge();
  ASSERT_TRUE(after.report) << sentence(*after.problem);
  EXPECT_NEAR(de00(after), de00(before), 0.15);
  const Point corner = before.regions.panels.front().corners[0];
  const double x = corner.x - 0.5 * scene.size().width, y = corner.y - 0.5 * scene.size().height, turn = 0.017453292519943295;
  const Point now = after.regions.panels.front().corners[0];
  EXPECT_NEAR(now.x, corner.x + 5 - turn * y, 1.5);
  EXPECT_NEAR(now.y, corner.y + turn * x, 1.5);
}

/// With the scene before the camera again there is the same verdict as before.
void expectBack(LiveJudge& judge, LiveScene& scene, const LiveVerdict& before) {
  for (int i = 0; i < 3; ++i) judge.take(scene.frame(), scene.size());
  const LiveVerdict back = judge.judge();
  ASSERT_TRUE(back.report) << sentence(*back.problem);
  EXPECT_NEAR(de00(back), de00(before), 0.05);
}

TEST(LiveJudge, PlacesGivenByHandAreNotTakenForThoseOfAnotherScene) {
  LiveScene scene("on-the-mat.jpg", 900);
  LiveJudge judge = byHand(scene);
  judge.take(scene.frame(), scene.size());
  const LiveVerdict before = judge.judge();
  ASSERT_TRUE(before.report);
  std::vector<std::uint8_t> elsewhere(scene.codes().rbegin(), scene.codes().rend());
  for (int i = 0; i < 8; ++i) EXPECT_EQ(judge.take(elsewhere, scene.size()), LiveState::Moving);
  const LiveVerdict lost = judge.judge();
  EXPECT_FALSE(lost.report);
  EXPECT_EQ(lost.problem->code, Code::PlacesLost);
  expectBack(judge, scene, before);
}

// A camera that was plugged in again may give pictures of another size, in which the places are others.
TEST(LiveJudge, PlacesGivenByHandHoldForPicturesOfTheirSizeOnly) {
  LiveScene scene("on-the-mat.jpg", 900), smaller("on-the-mat.jpg", 600);
  LiveJudge judge = byHand(scene);
  judge.take(scene.frame(), scene.size());
  const LiveVerdict before = judge.judge();
  ASSERT_TRUE(before.report);
  for (int i = 0; i < 2; ++i) EXPECT_EQ(judge.take(smaller.frame(), smaller.size()), LiveState::Moving);
  const LiveVerdict other = judge.judge();
  EXPECT_FALSE(other.report);
  EXPECT_EQ(other.problem->code, Code::PlacesLost);
  expectBack(judge, scene, before);
}

// Each time the camera comes to rest elsewhere the places are handed on; that must not add up.
TEST(LiveJudge, PlacesGivenByHandDoNotDriftHoweverOftenTheCameraIsMoved) {
  LiveScene scene("on-the-mat.jpg", 700);
  LiveJudge judge = byHand(scene);
  judge.take(scene.frame(), scene.size());
  const LiveVerdict before = judge.judge();
  ASSERT_TRUE(before.report);
  for (int turn = 0; turn < 12; ++turn) {
    for (int i = 0; i < 3; ++i) judge.take(scene.frame(2, 5, 3, 0.5), scene.size());
    for (int i = 0; i < 3; ++i) judge.take(scene.frame(), scene.size());
  }
  const LiveVerdict after = judge.judge();
  ASSERT_TRUE(after.report) << sentence(*after.problem);
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(after.regions.panels[0].corners[i].x, before.regions.panels[0].corners[i].x, 0.25);
    EXPECT_NEAR(after.regions.panels[0].corners[i].y, before.regions.panels[0].corners[i].y, 0.25);
  }
}

TEST(LiveJudge, BegunAnewPlacesGivenByHandStayOnTheirThings) {
  LiveScene scene("on-the-mat.jpg", 900);
  LiveJudge judge = byHand(scene);
  judge.take(scene.frame(), scene.size());
  const LiveVerdict before = judge.judge();
  for (int i = 1; i <= 12; ++i) judge.take(scene.frame(2, 0.5 * i), scene.size());
  judge.beginAnew();
  EXPECT_EQ(judge.judge().problem->code, Code::LiveMoving);
  for (int i = 0; i < 3; ++i) judge.take(scene.frame(2, 6), scene.size());
  const LiveVerdict after = judge.judge();
  ASSERT_TRUE(after.report) << sentence(*after.problem);
  EXPECT_EQ(after.frames, 3);
  EXPECT_NEAR(after.regions.panels[0].corners[0].x - before.regions.panels[0].corners[0].x, 6, 0.3);
  EXPECT_NEAR(de00(after), de00(before), 0.05);
}

TEST(LiveJudge, ATagThatIsLaidDownLaterIsRead) {
  const fixtures::TempDir folder;
  const auto seen = [&](const std::vector<TagText>& tags) {
    auto photo = Photo::open(fixtures::shootTagged(folder.path() / "p.png", tags));
    auto preview = photo.value().preview(900);
    return LiveScene(preview->size, std::move(preview->rgb), 3);
  };
  LiveScene bare = seen({}), tagged = seen({{"frame 1", TagParts{1, 4}, 3, 5}, {"frame 2", TagParts{1, 3}, 4, 5}});
  LiveJudge judge = live();
  judge.take(bare.frame(), bare.size());
  const LiveVerdict before = judge.judge();
  ASSERT_TRUE(before.report) << sentence(*before.problem);
  EXPECT_TRUE(before.report->tags.empty());
  for (int i = 0; i < 4; ++i) judge.take(bare.frame(), bare.size());
  judge.judge();
  for (int i = 0; i < 2; ++i) judge.take(bare.frame(2, 40), bare.size());  // a hand, say, that knocks the camera
  for (int i = 0; i < 12; ++i) judge.take(tagged.frame(), tagged.size());
  const LiveVerdict after = judge.judge();
  ASSERT_TRUE(after.report) << sentence(*after.problem);
  EXPECT_EQ(after.state, LiveState::Steady);
  EXPECT_EQ(after.frames, 15);  // the two after the knock are left out; it is the same average, and not four times as many as when tags were looked for
  ASSERT_EQ(after.report->tags.size(), 2U);
  EXPECT_EQ(after.report->coats[0], 3);
  EXPECT_EQ(after.report->mixes[1]->weak, 3);
}

TEST(LiveJudge, AnotherLightBeginsTheAverageAnew) {
  LiveScene scene("on-the-mat.jpg", 900);
  LiveJudge judge = live();
  judge.take(scene.frame(), scene.size());
  const LiveVerdict before = judge.judge();
  for (int i = 0; i < 10; ++i) judge.take(scene.frame(), scene.size());
  for (int i = 0; i < 6; ++i) judge.take(scene.frame(2, 0, 0, 0, 0.8), scene.size());
  const LiveVerdict after = judge.judge();
  ASSERT_TRUE(after.report);
  EXPECT_LE(after.frames, 4);
  EXPECT_NEAR(de00(after), de00(before), 0.3);  // the grey takes the light out
}

TEST(LiveJudge, AHandBeforeTheCameraIsNotAveraged) {
  LiveScene scene("on-the-mat.jpg", 900);
  LiveJudge judge = live();
  judge.take(scene.frame(), scene.size());
  const LiveVerdict before = judge.judge();
  for (int i = 0; i < 8; ++i) judge.take(scene.frame(), scene.size());
  auto covered = scene.frame();
  const Rect panel = boundingBox(before.regions.panels.front());
  for (int y = panel.y; y < panel.y + panel.height / 2; ++y)
    for (int x = panel.x; x < panel.x + panel.width; ++x)
      for (std::size_t k = 0; k < 3; ++k) covered[3 * static_cast<std::size_t>(y * scene.size().width + x) + k] = k == 0 ? 190 : 130;
  EXPECT_EQ(judge.take(covered, scene.size()), LiveState::Moving);
  EXPECT_EQ(judge.take(scene.frame(), scene.size()), LiveState::Steady);
  EXPECT_NEAR(de00(judge.judge()), de00(before), 0.05);
}

TEST(LiveJudge, LiveAndStillAgree) {
  LiveScene scene("on-the-mat.jpg", 900);
  LiveJudge judge = live();
  for (int i = 0; i < 16; ++i) {
    judge.take(scene.frame(), scene.size());
    if (i == 0) judge.judge();
  }
  const fixtures::TempDir folder;
  JudgeRequest request = liveRequest();
  request.photo = folder.path() / "still.png";
  ASSERT_TRUE(writeStill(request.photo, scene.size(), scene.frame()));
  const auto still = liveSession().judge(request);
  ASSERT_TRUE(still) << sentence(still.error());
  const LiveVerdict verdict = judge.judge();
  EXPECT_NEAR(de00(verdict), still->verdicts.front().de00, 0.1);
  EXPECT_EQ(trustCodeName(verdict.report->trust.reasons.front().code), "live-frame");
  EXPECT_EQ(trustCodeName(still->trust.reasons.front().code), "live-frame");
  EXPECT_EQ(still->trust.reasons.size(), verdict.report->trust.reasons.size());
}

TEST(LiveJudge, AChartInThePictureIsUsed) {
  LiveScene scene("with-chart.jpg");
  JudgeRequest request = liveRequest();
  request.regions.panels = {toQuad({78, 115, 265, 378})};  // as README.md has them
  request.regions.card = toQuad({425, 130, 194, 193});
  request.regions.greys = {toQuad({451, 438, 138, 75})};
  LiveJudge judge = live(request);
  LiveVerdict verdict;
  std::vector<double> seen;
  for (int i = 0; i < 6; ++i) {  // at the fourth frame the chart is read anew
    judge.take(scene.frame(), scene.size());
    verdict = judge.judge();
    ASSERT_TRUE(verdict.report) << sentence(*verdict.problem);
    EXPECT_TRUE(verdict.report->chart);
    EXPECT_EQ(verdict.report->reading.profile, ProfileKind::Chart);
    seen.push_back(de00(verdict));
  }
  const fixtures::TempDir folder;
  request.photo = folder.path() / "still.png";
  ASSERT_TRUE(writeStill(request.photo, scene.size(), scene.frame()));
  const auto still = liveSession().judge(request);
  ASSERT_TRUE(still) << sentence(still.error());
  for (const double d : seen) EXPECT_NEAR(d, still->verdicts.front().de00, 0.1);
}

TEST(LiveJudge, HowFramesAreCompressedIsPartOfTheInterval) {
  LiveScene scene("on-the-mat.jpg", 900);
  LiveJudge plain = live(), compressed = live();
  const auto frame = scene.frame(0);
  plain.take(frame, scene.size());
  compressed.take(frame, scene.size(), {Vec3{2, 2.125, 2.125}, true});  // about quality 50
  const LiveVerdict a = plain.judge(), b = compressed.judge();
  ASSERT_TRUE(a.report && b.report);
  const auto part = [](const LiveVerdict& v) { return v.report->verdicts.front().budget[static_cast<std::size_t>(Part::Rounding)]; };
  EXPECT_EQ(part(a), 0);
  EXPECT_GT(part(b), 0.02);
  EXPECT_LT(part(b), 1);
}

TEST(LiveJudge, WithoutAMatItSaysSoAndLooksAgain) {
  LiveScene scene("on-the-mat.jpg", 900);
  LiveJudge judge = live();
  const std::vector<std::uint8_t> nothing(scene.codes().size(), 120);
  EXPECT_EQ(judge.take(nothing, scene.size()), LiveState::Looking);
  const LiveVerdict none = judge.judge();
  EXPECT_FALSE(none.report);
  ASSERT_TRUE(none.problem);
  EXPECT_EQ(codeName(none.problem->code), codeName(Code::MatNotFound));
  EXPECT_EQ(judge.take(scene.frame(), scene.size()), LiveState::Looking);
  EXPECT_TRUE(judge.judge().report);
}

TEST(LiveJudge, WhatNeedsASecondPhotoIsRefused) {
  JudgeRequest request = liveRequest();
  request.swapped = "b.jpg";
  EXPECT_EQ(LiveJudge::begin(liveSession(), request).error().code, Code::BadChoice);
  request = liveRequest();
  request.repeats = {"b.jpg"};
  EXPECT_EQ(LiveJudge::begin(liveSession(), request).error().code, Code::BadChoice);
  request = liveRequest();
  request.grey_y = 7;
  EXPECT_EQ(LiveJudge::begin(liveSession(), request).error().code, Code::BadNumber);
}

}  // namespace
}  // namespace huewright
