#include "cli/watch_camera.hpp"

#include <cstdlib>
#include <gtest/gtest.h>
#include <sstream>

#include "cli/holds.hpp"
#include "support/fake_camera.hpp"
#include "support/live_frames.hpp"
#include "support/temp_dir.hpp"

namespace huewright {
namespace {

using fixtures::FakeCamera;
using fixtures::FakeStep;
using fixtures::LiveScene;

class WatchCamera : public testing::Test {
 protected:
  void SetUp() override {
    ::setenv("HUEWRIGHT_DATA", HUEWRIGHT_SOURCE_DIR "/calib", 1);
    ::setenv("XDG_DATA_HOME", HUEWRIGHT_BINARY_DIR "/nobody", 1);
  }
  void TearDown() override { ::unsetenv("HUEWRIGHT_DATA"); }

  Result<WatchCameraRequest> request(const std::vector<std::string>& more) const {
    std::vector<std::string> words{"watch", "--camera", "0", "--grey-y", "0.19", "--card-kind", "same"};
    words.insert(words.end(), more.begin(), more.end());
    return watchCameraRequest(parseArguments(words).value(), session_.standards());
  }

  /// A camera with so many frames of a scene on the mat, then nothing in the picture for some.
  CameraFeed::Open filmOf(int frames, int empty = 0) {
    std::vector<FakeStep> steps;
    for (int i = 0; i < frames; ++i) steps.emplace_back(Frame{.size = scene_.size(), .rgb = scene_.frame()});
    for (int i = 0; i < empty; ++i) {
      std::vector<std::uint8_t> grey(scene_.codes().size(), 128);
      grey[0] = static_cast<std::uint8_t>(i);
      steps.emplace_back(Frame{.size = scene_.size(), .rgb = std::move(grey)});
    }
    const CameraFacts facts{.name = "0", .size = scene_.size(), .rate = 30, .compressed = false, .live = false};
    return [steps, facts]() -> Result<std::unique_ptr<Camera>> { return std::make_unique<FakeCamera>(facts, steps); };
  }

  Outcome watched(const std::vector<std::string>& more, CameraFeed::Open open, const LiveTerminal& terminal = {}) const {
    const auto asked = request(more);
    if (!asked) throw std::runtime_error(sentence(asked.error()));
    return watchCamera(*asked, session_, {}, {}, terminal, std::move(open));
  }

  LiveScene scene_{"on-the-mat.jpg", 700};
  Session session_ = Session::open(HUEWRIGHT_SOURCE_DIR "/calib").value();
};

TEST_F(WatchCamera, ReadsEveryValue) {
  const auto r = request({"--count", "3", "--json", "--explain", "--gate", "--stills", "kept", "--tolerance", "0.5", "--mix", "1:2"});
  ASSERT_TRUE(r) << sentence(r.error());
  EXPECT_EQ(r->judge.photo, "0");
  EXPECT_EQ(r->count, 3U);
  EXPECT_EQ(r->stills, "kept");
  EXPECT_TRUE(r->json && r->explain && r->gate);
  EXPECT_EQ(r->judge.tolerance, 0.5);
}

TEST_F(WatchCamera, WrongUseIsSeenBeforeAnyCamera) {
  using MoreWords = std::vector<std::string>;
  for (const MoreWords& more : {MoreWords{"--count", "0"}, MoreWords{"--count", "1.5"}, MoreWords{"--folder", "photos"}, MoreWords{"photo.jpg"}, MoreWords{"--series", "s.json", "--mix", "1:2", "--coats", "3", "--carrier", "5"},
                                MoreWords{"--grey-y", "7"}, MoreWords{"--swapped", "b.jpg"}}) {
    std::vector<std::string> words{"watch", "--camera", "no-such-film.avi"};
    words.insert(words.end(), more.begin(), more.end());
    const Outcome outcome = run(words, false);
    EXPECT_EQ(outcome.exit, 2) << more.front() << outcome.err;
    EXPECT_FALSE(outcome.err.empty());
  }
  EXPECT_EQ(run({"watch", "--camera", ""}, false).exit, 2);
  EXPECT_EQ(run({"watch"}, false).exit, 2);
  EXPECT_EQ(run({"watch", "--folder", "photos", "--stills", "kept"}, false).exit, 2);
}

TEST_F(WatchCamera, ALineComesWheneverItSaysSomethingElse) {
  const Outcome outcome = watched({}, filmOf(13));
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_TRUE(holds(outcome.out, "card")) << outcome.out;
  EXPECT_TRUE(holds(outcome.out, "[1 frame]\n")) << outcome.out;
  EXPECT_TRUE(holds(outcome.out, "[13 frames, noise 0.0")) << outcome.out;  // of the fifth verdict
  EXPECT_TRUE(holds(outcome.err, "Watching the camera \"0\". Ctrl-C ends it.\n")) << outcome.err;
}

TEST_F(WatchCamera, OnATerminalTheLineIsWrittenOver) {
  const Outcome outcome = watched({"--count", "3"}, filmOf(20), {40, {}});
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  std::size_t lines = 0;
  for (std::size_t at = 0; (at = outcome.out.find("\r\x1b[K", at)) != std::string::npos; ++at) ++lines;
  EXPECT_EQ(lines, 3U);
  EXPECT_TRUE(outcome.out.ends_with('\n'));
  std::stringstream text(outcome.out);
  std::string line;
  while (std::getline(text, line, '\r')) EXPECT_LE(line.size(), 60U) << line;  // 39 columns and the codes; a letter may take two or three bytes
}

TEST_F(WatchCamera, JsonIsALineAVerdict) {
  const Outcome outcome = watched({"--json", "--count", "2"}, filmOf(20));
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_EQ(std::ranges::count(outcome.out, '\n'), 2);
  EXPECT_TRUE(holds(outcome.out, "\"live\":{\"state\":\"steady\",\"seconds\":0.0333,\"frames\":1.0,\"frame_noise\":null,\"noise\":null}")) << outcome.out;
  EXPECT_TRUE(holds(outcome.out, "\"verdicts\"") || holds(outcome.out, "\"verdict\"")) << outcome.out;
}

TEST_F(WatchCamera, WithNothingToJudgeItSaysWhyAndGoesOn) {
  EXPECT_TRUE(holds(watched({}, filmOf(0, 4)).out, "No mat was found"));
  EXPECT_EQ(watched({}, filmOf(0, 4)).exit, 3);
  EXPECT_TRUE(holds(watched({"--json"}, filmOf(0, 4)).out, "\"problem\":{\"code\":\"mat-not-found\""));
  EXPECT_EQ(watched({}, filmOf(4, 20)).exit, 0);
}

TEST_F(WatchCamera, GateIsOfTheLastVerdict) {
  EXPECT_EQ(watched({"--gate"}, filmOf(2)).exit, 1);
  EXPECT_EQ(watched({"--gate", "--tolerance", "20"}, filmOf(2)).exit, 0);
}

TEST_F(WatchCamera, EnterTakesAStill) {
  const fixtures::TempDir folder;
  int asked = 0;
  const Outcome outcome = watched({"--stills", folder.path().string()}, filmOf(7), {0, [&] { return ++asked == 2; }});
  EXPECT_TRUE(holds(outcome.err, "Enter takes a still, Ctrl-C ends it.")) << outcome.err;
  EXPECT_TRUE(holds(outcome.err, "A still is in \"" + (folder.path() / "still-001.png").string() + "\".")) << outcome.err;
  const auto still = Photo::open(folder.path() / "still-001.png");
  ASSERT_TRUE(still);
  EXPECT_EQ(still->size(), scene_.size());
  EXPECT_FALSE(std::filesystem::exists(folder.path() / "still-002.png"));
  asked = 0;
  EXPECT_TRUE(holds(watched({"--stills", (folder.path() / "none").string()}, filmOf(7), {0, [&] { return ++asked == 2; }}).err, "could not be written"));
}

TEST_F(WatchCamera, ACameraThatIsNotThereEndsIt) {
  const auto outcome = watched({}, []() -> Result<std::unique_ptr<Camera>> { return fail(Code::CameraUnusable, "There is no camera here"); });
  EXPECT_EQ(outcome.exit, 3);
  EXPECT_EQ(outcome.err, "There is no camera here.\n");
}

TEST_F(WatchCamera, AReaderThatIsGoneEndsIt) {
  const auto asked = request({"--json"});
  const Outlet gone{[](std::string_view) { return false; }, [](std::string_view) { return true; }};
  EXPECT_EQ(watchCamera(*asked, session_, gone, {}, {}, filmOf(20)).exit, 5);
}

}  // namespace
}  // namespace huewright
