#include "camera/upright.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <random>

#include "colour/rgb.hpp"

namespace huewright {
namespace {

/// A photo of that size whose luminance is a function of the pixel's centre.
template <class F>
Raster photoOf(int width, int height, F luminance) {
  Raster r{{0, 0, width, height}, {}, {}};
  for (int y = 0; y < height; ++y)
    for (int x = 0; x < width; ++x) {
      const double v = luminance(x + 0.5, y + 0.5);
      for (const double k : {0.96, 1.0, 0.82}) r.xyz.push_back(static_cast<float>(k * v));
      r.clip.push_back(0);
    }
  return r;
}

double luminanceAt(const Raster& r, int x, int y) {
  return static_cast<double>(r.xyz[3 * static_cast<std::size_t>(y * r.rect.width + x) + 1]);
}
Kept at(const std::vector<Kept>& kept, const Raster& r, int x, int y) { return kept[static_cast<std::size_t>(y * r.rect.width + x)]; }

TEST(UprightSize, FollowsTheSidesAndIsNeverEnlarged) {
  EXPECT_EQ(uprightSize(toQuad({10, 20, 1400, 700}), 700), (Size{700, 350}));
  EXPECT_EQ(uprightSize(toQuad({10, 20, 60, 90}), 700), (Size{60, 90}));
  EXPECT_EQ(uprightSize({{{{0, 0}, {0.2, 0}, {0.2, 0.2}, {0, 0.2}}}}, 700), (Size{1, 1}));
  // Leaning: 300 above and 200 below; turned by a quarter, so that the first corner's side goes down.
  EXPECT_EQ(uprightSize({{{{0, 0}, {300, 0}, {250, 100}, {50, 100}}}}, 700).width, 250);
  EXPECT_EQ(uprightSize({{{{100, 0}, {100, 80}, {0, 80}, {0, 0}}}}, 700), (Size{80, 100}));
}

TEST(Rectify, ARectangleOfWholePixelsIsTakenAsItIs) {
  const Raster photo = photoOf(40, 30, [](double x, double y) { return 0.01 * x + 0.001 * y; });
  const Raster up = rectify(photo, toQuad({5, 6, 20, 10}), {20, 10});
  EXPECT_EQ(up.rect, (Rect{0, 0, 20, 10}));
  for (int y = 0; y < 10; ++y)
    for (int x = 0; x < 20; ++x) EXPECT_NEAR(luminanceAt(up, x, y), luminanceAt(photo, x + 5, y + 6), 1e-6);
}

TEST(Rectify, KeepsToTheRastersOwnPlaceInThePhoto) {
  Raster photo = photoOf(40, 30, [](double x, double) { return 0.01 * x; });
  photo.rect.x = 1000;
  photo.rect.y = 500;
  const Raster up = rectify(photo, toQuad({1010, 505, 10, 10}), {10, 10});
  EXPECT_NEAR(luminanceAt(up, 0, 0), 0.105, 1e-6);
}

// Where the luminance is the place itself, the upright picture shows the places that are told.
TEST(UprightPlaces, AreWhatRectifyShows) {
  const Quad leaning{{{{6, 4}, {33, 7}, {30, 25}, {8, 28}}}};
  const Size size{12, 9};
  const Raster across = rectify(photoOf(40, 30, [](double x, double) { return 0.01 * x; }), leaning, size);
  const Raster down = rectify(photoOf(40, 30, [](double, double y) { return 0.01 * y; }), leaning, size);
  const auto places = uprightPlaces(leaning, size);
  ASSERT_EQ(places.size(), 108u);
  for (int y = 0; y < size.height; ++y)
    for (int x = 0; x < size.width; ++x) {
      const Point& place = places[static_cast<std::size_t>(y * size.width + x)];
      EXPECT_NEAR(100 * luminanceAt(across, x, y), place.x, 0.05);
      EXPECT_NEAR(100 * luminanceAt(down, x, y), place.y, 0.05);
    }
}

TEST(Rectify, TurnsAPanelUpright) {  // the first corner becomes the top left one
  const Raster photo = photoOf(40, 40, [](double x, double y) { return 0.01 * x + 0.0001 * y; });
  const Raster up = rectify(photo, {{{{30, 10}, {30, 30}, {10, 30}, {10, 10}}}}, {20, 20});
  EXPECT_NEAR(luminanceAt(up, 0, 0), 0.295 + 0.00105, 1e-6);
  EXPECT_NEAR(luminanceAt(up, 19, 0), 0.295 + 0.00295, 1e-6);
  EXPECT_NEAR(luminanceAt(up, 0, 19), 0.105 + 0.00105, 1e-6);
}

TEST(Rectify, UndoesPerspective) {
  // A plane tilted away: the panel's point (u, v) is seen at this place.
  const auto seen = [](double u, double v) {
    const double w = 1 + 0.5 * v;
    return Point{(50 + 300 * u + 40 * v) / w, (30 + 400 * v) / w};
  };
  const Quad quad{{{seen(0, 0), seen(1, 0), seen(1, 1), seen(0, 1)}}};
  // What is drawn on the panel: luminance 0.2 + 0.3 u + 0.4 v, by the inverse of the map above.
  const Raster photo = photoOf(400, 320, [](double x, double y) {
    const double v = (y - 30) / (400 - 0.5 * y), w = 1 + 0.5 * v, u = (x * w - 50 - 40 * v) / 300;
    return 0.2 + 0.3 * u + 0.4 * v;
  });
  const Raster up = rectify(photo, quad, {60, 50});
  for (int y = 1; y < 49; y += 6)
    for (int x = 1; x < 59; x += 6) EXPECT_NEAR(luminanceAt(up, x, y), 0.2 + 0.3 * (x + 0.5) / 60 + 0.4 * (y + 0.5) / 50, 5e-4) << x << " " << y;
}

TEST(Rectify, AveragesOverThePixelsArea) {  // a fine check pattern becomes its mean, and does not alias
  const Raster photo = photoOf(400, 400, [](double x, double y) { return (static_cast<int>(x) + static_cast<int>(y)) % 2 ? 0.6 : 0.2; });
  const Raster up = rectify(photo, toQuad({0, 0, 400, 400}), {80, 80});
  for (int i = 1; i < 79; ++i) EXPECT_NEAR(luminanceAt(up, i, i), 0.4, 0.02);
}

TEST(Rectify, CarriesClippingOverWhereAQuarterIsClipped) {
  Raster photo = photoOf(40, 40, [](double, double) { return 0.5; });
  for (int y = 0; y < 40; ++y)
    for (int x = 0; x < 20; ++x) photo.clip[static_cast<std::size_t>(y * 40 + x)] = 0x05;
  photo.clip[static_cast<std::size_t>(20 * 40 + 30)] = 0x07;  // a single hot pixel
  const Raster up = rectify(photo, toQuad({0, 0, 40, 40}), {10, 10});
  EXPECT_EQ(up.clip[5 * 10 + 2], 0x05);
  EXPECT_EQ(up.clip[5 * 10 + 7], 0);
}

TEST(Rectify, AQuadBeyondThePixelsTakesTheNearest) {
  const Raster photo = photoOf(10, 10, [](double x, double) { return 0.01 * x; });
  const Raster up = rectify(photo, toQuad({-5, -5, 20, 20}), {20, 20});
  EXPECT_NEAR(luminanceAt(up, 0, 0), 0.005, 1e-6);
  EXPECT_NEAR(luminanceAt(up, 19, 19), 0.095, 1e-6);
  const Raster one = rectify(photoOf(1, 1, [](double, double) { return 0.3; }), toQuad({0, 0, 1, 1}), {3, 3});
  EXPECT_NEAR(luminanceAt(one, 1, 1), 0.3, 1e-6);
}

TEST(Correct, AsksAtThePlaceInThePhoto) {
  Raster photo = photoOf(200, 100, [](double x, double y) { return 0.3 * (1 + 0.002 * x) * (1 - 0.001 * y); });
  const Quad quad{{{{190, 5}, {190, 95}, {10, 95}, {10, 5}}}};
  Raster up = rectify(photo, quad, uprightSize(quad, 700));
  correct(up, quad, [](Point p) { return 1 / ((1 + 0.002 * p.x) * (1 - 0.001 * p.y)) * Mat3::identity(); });
  for (const float v : {up.xyz[1], up.xyz[3 * 4000 + 1], up.xyz[up.xyz.size() - 2]}) EXPECT_NEAR(static_cast<double>(v), 0.3, 1e-4);
}

TEST(KeptPixels, GlareAndShadowAreNamedAndTheRestIsKept) {
  const Raster up = photoOf(240, 180, [](double x, double y) {
    if (std::hypot(x - 60, y - 60) < 20) return 0.6;
    return x > 200 && y > 120 ? 0.2 : 0.3;
  });
  const auto kept = keptPixels(up);
  EXPECT_EQ(at(kept, up, 60, 60), Kept::Glare);
  EXPECT_EQ(at(kept, up, 225, 150), Kept::Shadow);
  EXPECT_EQ(at(kept, up, 120, 90), Kept::Yes);
  EXPECT_LT(std::ranges::count(kept, Kept::Yes), static_cast<std::ptrdiff_t>(kept.size()));
  EXPECT_GT(std::ranges::count(kept, Kept::Yes), static_cast<std::ptrdiff_t>(kept.size() * 8 / 10));
}

TEST(KeptPixels, AnEdgeThatAllFourSidesShareIsTheFilms) {
  const auto rim = [](double x, double y) { return std::min({x, y, 240 - x, 180 - y}) < 16; };
  const Raster deep = photoOf(240, 180, [&](double x, double y) { return rim(x, y) ? 0.26 : 0.3; });
  EXPECT_EQ(std::ranges::count(keptPixels(deep), Kept::Yes), static_cast<std::ptrdiff_t>(deep.clip.size()));
  const Raster beside = photoOf(240, 180, [&](double x, double y) { return rim(x, y) ? 0.1 : 0.3; });  // no film: a frame
  EXPECT_EQ(at(keptPixels(beside), beside, 3, 90), Kept::Shadow);
  const Raster one = photoOf(240, 180, [](double x, double) { return x < 16 ? 0.26 : 0.3; });  // a shadow along one side
  EXPECT_EQ(at(keptPixels(one), one, 5, 90), Kept::Shadow);
}

TEST(Smooth, AMapIsSmoothedByItsSize) {
  EXPECT_DOUBLE_EQ(mapSmoothing({700, 300}), 700 / 150.0);
  EXPECT_DOUBLE_EQ(mapSmoothing({300, 600}), 4);
  EXPECT_DOUBLE_EQ(mapSmoothing({60, 40}), 1);
}

TEST(Smooth, QuietsNoiseAndKeepsTheMean) {
  std::mt19937 rng(3);
  std::normal_distribution<double> noise(0, 0.05);
  Raster up = photoOf(120, 90, [&](double, double) { return 0.3 + noise(rng); });
  const std::vector<Kept> all(up.clip.size(), Kept::Yes);
  smooth(up, all, 3);
  double sum = 0, squares = 0;
  for (std::size_t i = 1; i < up.xyz.size(); i += 3) {
    sum += static_cast<double>(up.xyz[i]);
    squares += (static_cast<double>(up.xyz[i]) - 0.3) * (static_cast<double>(up.xyz[i]) - 0.3);
  }
  const auto n = static_cast<double>(all.size());
  EXPECT_NEAR(sum / n, 0.3, 0.002);
  // Over a plane, Gaussian smoothing leaves 1 / (4π sd²) of the variance: 0.094 of the deviation here, more at the rim.
  EXPECT_NEAR(std::sqrt(squares / n), 0.05 * 0.094, 0.05 * 0.035);
}

TEST(Smooth, ASpotThatIsLeftOutLendsNothing) {
  Raster up = photoOf(60, 60, [](double x, double) { return x < 30 ? 0.9 : 0.3; });
  std::vector<Kept> kept(up.clip.size(), Kept::Yes);
  for (int y = 0; y < 60; ++y)
    for (int x = 0; x < 30; ++x) kept[static_cast<std::size_t>(y * 60 + x)] = Kept::Glare;
  smooth(up, kept, 4);
  EXPECT_NEAR(luminanceAt(up, 30, 30), 0.3, 1e-5);
  EXPECT_NEAR(luminanceAt(up, 29, 30), 0.9, 1e-6);  // as it was
}

TEST(Smooth, NothingBelowAThirdOfAPixel) {
  Raster up = photoOf(9, 9, [](double x, double y) { return x * y * 0.01; });
  const auto before = up.xyz;
  const std::vector<Kept> all(up.clip.size(), Kept::Yes);
  smooth(up, all, 0.2);
  EXPECT_EQ(up.xyz, before);
  smooth(up, all, 0.5);
  EXPECT_NE(up.xyz, before);
}

TEST(SrgbCodes, AgreeWithTheExactCurve) {
  Raster r{{0, 0, 256, 1}, {}, std::vector<std::uint8_t>(256)};
  for (int i = 0; i < 256; ++i) {
    const double light = srgbToLinear(i / 255.0);
    for (const double v : toVec(toXyzD50({light, light, light}))) r.xyz.push_back(static_cast<float>(v));
  }
  const auto codes = srgbCodes(r);
  for (std::size_t i = 0; i < 256; ++i)
    for (std::size_t k = 0; k < 3; ++k) EXPECT_EQ(codes[3 * i + k], i);
  const Raster beyond{{0, 0, 2, 1}, {2, 2, 2, -1, -1, -1}, {0, 0}};
  EXPECT_EQ(srgbCodes(beyond), (std::vector<std::uint8_t>{255, 255, 255, 0, 0, 0}));
}

}  // namespace
}  // namespace huewright
