// The light's colour temperature from a chart in a raw file, against the light that the simulated camera stood in.
#include "camera/light_colour.hpp"

#include <cmath>
#include <gtest/gtest.h>

#include "profile_sim.hpp"

namespace huewright {
namespace {

const PlanckianLocus& locus() {
  static const PlanckianLocus kLocus(*readObserver(render::calibFolder()));
  return kLocus;
}

/// The camera's D65 matrix is what a raw file holds.
std::expected<LightColour, CctProblem> seen(char camera, const std::string& light) {
  const auto patches = sim::chartPatches({camera, render::illuminant(light)}, 0.6, 0.003);
  const auto fit = fitProfile(sim::Photos{patches}, {DeviceKind::CameraRgb});
  std::vector<Lab<D50>> chart;
  for (const FitPatch& p : patches)
    if (!p.neutral) chart.push_back(p.reference);
  return lightColour(*fit->profile.map, inverse(render::colourMatrix(camera)), chart, locus());
}

double miredApart(double a, double b) { return std::abs(1e6 / a - 1e6 / b); }

struct Known {
  const char* light;
  double kelvin;   // CIE 15:2018, tables of illuminants (from memory)
  double mired;    // how near it comes for each of the three measured cameras
};

constexpr Known kKnown[] = {{"A", 2856, 10},  {"D50", 5003, 5},     {"D65", 6504, 5},    {"FL2", 4230, 40},
                            {"FL11", 4000, 10}, {"LED-B3", 4103, 15}, {"LED-B5", 6598, 20}};

TEST(LightColour, LiesInItsIntervalForLampsThatAreKnown) {
  for (const char camera : render::kTuningCameras)
    for (const Known& k : kKnown) {
      const auto light = seen(camera, k.light);
      ASSERT_TRUE(light) << camera << k.light;
      const double off = miredApart(light->cct.kelvin, k.kelvin);
      EXPECT_LT(off, light->mired_off) << camera << k.light;
      EXPECT_LT(off, k.mired) << camera << k.light;
    }
}

TEST(LightColour, TheIntervalsHoldNearlyAllLights) {
  int lights = 0, kelvin = 0, duv = 0;
  for (const char* light : {"D50",    "D55",     "D65",      "D75",    "A",      "ID50", "ID65", "LED-B1", "LED-B2", "LED-B3", "LED-B4", "LED-B5",
                            "LED-BH1", "LED-RGB1", "LED-V1", "LED-V2", "FL1",  "FL2",  "FL3",  "FL4",    "FL5",    "FL6",    "FL7",    "FL8",
                            "FL9",    "FL10",    "FL11",     "FL12"}) {
    const auto truth = locus().find(toChromaticity(render::whiteOf(render::illuminant(light))));
    for (const char camera : render::kTuningCameras) {
      const auto found = seen(camera, light);
      ++lights;
      kelvin += found && miredApart(found->cct.kelvin, truth->kelvin) < found->mired_off;
      duv += found && std::abs(found->cct.duv - truth->duv) < found->duv_off;
    }
  }
  EXPECT_EQ(lights, 84);
  EXPECT_GE(kelvin, 80);
  EXPECT_GE(duv, 80);
}

TEST(LightColour, DaylightAndTungstenAreKnownMoreCloselyThanTubes) {
  for (const char camera : render::kTuningCameras) {
    EXPECT_LT(seen(camera, "D50")->mired_off, 15) << camera;
    EXPECT_GT(seen(camera, "FL2")->mired_off, 25) << camera;
  }
}

TEST(LightColour, GreenishIsSaidOfWhatIsAndNotOfDaylight) {
  // FL5 has Duv 0.011, D50 and D65 0.003, A 0 (computed from CIE 15:2018).
  for (const char camera : render::kTuningCameras) {
    EXPECT_NE(lightSentence(seen(camera, "FL5")).find("greenish"), std::string::npos) << camera;
    for (const char* light : {"D50", "D65", "A", "FL2", "FL11"}) EXPECT_EQ(lightSentence(seen(camera, light)).find("ish"), std::string::npos) << camera << light;
  }
}

TEST(LightColour, WordsGiveTheWiderSideAndTheTint) {
  struct Row {
    LightColour light;
    const char* words;
  };
  // 10⁶ ÷ (10⁶ ÷ 4900 − 12) = 5206; 10⁶ ÷ (10⁶ ÷ 6540 − 20) = 7524.
  for (const Row& r : {Row{{{4900, 0.001}, 12, 0.003}, "The light was about 4900 K (± 350)."},
                       Row{{{6540, 0.012}, 20, 0.01}, "The light was about 6500 K (± 1050), and greenish beside a glowing lamp or daylight."},
                       Row{{{6540, 0.012}, 20, 0.013}, "The light was about 6500 K (± 1050)."},
                       Row{{{3000, -0.012}, 20, 0.01}, "The light was about 3000 K (± 200), and pinkish beside a glowing lamp or daylight."},
                       Row{{{20000, 0}, 12, 0.003}, "The light was bluer than 16100 K."}})
    EXPECT_EQ(lightSentence(r.light), r.words);
  EXPECT_NE(lightSentence(std::unexpected(CctProblem::TooFar)).find("too far"), std::string::npos);
  EXPECT_NE(lightSentence(std::unexpected(CctProblem::TooWarm)).find("1500 K"), std::string::npos);
  EXPECT_NE(lightSentence(std::unexpected(CctProblem::TooCool)).find("25000 K"), std::string::npos);
}

TEST(LightColour, AMatrixWithoutAnInverseTellsNothing) {
  const auto fit = fitProfile(sim::Photos{sim::chartPatches({'a', render::illuminant("D65")})}, {DeviceKind::CameraRgb});
  EXPECT_EQ(lightColour(*fit->profile.map, Mat3{}, {}, locus()).error(), CctProblem::NoChromaticity);
}

TEST(AwayFromD65, IsNothingUnderD65AndGrowsWithTungsten) {
  for (const char camera : render::kTuningCameras) {
    const Mat3 native = inverse(render::colourMatrix(camera));
    const auto under = [&](const char* light) {
      const auto patches = sim::chartPatches({camera, render::illuminant(light)}, 0.6, 0);
      for (const FitPatch& p : patches)
        if (p.neutral && p.reference.L > 60 && p.reference.L < 85) return awayFromD65(native, p.device);
      return 99.0;
    };
    EXPECT_NEAR(under("D65"), 0, 0.06) << camera;  // the chart's grey is not quite neutral
    EXPECT_GT(under("D50"), 0.1) << camera;
    EXPECT_GT(under("A"), 0.4) << camera;
    EXPECT_LT(under("D75"), 0) << camera;
  }
}

TEST(AwayFromD65, WhatCannotBeToldIsNothing) {
  EXPECT_EQ(awayFromD65(Mat3{}, {1, 1, 1}), 0);
  EXPECT_EQ(awayFromD65(Mat3::identity(), {0, 1, 1}), 0);
}

}  // namespace
}  // namespace huewright
