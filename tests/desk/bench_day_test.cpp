// A day at the bench in the window, by mouse and keys, on the sample photos; and the same on the command line.
#include <gtest/gtest.h>

#include <malloc.h>

#include <cstdlib>
#include <filesystem>

#include "cli/run.hpp"
#include "desk/views.hpp"
#include "desk_driver.hpp"
#include "session/advise_json.hpp"
#include "session/report_json.hpp"
#include "sitting_case.hpp"
#include "temp_dir.hpp"

namespace huewright::desk {
namespace {

namespace fs = std::filesystem;

class BenchDay : public fixtures::SittingCase {
 protected:
  void SetUp() override {
    SittingCase::SetUp();
    if (const char* home = std::getenv("HOME")) home_before = home;
    ::setenv("HOME", dir.path().c_str(), 1);  // where the painter saves
    sitting = std::make_unique<Sitting>(open(dir.path() / "sitting.json"));
    driver.apply = [this](const Action& action) { sitting->apply(action); };
    rest();
  }
  void TearDown() override {
    ::setenv("HOME", home_before.c_str(), 1);
    SittingCase::TearDown();
  }

  /// What the main loop does between two events.
  void look() {
    sitting->poll();
    driver.state = sitting->state();
    driver.frames(2);
  }
  /// ... and until all work is done.
  void rest() {
    for (int i = 0; i < 2; ++i) {
      sitting->settle();
      look();
    }
  }
  void key(Do what) { driver.key(what), rest(); }
  void click(const char* window, std::initializer_list<fixtures::IdStep> steps) {
    const auto at = driver.find(window, steps);
    ASSERT_TRUE(at) << window << ": " << std::prev(steps.end())->words();
    driver.click(at->x, at->y);
    look();
  }
  /// Chooses from a list that folds out.
  void choose(std::initializer_list<fixtures::IdStep> list, const char* what) {
    click("how sprayed", list);
    click("##Combo", {what});
  }
  /// Types into one field after the other, as they stand; Tab goes from each to the next. "": it stays as it is.
  void typeOn(const char* window, std::initializer_list<fixtures::IdStep> first, std::initializer_list<const char*> texts) {
    click(window, first);
    bool next = false;
    for (const char* text : texts) {
      if (next) driver.key(kKeyTab), look();
      driver.type(text);
      next = true;
    }
    driver.key(kKeyEnter);
    look();
  }
  /// In the file browser: the name of a file to open or to write.
  void typeName(const char* name) {
    driver.type(name);
    driver.key(kKeyEnter);
    rest();
  }

  const fixtures::TempDir dir;
  std::string home_before;
  fixtures::DeskDriver driver;
  std::unique_ptr<Sitting> sitting;
};

TEST_F(BenchDay, FromThePhotoToThePourSheet) {
  // The sample photo, opened from the first steps; the mat is found.
  key(Do::Demo);
  click("first steps", {{Do::TakeStep, "Open the sample photo"}});
  rest();
  ASSERT_TRUE(driver.state.judged) << driver.state.judge_trouble;
  EXPECT_TRUE(driver.state.photos[0].found);
  const std::string photo = mat_photo.string();
  EXPECT_EQ(toJson(*driver.state.judged->report, false), run({"judge", photo, "--json"}, false).out);

  // How it was sprayed: three mixes, the coats, no strips, the carrier.
  key(Do::HowSprayed);
  typeOn("how sprayed", {"sprayed", 0, "##strong"}, {"1", "5", "1", "4", "1", "2", "4", "", "5"});
  choose({"sprayed", "##stage"}, "cleared");
  choose({"judged", "##card"}, "the same paint as the panel");
  click("how sprayed", {Do::SprayedDone});
  EXPECT_FALSE(driver.view().sprayed);
  rest();
  const std::vector<std::string> told{"judge", photo, "--mix", "1:5", "--mix", "1:4", "--mix", "1:2", "--coats", "4", "--carrier", "5", "--card-kind", "same", "--json"};
  ASSERT_TRUE(driver.state.judged) << driver.state.judge_trouble;
  EXPECT_EQ(toJson(*driver.state.judged->report, false), run(told, false).out);

  // The readings are kept; no ground is known yet, and that is said.
  key(Do::AddToSeries);
  ASSERT_TRUE(driver.state.plan.series);
  EXPECT_EQ(driver.state.plan.series->panels.size(), 3u);
  EXPECT_FALSE(driver.state.series.advice);
  EXPECT_NE(driver.state.series.trouble, "");

  // A stepped panel, whose first strip is bare ground.
  key(Do::OpenPhoto);
  typeName("stepped");
  key(Do::HowSprayed);
  typeOn("how sprayed", {"sprayed", 0, "##strong"}, {"1", "2", "", "0,1,2,3,4"});
  key(Do::SprayedDone);
  EXPECT_FALSE(driver.view().sprayed);
  const Outcome strips = run({"judge", (samples / "stepped.jpg").string(), "--mix", "1:2", "--steps", "0,1,2,3,4", "--carrier", "5", "--card-kind", "same", "--json"}, false);
  ASSERT_TRUE(driver.state.judged) << driver.state.judge_trouble;
  EXPECT_EQ(toJson(*driver.state.judged->report, false), strips.out);
  key(Do::AddToSeries);
  ASSERT_TRUE(driver.state.plan.series->ground);
  EXPECT_EQ(driver.state.plan.series->panels.size(), 7u);
  ASSERT_TRUE(driver.state.series.advice) << driver.state.series.trouble;
  key(Do::PageMixes);

  // Saved in one's own folder, it gives the command line the same answer.
  key(Do::SaveSeriesAs);
  key(Do::HomeFolder);
  driver.key('A', true);
  typeName("day");
  EXPECT_FALSE(driver.state.notice.bad) << driver.state.notice.sentence;
  const Outcome advised = run({"advise", (dir.path() / "day.json").string(), "--json"}, false);
  ASSERT_EQ(advised.exit, 0) << advised.err;
  EXPECT_EQ(adviseJson(*driver.state.series.advice), advised.out);

  // The cup.
  key(Do::PourCup);
  EXPECT_TRUE(driver.view().series.pour);
  EXPECT_TRUE(driver.state.pour.report) << driver.state.pour.trouble;

  // All of it back, and again.
  while (driver.state.can_undo) driver.key(Do::Undo), look();
  rest();
  EXPECT_TRUE(driver.state.plan.photos.empty());
  EXPECT_FALSE(driver.state.plan.series);
  while (driver.state.can_redo) driver.key(Do::Redo), look();
  rest();
  EXPECT_EQ(adviseJson(*driver.state.series.advice), advised.out);
  EXPECT_EQ(toJson(*driver.state.judged->report, false), strips.out);
}

TEST_F(BenchDay, ARegionDraggedByTheMouseIsJudgedAsOnTheCommandLine) {
  sitting->apply(act::OpenPhotos{{samples / "on-the-mat.jpg"}, PhotoRole::First});
  rest();
  key(Do::NextRegion);
  key(Do::NudgeRight);
  const auto& photo = driver.state.photos[0];
  ASSERT_FALSE(photo.found);
  std::vector<std::string> told{"judge", (samples / "on-the-mat.jpg").string(), "--json"};
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
  click("first steps", {Do::NextStep});
  click("first steps", {Do::NextStep});
  click("first steps", {{Do::TakeStep, "Open the sample chart"}});
  rest();
  EXPECT_EQ(driver.view().look.page, Page::Camera);
  ASSERT_TRUE(driver.state.camera.health) << driver.state.camera.trouble;
  const Outcome told = run({"profile", (samples / "with-chart.jpg").string(), "--out", (dir.path() / "c.json").string()}, false);
  for (const std::string& sentence : driver.state.camera.sentences) {
    std::string flat = told.out;
    std::ranges::replace(flat, '\n', ' ');
    EXPECT_NE(flat.find(sentence.substr(0, 30)), std::string::npos) << sentence;
  }
}

TEST_F(BenchDay, TenThousandFramesDoNotGrow) {
  const fs::path photos[] = {samples / "there.jpg", samples / "too-weak.jpg"};
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
