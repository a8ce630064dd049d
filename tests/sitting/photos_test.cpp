#include <gtest/gtest.h>

#include <fstream>

#include "sitting_case.hpp"
#include "temp_dir.hpp"

namespace huewright {
namespace {

using Photos = fixtures::SittingCase;

TEST_F(Photos, AFileThatCannotBeUsedIsSaidAndChangesNothing) {
  const fixtures::TempDir dir;
  std::ofstream(dir.path() / "notes.jpg") << "no picture";
  Sitting sitting = open();
  apply(sitting, act::OpenPhotos{{mat_photo}, PhotoRole::First});
  const int before = sitting.state().shown;
  const Action tries[] = {act::OpenPhotos{{dir.path() / "notes.jpg"}, PhotoRole::First},       act::OpenPhotos{{"/no/such.jpg"}, PhotoRole::Again},  act::OpenSeries{dir.path() / "notes.jpg"},
                          act::OpenPhotos{{samples / "there.jpg", dir.path() / "notes.jpg"}}, act::AddChartPhotos{{dir.path() / "notes.jpg"}}};
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

TEST_F(Photos, TheSamePanelKeepsWhatWasToldOfItAndBringsItsMarks) {
  Sitting sitting = open();
  apply(sitting, act::SetChoices{sprayed(sitting), false});
  const Regions marks{{{{{{10, 10}, {60, 10}, {60, 60}, {10, 60}}}}}, {}, {}, {}};
  apply(sitting, act::OpenPhotos{{mat_photo}, PhotoRole::First, true, marks});
  EXPECT_EQ(sitting.state().plan.choices.mixes.size(), 3u);
  ASSERT_TRUE(sitting.state().plan.photos.at(0).by_hand);
  EXPECT_EQ(sitting.state().plan.photos[0].by_hand->panels, marks.panels);
  apply(sitting, act::OpenPhotos{{mat_photo}, PhotoRole::First});
  EXPECT_TRUE(sitting.state().plan.choices.mixes.empty());
  EXPECT_FALSE(sitting.state().plan.photos.at(0).by_hand);
}

}  // namespace
}  // namespace huewright
