#include "session/probe.hpp"

#include <array>
#include <cmath>
#include <gtest/gtest.h>

#include "camera/upright.hpp"
#include "colour/rgb.hpp"
#include "photo/device.hpp"
#include "photo/write.hpp"
#include "session/as_judged.hpp"
#include "session/sample_jobs.hpp"
#include "temp_dir.hpp"

namespace huewright {
namespace {

constexpr Size kProbed{20, 12};

/// X and Y of each pixel tell its place.
Photo placesPhoto(const PhotoFacts& facts = {}) {
  std::vector<float> xyz;
  for (int y = 0; y < kProbed.height; ++y)
    for (int x = 0; x < kProbed.width; ++x) xyz.insert(xyz.end(), {0.01F * static_cast<float>(x + 1), 0.02F * static_cast<float>(y + 1), 0.3F});
  return Photo::fromMemory(kProbed, xyz, facts);
}

TEST(Probe, IsOfThePixelThatHoldsThePoint) {
  struct Row {
    Point at;
    int x, y;
    Rect around;
  };
  for (const Row& r : {Row{{10.5, 6.5}, 10, 6, {8, 4, 5, 5}}, Row{{10.99, 6.0}, 10, 6, {8, 4, 5, 5}}, Row{{0, 0}, 0, 0, {0, 0, 5, 5}},
                       Row{{20, 12}, 19, 11, {15, 7, 5, 5}}, Row{{19.2, 1.1}, 19, 1, {15, 0, 5, 5}}}) {
    Photo photo = placesPhoto();
    const auto p = probe(photo, r.at, 5);
    ASSERT_TRUE(p) << sentence(p.error());
    EXPECT_EQ(p->x, r.x);
    EXPECT_EQ(p->y, r.y);
    EXPECT_EQ(p->around, r.around);
    EXPECT_EQ(p->srgb.size(), 75u);
    EXPECT_EQ(p->clip.size(), 25u);
    EXPECT_NEAR(p->values[0], 0.01 * (r.x + 1), 1e-6);
    EXPECT_NEAR(p->values[1], 0.02 * (r.y + 1), 1e-6);
    EXPECT_LT(length(p->linear_srgb - kXyzD50ToSrgb * p->values), 1e-12);
    EXPECT_NEAR(p->lab.L, toLab(Xyz<D50>{p->values[0], p->values[1], p->values[2]}).L, 1e-12);
    EXPECT_FALSE(p->corrected);
    EXPECT_FALSE(p->camera_rgb);
  }
}

TEST(Probe, ASquareLargerThanThePictureIsThePicture) {
  Photo photo = placesPhoto();
  EXPECT_EQ(probe(photo, {3, 3}, 15)->around, (Rect{0, 0, 15, 12}));
  EXPECT_EQ(probe(photo, {3, 3}, 1)->around, (Rect{3, 3, 1, 1}));
  EXPECT_EQ(probe(photo, {3, 3}, -4)->around, (Rect{3, 3, 1, 1}));
}

TEST(Probe, OutsideIsSaid) {
  Photo photo = placesPhoto();
  for (const Point& at : {Point{-0.1, 3}, Point{3, -0.1}, Point{20.1, 3}, Point{3, 12.1}, Point{std::nan(""), 3}, Point{1e300, 3}})
    EXPECT_EQ(probe(photo, at, 5).error().code, Code::RegionOutside);
}

TEST(Probe, OfARawFileTheCamerasOwnValuesAreTold) {
  PhotoFacts facts;
  facts.camera_rgb = true;
  facts.builtin = Mat3{{{{0.6, 0.3, 0.06}, {0.25, 0.8, -0.05}, {0.0, 0.1, 0.7}}}};
  facts.balance = Vec3{2, 1, 1.5};
  Photo photo = placesPhoto(facts);
  const auto p = probe(photo, {4.5, 2.5}, 3);
  ASSERT_TRUE(p);
  EXPECT_TRUE(p->camera_rgb);
  EXPECT_LT(length(p->values - Vec3{0.05, 0.06, 0.3}), 1e-6);
  const Vec3 xyz = deviceToXyz(facts) * p->values;
  EXPECT_NEAR(p->lab.L, toLab(Xyz<D50>{xyz[0], xyz[1], xyz[2]}).L, 1e-4);
  EXPECT_LT(length(p->linear_srgb - kXyzD50ToSrgb * xyz), 1e-5);
}

TEST(Probe, CodesAndEndsOfTheRangeAreThoseOfTheFile) {
  const fixtures::TempDir folder;
  std::vector<std::uint8_t> rgb(3 * 8 * 8, 120);
  const auto set = [&](int x, int y, std::array<std::uint8_t, 3> code) {
    for (std::size_t k = 0; k < 3; ++k) rgb[3 * static_cast<std::size_t>(8 * y + x) + k] = code[k];
  };
  set(2, 2, {255, 90, 30});
  set(3, 2, {40, 90, 0});
  set(4, 2, {200, 10, 77});
  ASSERT_TRUE(writePng(folder.path() / "p.png", {8, 8}, rgb));
  Photo photo = Photo::open(folder.path() / "p.png").value();
  const auto top = probe(photo, {2.5, 2.5}, 3), bottom = probe(photo, {3.5, 2.5}, 3), between = probe(photo, {4.5, 2.5}, 3);
  ASSERT_TRUE(top && bottom && between);
  EXPECT_TRUE(top->clipped_top && !top->clipped_bottom);
  EXPECT_TRUE(!bottom->clipped_top && bottom->clipped_bottom);
  EXPECT_TRUE(!between->clipped_top && !between->clipped_bottom);
  // Around (4, 2): its own code in the middle, and to the left that of (3, 2).
  EXPECT_EQ((std::vector<std::uint8_t>(between->srgb.begin() + 9, between->srgb.begin() + 15)), (std::vector<std::uint8_t>{40, 90, 0, 200, 10, 77}));
  EXPECT_NEAR(between->linear_srgb[0], srgbToLinear(200.0 / 255), 1e-5);
}

// The corrected colours of a panel lie about its reading: the same corrections stand behind both.
TEST(Probe, CorrectedItIsWhatTheReadingSays) {
  const JudgeRequest request = chartJob();
  const JudgeReport report = sampleReport(request);
  Photo photo = openAsJudged(request, report).value();
  const Quad quad = inset(report.regions.panels[0], 0.3);
  const auto places = uprightPlaces(quad, {6, 6});
  Vec3 sum{}, as_photographed{};
  for (const Point& at : places) {
    const auto p = probe(photo, at, 1, &report.reading, 0);
    ASSERT_TRUE(p && p->corrected);
    sum = sum + (1.0 / 36) * toVec(*p->corrected);
    as_photographed = as_photographed + (1.0 / 36) * toVec(p->lab);
  }
  EXPECT_LT(length(sum - toVec(report.reading.panels[0].lab)), 1.5);
  EXPECT_GT(length(as_photographed - toVec(report.reading.panels[0].lab)), 3);
}

}  // namespace
}  // namespace huewright
