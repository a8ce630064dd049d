#include "judge/screen_sizes.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

TEST(ScreenSizes, uprightAndAcross) {
  for (const Size size : {Size{1080, 2400}, Size{2400, 1080}, Size{1170, 2532}, Size{3840, 2160}, Size{1366, 768}}) EXPECT_TRUE(isScreenSize(size));
}

TEST(ScreenSizes, notWhatCamerasAndMessengersMake) {
  for (const Size size : {Size{4000, 3000}, Size{4032, 3024}, Size{6000, 4000}, Size{1600, 1200}, Size{1024, 768}, Size{2048, 1536}, Size{1080, 2401}, Size{0, 0}})
    EXPECT_FALSE(isScreenSize(size)) << size.width;
}

}  // namespace
}  // namespace huewright
