#include "photo/device.hpp"

#include <gtest/gtest.h>

#include "colour/rgb.hpp"

namespace huewright {
namespace {

PhotoFacts raw() {
  PhotoFacts facts;
  facts.camera_rgb = true;
  facts.builtin = Mat3{{{{0.6, 0.3, 0.06}, {0.25, 0.8, -0.05}, {0.0, 0.1, 0.7}}}};
  facts.balance = Vec3{2, 1, 1.5};
  return facts;
}

TEST(DeviceToXyz, BalanceComesBeforeTheMatrix) {
  EXPECT_LT(length(deviceToXyz(raw()) * Vec3{0.1, 0.2, 0.3} - *raw().builtin * Vec3{0.2, 0.2, 0.45}), 1e-15);
  EXPECT_EQ(deviceToXyz({}), kSrgbToXyzD50);
}

TEST(XyzPixels, RawIsMappedAndPicturesStay) {
  const Rect all{0, 0, 2, 1};
  std::vector<float> values{0.1F, 0.2F, 0.3F, 0.4F, 0.5F, 0.6F};
  Photo camera = Photo::fromMemory({2, 1}, values, raw());
  const auto mapped = xyzPixels(camera, std::span(&all, 1));
  ASSERT_TRUE(mapped);
  const Vec3 wanted = deviceToXyz(raw()) * Vec3{0.4, 0.5, 0.6};
  for (std::size_t k = 0; k < 3; ++k) EXPECT_NEAR(mapped->front().xyz[3 + k], wanted[k], 1e-6);
  Photo picture = Photo::fromMemory({2, 1}, values, {});
  EXPECT_EQ(xyzPixels(picture, std::span(&all, 1))->front().xyz, values);
}

TEST(MakeXyz, OnlyCameraRgbIsMapped) {
  Raster raster{{0, 0, 1, 1}, {0.1F, 0.2F, 0.3F}, {0}, {}};
  makeXyz(raster, {});
  EXPECT_EQ(raster.xyz, (std::vector<float>{0.1F, 0.2F, 0.3F}));
  makeXyz(raster, raw());
  const Vec3 wanted = deviceToXyz(raw()) * Vec3{0.1, 0.2, 0.3};
  for (std::size_t k = 0; k < 3; ++k) EXPECT_NEAR(raster.xyz[k], wanted[k], 1e-6);
}

TEST(XyzPixels, PassesOnWhatGoesWrong) {
  Photo picture = Photo::fromMemory({2, 1}, std::vector<float>(6), raw());
  const Rect outside{0, 0, 3, 1};
  EXPECT_EQ(xyzPixels(picture, std::span(&outside, 1)).error().code, Code::RegionOutside);
}

}  // namespace
}  // namespace huewright
