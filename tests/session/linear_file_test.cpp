#include "session/linear_file.hpp"

#include <algorithm>
#include <filesystem>
#include <gtest/gtest.h>

#include "colour/delta_e.hpp"
#include "colour/rgb.hpp"
#include "session/chart.hpp"
#include "session/shots.hpp"

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

TEST(LinearFile, AStoredMapUndoesTheDecodingFirst) {
  ColourMap map;
  map.curve.slope = 1.1;
  map.terms = {{{0.4, 0.3, 0.2}, {0.2, 0.7, 0.1}, {0, 0.1, 0.8}}};
  ColourMap stored = map;
  EXPECT_FALSE(isOfLinearFiles(map));
  forSrgbDecoding(stored);
  EXPECT_TRUE(isOfLinearFiles(stored));
  const Vec3 light{0.3, 0.2, 0.05}, decoded{srgbToLinear(0.3), srgbToLinear(0.2), srgbToLinear(0.05)};
  EXPECT_LT(deltaE2000(toLab(map.apply(light)), toLab(stored.apply(decoded))), 1e-6);
}

namespace hr = render;

hr::SceneSpec shopScene() {
  hr::SceneSpec s = chartBench("D50");
  s.shop.style = hr::linearStyle();
  s.shop.style.tagged = false;
  return s;
}

JudgeRequest marked(const Taken& shot, Encoding encoding) {
  JudgeRequest r = requestFor(shot);
  r.regions = shot.picture.regions;
  r.encoding = encoding;
  return r;
}

TEST(LinearFile, AFileWithoutAProfileIsReadAsItsChartShows) {
  const fixtures::TempDir folder;
  const auto session = Session::open(kCalib).value();
  const Taken shot = shoot(folder, "linear.tif", shopScene());
  const auto by_itself = session.judge(marked(shot, Encoding::Auto)), told = session.judge(marked(shot, Encoding::Linear));
  const auto wrong = session.judge(marked(shot, Encoding::Srgb));
  ASSERT_TRUE(by_itself && told && wrong);
  EXPECT_TRUE(says(*by_itself, CautionCode::ValuesLinear));
  EXPECT_EQ(by_itself->photo.encoding, "linear (as the chart shows)");
  EXPECT_FALSE(says(*told, CautionCode::ValuesLinear));
  EXPECT_LT(deltaE2000(by_itself->reading.card.lab, told->reading.card.lab), 1e-9);
  EXPECT_NEAR(by_itself->verdicts[0].de00, told->verdicts[0].de00, 1e-9);
  EXPECT_NEAR(by_itself->verdicts[0].high, told->verdicts[0].high, 1e-9);
  EXPECT_TRUE(says(*wrong, CautionCode::ValuesLinearTold));
  EXPECT_EQ(wrong->photo.encoding, "sRGB (as told)");
  EXPECT_FALSE(wrong->photo.linear);
}

TEST(LinearFile, PicturesWithAStyleNeverCountAsLinear) {
  const fixtures::TempDir folder;
  const auto session = Session::open(kCalib).value();
  hr::Random random(5);
  int charts = 0;
  constexpr int kStyles = 12;
  for (int i = 0; i < kStyles; ++i) {
    hr::SceneSpec s = shopScene();
    s.shop.style = hr::randomStyle(random);
    if (i % 3 == 0) s.shop.style.contrast = 0.9;
    if (i % 4 == 0) s.shop.style.local_tone = 0.6;
    s.shop.camera.exposure = i % 2 == 0 ? 0.35 : 0.8;
    const Taken shot = shoot(folder, "style.jpg", s, static_cast<std::uint64_t>(i) + 1);
    const auto r = session.judge(marked(shot, Encoding::Auto));
    ASSERT_TRUE(r) << i << sentence(r.error());
    EXPECT_FALSE(says(*r, CautionCode::ValuesLinear)) << i;
    EXPECT_FALSE(r->photo.linear) << i;
    charts += r->chart ? 1 : 0;
  }
  EXPECT_GE(charts, kStyles - 2);  // the strongest styles may burn patches out
}

TEST(LinearFile, TheSheetAndTheMapAreReadAlike) {
  const fixtures::TempDir folder;
  const auto session = Session::open(kCalib).value();
  hr::SceneSpec s = shopScene();
  const Taken shot = shoot(folder, "linear.tif", s);
  const auto sheet = folder.path() / "sheet.tif";
  hr::writePicture(sheet, hr::plainSheet(s, 2));
  const auto mapped = [&](Encoding encoding) {
    MapRequest request{marked(shot, encoding), folder.path() / "map.png"};
    request.judge.plain_sheet = sheet;
    return session.map(request);
  };
  const auto by_itself = mapped(Encoding::Auto), told = mapped(Encoding::Linear);
  ASSERT_TRUE(by_itself) << sentence(by_itself.error());
  ASSERT_TRUE(told) << sentence(told.error());
  EXPECT_TRUE(says(by_itself->judge, CautionCode::ValuesLinear));
  EXPECT_NEAR(by_itself->judge.verdicts[0].de00, told->judge.verdicts[0].de00, 1e-9);
  EXPECT_NEAR(by_itself->median_de00, told->median_de00, 1e-9);
  EXPECT_NEAR(by_itself->median_de00, by_itself->judge.verdicts[0].de00, 0.5);
}

TEST(LinearFile, AProfileOfSuchFilesServesOthersWithoutAChart) {
  const fixtures::TempDir folder;
  const auto session = Session::open(kCalib).value();
  ProfileRequest make;
  make.photos = {shoot(folder, "a.tif", shopScene(), 1).path, shoot(folder, "b.tif", shopScene(), 2).path};
  make.out = folder.path() / "camera.json";
  const auto made = session.profile(make);
  ASSERT_TRUE(made) << sentence(made.error());
  ASSERT_EQ(made->cautions.size(), 1u);
  EXPECT_TRUE(sentence(made->cautions[0]).starts_with("Each photo holds values proportional to light")) << sentence(made->cautions[0]);
  EXPECT_TRUE(std::ranges::none_of(made->health.sentences, [](const std::string& t) { return t.find("--encoding") != std::string::npos; }));

  hr::SceneSpec s = shopScene();
  s.chart.reset();
  const Taken shot = shoot(folder, "plain.tif", s, 3);
  for (const Encoding encoding : {Encoding::Auto, Encoding::Linear, Encoding::Srgb}) {
    JudgeRequest request = marked(shot, encoding);
    request.profile = make.out;
    const auto r = session.judge(request);
    ASSERT_TRUE(r) << sentence(r.error());
    EXPECT_EQ(says(*r, CautionCode::ValuesLinear), encoding == Encoding::Auto);
    EXPECT_EQ(r->photo.linear, encoding != Encoding::Srgb);
    EXPECT_LT(deltaE2000(r->reading.card.lab, shot.picture.truth.card.lab), 3);
    EXPECT_NEAR(r->verdicts[0].de00, shot.picture.truth.panels[0].de00, 0.5);
  }
}

}  // namespace
}  // namespace huewright
