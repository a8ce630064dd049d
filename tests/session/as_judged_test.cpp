#include "session/as_judged.hpp"

#include <cmath>
#include <gtest/gtest.h>

#include "camera/patch.hpp"
#include "photo/device.hpp"
#include "session/sample_jobs.hpp"

namespace huewright {
namespace {

TEST(WithoutVeil, TheProfileComesFirst) {
  Reading reading;
  reading.veil_xyz = {0.01, 0.02, 0.03};
  EXPECT_LT(length(withoutVeil(reading, {0.3, 0.4, 0.5}) - Vec3{0.29, 0.38, 0.47}), 1e-15);
  ColourMap map;
  map.curve = {};
  map.balance = {2, 1, 1};
  for (std::size_t k = 0; k < 3; ++k) map.terms[k][k] = 1;  // XYZ are the balanced values themselves
  reading.map = map;
  reading.device_from_xyz = Mat3::diagonal({1, 1, 0.5});
  reading.gain = {1, 3, 1};
  const Vec3 got = withoutVeil(reading, {0.3, 0.4, 0.5});
  EXPECT_LT(length(got - Vec3{2 * 0.3 - 0.01, 3 * 0.4 - 0.02, 0.5 * 0.5 - 0.03}), 1e-12);
}

TEST(ToEvenLight, OnlyAPanelHasItsOwnEvening) {
  Reading reading;
  reading.evened = {0.1, -0.2};
  EXPECT_LT(std::abs(toEvenLight(reading, {5, 5}, 1)(0, 0) - std::exp(0.2)), 1e-12);
  EXPECT_EQ(toEvenLight(reading, {5, 5}, {}), Mat3::identity());
  EXPECT_EQ(toEvenLight(reading, {5, 5}, 7), Mat3::identity());
}

// What is done to a colour is what was done to the mean of the panel, which is sampled here once more.
TEST(ToEvenLight, TakesThePanelsMeanToItsReading) {
  for (const JudgeRequest& request : {clippedJob(), chartJob()}) {
    const JudgeReport report = sampleReport(request);
    ASSERT_EQ(report.reading.map.has_value(), report.chart.has_value());
    auto photo = openAsJudged(request, report).value();
    const Quad quad = inset(report.regions.panels[0], kInset);
    const Rect box = insidePicture(boundingBox(quad), photo.size());
    const Patch patch = sample(xyzPixels(photo, std::span(&box, 1))->front(), quad);
    const Vec3 got = toEvenLight(report.reading, patch.centre, 0) * withoutVeil(report.reading, toVec(patch.mean));
    EXPECT_LT(length(got - toVec(report.reading.panels[0].xyz)), 1e-9) << request.photo;
  }
}

TEST(OpenAsJudged, AsTheReadingTookIt) {
  const JudgeRequest request = glareJob();
  JudgeReport report;
  EXPECT_FALSE(openAsJudged(request, report)->facts().linear);
  report.photo.linear = true;
  EXPECT_TRUE(openAsJudged(request, report)->facts().linear);
  JudgeRequest gone = request;
  gone.photo = "no-such.jpg";
  EXPECT_EQ(openAsJudged(gone, report).error().code, Code::FileMissing);
}

}  // namespace
}  // namespace huewright
