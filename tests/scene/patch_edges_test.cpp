#include "scene/patch_edges.hpp"

#include <cmath>
#include <filesystem>
#include <gtest/gtest.h>

#include "scene/homography.hpp"
#include "support/calib.hpp"
#include "support/chart_picture.hpp"

namespace huewright {
namespace {

using namespace fixtures;

constexpr Size kPatchesSize{900, 675};

std::vector<std::pair<int, int>> everyPatch() {
  std::vector<std::pair<int, int>> all;
  for (int r = 0; r < 4; ++r)
    for (int c = 0; c < 6; ++c) all.emplace_back(c, r);
  return all;
}

double worst(const Mat3& a, const Mat3& b) {
  double most = 0;
  for (const Point& p : {Point{0, 0}, Point{6, 0}, Point{6, 4}, Point{0, 4}}) {
    const Point u = mapped(a, p), v = mapped(b, p);
    most = std::max(most, std::hypot(u.x - v.x, u.y - v.y));
  }
  return most;
}

// The corners came to within 0.15 pixels; those of the outer places lie a quarter of a step beyond the patches' centres.
TEST(FitByEdges, FindsTheGridFromHalfAGapAway) {
  for (const Vec3& frame : {Vec3{0.03, 0.03, 0.03}, Vec3{0.85, 0.85, 0.85}})
    for (const double share : {0.75, 0.88})
      for (const Point& off : {Point{0.5, 0}, Point{-0.5, 0.5}, Point{0, -0.5}}) {
        const Mat3 truth = chartHomography({.turn = 33, .tilt = 25, .towards = 100}, kPatchesSize);
        ChartPicture picture(kPatchesSize, 4);
        picture.lay(publishedLight(), truth, {frame, share, 0.35});
        const Mat3 rough = truth * Mat3{{{{1, 0, (1 - share) * off.x}, {0, 1, (1 - share) * off.y}, {0, 0, 1}}}};
        const auto fit = fitByEdges(picture.preview(1.2, 2), rough, everyPatch(), 0.82);
        ASSERT_TRUE(fit) << frame[0] << ' ' << share << ' ' << off.x;
        EXPECT_LT(worst(fit->homography, truth), 0.4);
        EXPECT_NEAR(fit->share, share, 0.02);
        EXPECT_LT(fit->sd, 0.3);
        EXPECT_GE(fit->patches, 18U);
      }
}

TEST(FitByEdges, NothingWhereThereAreNoPatches) {
  const Mat3 truth = chartHomography({}, kPatchesSize);
  ChartPicture picture(kPatchesSize, 4);
  picture.lay(std::vector<Vec3>(24, Vec3{0.03, 0.03, 0.03}), truth);
  EXPECT_FALSE(fitByEdges(picture.preview(1, 2), truth, everyPatch(), 0.82));
  EXPECT_FALSE(fitByEdges(picture.preview(1, 2), truth * Mat3{{{{1, 0, 50}, {0, 1, 0}, {0, 0, 1}}}}, everyPatch(), 0.82));
  EXPECT_FALSE(fitByEdges(picture.preview(1, 2), truth, {}, 0.82));
}

}  // namespace
}  // namespace huewright
