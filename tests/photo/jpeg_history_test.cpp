#include "photo/jpeg_history.hpp"

#include <gtest/gtest.h>

#include <numeric>

#include "support/textured.hpp"

namespace huewright {
namespace {

using namespace fixtures;

constexpr std::int64_t kAll = 1'000'000;

std::uint64_t blocksIn(const CoefficientCounts& c) { return std::accumulate(c.counts.begin(), c.counts.end(), std::uint64_t{0}); }

TEST(CoefficientCounts, countsEveryWholeBlockOnce) {
  for (const bool progressive : {false, true})
    for (const int sampling : {1, 2}) {
      JpegOptions options;
      options.progressive = progressive;
      options.h = options.v = sampling;
      options.quality = 50;
      const auto counts = coefficientCounts(jpeg(textured({163, 101}), options), kAll);
      ASSERT_EQ(counts.size(), 9U);
      for (const CoefficientCounts& c : counts) EXPECT_EQ(blocksIn(c), 20U * 12U);
      // ITU-T T.81, table K.1, which is that of quality 50: in zigzag order after the mean.
      constexpr std::array<int, 9> kSteps{11, 12, 14, 12, 10, 16, 14, 13, 14};
      for (std::size_t i = 0; i < 9; ++i) EXPECT_EQ(counts[i].step, kSteps[i]) << i;
    }
}

TEST(CoefficientCounts, knowsOneWaveFromAnother) {
  Picture picture = flat({64, 64}, {0, 0, 0});  // half a wave across each block, upright: the first coefficient alone
  for (int y = 0; y < 64; ++y)
    for (int x = 0; x < 64; ++x)
      for (int c = 0; c < 3; ++c) picture.at(x, y)[c] = static_cast<std::uint16_t>(std::lround(128 + 30 * std::cos(3.14159265 * (x % 8 + 0.5) / 8)));
  const auto counts = coefficientCounts(jpeg(picture, {.quality = 80}), kAll);
  ASSERT_EQ(counts.size(), 9U);
  // ITU-T T.81, A.3.3: 30 · 4 · 8 / (4 · √2) = 169.7; the step at quality 80 is (11 · 40 + 50) / 100 = 4; 169.7 / 4 = 42.4.
  EXPECT_EQ(counts[0].counts[42], 64U);
  for (std::size_t i = 1; i < 9; ++i) EXPECT_EQ(counts[i].counts[0], 64U) << i;
}

TEST(CoefficientCounts, readsOnlyTheTop) {
  const Bytes bytes = jpeg(textured({320, 320}), {.quality = 50});
  const auto counts = coefficientCounts(bytes, 320 * 64);
  ASSERT_EQ(counts.size(), 9U);
  EXPECT_EQ(blocksIn(counts[0]), 40U * 8U);
  const auto least = coefficientCounts(bytes, 0);
  ASSERT_EQ(least.size(), 9U);
  EXPECT_EQ(blocksIn(least[0]), 40U * 4U);
}

TEST(CoefficientCounts, damageAndOtherKindsGiveNothingOrLessAndNeverFail) {
  EXPECT_TRUE(coefficientCounts(greyJpeg({64, 64}), kAll).empty());
  EXPECT_TRUE(coefficientCounts(cmykJpeg({64, 64}), kAll).empty());
  EXPECT_TRUE(coefficientCounts(png(pattern({8, 8})), kAll).empty());
  EXPECT_TRUE(coefficientCounts({}, kAll).empty());
  for (const bool progressive : {false, true}) {
    JpegOptions options;
    options.progressive = progressive;
    options.exif = exif({.make = "Simulated"});
    const Bytes whole = jpeg(textured({96, 96}), options);
    for (std::size_t length = 0; length < whole.size(); length += 11) {
      const auto counts = coefficientCounts(std::span(whole).first(length), kAll);
      EXPECT_TRUE(counts.empty() || counts.size() == 9) << length;
    }
    std::mt19937 engine(5);
    for (int i = 0; i < 300; ++i) {
      Bytes broken = whole;
      for (int k = 0; k < 3; ++k) broken[engine() % broken.size()] = static_cast<std::uint8_t>(engine());
      const auto counts = coefficientCounts(broken, kAll);
      EXPECT_TRUE(counts.empty() || counts.size() == 9) << i;
    }
  }
}

TEST(CoefficientCounts, oneCompressionIsToldFromTwo) {
  const Picture picture = textured({640, 480});
  for (const int quality : {55, 75, 90, 97}) EXPECT_FALSE(doubleQuantisation(coefficientCounts(jpeg(picture, {.quality = quality}), kAll)).twice) << quality;
  struct Row {
    int first, then;
  };
  for (const Row r : {Row{60, 80}, Row{75, 90}, Row{80, 92}, Row{85, 95}, Row{90, 98}})
    EXPECT_TRUE(doubleQuantisation(coefficientCounts(jpeg(decodeJpeg(jpeg(picture, {.quality = r.first})), {.quality = r.then}), kAll)).twice)
        << r.first << " " << r.then;
  // The same quality again changes next to nothing, and nothing is claimed.
  EXPECT_FALSE(doubleQuantisation(coefficientCounts(jpeg(decodeJpeg(jpeg(picture, {.quality = 85})), {.quality = 85}), kAll)).twice);
}

}  // namespace
}  // namespace huewright
