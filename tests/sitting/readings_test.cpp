#include <gtest/gtest.h>

#include "cli/run.hpp"
#include "session/advise_json.hpp"
#include "sitting_case.hpp"

namespace huewright {
namespace {

using Readings = fixtures::SittingCase;

TEST_F(Readings, AReadingNeedsToKnowHowItWasSprayed) {
  Sitting sitting = open();
  apply(sitting, act::AddToSeries{});
  EXPECT_TRUE(sitting.state().notice.bad);
  apply(sitting, act::OpenPhotos{{mat_photo}, PhotoRole::First});
  apply(sitting, act::AddToSeries{});
  EXPECT_TRUE(sitting.state().notice.bad);
  EXPECT_FALSE(sitting.state().plan.series);
}

TEST_F(Readings, AdvisesAsTheCommandLine) {
  Sitting sitting = open();
  apply(sitting, act::OpenSeries{samples / "teal-series.json"});
  ASSERT_TRUE(sitting.state().series.advice) << sitting.state().series.trouble;
  const Outcome told = run({"advise", (samples / "teal-series.json").string(), "--json"}, false);
  EXPECT_EQ(adviseJson(*sitting.state().series.advice), told.out);
  EXPECT_TRUE(sitting.state().series.plot);
  EXPECT_EQ(sitting.state().series.rows.size(), sitting.state().plan.series->panels.size());
  EXPECT_GE(sitting.state().series.grounds.size(), 2u);
}

TEST_F(Readings, APanelThatIsBareGroundIsTheSeriesGround) {
  Sitting sitting = open();
  apply(sitting, act::UseAsGround{});
  EXPECT_TRUE(sitting.state().notice.bad);  // nothing is judged yet
  apply(sitting, act::OpenPhotos{{mat_photo}, PhotoRole::First});
  apply(sitting, act::UseAsGround{});
  ASSERT_TRUE(sitting.state().plan.series && sitting.state().plan.series->ground);
  const JudgeReport& report = *sitting.state().judged->report;
  EXPECT_EQ(sitting.state().plan.series->ground->lab.L, report.reading.panels[report.main].lab.L);
  apply(sitting, act::NewSeries{});
  EXPECT_FALSE(sitting.state().plan.series);
}

}  // namespace
}  // namespace huewright
