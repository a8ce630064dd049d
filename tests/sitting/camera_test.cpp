#include <gtest/gtest.h>

#include "sitting_case.hpp"
#include "temp_dir.hpp"

namespace huewright {
namespace {

namespace fs = std::filesystem;

using SittingCamera = fixtures::SittingCase;

TEST_F(SittingCamera, TheCameraIsLearnedAndUsed) {
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

}  // namespace
}  // namespace huewright
