#include <gtest/gtest.h>

#include "desk/views.hpp"
#include "desk_driver.hpp"
#include "desk_photo.hpp"
#include "judged_job.hpp"

namespace huewright::desk {
namespace {

using fixtures::areaOf;

void withVerdict(fixtures::DeskDriver& driver) {
  fixtures::addPhoto(driver.state, 1, PhotoRole::First);
  fixtures::addVerdict(driver.state);
  driver.frames(2);
  driver.actions.clear();
}

TEST(VerdictView, ShowsTheMainPanelBesideTheCardAndGoesOnToTheNext) {
  fixtures::DeskDriver driver;
  withVerdict(driver);
  EXPECT_GT(areaOf({80, 146, 142}), 10000);
  EXPECT_GT(areaOf({60, 130, 131}), 10000);
  EXPECT_EQ(driver.view().verdict.panel, -1);
  driver.key(Do::NextPanel);
  EXPECT_EQ(driver.view().verdict.panel, 2);
  driver.key(Do::NextPanel);
  EXPECT_EQ(driver.view().verdict.panel, 0);
}

TEST(VerdictView, EdgesTouchUntilAGapIsOpened) {
  fixtures::DeskDriver driver;
  withVerdict(driver);
  const double touching = areaOf({60, 130, 131});
  driver.key(Do::OpenGap);
  EXPECT_TRUE(driver.view().look.gap);
  EXPECT_LT(areaOf({60, 130, 131}), touching);
  driver.key(Do::SwapSides);
  EXPECT_TRUE(driver.view().look.swapped);
}

TEST(VerdictView, KeysDoWhatTheTableSays) {
  fixtures::DeskDriver driver;
  withVerdict(driver);
  driver.key(Do::Budget);
  EXPECT_TRUE(driver.view().verdict.budget);
  driver.key(Do::HowSprayed);
  EXPECT_TRUE(driver.view().sprayed);
  driver.key(Do::StopWork);
  driver.key(Do::AddToSeries);
  EXPECT_EQ(driver.all<act::AddToSeries>().size(), 1u);
  driver.key(Do::UseAsGround);
  EXPECT_EQ(driver.all<act::UseAsGround>().size(), 1u);
  driver.state.judging = true;  // a verdict from before the last change is not to be kept
  driver.key(Do::AddToSeries);
  EXPECT_EQ(driver.all<act::AddToSeries>().size(), 1u);
}

TEST(VerdictView, WithoutAVerdictNothingIsKept) {
  fixtures::DeskDriver driver;
  driver.state.judge_trouble = "No mat was found. Mark the panel and the card.";
  for (const Do what : {Do::AddToSeries, Do::UseAsGround, Do::NextPanel, Do::Budget}) driver.key(what);
  EXPECT_TRUE(driver.actions.empty());
  EXPECT_FALSE(driver.view().verdict.budget);
}

TEST(VerdictView, APanelThatIsGoneFallsBackToTheMainOne) {
  fixtures::DeskDriver driver;
  withVerdict(driver);
  driver.view().verdict.panel = 2;
  driver.state.judged->panels.resize(2);
  driver.frame();
  EXPECT_EQ(driver.view().verdict.panel, -1);
}

TEST(VerdictView, NothingIsCutOffAtItsSides) {
  for (const float text : {1.0f, 2.0f, 3.0f}) {
    fixtures::DeskDriver driver(1280, 720, text);
    withVerdict(driver);
    driver.view().verdict.budget = true;
    driver.frames(3);
    EXPECT_LE(fixtures::DeskDriver::cutOff("verdict"), 1.0f) << text;
  }
}

}  // namespace
}  // namespace huewright::desk
