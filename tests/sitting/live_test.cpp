#include <gtest/gtest.h>

#include "live_case.hpp"
#include "photo/photo.hpp"
#include "temp_dir.hpp"

namespace huewright {
namespace {

using fixtures::comes;
using fixtures::matFrames;
using fixtures::operator+;

class SittingLive : public fixtures::SittingCase {
 protected:
  Sitting openWith(fixtures::FakeOpener opener, const std::filesystem::path& memory = {}) {
    SittingDevices devices;
    devices.camera = fixtures::quickWays(std::move(opener));
    devices.devices = dir.path() / "no-devices";
    auto sitting = Sitting::open({HUEWRIGHT_SOURCE_DIR "/calib", HUEWRIGHT_SOURCE_DIR "/sample-images", memory}, {}, devices);
    if (!sitting) throw std::runtime_error(sentence(sitting.error()));
    sitting->settle();
    apply(*sitting, act::KeepStills{dir.path() / "stills"});
    return std::move(*sitting);
  }
  static bool polled(Sitting& sitting, const std::function<bool(const SittingState&)>& so) {
    return comes([&] {
      sitting.poll();
      return so(sitting.state());
    });
  }
  static bool toTheEnd(Sitting& sitting) {
    return polled(sitting, [](const SittingState& s) { return !s.live.running; });
  }

  fixtures::TempDir dir;
};

TEST_F(SittingLive, AFilmGivesAVerdictAndItsStillIsThePhotoThatIsJudged) {
  Sitting sitting = openWith({false, {matFrames(8, 1000)}});
  Choices choices = sprayed(sitting);
  choices.grey_y = 0.19;
  apply(sitting, act::SetChoices{choices, false});
  sitting.apply(act::StartCamera{"7"});
  EXPECT_TRUE(sitting.state().live.running);
  ASSERT_TRUE(toTheEnd(sitting));
  const LiveNow now = sitting.state().live.now;
  ASSERT_TRUE(now.judged) << now.trouble;
  EXPECT_EQ(now.judged->panels.size(), 3u);

  apply(sitting, act::TakeStill{});
  const SittingState& s = sitting.state();
  ASSERT_EQ(s.plan.photos.size(), 1u) << s.notice.sentence;
  EXPECT_EQ(s.plan.photos[0].file, dir.path() / "stills/still-001.png");
  EXPECT_EQ(s.photos[0].size, now.frame->size);
  auto still = Photo::open(s.plan.photos[0].file);
  ASSERT_TRUE(still);
  EXPECT_EQ(still->preview(4000)->rgb, now.frame->rgb);
  ASSERT_TRUE(s.judged) << s.judge_trouble;
  EXPECT_NEAR(s.judged->panels[0].de00, now.judged->panels[0].de00, 0.1);
  EXPECT_EQ(s.plan.choices.mixes.size(), 3u);  // what was told of the panel holds for its still
  apply(sitting, act::AddToSeries{});
  EXPECT_EQ(sitting.state().plan.series->panels.size(), 3u);
  apply(sitting, act::Undo{});
  apply(sitting, act::Undo{});
  EXPECT_TRUE(sitting.state().plan.photos.empty());
  apply(sitting, act::TakeStill{});
  EXPECT_EQ(sitting.state().plan.photos.at(0).file, dir.path() / "stills/still-002.png");
}

TEST_F(SittingLive, UnpluggedItIsSaidAndItComesBack) {
  Sitting sitting = openWith({true, {matFrames(4), matFrames(4)}});
  sitting.apply(act::StartCamera{"0"});
  ASSERT_TRUE(polled(sitting, [](const SittingState& s) { return s.live.now.away; }));
  EXPECT_TRUE(sitting.state().live.running);
  ASSERT_TRUE(polled(sitting, [](const SittingState& s) { return !s.live.now.away && s.live.now.judged; }));
  sitting.apply(act::StopCamera{});
  EXPECT_FALSE(sitting.state().live.running);
  EXPECT_TRUE(sitting.state().live.now.picture);  // a still can be made of the last one
}

TEST_F(SittingLive, StoppingWhileACameraIsWaitedForReturnsAndSoDoesClosing) {
  const auto begun = std::chrono::steady_clock::now();
  {
    SittingDevices devices;
    devices.camera = fixtures::quickWays({true, {matFrames(2), matFrames(2)}});
    devices.camera.times.again = std::chrono::hours(1);
    Sitting sitting = Sitting::open({HUEWRIGHT_SOURCE_DIR "/calib", HUEWRIGHT_SOURCE_DIR "/sample-images", {}}, {}, devices).value();
    sitting.apply(act::StartCamera{"0"});
    ASSERT_TRUE(polled(sitting, [](const SittingState& s) { return s.live.now.away; }));
    sitting.apply(act::StopCamera{});
    sitting.apply(act::StartCamera{"0"});  // after the first has let go
    ASSERT_TRUE(polled(sitting, [](const SittingState& s) { return s.live.now.away; }));
  }
  EXPECT_LT(std::chrono::steady_clock::now() - begun, std::chrono::seconds(15));
}

TEST_F(SittingLive, OtherChoicesAreHandedOn) {
  auto go = std::make_shared<std::atomic<bool>>(false);
  auto frames = matFrames(4);
  frames.push_back(fixtures::waitFor(go));
  Sitting sitting = openWith({false, {frames + matFrames(4, 700, 9)}});
  sitting.apply(act::StartCamera{"0"});
  ASSERT_TRUE(polled(sitting, [](const SittingState& s) { return s.live.now.judged.has_value(); }));
  EXPECT_EQ(sitting.state().live.now.judged->tolerance, sitting.state().plan.choices.tolerance);
  Choices choices = sitting.state().plan.choices;
  choices.tolerance = 3;
  sitting.apply(act::SetChoices{choices, false});
  *go = true;
  ASSERT_TRUE(toTheEnd(sitting));
  ASSERT_TRUE(sitting.state().live.now.judged) << sitting.state().live.now.trouble;
  EXPECT_EQ(sitting.state().live.now.judged->tolerance, 3);
}

TEST_F(SittingLive, MarksOfAStillAreFollowedAndGoWithTheNextOne) {
  const auto frames = matFrames(6);
  Sitting sitting = openWith({false, {frames, frames}});
  sitting.apply(act::StartCamera{"0"});
  ASSERT_TRUE(toTheEnd(sitting));
  apply(sitting, act::TakeStill{});
  ASSERT_TRUE(sitting.state().judged) << sitting.state().judge_trouble;
  Regions marks = sitting.state().photos[0].regions;
  marks.panels.resize(1);
  apply(sitting, act::SetRegions{sitting.state().shown, marks});
  sitting.apply(act::StartCamera{"0", true});
  ASSERT_TRUE(toTheEnd(sitting));
  ASSERT_TRUE(sitting.state().live.now.judged) << sitting.state().live.now.trouble;
  EXPECT_TRUE(sitting.state().live.now.by_marks);
  EXPECT_EQ(sitting.state().live.now.judged->panels.size(), 1u);
  apply(sitting, act::TakeStill{});
  ASSERT_TRUE(sitting.state().plan.photos[0].by_hand);
  EXPECT_EQ(sitting.state().plan.photos[0].by_hand->panels, sitting.state().live.now.regions.panels);
}

TEST_F(SittingLive, WhatIsWrongIsSaid) {
  Sitting sitting = openWith({true, {}});
  apply(sitting, act::TakeStill{});
  EXPECT_TRUE(sitting.state().notice.bad);
  sitting.apply(act::StartCamera{""});
  EXPECT_FALSE(sitting.state().live.running);
  sitting.apply(act::StartCamera{"3"});
  ASSERT_TRUE(toTheEnd(sitting));
  EXPECT_NE(sitting.state().live.now.trouble.find("There is no camera \"3\""), std::string::npos);
}

TEST_F(SittingLive, AStillThatCannotBeWrittenIsSaidAndChangesNothing) {
  Sitting sitting = openWith({false, {matFrames(2)}});
  apply(sitting, act::KeepStills{"/dev/null/stills"});
  sitting.apply(act::StartCamera{"0"});
  ASSERT_TRUE(toTheEnd(sitting));
  apply(sitting, act::TakeStill{});
  EXPECT_TRUE(sitting.state().notice.bad);
  EXPECT_TRUE(sitting.state().plan.photos.empty());
}

TEST_F(SittingLive, CameraAndStillsAreKeptButItStartsByHandOnly) {
  const auto memory = dir.path() / "sitting.json";
  {
    Sitting sitting = openWith({false, {matFrames(2)}}, memory);
    sitting.apply(act::StartCamera{"2"});
    ASSERT_TRUE(toTheEnd(sitting));
  }
  Sitting again = open(memory);
  EXPECT_EQ(again.state().live.source, "2");
  EXPECT_EQ(again.state().live.stills, dir.path() / "stills");
  EXPECT_FALSE(again.state().live.running);
}

}  // namespace
}  // namespace huewright
