#include "paper/pictogram.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <set>
#include <string>

namespace huewright {
namespace {

TEST(Pictogram, StaysInItsSquareAndIsNotEmpty) {
  constexpr int kSide = 160, kRim = 40;  // one pixel a millimetre
  std::set<std::string> seen;
  for (int i = 0; i < kPictogramCount; ++i) {
    Pen pen = Pen::picture(kSide + 2 * kRim, kSide + 2 * kRim, 25.4);
    draw(pen, static_cast<Pictogram>(i), {kRim, kRim}, kSide);
    const auto picture = pen.drawn();
    ASSERT_TRUE(picture);
    int inside = 0;
    for (int y = 0; y < picture->size.height; ++y)
      for (int x = 0; x < picture->size.width; ++x) {
        if (picture->rgb[3 * static_cast<std::size_t>(y * picture->size.width + x)] > 200) continue;
        const bool in = x >= kRim && y >= kRim && x < kRim + kSide && y < kRim + kSide;
        ASSERT_TRUE(in) << i << " at " << x << "," << y;
        ++inside;
      }
    EXPECT_GT(inside, kSide * kSide / 40) << i;   // something is to be seen,
    EXPECT_LT(inside, kSide * kSide / 3) << i;    // and it is a drawing, not a blot
    EXPECT_TRUE(seen.insert(std::string(picture->rgb.begin(), picture->rgb.end())).second) << i;
  }
}

TEST(Pictogram, HasAFewWordsOfItsOwn) {
  std::set<std::string_view> words;
  for (int i = 0; i < kPictogramCount; ++i) {
    const std::string_view text = caption(static_cast<Pictogram>(i));
    EXPECT_TRUE(!text.empty() && text.size() < 30) << text;
    EXPECT_TRUE(words.insert(text).second) << text;
  }
}

TEST(WarningSign, StandsUnderItsCornerAndIsAsHighAsAsked) {
  constexpr int kHigh = 100, kTop = 20, kMiddle = 120;  // one pixel a millimetre
  Pen pen = Pen::picture(240, 140, 25.4);
  drawWarning(pen, {kMiddle, kTop}, kHigh);
  const auto picture = pen.drawn();
  ASSERT_TRUE(picture);
  int top = 1000, bottom = 0, left = 1000, right = 0;
  for (int y = 0; y < picture->size.height; ++y)
    for (int x = 0; x < picture->size.width; ++x)
      if (picture->rgb[3 * static_cast<std::size_t>(y * picture->size.width + x)] < 100) {
        top = std::min(top, y), bottom = std::max(bottom, y), left = std::min(left, x), right = std::max(right, x);
      }
  EXPECT_NEAR(top, kTop, 7);  // half a stroke
  EXPECT_NEAR(bottom, kTop + kHigh, 7);
  EXPECT_NEAR(left + right, 2 * kMiddle, 2);
}

}  // namespace
}  // namespace huewright
