#include "session/linear_file.hpp"

#include <algorithm>
#include <filesystem>
#include <gtest/gtest.h>

#include "session/chart.hpp"

namespace huewright {
namespace {

ProfileFit fitWith(RampShape shape, double log_slope, double rms_before) {
  ProfileFit fit;
  fit.ramp.shape = shape;
  fit.ramp.log_slope = log_slope;
  fit.ramp.rms_before = rms_before;
  return fit;
}

PhotoFacts picture() {
  PhotoFacts facts;
  facts.path = "a.png";
  return facts;
}

TEST(LinearFile, OnlyAPictureReadAsSrgbOfItselfIsDoubted) {
  const ProfileFit linear = fitWith(RampShape::LinearStored, 1.9, 0.6), toned = fitWith(RampShape::Toned, 1.2, 0.2);
  EXPECT_TRUE(looksLinear(picture(), Encoding::Auto, linear));
  EXPECT_FALSE(looksLinear(picture(), Encoding::Srgb, linear));
  EXPECT_FALSE(looksLinear(picture(), Encoding::Linear, linear));
  EXPECT_FALSE(looksLinear(picture(), Encoding::Auto, toned));
  PhotoFacts raw = picture(), already = picture(), live;
  raw.camera_rgb = true;
  already.linear = true;
  EXPECT_FALSE(looksLinear(raw, Encoding::Auto, linear));
  EXPECT_FALSE(looksLinear(already, Encoding::Auto, linear));
  EXPECT_FALSE(looksLinear(live, Encoding::Auto, linear));
}

TEST(LinearFile, TheEvidenceMustBeClear) {
  const ProfileFit before = fitWith(RampShape::LinearStored, 1.82, 0.67);
  EXPECT_TRUE(clearlyLinear(before, fitWith(RampShape::Straight, 0.94, 0.063)));
  EXPECT_FALSE(clearlyLinear(before, fitWith(RampShape::Toned, 0.94, 0.2)));      // a style on top
  EXPECT_FALSE(clearlyLinear(before, fitWith(RampShape::Toned, 0.8, 0.1)));
  EXPECT_FALSE(clearlyLinear(before, fitWith(RampShape::SrgbStored, 0.95, 0.06)));
  EXPECT_FALSE(clearlyLinear(before, fitWith(RampShape::Unknown, 1, 0)));
  EXPECT_FALSE(clearlyLinear(fitWith(RampShape::Toned, 1.3, 0.67), fitWith(RampShape::Straight, 1, 0.03)));
}

TEST(LinearFile, WhatWasToldIsObeyedAndSaid) {
  const ProfileFit linear = fitWith(RampShape::LinearStored, 1.9, 0.6);
  EXPECT_EQ(aboutLinear("The photo", true, Encoding::Auto, picture(), linear)->code, CautionCode::ValuesLinear);
  EXPECT_EQ(aboutLinear("The photo", false, Encoding::Srgb, picture(), linear)->code, CautionCode::ValuesLinearTold);
  EXPECT_FALSE(aboutLinear("The photo", false, Encoding::Srgb, picture(), fitWith(RampShape::Toned, 1.2, 0.2)));
  EXPECT_FALSE(aboutLinear("The photo", false, Encoding::Auto, picture(), linear));
}

// A real cabinet camera's picture of a chart: no profile, values all but linear. And a phone's, which is sRGB with a style.
TEST(LinearFile, RealPictures) {
  const std::filesystem::path root = HUEWRIGHT_SOURCE_DIR, photos = root / "../shared/photos";
  if (!std::filesystem::is_directory(photos)) GTEST_SKIP() << "skipped: no ../shared";
  struct Row {
    const char* file;
    Encoding encoding;
    bool linear, said;
  };
  for (const Row& row : {Row{"chart-10.png", Encoding::Auto, true, true}, Row{"chart-10.png", Encoding::Srgb, false, true},
                         Row{"chart-10.png", Encoding::Linear, true, false}, Row{"chart-06.jpg", Encoding::Auto, false, false}}) {
    JudgeRequest request;
    request.encoding = row.encoding;
    auto photo = Photo::open(photos / row.file, {}, row.encoding).value();
    std::vector<Caution> cautions;
    const auto profile = profileFor(photo, {}, request, root / "calib", cautions);
    ASSERT_TRUE(profile) << row.file;
    EXPECT_TRUE(profile->chart) << row.file;
    EXPECT_EQ(photo.facts().linear, row.linear) << row.file;
    const bool said = std::ranges::any_of(cautions, [](const Caution& c) { return c.code == CautionCode::ValuesLinear || c.code == CautionCode::ValuesLinearTold; });
    EXPECT_EQ(said, row.said) << row.file;
  }
}

}  // namespace
}  // namespace huewright
