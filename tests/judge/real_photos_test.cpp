// Real photographs of a real chart whose colours are published: one chart, five angles, a phone, indoor daylight, JPEG. Every pair of
// patches plays panel and card, the grey patch N5 plays the grey. The photographs are not part of the project; where they are absent the
// test says so and is skipped.
#include <algorithm>
#include <cmath>
#include <filesystem>
#include <gtest/gtest.h>
#include <iterator>
#include <ostream>

#include "colour/delta_e.hpp"
#include "colour/spectrum.hpp"
#include "judge/reading.hpp"

namespace huewright {
namespace {

const std::filesystem::path kRealPhotos = HUEWRIGHT_SOURCE_DIR "/../shared/photos";
constexpr std::size_t kPatches = 24, kN5 = 21;

struct Marked {
  const char* file;
  Quad corners;  // of the patches' field, as the printed crosses mark it; marked by hand, good to about 5 pixels
};

void PrintTo(const Marked& marked, std::ostream* out) { *out << marked.file; }

// The chart lies on its side: its first patch is at the lower left, its first row runs upwards.
const Marked kMarked[] = {
    {"chart-01.jpg", {{{{383, 313}, {1112, 272}, {1188, 1408}, {413, 1437}}}}},
    {"chart-02.jpg", {{{{469, 383}, {1189, 307}, {1195, 1563}, {311, 1490}}}}},
    {"chart-03.jpg", {{{{585, 465}, {1264, 501}, {1228, 1487}, {593, 1537}}}}},
    {"chart-04.jpg", {{{{617, 528}, {1233, 576}, {1292, 1547}, {637, 1608}}}}},
    {"chart-05.jpg", {{{{365, 496}, {1050, 403}, {1111, 1527}, {442, 1506}}}}},
};

/// A place in the field, u to the right and v down, 0..1, through the projective map of the unit square onto the corners.
/// Source: Heckbert (1989), section 2.2.3.
Point place(const Quad& q, double u, double v) {
  const auto& [p0, p1, p2, p3] = q.corners;
  const double dx1 = p1.x - p2.x, dx2 = p3.x - p2.x, dx3 = p0.x - p1.x + p2.x - p3.x;
  const double dy1 = p1.y - p2.y, dy2 = p3.y - p2.y, dy3 = p0.y - p1.y + p2.y - p3.y;
  const double det = dx1 * dy2 - dx2 * dy1, g = (dx3 * dy2 - dx2 * dy3) / det, h = (dx1 * dy3 - dx3 * dy1) / det;
  const double a = p1.x - p0.x + g * p1.x, b = p3.x - p0.x + h * p3.x, d = p1.y - p0.y + g * p1.y, e = p3.y - p0.y + h * p3.y;
  const double w = g * u + h * v + 1;
  return {(a * u + b * v + p0.x) / w, (d * u + e * v + p0.y) / w};
}

Quad patchQuad(const Quad& field, std::size_t patch) {
  const double u = (static_cast<double>(patch / 6) + 0.5) / 4, v = 1 - (static_cast<double>(patch % 6) + 0.5) / 6;
  constexpr double kHalf = 0.32;  // of a cell: well inside the patch
  const double du = kHalf / 4, dv = kHalf / 6;
  return {{{place(field, u - du, v - dv), place(field, u + du, v - dv), place(field, u + du, v + dv), place(field, u - du, v + dv)}}};
}

/// Lab under D50 from the published reflectances (ISO 17321-1, after Ohta 1997).
std::vector<Lab<D50>> published() {
  const std::filesystem::path root = HUEWRIGHT_SOURCE_DIR;
  const auto chart = readSpectralTable(root / "tests/support/data/chart24-reflectance.csv").value();
  const auto lights = readSpectralTable(root / "calib/illuminants-a-c-d-e.csv").value();
  const auto observer = resample(readObserver(root / "calib").value(), chart.nm);
  const auto d50 = resample(lights.nm, *lights.find("D50"), chart.nm);
  const Vec3 white = integrate(observer, d50);
  std::vector<Lab<D50>> all;
  for (const auto& reflectance : chart.columns) {
    const Vec3 xyz = integrate(observer, d50, reflectance);
    all.push_back(toLab(Xyz<D50>{xyz[0] / white[0] * kWhite<D50>[0], xyz[1], xyz[2] / white[2] * kWhite<D50>[2]}));
  }
  return all;
}

struct Agreement {
  double correlation = 0, median_relative_error = 0;
};

Agreement agreement(const std::vector<std::pair<double, double>>& pairs) {  // published, measured
  double n = 0, sx = 0, sy = 0, sxx = 0, sxy = 0, syy = 0;
  std::vector<double> error;
  for (const auto& [x, y] : pairs) {
    n += 1, sx += x, sy += y, sxx += x * x, sxy += x * y, syy += y * y;
    error.push_back(std::abs(y - x) / x);
  }
  std::ranges::sort(error);
  return {(n * sxy - sx * sy) / std::sqrt((n * sxx - sx * sx) * (n * syy - sy * sy)), error[error.size() / 2]};
}

class RealPhotos : public testing::TestWithParam<Marked> {};

TEST_P(RealPhotos, DifferencesFollowThePublishedOnes) {
  const Marked& marked = GetParam();
  if (!std::filesystem::exists(kRealPhotos / marked.file)) GTEST_SKIP() << "skipped: no ../shared";
  const auto lab = published();
  ASSERT_EQ(lab.size(), kPatches);
  auto photo = Photo::open(kRealPhotos / marked.file);
  ASSERT_TRUE(photo);
  std::vector<std::pair<double, double>> pairs;
  Limits limits;
  limits.panels = kPatches;
  for (std::size_t card = 0; card < kPatches; ++card) {
    if (card == kN5) continue;
    Regions regions{{}, patchQuad(marked.corners, card), {patchQuad(marked.corners, kN5)}};
    std::vector<std::size_t> panels;
    for (std::size_t i = 0; i < card; ++i)
      if (i != kN5) {
        panels.push_back(i);
        regions.panels.push_back(patchQuad(marked.corners, i));
      }
    if (panels.empty()) continue;
    const auto scene = arrange(regions, photo->size(), limits);
    ASSERT_TRUE(scene) << sentence(scene.error());
    const auto reading = measure(*photo, *scene, {}, {toXyz(lab[kN5]).Y, {}});
    ASSERT_TRUE(reading) << sentence(reading.error());
    for (std::size_t i = 0; i < panels.size(); ++i)
      pairs.emplace_back(deltaE2000(lab[panels[i]], lab[card]), deltaE2000(reading->panels[i].lab, reading->card.lab));
  }
  ASSERT_EQ(pairs.size(), 23u * 22 / 2);
  const Agreement a = agreement(pairs);
  RecordProperty("correlation", std::to_string(a.correlation));
  RecordProperty("median_relative_error", std::to_string(a.median_relative_error));
  std::printf("%s: correlation %.3f, median relative error %.1f %%\n", marked.file, a.correlation, 100 * a.median_relative_error);
  EXPECT_GE(a.correlation, 0.95);
  EXPECT_LE(a.median_relative_error, 0.15);
}

INSTANTIATE_TEST_SUITE_P(Chart, RealPhotos, testing::ValuesIn(kMarked), [](const auto& at) {
  return "Photo" + std::string(at.param.file).substr(6, 2);
});

}  // namespace
}  // namespace huewright
