// The second renderer's lamps, lens, sensor and tone. Nothing is ever tuned on them.
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>
#include <string>
#include <tuple>

#include "colour/cct.hpp"
#include "colour/delta_e.hpp"
#include "colour/rgb.hpp"
#include "render/spectra.hpp"
#include "render2/scene.hpp"

namespace huewright::render2 {
namespace {

TEST(Render2Light, lampsHaveTheirTemperature) {
  const auto observer = readObserver(render::calibFolder());
  ASSERT_TRUE(observer.has_value());
  const PlanckianLocus locus(*observer);
  for (const std::string& name : lampNames()) {
    const Spectrum& light = lampSpectrum(name);
    EXPECT_GE(*std::ranges::min_element(light.v), 0);
    const auto cct = locus.find(toChromaticity(xyzBy(even(1), light)));
    ASSERT_TRUE(cct.has_value()) << name;
    const std::string digits = name.substr(name.find_first_of("0123456789"), 4);
    EXPECT_NEAR(cct->kelvin, std::stod(digits), 25) << name;   // the band below 380 nm and the 5 nm steps are missing
    EXPECT_NEAR(cct->duv, 0, 5e-4) << name;
  }
  EXPECT_THROW(std::ignore = lampSpectrum("moonlight"), std::invalid_argument);
}

TEST(Render2View, thereAndBack) {
  const View view({{4, -7, 70}, 2, 44, 0.02}, {1000, 680});
  for (const Point p : {Point{0, 0}, Point{-20, -12}, Point{18, 13}}) {
    const Point back = view.toPlace(view.toPicture(p));
    EXPECT_NEAR(back.x, p.x, 1e-4);
    EXPECT_NEAR(back.y, p.y, 1e-4);
  }
  const View straight({{0, 0, 75}, 0, 50, 0}, {1000, 680});
  const Point right = straight.toPicture({10, 5});
  EXPECT_NEAR(right.x, 700, 1e-9);   // 20 pixels a centimetre, y down
  EXPECT_NEAR(right.y, 440, 1e-9);
}

TEST(Render2Camera, theMosaicGivesBackWhatIsEven) {
  const Size size{32, 20};
  CameraSpec camera;
  camera.full_well = 0;
  Random random(1);
  std::vector<float> sensor(3 * 32 * 20);
  for (std::size_t i = 0; i < sensor.size(); i += 3) {
    sensor[i] = 0.2f;
    sensor[i + 1] = 0.5f;
    sensor[i + 2] = 0.3f;
  }
  EXPECT_EQ(demosaiced(size, mosaic(camera, size, sensor, random)), sensor);
  // And a ramp inside the borders, since means of neighbours keep straight lines.
  for (std::size_t i = 0; i < sensor.size(); ++i) sensor[i] = static_cast<float>(i / 3 % 32) / 40;
  const auto back = demosaiced(size, mosaic(camera, size, sensor, random));
  for (std::size_t y = 0; y < 20; ++y)
    for (std::size_t x = 1; x + 1 < 32; ++x)
      for (std::size_t c = 0; c < 3; ++c) EXPECT_NEAR(back[3 * (y * 32 + x) + c], sensor[3 * (y * 32 + x) + c], 1e-6f);
}

TEST(Render2Camera, noiseHasTheSpreadThatIsAsked) {
  const Size size{400, 400};
  CameraSpec camera;
  camera.iso = 400;
  camera.banding = 0;
  for (const double level : {0.02, 0.2, 0.7})
    for (const double response : {0.0, 0.02}) {
      camera.prnu = response;
      Random random(9);
      const auto m = mosaic(camera, size, std::vector<float>(3 * 400 * 400, static_cast<float>(level)), random);
      double sum = 0, squares = 0;
      for (const float v : m) {
        sum += static_cast<double>(v);
        squares += static_cast<double>(v) * static_cast<double>(v);
      }
      const double n = static_cast<double>(m.size()), mean = sum / n, electrons = 12000.0 * 100 / 400;
      const double wanted = std::sqrt(level / electrons + std::pow(3 / electrons, 2) + std::pow(response * level, 2));
      EXPECT_NEAR(mean, level, 4e-4);
      EXPECT_NEAR(std::sqrt(squares / n - mean * mean) / wanted, 1, 0.015) << level;
      EXPECT_NEAR(noiseSd(camera, level), wanted, 1e-12);
    }
}

TEST(Render2Camera, bandsRunAlongTheRows) {
  const Size size{500, 500};
  CameraSpec camera;
  camera.read_noise = camera.prnu = 0;
  camera.banding = 60;
  Random random(3);
  const auto m = mosaic(camera, size, std::vector<float>(3 * 500 * 500), random);   // black: no photons
  double squares = 0;
  for (std::size_t y = 0; y < 500; ++y) {
    const double own = static_cast<double>(m[500 * y]);
    for (std::size_t x = 1; x < 500; ++x) ASSERT_EQ(m[500 * y + x], m[500 * y]);
    squares += own * own;
  }
  EXPECT_NEAR(std::sqrt(squares / 500) / (60 / 12000.0), 1, 0.1);
}

TEST(Render2Camera, matricesKeepWhiteAndRenderSurfacesTolerably) {
  for (const char camera : kCameras) {
    const Spectrum light = blackBody(5000);
    const Sensor sensor(camera, light);
    const Vec3 white = sensor.raw(light, even(1));
    const Mat3 m = fittedMatrix(camera, 5000, false);
    for (const Vec3& row : m.row) EXPECT_NEAR(row[0] + row[1] + row[2], 1, 1e-12);
    double sum = 0;
    for (const Spectrum& s : chartPatches()) {
      const Vec3 raw = sensor.raw(light, s), xyz = rgbToXyzD50(kSrgbPrimaries) * (m * Vec3{raw[0] / white[0], raw[1] / white[1], raw[2] / white[2]});
      sum += deltaE2000(toLab(Xyz<D50>{xyz[0], xyz[1], xyz[2]}), labD50(s));
    }
    EXPECT_LT(sum / 24, 5) << camera;    // as real cameras' matrices do
    EXPECT_GT(sum / 24, 0.3) << camera;  // and never perfect
  }
}

TEST(Render2Tone, curvesAscendFromBlackToWhite) {
  Random random(4);
  for (int n = 0; n < 60; ++n) {
    const ToneSpec tone = randomTone(random);
    EXPECT_NEAR(toneOf(tone, 0), 0, 1e-12);
    EXPECT_NEAR(toneOf(tone, 1), 1, 1e-9);
    double before = 0;
    for (int i = 1; i <= 400; ++i) {
      const double now = toneOf(tone, i / 400.0);
      EXPECT_GT(now, before);
      before = now;
    }
  }
}

TEST(Render2Tone, greysStayGreyAndPlainIsSrgb) {
  const Size size{16, 16};
  ToneSpec tone;
  tone.curve = Curve::Filmic;
  tone.contrast = 1;
  tone.fade = 0.5;
  tone.local = 0.2;
  tone.sharpening = 0.5;
  const auto codes = finished(tone, size, std::vector<float>(3 * 256, 0.3f));
  for (std::size_t i = 0; i < codes.size(); i += 3) {
    EXPECT_EQ(codes[i], codes[i + 1]);
    EXPECT_EQ(codes[i], codes[i + 2]);
  }
  std::vector<float> colour;
  for (int i = 0; i < 256; ++i) colour.insert(colour.end(), {0.1f, 0.4f, 0.25f});
  const auto plain = finished(ToneSpec{}, size, colour);
  EXPECT_EQ(plain[0], 89);    // IEC 61966-2-1: 255·(1.055·0.1^(1/2.4) − 0.055) = 89.0
  EXPECT_EQ(plain[1], 170);   // 169.6
  EXPECT_EQ(plain[2], 137);   // 137.0
}

TEST(Render2Tone, localToneDrawsLargePatchesTogetherAndKeepsTheirInside) {
  const Size size{400, 200};
  std::vector<float> halves;
  for (int i = 0; i < 400 * 200; ++i) {
    const float base = i % 400 < 200 ? 0.05f : 0.5f, v = i % 2 == 0 ? base : 1.02f * base;
    halves.insert(halves.end(), {v, v, v});
  }
  const auto out = drawnTogether(0.25, size, halves);
  const auto at = [&](std::size_t x) { return static_cast<double>(out[3 * (100 * 400 + x)]); };
  EXPECT_NEAR(std::log(at(340) / at(60)), 0.75 * std::log(10.0) + 0.25 * std::log(0.06 / 0.051) - 0.25 * std::log(0.51 / 0.501), 0.08);
  EXPECT_NEAR(at(341) / at(340), 1.02, 0.003);
}

}  // namespace
}  // namespace huewright::render2
