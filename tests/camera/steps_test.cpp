#include "camera/steps.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <gtest/gtest.h>
#include <iostream>
#include <numbers>
#include <random>

#include "camera/patch.hpp"
#include "colour/delta_e.hpp"
#include "colour/lab.hpp"
#include "colour/rgb.hpp"

namespace huewright {
namespace {

using Rng = std::mt19937_64;
double between(Rng& rng, double low, double high) { return std::uniform_real_distribution<double>(low, high)(rng); }

/// The projective map that takes four points to four others, by elimination; entry (3,3) is 1. Shares nothing with the code under test.
Mat3 mapByCorners(const std::array<Point, 4>& from, const std::array<Point, 4>& to) {
  std::array<std::array<double, 9>, 8> m{};
  for (std::size_t i = 0; i < 4; ++i) {
    const auto [x, y] = from[i];
    m[2 * i] = {x, y, 1, 0, 0, 0, -x * to[i].x, -y * to[i].x, to[i].x};
    m[2 * i + 1] = {0, 0, 0, x, y, 1, -x * to[i].y, -y * to[i].y, to[i].y};
  }
  for (std::size_t k = 0; k < 8; ++k) {
    const auto smaller = [k](const auto& a, const auto& b) { return std::abs(a[k]) < std::abs(b[k]); };
    std::swap(m[k], *std::max_element(m.begin() + static_cast<std::ptrdiff_t>(k), m.end(), smaller));
    for (std::size_t r = 0; r < 8; ++r) {
      const double f = m[r][k] / m[k][k];
      for (std::size_t c = k; r != k && c < 9; ++c) m[r][c] -= f * m[k][c];
    }
  }
  const auto h = [&](std::size_t i) { return m[i][8] / m[i][i]; };
  return {{{{h(0), h(1), h(2)}, {h(3), h(4), h(5)}, {h(6), h(7), 1}}}};
}

Point through(const Mat3& m, Point p) {
  const Vec3 v = m * Vec3{p.x, p.y, 1};
  return {v[0] / v[2], v[1] / v[2]};
}

/// A panel and its photo. Lengths along it are shares of its longer side.
struct Scene {
  std::vector<Vec3> strips;  // linear sRGB
  std::vector<double> ends;  // of the strips but the last
  Quad quad{{{{20, 15}, {440, 15}, {440, 175}, {20, 175}}}};  // u runs along the first side
  int first_corner = 0;      // of the quad as handed over
  double aspect = 160.0 / 420;
  double lean = 0, wave = 0, line = 0, line_factor = 1, fall = 0, bow = 0, noise = 0.01, flake = 0, mottle = 0;
  std::uint64_t seed = 1;

  Quad told() const {
    Quad q = quad;
    std::ranges::rotate(q.corners, q.corners.begin() + first_corner);
    return q;
  }
  double end(std::size_t i, double v) const {
    const double turn = 2 * std::numbers::pi, phase = 1.7 * static_cast<double>(i);
    return ends[i] + lean * (i % 2 == 0 ? 1 : -0.6) * (v - 0.5) * aspect + wave * std::sin(turn * 1.5 * v + phase);
  }
  std::size_t stripAt(Point p) const {
    std::size_t s = 0;
    while (s < ends.size() && p.x > end(s, p.y)) ++s;
    return s;
  }
  double lightAt(Point p) const { return 1 + fall * (p.x - 0.5) - bow * (p.x - 0.4) * (p.x - 0.4); }
  Mat3 toPanel() const { return mapByCorners(quad.corners, {{{0, 0}, {1, 0}, {1, 1}, {0, 1}}}); }
  Vec3 clean(Point p) const { return lightAt(p) * (kSrgbToXyzD50 * strips[stripAt(p)]); }

  Raster photo() const {
    Rng rng(seed);
    std::normal_distribution<double> n;
    const Mat3 to = toPanel();
    const Rect box = boundingBox(quad);
    Raster r;
    r.rect = {box.x - 4, box.y - 4, box.width + 8, box.height + 8};
    std::vector<std::array<double, 4>> waves;  // of the mottle: directions, phase, size
    for (int i = 0; i < 12; ++i)
      waves.push_back({between(rng, -60, 60), between(rng, -60, 60) * aspect, between(rng, 0, 6.28), mottle / std::sqrt(6.0)});
    for (int y = 0; y < r.rect.height; ++y)
      for (int x = 0; x < r.rect.width; ++x) {
        const Point p = through(to, {r.rect.x + x + 0.5, r.rect.y + y + 0.5});
        double factor = 1 + flake * n(rng);
        if (mottle > 0)
          for (const auto& w : waves) factor += w[3] * std::sin(w[0] * p.x + w[1] * p.y + w[2]);
        Vec3 xyz = 0.7 * kWhite<D50>;
        if (p.x >= 0 && p.x <= 1 && p.y >= 0 && p.y <= 1) {
          xyz = clean(p);
          for (std::size_t i = 0; i < ends.size(); ++i)
            if (std::abs(p.x - end(i, p.y)) < 0.5 * line) factor *= line_factor;
        }
        for (std::size_t k = 0; k < 3; ++k) r.xyz.push_back(static_cast<float>(xyz[k] * factor * (1 + noise * n(rng)) + 0.0005 * n(rng)));
        r.clip.push_back(0);
      }
    return r;
  }
};

/// Strips over silver by Beer–Lambert, with a dull floor.
std::vector<Vec3> coats(std::size_t count, const Vec3& density) {
  std::vector<Vec3> strips;
  for (std::size_t s = 0; s < count; ++s) {
    Vec3 c;
    for (std::size_t k = 0; k < 3; ++k) c[k] = 0.01 + 0.42 * std::exp(-density[k] * static_cast<double>(s));
    strips.push_back(c);
  }
  return strips;
}

const Vec3 kBlue{0.45, 0.25, 0.10}, kPale{0.02, 0.05, 0.09};

Scene scene(std::size_t count, const Vec3& density = kBlue) {
  Scene s;
  s.strips = coats(count, density);
  for (std::size_t i = 1; i < count; ++i) s.ends.push_back(static_cast<double>(i) / static_cast<double>(count));
  return s;
}

/// What is wrong with the strips that were found; empty if nothing.
std::string faults(const Scene& s, const Raster& raster, const std::vector<Quad>& found) {
  if (found.size() != s.strips.size()) return "number";
  const Mat3 to = s.toPanel();
  const double pixels = std::hypot(s.quad.corners[1].x - s.quad.corners[0].x, s.quad.corners[1].y - s.quad.corners[0].y);
  const double slack = 1.2 / pixels;
  const auto& c = s.quad.corners;
  const double dx = c[1].x - c[0].x + c[2].x - c[3].x, dy = c[1].y - c[0].y + c[2].y - c[3].y;
  const bool forward = std::abs(dx) >= std::abs(dy) ? dx > 0 : dy > 0;
  for (std::size_t i = 0; i < found.size(); ++i) {
    const std::size_t strip = forward ? i : found.size() - 1 - i;
    const auto name = [&](const std::string& what) { return what + " of strip " + std::to_string(i); };
    if (!isConvex(found[i]) || signedArea(found[i]) <= 0) return name("turn");
    const auto low = [&](double v) { return strip > 0 ? s.end(strip - 1, v) + 0.5 * s.line : 0.0; };
    const auto high = [&](double v) { return strip + 1 < found.size() ? s.end(strip, v) - 0.5 * s.line : 1.0; };
    const Quad read = inset(found[i], kInset);
    for (std::size_t k = 0; k < 4; ++k)
      for (double t = 0; t < 1; t += 0.05) {
        const Point a = read.corners[k], b = read.corners[(k + 1) % 4];
        const Point p = through(to, {a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)});
        if (p.x < low(p.y) - slack || p.x > high(p.y) + slack || p.y < -slack || p.y > 1 + slack)
          return name("overrun by " + std::to_string(std::max(low(p.y) - p.x, p.x - high(p.y)) * pixels) + " px");
      }
    // Between the lines, by area in the picture.
    Vec3 want{}, got{};
    int inside = 0, whole = 0, covered = 0;
    for (int y = 0; y < raster.rect.height; ++y)
      for (int x = 0; x < raster.rect.width; ++x) {
        const Point at{raster.rect.x + x + 0.5, raster.rect.y + y + 0.5}, p = through(to, at);
        if (p.x > low(p.y) && p.x < high(p.y) && p.y > 0 && p.y < 1) {
          ++whole;
          covered += contains(found[i], at);
        }
        if (!contains(read, at)) continue;
        ++inside;
        want = want + s.clean(p);
        const auto place = 3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(raster.rect.width) + static_cast<std::size_t>(x));
        for (std::size_t k = 0; k < 3; ++k) got[k] += static_cast<double>(raster.xyz[place + k]);
      }
    if (2 * covered < whole) return name("share " + std::to_string(covered) + "/" + std::to_string(whole));
    const double error = length(got - want) / length(want);
    if (error > 0.004 + 2.5 * std::hypot(s.flake, s.noise) / std::sqrt(inside) + 0.5 * s.mottle) return name("colour " + std::to_string(error));
  }
  return {};
}

std::string tried(const Scene& s) {
  const Raster raster = s.photo();
  const auto found = findSteps(raster, s.told(), s.strips.size());
  if (!found) return found.error().detail;
  return faults(s, raster, *found);
}

TEST(Steps, TwoToEight) {
  for (std::size_t count = 2; count <= 8; ++count) EXPECT_EQ(tried(scene(count)), "") << count;
}

TEST(Steps, UnequalWidths) {
  Scene s = scene(5);
  s.ends = {0.15, 0.40, 0.56, 0.82};
  EXPECT_EQ(tried(s), "");
}

TEST(Steps, LinesOfTapeDarkerAndLighter) {
  for (const double factor : {0.6, 0.9, 1.1, 1.5})
    for (const double line : {0.005, 0.012, 0.03}) {
      Scene s = scene(5);
      s.line = line;
      s.line_factor = factor;
      EXPECT_EQ(tried(s), "") << line << " " << factor;
    }
}

TEST(Steps, WavyAndSlantedEdges) {
  for (const double lean : {-0.05, 0.02, 0.05})
    for (const double wave : {0.0, 0.006}) {
      Scene s = scene(6);
      s.lean = lean;
      s.wave = wave;
      s.line = 0.008;
      s.line_factor = 0.75;
      EXPECT_EQ(tried(s), "") << lean << " " << wave;
    }
}

TEST(Steps, FallOffNoiseFlakesAndMottle) {
  for (const double fall : {-0.15, 0.15}) {
    Scene s = scene(5);
    s.fall = fall;
    s.bow = 0.1;
    s.noise = 0.04;
    s.flake = 0.10;
    s.mottle = 0.01;
    EXPECT_EQ(tried(s), "") << fall;
  }
}

TEST(Steps, WeakStepsAmongFlakes) {
  Scene s = scene(5, kPale);
  s.flake = 0.08;
  s.noise = 0.02;
  s.fall = 0.1;
  EXPECT_EQ(tried(s), "");
}

TEST(Steps, AnyTurnAndPerspective) {
  for (int corner = 0; corner < 4; ++corner) {
    Scene s = scene(4);
    s.first_corner = corner;
    s.quad = {{{{30, 20}, {430, 60}, {410, 190}, {40, 210}}}};
    EXPECT_EQ(tried(s), "") << corner;
    s.quad = {{{{170, 20}, {190, 430}, {40, 400}, {30, 30}}}};  // upright, u runs downward
    EXPECT_EQ(tried(s), "") << corner;
    s.quad = {{{{30, 430}, {20, 15}, {170, 30}, {185, 410}}}};  // u runs upward: the strips come back the other way round
    EXPECT_EQ(tried(s), "") << corner;
  }
}

TEST(Steps, SmallPictures) {
  Scene s = scene(4);
  s.quad = {{{{5, 5}, {65, 5}, {65, 29}, {5, 29}}}};
  EXPECT_EQ(tried(s), "");
}

TEST(Steps, RefusedWhenThereAreNone) {
  for (const double fall : {0.0, 0.15, -0.3}) {
    Scene s = scene(1);
    s.fall = fall;
    s.bow = 0.2;
    s.flake = 0.08;
    s.mottle = 0.015;
    const Raster raster = s.photo();
    for (const std::size_t asked : {2U, 3U, 5U, 8U}) {
      const auto found = findSteps(raster, s.told(), asked);
      ASSERT_FALSE(found) << fall << " " << asked;
      EXPECT_EQ(found.error().code, Code::StepsNotFound);
      EXPECT_EQ(found.error().detail, "No strips could be told apart on the panel, and " + std::to_string(asked) + " were asked for");
    }
  }
}

TEST(Steps, RefusedWhenThereAreFewer) {
  const Scene s = scene(3);
  const auto found = findSteps(s.photo(), s.told(), 5);
  ASSERT_FALSE(found);
  EXPECT_EQ(found.error().detail, "Only 3 of the 5 strips asked for could be told apart on the panel");
}

TEST(Steps, RefusedWhenThereAreMore) {
  for (const std::size_t more : {1U, 2U, 3U}) {
    const Scene s = scene(4 + more);
    const auto found = findSteps(s.photo(), s.told(), 4);
    ASSERT_FALSE(found);
    EXPECT_EQ(found.error().detail, "The panel shows " + std::to_string(4 + more) + " strips, and 4 were asked for");
  }
}

TEST(Steps, RefusedWhenTooNarrow) {
  Scene s = scene(8);
  s.quad = {{{{5, 5}, {61, 5}, {61, 25}, {5, 25}}}};
  const auto found = findSteps(s.photo(), s.told(), 8);
  ASSERT_FALSE(found);
  EXPECT_NE(found.error().detail.find("too narrow"), std::string::npos) << found.error().detail;
}

/// Any panel whose neighbouring strips differ by at least 1.5 ΔE00.
Scene anyPanel(std::uint64_t seed) {
  Rng rng(seed);
  Scene s;
  s.seed = seed;
  const std::size_t count = 2 + rng() % 7;
  double least = 0;
  while (least < 1.5) {
    Vec3 density;
    for (double& d : density) d = std::exp(between(rng, std::log(0.02), std::log(0.5)));
    s.strips = coats(count, density);
    least = 1e9;
    const auto lab = [&](std::size_t k) { return toLab(toXyzD50({s.strips[k][0], s.strips[k][1], s.strips[k][2]})); };
    for (std::size_t i = 0; i + 1 < count; ++i) least = std::min(least, deltaE2000(lab(i), lab(i + 1)));
  }
  std::vector<double> widths(count);
  double sum = 0;
  for (double& w : widths) sum += w = between(rng, 0.75, 1.25);
  for (std::size_t i = 0; i + 1 < count; ++i) s.ends.push_back((i > 0 ? s.ends.back() : 0) + widths[i] / sum);
  const double length = between(rng, 200, 520);
  s.aspect = between(rng, 0.25, 0.7);
  const double tilt = between(rng, 0, 2 * std::numbers::pi), bend = 0.05;
  const Point along{length * std::cos(tilt), length * std::sin(tilt)}, across{-s.aspect * along.y, s.aspect * along.x};
  const std::array<Point, 4> square{{{0, 0}, {1, 0}, {1, 1}, {0, 1}}};
  for (std::size_t i = 0; i < 4; ++i) {
    const double u = square[i].x + between(rng, -bend, bend), v = square[i].y + between(rng, -bend, bend);
    s.quad.corners[i] = {600 + u * along.x + v * across.x, 600 + u * along.y + v * across.y};
  }
  s.first_corner = static_cast<int>(rng() % 4);
  s.lean = between(rng, -0.05, 0.05);
  const double narrow = 0.75 / static_cast<double>(count);
  s.wave = between(rng, 0, 0.03) * narrow;
  s.line = between(rng, 0, 0.15) * narrow;
  s.line_factor = std::exp(between(rng, -0.5, 0.5));
  s.fall = between(rng, -0.15, 0.15);
  s.bow = between(rng, 0, 0.15);
  s.noise = between(rng, 0.002, 0.03);
  s.flake = between(rng, 0, 0.10);
  s.mottle = between(rng, 0, 0.01);
  return s;
}

constexpr std::uint64_t kParts = 4;  // the sweeps are cut up, so that a slow build's tests stay short

/// How many seeds one part looks at, and its first. HUEWRIGHT_SWEEP=number,first sets another range, for a longer look.
std::array<std::uint64_t, 2> sweep(std::uint64_t part, std::uint64_t number) {
  std::uint64_t first = 1;
  if (const char* told = std::getenv("HUEWRIGHT_SWEEP"); told != nullptr) {
    char* rest = nullptr;
    number = std::strtoull(told, &rest, 10);
    if (*rest == ',') first = std::strtoull(rest + 1, nullptr, 10);
  }
  return {number / kParts, first + part * (number / kParts)};
}

class StepsSweep : public testing::TestWithParam<std::uint64_t> {};
INSTANTIATE_TEST_SUITE_P(Parts, StepsSweep, testing::Range(std::uint64_t{0}, kParts));

TEST_P(StepsSweep, Panels) {
  const auto [number, first] = sweep(GetParam(), 200);
  std::uint64_t failed = 0;
  for (std::uint64_t i = first; i < first + number; ++i) {
    const Scene s = anyPanel(i);
    const std::string what = tried(s);
    if (what.empty()) continue;
    ++failed;
    std::cout << "panel " << i << ": " << s.strips.size() << " strips, " << what << "\n";
  }
  std::cout << failed << " of " << number << " panels failed\n";
  EXPECT_LE(failed, 1 + number / 100);
}

/// Plain panels, with all that is no step.
TEST_P(StepsSweep, PanelsWithoutSteps) {
  const auto [number, first] = sweep(GetParam(), 100);
  std::uint64_t failed = 0;
  for (std::uint64_t i = first; i < first + number; ++i) {
    Scene s = anyPanel(i);
    s.strips = {s.strips[i % s.strips.size()]};
    s.ends.clear();
    s.mottle *= 2;
    s.fall *= 1.5;
    const std::size_t asked = 2 + i % 4;
    failed += findSteps(s.photo(), s.told(), asked).has_value();
  }
  std::cout << failed << " of " << number << " plain panels were cut\n";
  EXPECT_LE(failed, 1 + number / 100);
}

}  // namespace
}  // namespace huewright
