#include "paper/map_picture.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <gtest/gtest.h>
#include <limits>
#include <random>

#include "colour/ramp.hpp"
#include "colour/rgb.hpp"

namespace huewright {
namespace {

/// A map whose values run from 0 at the left to `most` at the right; the photo is one green.
MapSheet sheetOf(Size size, double most = 4) {
  MapSheet s;
  s.title = "Panel 1 is lighter and yellower than the card: ΔE00 2.1 (1.6–2.6), seen at a glance.";
  s.size = size;
  for (int y = 0; y < size.height; ++y)
    for (int x = 0; x < size.width; ++x) {
      s.photo.insert(s.photo.end(), {20, 110, 60});
      s.de00.push_back(static_cast<float>(most * (x + 0.5) / size.width));
    }
  s.panel = {47, -28, -8};
  s.card = {45, -28, -10};
  s.sentences = {"The panel is mottled: places differ by about ±0.8. Its edges are deeper and bluer than its middle by about 1.2. From one end to "
                 "the other it changes by about 2.1: film or light, the photo cannot tell.",
                 "A second sentence."};
  s.smoothed = 1;
  return s;
}

constexpr std::array<Size, 6> kShapes{{{300, 240}, {700, 700}, {120, 700}, {700, 120}, {60, 45}, {1, 1}}};

using Rgb = std::array<std::uint8_t, 3>;
Rgb pixelOfMap(const DrawnPicture& p, int x, int y) {
  const std::size_t i = 3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(p.size.width) + static_cast<std::size_t>(x));
  return {p.rgb[i], p.rgb[i + 1], p.rgb[i + 2]};
}
long count(const DrawnPicture& p, const Rgb& colour) {
  long n = 0;
  for (std::size_t i = 0; i < p.rgb.size(); i += 3) n += p.rgb[i] == colour[0] && p.rgb[i + 1] == colour[1] && p.rgb[i + 2] == colour[2];
  return n;
}
constexpr Rgb kGreen{20, 110, 60}, kHatch{214, 214, 214};

TEST(MapScaleTop, ThreeTolerancesOrTheHighestButTwoInAHundred) {
  std::vector<float> values(1000, 0.5f);
  EXPECT_DOUBLE_EQ(mapScaleTop(values, {}, 1), 3);
  EXPECT_NEAR(mapScaleTop(values, {}, 0.9), 2.7, 1e-12);
  std::fill(values.begin(), values.begin() + 15, 50.0f);  // 1.5 %: too few to count
  EXPECT_DOUBLE_EQ(mapScaleTop(values, {}, 1), 3);
  std::fill(values.begin(), values.begin() + 30, 5.3f);
  EXPECT_DOUBLE_EQ(mapScaleTop(values, {}, 1), 6);
  std::fill(values.begin(), values.begin() + 30, 14.0f);
  EXPECT_DOUBLE_EQ(mapScaleTop(values, {}, 1), 15);
  std::fill(values.begin(), values.begin() + 30, 85.0f);
  EXPECT_DOUBLE_EQ(mapScaleTop(values, {}, 1), 100);
}

TEST(MapScaleTop, WhatIsLeftOutDoesNotCount) {
  std::vector<float> values(100, 9.0f);
  std::vector<MapPart> parts(100, MapPart::Glare);
  for (std::size_t i = 0; i < 50; ++i) {
    values[i] = 0.2f;
    parts[i] = MapPart::Shown;
  }
  EXPECT_DOUBLE_EQ(mapScaleTop(values, parts, 1), 3);
  EXPECT_DOUBLE_EQ(mapScaleTop({}, {}, 0.5), 1.5);
  EXPECT_DOUBLE_EQ(mapScaleTop(std::vector<float>(9, std::nanf("")), {}, 1), 3);
}

TEST(MapColour, IsTheRampAndEndsWithIt) {
  for (const double share : {0.0, 0.1, 0.37, 1.0}) EXPECT_EQ(mapColour(share), rampCode(share));
  EXPECT_EQ(mapColour(7), mapColour(1));
  EXPECT_NE(mapColour(0), mapColour(1));
}

TEST(MapPicture, NothingOverlapsAndNothingRunsOut) {
  for (const Size size : kShapes)
    for (const bool masked : {false, true}) {
      MapSheet sheet = sheetOf(size);
      sheet.parts.assign(sheet.de00.size(), MapPart::Shown);
      if (masked && size.width > 20)
        for (std::size_t i = 0; i < sheet.parts.size() / 2; ++i) sheet.parts[i] = static_cast<MapPart>(1 + i % 3);
      const auto picture = mapPicture(sheet);
      const auto boxes = mapTypeBoxes(sheet);
      ASSERT_TRUE(picture && boxes) << size.width;
      EXPECT_GT(boxes->size(), 12U);
      for (std::size_t i = 0; i < boxes->size(); ++i) {
        const Quad& box = (*boxes)[i];
        EXPECT_GE(box.corners[0].x, 10) << size.width << "x" << size.height << " line " << i;
        EXPECT_GE(box.corners[0].y, 10);
        EXPECT_LE(box.corners[2].x, picture->size.width - 10) << size.width << "x" << size.height << " line " << i;
        EXPECT_LE(box.corners[2].y, picture->size.height - 10);
        EXPECT_GT(box.corners[2].y - box.corners[0].y, 5);  // large enough to read
        for (std::size_t j = 0; j < i; ++j) EXPECT_FALSE(overlap(box, (*boxes)[j])) << size.width << "x" << size.height << " lines " << j << ", " << i;
      }
    }
}

TEST(MapPicture, ViewsAreOfAUsefulSize) {
  for (const Size size : kShapes) {
    const auto picture = mapPicture(sheetOf(size));
    ASSERT_TRUE(picture);
    const double longer = std::max(size.width, size.height), scale = std::clamp(longer, 420.0, 720.0) / longer;
    const double area = scale * scale * size.width * size.height;
    EXPECT_NEAR(static_cast<double>(count(*picture, kGreen)), area, 0.01 * area + 4) << size.width;  // the photo is there as a whole
    EXPECT_LE(picture->size.width, 1520);
    EXPECT_GE(picture->size.width, 720);
  }
}

TEST(MapPicture, WideOnesStandOneAboveTheOther) {
  EXPECT_EQ(mapPicture(sheetOf({700, 300}))->size.width, 748);
  EXPECT_EQ(mapPicture(sheetOf({700, 500}))->size.width, 700 + 20 + 700 + 48);
}

TEST(MapPicture, ColoursFollowTheScale) {
  MapSheet sheet = sheetOf({420, 420});
  const auto colourOf = [&](float value) {
    std::ranges::fill(sheet.de00, value);
    const auto picture = mapPicture(sheet);
    return pixelOfMap(*picture, picture->size.width - 24 - 210, 24 + 200);  // well inside the map
  };
  EXPECT_EQ(colourOf(0.3f), mapColour(0.1));
  EXPECT_EQ(colourOf(2.4f), mapColour(0.8));
  EXPECT_EQ(colourOf(3.0f), mapColour(1));
  sheet.tolerance = 2;
  EXPECT_EQ(colourOf(2.4f), mapColour(0.4));
}

TEST(MapPicture, TheContourIsWhiteAndBlackAtTheTolerance) {
  MapSheet sheet = sheetOf({420, 420}, 3);
  const auto drawn = mapPicture(sheet);
  sheet.tolerance = 4;  // nothing reaches it
  const auto without = mapPicture(sheet);
  ASSERT_TRUE(drawn && without);
  const int y = 24 + 200, left = 24 + 420 + 20;
  int darkest = left, sum = 999;
  for (int x = left + 5; x < left + 300; ++x)
    if (const Rgb c = pixelOfMap(*drawn, x, y); c[0] + c[1] + c[2] < sum) {
      sum = c[0] + c[1] + c[2];
      darkest = x;
    }
  EXPECT_LT(sum, 120);
  EXPECT_NEAR(darkest + 0.5 - left, 140, 1.5);  // a third of the way
  EXPECT_GT(pixelOfMap(*drawn, darkest + 2, y)[2], pixelOfMap(*without, darkest + 2, y)[2]);  // white beside it
  for (int x = left + 5; x < left + 415; ++x) EXPECT_GT(pixelOfMap(*without, x, y)[0] + pixelOfMap(*without, x, y)[1] + pixelOfMap(*without, x, y)[2], 150);
}

/// Pixels of the map of a 420 × 420 sheet that are as dark as its line.
long lineLength(const MapSheet& sheet) {
  const auto picture = mapPicture(sheet);  // without a title the map lies between rows 56 and 476
  long n = 0;
  for (int y = 70; y < 460; ++y)
    for (int x = 24 + 420 + 30; x < 24 + 420 + 20 + 400; ++x) {
      const Rgb c = pixelOfMap(*picture, x, y);
      n += c[0] + c[1] + c[2] < 120;
    }
  return n;
}

TEST(MapPicture, NoiseAndSpecksHaveNoLine) {
  MapSheet sheet = sheetOf({420, 420});
  sheet.title.clear();
  std::mt19937 rng(6);
  std::normal_distribution<float> noise(0.87f, 0.3f);
  for (float& v : sheet.de00) v = noise(rng);  // a third of the pixels are beyond 1, though no place is
  EXPECT_EQ(lineLength(sheet), 0);
  std::ranges::fill(sheet.de00, 0.5f);
  const auto spot = [&](int side) {
    for (int y = 0; y < side; ++y)
      for (int x = 0; x < side; ++x) sheet.de00[static_cast<std::size_t>((200 + y) * 420 + 200 + x)] = 1.9f;
  };
  spot(8);
  EXPECT_EQ(lineLength(sheet), 0);
  spot(40);
  EXPECT_GT(lineLength(sheet), 100);
}

TEST(MapPicture, WhatIsLeftOutIsHatchedAndNamed) {
  MapSheet sheet = sheetOf({420, 420}, 0.4);
  const auto plain = mapPicture(sheet);
  const std::size_t lines = mapTypeBoxes(sheet)->size();
  EXPECT_LT(count(*plain, kHatch), 500);  // the rims of letters
  sheet.parts.assign(sheet.de00.size(), MapPart::Shown);
  for (std::size_t i = 0; i < sheet.parts.size() / 4; ++i) sheet.parts[i] = MapPart::Glare;
  EXPECT_GT(count(*mapPicture(sheet), kHatch), 420 * 420 / 4 / 2);
  EXPECT_EQ(mapTypeBoxes(sheet)->size(), lines + 1);
  for (std::size_t i = 0; i < sheet.parts.size() / 8; ++i) sheet.parts[i] = MapPart::Shadow;
  sheet.de00.back() = std::numeric_limits<float>::quiet_NaN();  // no number: said as too bright or too dark
  EXPECT_EQ(mapTypeBoxes(sheet)->size(), lines + 3);
}

TEST(MapPicture, BothColoursAreShownSideBySide) {
  MapSheet sheet = sheetOf({300, 240});
  const auto picture = mapPicture(sheet);
  ASSERT_TRUE(picture);
  const Rgb panel = toSrgb8(sheet.panel), card = toSrgb8(sheet.card);
  EXPECT_EQ(count(*picture, panel), 124 * 52);
  EXPECT_EQ(count(*picture, card), 124 * 52);
  bool touch = false;
  for (int y = 0; y < picture->size.height; ++y)
    for (int x = 1; x < picture->size.width; ++x) touch = touch || (pixelOfMap(*picture, x - 1, y) == panel && pixelOfMap(*picture, x, y) == card);
  EXPECT_TRUE(touch);
}

TEST(MapPicture, TheSameBytesTwice) { EXPECT_EQ(mapPicture(sheetOf({200, 100}))->rgb, mapPicture(sheetOf({200, 100}))->rgb); }

TEST(MapPicture, LayersMustFit) {
  const auto codeOf = [](auto change) {
    MapSheet sheet = sheetOf({30, 20});
    change(sheet);
    const auto picture = mapPicture(sheet);
    EXPECT_EQ(picture.has_value(), mapTypeBoxes(sheet).has_value());
    return picture ? Code{} : picture.error().code;
  };
  EXPECT_EQ(codeOf([](MapSheet&) {}), Code{});
  EXPECT_EQ(codeOf([](MapSheet& s) { s.photo.pop_back(); }), Code::Internal);
  EXPECT_EQ(codeOf([](MapSheet& s) { s.de00.pop_back(); }), Code::Internal);
  EXPECT_EQ(codeOf([](MapSheet& s) { s.parts.resize(5); }), Code::Internal);
  EXPECT_EQ(codeOf([](MapSheet& s) { s.tolerance = 0; }), Code::Internal);
  EXPECT_EQ(codeOf([](MapSheet& s) { s = {}; }), Code::Internal);
  EXPECT_EQ(codeOf([](MapSheet& s) { s.size = {30, 5000}; }), Code::Internal);
}

TEST(MapPicture, NothingShownStillMakesAPicture) {
  MapSheet sheet = sheetOf({100, 80});
  sheet.parts.assign(sheet.de00.size(), MapPart::Clipped);
  sheet.sentences.clear();
  sheet.title.clear();
  EXPECT_TRUE(mapPicture(sheet));
}

}  // namespace
}  // namespace huewright
