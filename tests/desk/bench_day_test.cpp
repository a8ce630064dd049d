// A day at the bench in the window, by mouse and keys, on the sample photos; and the same on the command line.
#include <gtest/gtest.h>

#include <malloc.h>

#include <cstdlib>
#include <filesystem>

#include "cli/run.hpp"
#include "desk/views.hpp"
#include "desk_driver.hpp"
#include "desk_find.hpp"
#include "session/advise_json.hpp"
#include "session/report_json.hpp"
#include "sitting/sitting.hpp"
#include "temp_dir.hpp"

namespace huewright::desk {
namespace {

namespace fs = std::filesystem;

const fs::path kBenchSamples = HUEWRIGHT_SOURCE_DIR "/sample-images";

class BenchDay : public testing::Test {
 protected:
  void SetUp() override {
    ::setenv("HUEWRIGHT_DATA", HUEWRIGHT_SOURCE_DIR "/calib", 1);
    ::setenv("XDG_DATA_HOME", HUEWRIGHT_BINARY_DIR "/nobody", 1);  // whoever runs this may keep a grey
    auto opened = Sitting::open({HUEWRIGHT_SOURCE_DIR "/calib", kBenchSamples, dir.path() / "sitting.json"});
    ASSERT_TRUE(opened);
    sitting = std::make_unique<Sitting>(std::move(*opened));
    driver.apply = [this](const Action& action) { sitting->apply(action); };
  }
  void TearDown() override { ::unsetenv("HUEWRIGHT_DATA"); }

  /// What the main loop does until all work is done.
  void rest() {
    sitting->settle();
    driver.state = sitting->state();
    driver.frames(3);
    sitting->settle();
    driver.state = sitting->state();
    driver.frame();
  }
  void key(Do what) { driver.key(what), rest(); }
  void clickNamed(const char* window, const char* name) {
    const auto at = fixtures::findItem([&](float x, float y) { driver.move(x, y); }, 1280, 720, window, name);
    ASSERT_TRUE(at) << name;
    driver.click(at->x, at->y);
    rest();
  }

  const fixtures::TempDir dir;
  fixtures::DeskDriver driver;
  std::unique_ptr<Sitting> sitting;
};

TEST_F(BenchDay, FromThePhotoToThePourSheet) {
  // The sample photo, opened from the first steps; the mat is found.
  key(Do::Demo);
  clickNamed("first steps", "Open the sample photo");
  ASSERT_TRUE(driver.state.judged) << driver.state.judge_trouble;
  EXPECT_TRUE(driver.state.photos[0].found);
  const std::string photo = (kBenchSamples / "on-the-mat.jpg").string();
  EXPECT_EQ(toJson(*driver.state.judged->report, false), run({"judge", photo, "--json"}, false).out);

  // How it was sprayed.
  Choices sprayed = driver.state.plan.choices;
  sprayed.mixes = {{1, 5}, {1, 4}, {1, 2}};
  sprayed.coats = 4;
  sprayed.carrier = 5;
  sprayed.card_kind = CardKind::Same;
  sprayed.stage = "cleared";
  sitting->apply(act::SetChoices{sprayed});
  rest();
  const std::vector<std::string> told{"judge", photo, "--mix", "1:5", "--mix", "1:4", "--mix", "1:2", "--coats", "4", "--carrier", "5", "--card-kind", "same", "--json"};
  EXPECT_EQ(toJson(*driver.state.judged->report, false), run(told, false).out);

  // The readings are kept, a ground is known, and the next mix is worked out.
  key(Do::AddToSeries);
  ASSERT_TRUE(driver.state.plan.series);
  EXPECT_EQ(driver.state.plan.series->panels.size(), 3u);
  EXPECT_FALSE(driver.state.series.advice);  // no ground yet, and that is said
  EXPECT_NE(driver.state.series.trouble, "");
  Series series = *driver.state.plan.series;
  series.ground = NamedGround{"bright silver", {78.9, 0.1, 2.0}};
  sitting->apply(act::SetSeries{series});
  rest();
  ASSERT_TRUE(driver.state.series.advice) << driver.state.series.trouble;
  key(Do::PageMixes);

  // Saved, it gives the command line the same answer.
  sitting->apply(act::SaveSeries{dir.path() / "day.json"});
  rest();
  const Outcome advised = run({"advise", (dir.path() / "day.json").string(), "--json"}, false);
  ASSERT_EQ(advised.exit, 0) << advised.err;
  EXPECT_EQ(adviseJson(*driver.state.series.advice), advised.out);

  // The cup.
  key(Do::PourCup);
  EXPECT_TRUE(driver.view().series.pour);
  EXPECT_TRUE(driver.state.pour.report) << driver.state.pour.trouble;

  // All of it back, and again.
  while (driver.state.can_undo) key(Do::Undo);
  EXPECT_TRUE(driver.state.plan.photos.empty());
  EXPECT_FALSE(driver.state.plan.series);
  while (driver.state.can_redo) key(Do::Redo);
  EXPECT_EQ(adviseJson(*driver.state.series.advice), advised.out);
  EXPECT_EQ(toJson(*driver.state.judged->report, false), run(told, false).out);
}

TEST_F(BenchDay, ARegionDraggedByTheMouseIsJudgedAsOnTheCommandLine) {
  sitting->apply(act::OpenPhotos{{kBenchSamples / "on-the-mat.jpg"}, PhotoRole::First});
  rest();
  key(Do::NextRegion);
  key(Do::NudgeRight);
  const auto& photo = driver.state.photos[0];
  ASSERT_FALSE(photo.found);
  std::vector<std::string> told{"judge", (kBenchSamples / "on-the-mat.jpg").string(), "--json"};
  const auto add = [&](const char* option, const Quad& q) {
    std::string text;
    for (const Point& p : q.corners) {
      char number[64];
      std::snprintf(number, sizeof number, "%s%.17g,%.17g", text.empty() ? "" : ",", p.x, p.y);
      text += number;
    }
    told.insert(told.end(), {option, text});
  };
  for (const Quad& q : photo.regions.panels) add("--panel", q);
  add("--card", *photo.regions.card);
  for (const Quad& q : photo.regions.greys) add("--grey", q);
  if (photo.regions.black) add("--black", *photo.regions.black);
  const Outcome outcome = run(told, false);
  ASSERT_EQ(outcome.exit, 0) << outcome.err;
  ASSERT_TRUE(driver.state.judged) << driver.state.judge_trouble;
  EXPECT_EQ(toJson(*driver.state.judged->report, false), outcome.out);
}

TEST_F(BenchDay, TheCameraPageLearnsTheCamera) {
  key(Do::Demo);
  clickNamed("first steps", "Next step");
  clickNamed("first steps", "Next step");
  clickNamed("first steps", "Open the sample chart");
  EXPECT_EQ(driver.view().look.page, Page::Camera);
  ASSERT_TRUE(driver.state.camera.health) << driver.state.camera.trouble;
  const Outcome told = run({"profile", (kBenchSamples / "with-chart.jpg").string(), "--out", (dir.path() / "c.json").string()}, false);
  for (const std::string& sentence : driver.state.camera.sentences) {
    std::string flat = told.out;
    std::ranges::replace(flat, '\n', ' ');
    EXPECT_NE(flat.find(sentence.substr(0, 30)), std::string::npos) << sentence;
  }
}

TEST_F(BenchDay, TenThousandFramesDoNotGrow) {
  const fs::path photos[] = {kBenchSamples / "there.jpg", kBenchSamples / "too-weak.jpg"};
  const auto round = [&](int i) {
    sitting->apply(act::OpenPhotos{{photos[i % 2]}, PhotoRole::First});
    sitting->settle();
    driver.state = sitting->state();
    sitting->apply(act::LookClosely{driver.state.shown});
    sitting->settle();
    driver.state = sitting->state();
    driver.view().look.page = i % 4 == 3 ? Page::Room : Page::Panel;
    driver.view().photo.zoom = i % 3 == 0 ? 3 : 0;
    for (int frame = 0; frame < 500; ++frame) {
      ImGui::GetIO().MousePos = {static_cast<float>(200 + frame % 300), static_cast<float>(200 + frame % 200)};
      driver.frame();
    }
    driver.actions.clear();
  };
  for (int i = 0; i < 4; ++i) round(i);
  const std::size_t textures = driver.textures.held.size(), heap = ::mallinfo2().uordblks + ::mallinfo2().hblkhd;
  for (int i = 4; i < 20; ++i) round(i);
  EXPECT_LE(driver.textures.held.size(), textures + 4);
  EXPECT_TRUE(driver.textures.dropped_right);
  // Each photo's pictures take about 5 MB; twelve that were kept would be 60.
  EXPECT_LT(::mallinfo2().uordblks + ::mallinfo2().hblkhd, heap + (12u << 20));
}

}  // namespace
}  // namespace huewright::desk
