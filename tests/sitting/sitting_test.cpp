#include "sitting/sitting.hpp"

#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <functional>

#include "cli/run.hpp"
#include "session/advise_json.hpp"
#include "session/report_json.hpp"
#include "temp_dir.hpp"

namespace huewright {
namespace {

namespace fs = std::filesystem;

const fs::path kSamples = HUEWRIGHT_SOURCE_DIR "/sample-images";

class SittingTest : public testing::Test {
 protected:
  void SetUp() override {
    ::setenv("HUEWRIGHT_DATA", HUEWRIGHT_SOURCE_DIR "/calib", 1);
    ::setenv("XDG_DATA_HOME", HUEWRIGHT_BINARY_DIR "/nobody", 1);  // whoever runs this may keep a grey
  }
  void TearDown() override { ::unsetenv("HUEWRIGHT_DATA"); }

  Sitting open(const fs::path& memory = {}) {
    auto sitting = Sitting::open({HUEWRIGHT_SOURCE_DIR "/calib", kSamples, memory});
    if (!sitting) throw std::runtime_error(sentence(sitting.error()));
    sitting->settle();
    return std::move(*sitting);
  }
  static void apply(Sitting& sitting, const Action& action) {
    sitting.apply(action);
    sitting.settle();
  }
  static Choices sprayed(const Sitting& sitting) {
    Choices c = sitting.state().plan.choices;
    c.mixes = {{1, 5}, {1, 4}, {1, 2}};  // as the sample's three panels were
    c.coats = 4;
    c.carrier = 5;
    c.card_kind = CardKind::Same;
    return c;
  }
};

TEST_F(SittingTest, GivesTheNumbersOfTheCommandLine) {
  Sitting sitting = open();
  apply(sitting, act::OpenPhotos{{kSamples / "on-the-mat.jpg"}, PhotoRole::First});
  apply(sitting, act::SetChoices{sprayed(sitting)});
  ASSERT_TRUE(sitting.state().judged) << sitting.state().judge_trouble;
  const Outcome told = run({"judge", (kSamples / "on-the-mat.jpg").string(), "--mix", "1:5", "--mix", "1:4", "--mix", "1:2", "--coats", "4", "--carrier", "5", "--card-kind", "same", "--json", "--explain"}, false);
  ASSERT_EQ(told.exit, 0) << told.err;
  EXPECT_EQ(toJson(*sitting.state().judged->report, true), told.out);
}

TEST_F(SittingTest, GivesTheNumbersOfTheCommandLineWithMarksByHandAndMorePhotos) {
  Sitting sitting = open();
  const auto quad = [](const char* text) { return *parseQuad(text); };
  apply(sitting, act::OpenPhotos{{kSamples / "there.jpg", kSamples / "there.jpg"}, PhotoRole::First});
  EXPECT_FALSE(sitting.state().judged);
  EXPECT_NE(sitting.state().judge_trouble, "");  // there is no mat in it
  apply(sitting, act::SetRegions{sitting.state().plan.photos[0].id, {{quad("149,110,316,400")}, quad("579,126,228,229"), {quad("614,453,156,89")}, {}}});
  ASSERT_TRUE(sitting.state().judged) << sitting.state().judge_trouble;
  const std::string photo = (kSamples / "there.jpg").string();
  const Outcome told = run({"judge", photo, photo, "--panel", "149,110,316,400", "--card", "579,126,228,229", "--grey", "614,453,156,89", "--json"}, false);
  ASSERT_EQ(told.exit, 0) << told.err;
  EXPECT_EQ(toJson(*sitting.state().judged->report, false), told.out);
  EXPECT_EQ(sitting.state().photos[1].trouble, "");
}

TEST_F(SittingTest, AdvisesAsTheCommandLine) {
  Sitting sitting = open();
  apply(sitting, act::OpenSeries{kSamples / "teal-series.json"});
  ASSERT_TRUE(sitting.state().series.advice) << sitting.state().series.trouble;
  const Outcome told = run({"advise", (kSamples / "teal-series.json").string(), "--json"}, false);
  EXPECT_EQ(adviseJson(*sitting.state().series.advice), told.out);
  EXPECT_TRUE(sitting.state().series.plot);
  EXPECT_EQ(sitting.state().series.rows.size(), sitting.state().plan.series->panels.size());
  EXPECT_GE(sitting.state().series.grounds.size(), 2u);
}

TEST_F(SittingTest, AFileThatCannotBeUsedIsSaidAndChangesNothing) {
  const fixtures::TempDir dir;
  std::ofstream(dir.path() / "notes.jpg") << "no picture";
  Sitting sitting = open();
  apply(sitting, act::OpenPhotos{{kSamples / "on-the-mat.jpg"}, PhotoRole::First});
  const int before = sitting.state().shown;
  const Action tries[] = {act::OpenPhotos{{dir.path() / "notes.jpg"}, PhotoRole::First},       act::OpenPhotos{{"/no/such.jpg"}, PhotoRole::Again},  act::OpenSeries{dir.path() / "notes.jpg"},
                          act::OpenPhotos{{kSamples / "there.jpg", dir.path() / "notes.jpg"}}, act::AddChartPhotos{{dir.path() / "notes.jpg"}}};
  unsigned said = sitting.state().notice.number;
  for (const Action& action : tries) {
    apply(sitting, action);
    EXPECT_TRUE(sitting.state().notice.bad);
    EXPECT_GT(sitting.state().notice.number, said);
    EXPECT_NE(sitting.state().notice.sentence, "");
    said = sitting.state().notice.number;
    EXPECT_EQ(sitting.state().plan.photos.size(), 1u);
    EXPECT_EQ(sitting.state().shown, before);
    EXPECT_TRUE(sitting.state().judged);
    EXPECT_FALSE(sitting.state().plan.series);
    EXPECT_TRUE(sitting.state().plan.chart_photos.empty());
  }
}

TEST_F(SittingTest, UndoAndRedoGoThroughEverything) {
  Sitting sitting = open();
  EXPECT_FALSE(sitting.state().can_undo);
  apply(sitting, act::OpenPhotos{{kSamples / "on-the-mat.jpg"}, PhotoRole::First});
  apply(sitting, act::SetChoices{sprayed(sitting)});
  const double with_same = sitting.state().judged->panels[0].high;
  apply(sitting, act::AddToSeries{});
  ASSERT_TRUE(sitting.state().plan.series) << sitting.state().notice.sentence;
  EXPECT_EQ(sitting.state().plan.series->panels.size(), 3u);
  EXPECT_EQ(sitting.state().undo_words, "keeping a reading");
  apply(sitting, act::Undo{});
  EXPECT_FALSE(sitting.state().plan.series);
  apply(sitting, act::Undo{});
  EXPECT_TRUE(sitting.state().plan.choices.mixes.empty());
  EXPECT_GT(sitting.state().judged->panels[0].high, with_same);  // the kind of card is not known any more
  apply(sitting, act::Undo{});
  EXPECT_TRUE(sitting.state().plan.photos.empty());
  EXPECT_FALSE(sitting.state().judged);
  EXPECT_FALSE(sitting.state().can_undo);
  for (int i = 0; i < 3; ++i) apply(sitting, act::Redo{});
  EXPECT_FALSE(sitting.state().can_redo);
  EXPECT_EQ(sitting.state().plan.series->panels.size(), 3u);
  EXPECT_EQ(sitting.state().judged->panels[0].high, with_same);
  EXPECT_TRUE(sitting.state().photos[0].preview);
}

TEST_F(SittingTest, ADragIsOneStepBack) {
  Sitting sitting = open();
  apply(sitting, act::OpenPhotos{{kSamples / "on-the-mat.jpg"}, PhotoRole::First});
  const int id = sitting.state().shown;
  Regions regions = sitting.state().photos[0].regions;
  ASSERT_FALSE(regions.panels.empty());
  EXPECT_TRUE(sitting.state().photos[0].found);
  for (int i = 0; i < 5; ++i) {
    regions.panels[0].corners[0].x += 1;
    sitting.apply(act::SetRegions{id, regions, "moving a region", i > 0});
  }
  sitting.settle();
  EXPECT_FALSE(sitting.state().photos[0].found);
  EXPECT_EQ(sitting.state().photos[0].regions.panels[0], regions.panels[0]);
  apply(sitting, act::Undo{});
  EXPECT_FALSE(sitting.state().plan.photos[0].by_hand);
  EXPECT_TRUE(sitting.state().photos[0].found);
  apply(sitting, act::Redo{});
  apply(sitting, act::FindRegions{id});
  EXPECT_TRUE(sitting.state().photos[0].found);
}

TEST_F(SittingTest, NothingIsLostWhenItIsKilled) {
  const fixtures::TempDir dir;
  const fs::path memory = dir.path() / "state/sitting.json";
  {
    Sitting sitting = open(memory);
    apply(sitting, act::OpenPhotos{{kSamples / "on-the-mat.jpg"}, PhotoRole::First});
    apply(sitting, act::SetChoices{sprayed(sitting)});
    apply(sitting, act::AddToSeries{});
    apply(sitting, act::KeepWindow{{{"text", 2}}});
    // What a kill would leave behind: the file as it is now, not as the destructor writes it.
    fs::copy_file(memory, dir.path() / "killed.json");
  }
  fs::copy_file(dir.path() / "killed.json", memory, fs::copy_options::overwrite_existing);
  Sitting again = open(memory);
  EXPECT_EQ(again.state().plan.photos.size(), 1u);
  EXPECT_EQ(again.state().plan.choices.mixes.at(1).weak, 4);
  ASSERT_TRUE(again.state().plan.series);
  EXPECT_EQ(again.state().plan.series->panels.size(), 3u);
  EXPECT_TRUE(again.state().judged);
  EXPECT_EQ(again.state().window.at("text"), 2);
  EXPECT_EQ(again.state().recent.size(), 1u);
}

TEST_F(SittingTest, AMemoryThatCannotBeReadIsKeptAside) {
  const fixtures::TempDir dir;
  const fs::path memory = dir.path() / "sitting.json";
  std::ofstream(memory) << "{\"format\": 7}";
  {
    const Sitting sitting = open(memory);
    EXPECT_TRUE(sitting.state().notice.bad);
    EXPECT_NE(sitting.state().notice.sentence.find("sitting.json.unreadable"), std::string::npos);
    EXPECT_TRUE(sitting.state().plan.photos.empty());
  }
  std::ifstream in(dir.path() / "sitting.json.unreadable");
  std::string text;
  std::getline(in, text);
  EXPECT_EQ(text, "{\"format\": 7}");
}

TEST_F(SittingTest, APhotoThatWasMovedAwaySinceIsSaid) {
  const fixtures::TempDir dir;
  const fs::path memory = dir.path() / "sitting.json", photo = dir.path() / "panel.jpg";
  fs::copy_file(kSamples / "on-the-mat.jpg", photo);
  {
    Sitting sitting = open(memory);
    apply(sitting, act::OpenPhotos{{photo}, PhotoRole::First});
  }
  fs::remove(photo);
  const Sitting again = open(memory);
  ASSERT_EQ(again.state().photos.size(), 1u);
  EXPECT_NE(again.state().photos[0].trouble, "");
  EXPECT_NE(again.state().judge_trouble, "");
  EXPECT_FALSE(again.state().judged);
}

TEST_F(SittingTest, AReadingNeedsToKnowHowItWasSprayed) {
  Sitting sitting = open();
  apply(sitting, act::AddToSeries{});
  EXPECT_TRUE(sitting.state().notice.bad);
  apply(sitting, act::OpenPhotos{{kSamples / "on-the-mat.jpg"}, PhotoRole::First});
  apply(sitting, act::AddToSeries{});
  EXPECT_TRUE(sitting.state().notice.bad);
  EXPECT_FALSE(sitting.state().plan.series);
}

TEST_F(SittingTest, ASeriesIsSavedAndNotOverAnother) {
  const fixtures::TempDir dir;
  Sitting sitting = open();
  apply(sitting, act::SaveSeries{dir.path() / "none"});
  EXPECT_TRUE(sitting.state().notice.bad);
  apply(sitting, act::OpenSeries{kSamples / "teal-series.json"});
  std::ofstream(dir.path() / "mine.json") << "mine";
  apply(sitting, act::SaveSeries{dir.path() / "mine.json"});
  EXPECT_TRUE(sitting.state().notice.bad);
  EXPECT_EQ(fs::file_size(dir.path() / "mine.json"), 4u);
  apply(sitting, act::SaveSeries{dir.path() / "job"});
  EXPECT_FALSE(sitting.state().notice.bad) << sitting.state().notice.sentence;
  Series series = *sitting.state().plan.series;
  series.panels[0].coats += 0.5;
  apply(sitting, act::SetSeries{series});
  EXPECT_FALSE(sitting.state().plan.series_saved);
  apply(sitting, act::SaveSeries{});
  EXPECT_TRUE(sitting.state().plan.series_saved);
  const Outcome told = run({"advise", (dir.path() / "job.json").string(), "--json"}, false);
  EXPECT_EQ(told.exit, 0) << told.err;
  EXPECT_EQ(adviseJson(*sitting.state().series.advice), told.out);
}

TEST_F(SittingTest, StopLeavesThePlan) {
  Sitting sitting = open();
  sitting.apply(act::OpenPhotos{{kSamples / "on-the-mat.jpg"}, PhotoRole::First});
  sitting.apply(act::Stop{});
  sitting.settle();
  EXPECT_TRUE(sitting.state().plan.photos.empty());
  apply(sitting, act::OpenPhotos{{kSamples / "on-the-mat.jpg"}, PhotoRole::First});
  sitting.apply(act::SetChoices{sprayed(sitting)});
  sitting.apply(act::Stop{});
  sitting.settle();
  EXPECT_FALSE(sitting.state().judging);
  EXPECT_FALSE(sitting.state().plan.choices.mixes.empty());
  EXPECT_FALSE(sitting.state().judged);  // the one that was there is of the plan before
  EXPECT_NE(sitting.state().judge_trouble, "");
  apply(sitting, act::SetChoices{sprayed(sitting)});
  EXPECT_TRUE(sitting.state().judged);
}

TEST_F(SittingTest, MapMarksAndThePointerFollowTheVerdict) {
  Sitting sitting = open();
  apply(sitting, act::OpenPhotos{{kSamples / "on-the-mat.jpg"}, PhotoRole::First});
  EXPECT_FALSE(sitting.state().map);
  apply(sitting, act::WantMap{true});
  apply(sitting, act::WantMarks{true});
  ASSERT_TRUE(sitting.state().map);
  EXPECT_GT(sitting.state().map->top, 0);
  ASSERT_TRUE(sitting.state().marks);
  EXPECT_GE(sitting.state().marks->regions.size(), 3u);
  const Point in = centre(sitting.state().photos[0].regions.panels[0]);
  apply(sitting, act::Probe{sitting.state().shown, in});
  ASSERT_TRUE(sitting.state().probe);
  EXPECT_EQ(sitting.state().probe->lines.size(), 4u);
  apply(sitting, act::Probe{sitting.state().shown, {-5, 3}});
  EXPECT_FALSE(sitting.state().probe);
  apply(sitting, act::SetChoices{sprayed(sitting)});
  EXPECT_TRUE(sitting.state().map);  // drawn anew for the new verdict
  apply(sitting, act::LookClosely{sitting.state().shown});
  ASSERT_TRUE(sitting.state().photos[0].full);
  EXPECT_EQ(sitting.state().photos[0].full->size, sitting.state().photos[0].size);
}

TEST_F(SittingTest, TheCameraIsLearnedAndUsed) {
  const fixtures::TempDir dir;
  Sitting sitting = open();
  apply(sitting, act::Demo{3});
  ASSERT_TRUE(sitting.state().camera.health) << sitting.state().camera.trouble;
  ASSERT_EQ(sitting.state().camera.photos.size(), 1u);
  EXPECT_EQ(sitting.state().camera.photos[0].patches.size(), 24u);
  EXPECT_TRUE(sitting.state().camera.photos[0].preview);
  apply(sitting, act::SaveProfile{dir.path() / "camera"});
  EXPECT_FALSE(sitting.state().notice.bad) << sitting.state().notice.sentence;
  EXPECT_TRUE(fs::exists(dir.path() / "camera.json"));
  EXPECT_TRUE(fs::exists(dir.path() / "camera.icc"));
  EXPECT_EQ(sitting.state().plan.choices.profile, dir.path() / "camera.json");
  apply(sitting, act::SaveProfile{dir.path() / "camera.json"});
  EXPECT_TRUE(sitting.state().notice.bad);
  apply(sitting, act::DropChartPhoto{0});
  EXPECT_TRUE(sitting.state().camera.photos.empty());
}

TEST_F(SittingTest, TheDemoGoesThroughAllThreeSteps) {
  Sitting sitting = open();
  for (int step = 1; step <= 3; ++step) apply(sitting, act::Demo{step});
  EXPECT_TRUE(sitting.state().judged);
  EXPECT_TRUE(sitting.state().series.next);
  EXPECT_TRUE(sitting.state().camera.health);
}

TEST_F(SittingTest, PoursAndListsFolders) {
  const fixtures::TempDir dir;
  Sitting sitting = open();
  PourRequest wish;
  wish.volume_ml = 100;
  apply(sitting, act::WorkOutPour{wish});
  EXPECT_NE(sitting.state().pour.trouble, "");  // no parts
  apply(sitting, act::ListFolder{kSamples});
  EXPECT_EQ(sitting.state().folder.folder.filename(), "sample-images");
  EXPECT_FALSE(sitting.state().folder.entries.empty());
}

TEST_F(SittingTest, RolesChangePlaces) {
  Sitting sitting = open();
  apply(sitting, act::OpenPhotos{{kSamples / "on-the-mat.jpg"}, PhotoRole::Again});
  EXPECT_TRUE(sitting.state().notice.bad);  // there is none to add it to
  apply(sitting, act::OpenPhotos{{kSamples / "on-the-mat.jpg"}, PhotoRole::First});
  apply(sitting, act::OpenPhotos{{kSamples / "changed-over.jpg"}, PhotoRole::ChangedOver});
  ASSERT_EQ(sitting.state().plan.photos.size(), 2u);
  const int other = sitting.state().plan.photos[1].id;
  apply(sitting, act::SetRole{other, PhotoRole::First});
  EXPECT_EQ(firstPhoto(sitting.state().plan)->id, other);
  EXPECT_EQ(sitting.state().plan.photos[0].role, PhotoRole::ChangedOver);
  apply(sitting, act::SetRole{other, PhotoRole::Again});
  EXPECT_TRUE(sitting.state().notice.bad);
  apply(sitting, act::ClosePhoto{other});
  EXPECT_TRUE(sitting.state().plan.photos.empty());  // the others belong to the first
}

}  // namespace
}  // namespace huewright
