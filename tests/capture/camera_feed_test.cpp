#include "capture/camera_feed.hpp"

#include <deque>
#include <gtest/gtest.h>
#include <string>
#include <thread>

#include "support/fake_camera.hpp"

namespace huewright {
namespace {

using fixtures::FakeCamera;
using fixtures::fakeFacts;
using fixtures::FakeStep;
using fixtures::filledBelow;
using fixtures::goodSteps;
using fixtures::noisyFrame;
using fixtures::operator+;
using Kind = FeedNews::Kind;

constexpr FeedTimes kAtOnce{.again = std::chrono::milliseconds(1), .settle_seconds = 1000, .settle_frames = 1000};

/// Opens one camera after the other; a missing one is a camera that is not there.
CameraFeed::Open inTurn(std::deque<std::optional<std::vector<FakeStep>>> cameras, bool live, CameraHolds holds = {Hold::Held, Hold::Held, Hold::Held}, int* held = nullptr) {
  auto left = std::make_shared<std::deque<std::optional<std::vector<FakeStep>>>>(std::move(cameras));
  return [left, live, holds, held]() -> Result<std::unique_ptr<Camera>> {
    if (left->empty()) return fail(Code::CameraUnusable, "There is no camera");
    auto steps = std::move(left->front());
    left->pop_front();
    if (!steps) return fail(Code::CameraUnusable, "There is no camera");
    return std::make_unique<FakeCamera>(fakeFacts(live), std::move(*steps), holds, held);
  };
}

std::string letterOf(const FeedEvent& event) {
  if (event.frame) return event.news ? "?" : ".";
  const char letters[] = "ABEFHS";
  const Kind kind = event.news->kind;
  if (kind == Kind::Held) return "L";
  if (kind == Kind::End) return ">";
  return std::string(1, letters[static_cast<int>(kind)]) + (event.news->caution && kind != Kind::Away ? "!" : "");
}

/// What the feed gave, a letter each: . a frame; A away, B back, E empty, F frozen, H half, S other size, L held, > the end; ! after one with a caution.
std::string heard(CameraFeed& feed, const std::stop_token& stop = {}, std::vector<FeedEvent>* events = nullptr) {
  std::string all;
  while (all.size() < 500) {
    auto event = feed.next(stop);
    if (!event) return all + "(" + std::string(codeName(event.error().code)) + ")";
    if (!*event) break;
    all += letterOf(**event);
    if (events != nullptr) events->push_back(std::move(**event));
  }
  return all;
}

CameraFeed opened(CameraFeed::Open open, const FeedTimes& times = kAtOnce) {
  auto feed = CameraFeed::open(std::move(open), times);
  if (!feed) throw std::runtime_error(sentence(feed.error()));
  return std::move(*feed);
}

std::vector<FakeStep> badSteps(unsigned frames) {
  std::vector<FakeStep> steps;
  for (unsigned i = 0; i < frames; ++i) steps.emplace_back(filledBelow(noisyFrame(1000 + i), 20, 128));
  return steps;
}

TEST(CameraFeed, OfAFileGivesItsFramesAndItsEnd) {
  int held = 0;
  CameraFeed feed = opened(inTurn({goodSteps(1, 5)}, false, {}, &held), {.again = std::chrono::milliseconds(1), .settle_seconds = 0, .settle_frames = 1});
  std::vector<FeedEvent> events;
  EXPECT_EQ(heard(feed, {}, &events), ".....>");
  for (std::size_t i = 0; i < 5; ++i) {
    EXPECT_EQ(events[i].frame->number, i);
    EXPECT_NEAR(events[i].frame->seconds, static_cast<double>(i + 1) / 30, 1e-9);
    EXPECT_TRUE(events[i].frame->rgb == noisyFrame(static_cast<unsigned>(1 + i)).rgb);
  }
  EXPECT_EQ(held, 0);
  EXPECT_EQ(feed.holds().exposure, Hold::NoSuch);
  EXPECT_EQ(heard(feed), "");
}

TEST(CameraFeed, ACameraThatIsNotThereAtFirstIsAProblem) {
  const auto feed = CameraFeed::open(inTurn({std::nullopt}, true));
  ASSERT_FALSE(feed);
  EXPECT_EQ(feed.error().code, Code::CameraUnusable);
}

TEST(CameraFeed, BadFramesAreLeftOutAndToldOnceARun) {
  CameraFeed feed = opened(inTurn({goodSteps(1, 2) + badSteps(3) + goodSteps(10, 1) + std::vector<FakeStep>{Frame{}, Frame{}} + badSteps(1) + goodSteps(20, 1)}, false));
  std::vector<FeedEvent> events;
  EXPECT_EQ(heard(feed, {}, &events), "..H.EH.>");
  EXPECT_EQ(feed.leftOut(), 6U);
  EXPECT_EQ(events[3].frame->number, 5U);  // the gap shows what was left out
}

TEST(CameraFeed, TenBadOnesInARowAreACaution) {
  CameraFeed nine = opened(inTurn({goodSteps(1, 1) + badSteps(9) + goodSteps(10, 1)}, false));
  EXPECT_EQ(heard(nine), ".H.>");
  CameraFeed more = opened(inTurn({goodSteps(1, 1) + badSteps(25) + goodSteps(10, 1)}, false));
  std::vector<FeedEvent> events;
  EXPECT_EQ(heard(more, {}, &events), ".HH!.>");
  EXPECT_EQ(events[2].news->caution, (Caution{CautionCode::CameraHalf, "fake"}));
  const std::vector<FakeStep> same(13, FakeStep(noisyFrame(1)));
  CameraFeed frozen = opened(inTurn({same + goodSteps(7, 1)}, true));
  std::stop_source stop;
  events.clear();
  while (events.size() < 5) events.push_back(**frozen.next({}));
  EXPECT_EQ(letterOf(events[2]) + letterOf(events[3]) + letterOf(events[4]), "FF!.");
  EXPECT_EQ(events[3].news->caution, (Caution{CautionCode::CameraFrozen, "fake"}));
}

TEST(CameraFeed, AnotherSizeIsToldAndThenTheSizeIsThat) {
  const Size other{40, 30};
  CameraFeed feed = opened(inTurn({goodSteps(1, 2) + std::vector<FakeStep>{noisyFrame(5, 90, other), noisyFrame(6, 90, other)}}, false));
  std::vector<FeedEvent> events;
  EXPECT_EQ(heard(feed, {}, &events), "..S.>");
  EXPECT_EQ(events[2].news->size, other);
  EXPECT_EQ(feed.facts().size, other);
}

TEST(CameraFeed, ACameraThatGoesAwayIsTriedUntilItIsBack) {
  std::stop_source stop;
  const FakeStep end = std::function<void()>([&] { stop.request_stop(); });
  // Lost, then three times not there, then one that gives nothing, then one that gives frames.
  CameraFeed feed = opened(inTurn({goodSteps(1, 3), std::nullopt, std::nullopt, std::nullopt, std::vector<FakeStep>{}, goodSteps(50, 2) + std::vector<FakeStep>{end}}, true));
  std::vector<FeedEvent> events;
  EXPECT_EQ(heard(feed, stop.get_token(), &events), "...AB..");
  EXPECT_EQ(events[3].news->caution, (Caution{CautionCode::CameraAway, "fake"}));
  std::uint64_t number = 0;
  double seconds = -1;
  for (const FeedEvent& event : events) {
    if (!event.frame) continue;
    EXPECT_EQ(event.frame->number, number++);
    EXPECT_GT(event.frame->seconds, seconds);
    seconds = event.frame->seconds;
  }
  EXPECT_FALSE(feed.isAway());
}

TEST(CameraFeed, ItIsHeldOnceSettledAndAgainAfterEachReturn) {
  std::stop_source stop;
  const FakeStep end = std::function<void()>([&] { stop.request_stop(); });
  int held = 0;
  CameraFeed feed = opened(inTurn({goodSteps(1, 5), goodSteps(20, 4) + std::vector<FakeStep>{end}}, true, {Hold::Held, Hold::Refused, Hold::Held}, &held),
                           {.again = std::chrono::milliseconds(1), .settle_seconds = 1000, .settle_frames = 3});
  std::vector<FeedEvent> events;
  EXPECT_EQ(heard(feed, stop.get_token(), &events), "...L..AB...L.");
  EXPECT_EQ(held, 2);
  const FeedNews& news = *events[3].news;
  EXPECT_EQ(news.holds, (CameraHolds{Hold::Held, Hold::Refused, Hold::Held}));
  ASSERT_TRUE(news.caution);
  EXPECT_EQ(sentence(*news.caution), "Exposure and focus are held; this camera does not let its white balance be held, so keep the light as it is.");
  EXPECT_EQ(feed.holds(), news.holds);
}

TEST(CameraFeed, ItSettlesByTimeToo) {
  std::stop_source stop;
  const FakeStep end = std::function<void()>([&] { stop.request_stop(); });
  CameraFeed feed = opened(inTurn({goodSteps(1, 5) + std::vector<FakeStep>{end}}, true), {.again = std::chrono::milliseconds(1), .settle_seconds = 0.09, .settle_frames = 1000});
  std::vector<FeedEvent> events;
  EXPECT_EQ(heard(feed, stop.get_token(), &events), "....L.");  // frames lie a thirtieth of a second apart
  EXPECT_FALSE(events[4].news->caution);
}

TEST(CameraFeed, AStopEndsTheWaitingForACamera) {
  std::stop_source stop;
  bool asked = false;
  CameraFeed::Open open = [&, first = true]() mutable -> Result<std::unique_ptr<Camera>> {
    if (std::exchange(first, false)) return std::make_unique<FakeCamera>(fakeFacts(true), goodSteps(1, 1));
    asked = true;
    return fail(Code::CameraUnusable, "There is no camera");
  };
  CameraFeed feed = opened(std::move(open), {.again = std::chrono::hours(24)});  // a wait that nothing but the stop ends within the test's time
  EXPECT_EQ(letterOf(**feed.next({})), ".");
  EXPECT_EQ(letterOf(**feed.next({})), "A");
  EXPECT_TRUE(feed.isAway());
  std::jthread other([&] { stop.request_stop(); });
  const auto event = feed.next(stop.get_token());
  ASSERT_TRUE(event);
  EXPECT_FALSE(*event);
  EXPECT_FALSE(asked);
}

TEST(CameraFeed, OtherProblemsEndIt) {
  CameraFeed feed = opened(inTurn({goodSteps(1, 1) + std::vector<FakeStep>{Problem{Code::OutOfMemory, "pictures"}}}, true));
  EXPECT_EQ(heard(feed), ".(out-of-memory)");
  CameraFeed file = opened(inTurn({goodSteps(1, 1) + std::vector<FakeStep>{Problem{Code::CameraUnusable, "It is damaged"}}}, false));
  EXPECT_EQ(heard(file), ".(camera-unusable)");
}

}  // namespace
}  // namespace huewright
