#include "judge/samples.hpp"

#include <gtest/gtest.h>

#include "judge/bench_photo.hpp"

namespace huewright {
namespace {

TEST(SamplePhoto, EverythingIsReadInItsOrder) {
  BenchShot shot;
  shot.veil = {};
  Photo photo = shootBench(shot);
  Scene scene = benchScene(true);
  scene.dots.push_back({toQuad({250, 310, 10, 10}), {toQuad({10, 10, 10, 10}), toQuad({40, 10, 10, 10})}});  // the grey stands in for a dot
  scene.panel_names = {"the strip with 2 coats"};
  const auto samples = samplePhoto(photo, scene);
  ASSERT_TRUE(samples);
  ASSERT_EQ(samples->coloured.size(), 2u);
  EXPECT_EQ(samples->coloured[0].name, "the strip with 2 coats");
  EXPECT_EQ(samples->coloured[1].name, "the card");
  EXPECT_NEAR(samples->coloured[0].patch.mean.Y, toXyz(kBenchPanel).Y, 1e-3);
  EXPECT_NEAR(samples->greys.at(0).patch.mean.Y, 0.19, 1e-3);
  ASSERT_TRUE(samples->black);
  EXPECT_NEAR(samples->black->patch.mean.Y, 0.004, 1e-4);
  EXPECT_EQ(samples->paper.size(), scene.paper.size());
  ASSERT_EQ(samples->dots.size(), 1u);
  EXPECT_EQ(samples->dots[0].paper.size(), 2u);
  EXPECT_NEAR(samples->dots[0].dot.sharp[1] / samples->dots[0].paper[0].sharp[1], 0.19 / 0.84, 0.005);
}

TEST(SamplePhoto, AMaskedRegionIsNamed) {
  BenchShot shot;
  shot.light = [](int x, int y) { return x > 330 && x < 530 && y < 260 ? ((x / 3 + y / 3) % 2 ? 20.0 : 0.02) : 1.0; };
  Photo photo = shootBench(shot);
  const auto samples = samplePhoto(photo, benchScene());
  if (!samples) {
    EXPECT_EQ(samples.error().code, Code::RegionAllMasked);
    EXPECT_EQ(samples.error().detail, "the card");
  }
}

}  // namespace
}  // namespace huewright
