#include "sitting/camera_list.hpp"

#include <fstream>
#include <gtest/gtest.h>

#include "temp_dir.hpp"

namespace huewright {
namespace {

TEST(CameraList, NumbersFirstThenOtherNames) {
  const fixtures::TempDir dev;
  for (const char* name : {"video10", "video2", "video0", "video-top", "audio1", "video1234"}) std::ofstream(dev.path() / name) << "";
  EXPECT_EQ(camerasIn(dev.path()), (std::vector<std::string>{"0", "2", "10", (dev.path() / "video-top").string(), (dev.path() / "video1234").string()}));
  EXPECT_TRUE(camerasIn(dev.path() / "none").empty());
}

}  // namespace
}  // namespace huewright
