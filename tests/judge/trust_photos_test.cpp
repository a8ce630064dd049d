// Simulated photos, compressed once and twice. The rates over many are in docs/methods.md; here few, so that a broken statistic is seen.
#include <gtest/gtest.h>

#include "photo/jpeg_history.hpp"
#include "render/scene.hpp"
#include "render/style.hpp"
#include "support/fixtures.hpp"

namespace huewright {
namespace {

TEST(TrustOfPhotos, compressedTwiceIsToldFromOnce) {
  int seen = 0, alarms = 0;
  constexpr int kScenes = 8;
  for (unsigned i = 0; i < kScenes; ++i) {
    render::SceneSpec scene;
    scene.size = {640, 440};
    scene.shop = render::randomShop(8100 + i);
    const render::Rendered picture = render::render(scene, 8100 + i);
    const auto codes = render::encode8(picture.style, picture.size, picture.linear);
    const fixtures::Picture shot{picture.size, {codes.begin(), codes.end()}};
    const int quality = 62 + 3 * static_cast<int>(i);
    const auto once = fixtures::jpeg(shot, {.quality = quality});
    const auto twice = fixtures::jpeg(fixtures::decodeJpeg(once), {.quality = quality + 12});
    alarms += doubleQuantisation(coefficientCounts(once, 1'000'000)).twice;
    seen += doubleQuantisation(coefficientCounts(twice, 1'000'000)).twice;
  }
  EXPECT_EQ(alarms, 0);
  EXPECT_GE(seen, kScenes - 2);  // 38 of 43 were seen at 8 to 15 above the first quality
}

}  // namespace
}  // namespace huewright
