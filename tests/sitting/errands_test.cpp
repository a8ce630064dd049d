#include <gtest/gtest.h>

#include "sitting_case.hpp"
#include "temp_dir.hpp"

namespace huewright {
namespace {

using Errands = fixtures::SittingCase;

TEST_F(Errands, PoursAndListsFolders) {
  const fixtures::TempDir dir;
  Sitting sitting = open();
  PourRequest wish;
  wish.volume_ml = 100;
  apply(sitting, act::WorkOutPour{wish});
  EXPECT_NE(sitting.state().pour.trouble, "");  // no parts
  apply(sitting, act::ListFolder{samples});
  EXPECT_EQ(sitting.state().folder.folder.filename(), "sample-images");
  EXPECT_FALSE(sitting.state().folder.entries.empty());
}

TEST_F(Errands, TheDemoGoesThroughAllThreeSteps) {
  Sitting sitting = open();
  for (int step = 1; step <= 3; ++step) apply(sitting, act::Demo{step});
  EXPECT_TRUE(sitting.state().judged);
  EXPECT_TRUE(sitting.state().series.next);
  EXPECT_TRUE(sitting.state().camera.health);
}

}  // namespace
}  // namespace huewright
