// A grey patch measured beside a chart, and judging with it: on simulated photographs whose truth is known.
#include "session/grey.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <gtest/gtest.h>

#include "colour/delta_e.hpp"
#include "session/shots.hpp"

namespace huewright {
namespace {

namespace hr = render;

struct Case {
  char camera;
  const char* light;
  double y, tilt;      // of the patch
  double falloff = 0;
  bool raw = false;
};

hr::SceneSpec chartBeside(const Case& c) {
  hr::SceneSpec s;
  s.size = {1200, 900};
  s.shop.lamp.light = c.light;
  s.shop.lamp.falloff = c.falloff;
  s.shop.lamp.direction_deg = 20;
  s.shop.camera.sensitivity = c.camera;
  s.shop.camera.exposure = 0.7;
  s.shop.style = hr::plainJpeg();
  s.shop.style.contrast = 0.3;
  s.shop.style.saturation = 1.15;
  s.panels[0].place = {60, 500, 240, 340, 0};
  s.card.place = {340, 500, 240, 340, 0};
  s.greys[0] = {c.y, c.tilt, {600, 160, 120, 120, 0}};
  s.chart = hr::ChartSpec{};
  s.chart->place = {760, 80, 380, 0, 0};
  s.chart->spread = 0.005;
  return s;
}

GreyRequest requestOf(const std::filesystem::path& photo, const Quad& grey, const fixtures::TempDir& folder) {
  GreyRequest r;
  r.photo = photo;
  r.grey = grey;
  r.out = folder.path() / "data/huewright/grey.json";
  return r;
}

Result<GreyReport> measured(const hr::SceneSpec& scene, const fixtures::TempDir& folder, std::uint64_t seed = 1) {
  const Taken shot = shoot(folder, "grey.jpg", scene, seed);
  return measureGrey(requestOf(shot.path, shot.picture.regions.greys[0], folder), kCalib);
}

TEST(MeasureGrey, ATintedPatchComesBackWithinItsInterval) {
  const fixtures::TempDir folder;
  std::uint64_t seed = 20;
  for (const Case& c : {Case{'a', "D65", 0.19, 0.03}, Case{'b', "D50", 0.30, -0.05}, Case{'c', "LED-B3", 0.19, 0.05}, Case{'a', "FL2", 0.40, -0.03, 0.08},
                        Case{'c', "A", 0.25, -0.04}, Case{'a', "D50", 0.12, 0.04, 0.08, true}, Case{'c', "LED-B5", 0.5, 0.05, 0.05, true}}) {
    SCOPED_TRACE(testing::Message() << c.camera << " " << c.light << (c.raw ? " raw" : ""));
    const hr::SceneSpec scene = chartBeside(c);
    GreyRequest request;
    Lab<D50> truth{};
    if (c.raw) {
      const auto raw = hr::renderRaw(scene, ++seed);
      const auto path = folder.path() / "grey.dng";
      hr::writeDng(path, raw);
      request = requestOf(path, raw.regions.greys[0], folder);
      truth = raw.truth.greys[0].lab;
    } else {
      const Taken shot = shoot(folder, "grey.jpg", scene, ++seed);
      request = requestOf(shot.path, shot.picture.regions.greys[0], folder);
      truth = shot.picture.truth.greys[0].lab;
    }
    const auto r = measureGrey(request, kCalib);
    ASSERT_TRUE(r) << sentence(r.error());
    const KnownGrey& grey = r->grey.colour;
    const Vec3 off = toVec(grey.lab) - toVec(truth);
    for (std::size_t k = 0; k < 3; ++k) EXPECT_LT(std::abs(off[k]), 1.96 * grey.lab_sd[k]) << "axis " << k << ", " << off[k] << " by " << grey.lab_sd[k];
    EXPECT_LT(grey.lab_sd[0], 1.0);
    EXPECT_LT(std::max(grey.lab_sd[1], grey.lab_sd[2]), 1.2);
    EXPECT_GT(std::min({grey.lab_sd[0], grey.lab_sd[1], grey.lab_sd[2]}), 0.05);
  }
}

TEST(MeasureGrey, LightThatFallsOffIsEvenedOut) {
  // 16 % across the picture: 5 % from chart to grey, which is one unit of L*.
  const fixtures::TempDir folder;
  const auto even = measured(chartBeside({'a', "D65", 0.19, 0}), folder), uneven = measured(chartBeside({'a', "D65", 0.19, 0, 0.16}), folder);
  ASSERT_TRUE(even && uneven);
  EXPECT_NEAR(uneven->grey.colour.lab.L, even->grey.colour.lab.L, 0.5);
}

TEST(MeasureGrey, KeepsWhatWasMeasuredAndFromWhat) {
  const fixtures::TempDir folder;
  const auto r = measured(chartBeside({'a', "D65", 0.19, 0.03}), folder);
  ASSERT_TRUE(r) << sentence(r.error());
  ASSERT_EQ(r->sentences.size(), 2u);
  EXPECT_NE(r->sentences[0].find("The grey patch has L* "), std::string::npos);
  EXPECT_NE(r->sentences[0].find("share of white"), std::string::npos);
  EXPECT_NE(r->sentences[1].find("fit for use"), std::string::npos);
  const auto kept = readKeptGrey(folder.path() / "data/huewright/grey.json");
  ASSERT_TRUE(kept) << sentence(kept.error());
  EXPECT_NEAR(kept->colour.lab.L, r->grey.colour.lab.L, 1e-4);
  EXPECT_EQ(kept->camera, "Simulated Camera A");
  EXPECT_EQ(kept->photo, "grey.jpg");
  EXPECT_EQ(kept->day, "");
  EXPECT_EQ(kept->region, r->grey.region);
}

TEST(MeasureGrey, WhatIsNoGreyIsRefusedAndWhatWasKeptStays) {
  const fixtures::TempDir folder;
  ASSERT_TRUE(measured(chartBeside({'a', "D65", 0.19, 0.0}), folder));
  const auto before = keptGreyText(readKeptGrey(folder.path() / "data/huewright/grey.json").value());
  const auto expectRefused = [&](const Result<GreyReport>& r, Code code, const char* words) {
    ASSERT_FALSE(r) << words;
    EXPECT_EQ(r.error().code, code) << sentence(r.error());
    EXPECT_NE(sentence(r.error()).find(words), std::string::npos) << sentence(r.error());
    EXPECT_EQ(keptGreyText(readKeptGrey(folder.path() / "data/huewright/grey.json").value()), before);
  };
  expectRefused(measured(chartBeside({'a', "D65", 0.19, 0.30}), folder), Code::GreyUnfit, "not neutral enough");
  expectRefused(measured(chartBeside({'a', "D65", 0.03, 0.0}), folder), Code::GreyUnfit, "too dark");

  const Taken shot = shoot(folder, "other.jpg", chartBeside({'a', "D65", 0.19, 0.0}));
  const auto marked = [&](const Quad& quad) { return measureGrey(requestOf(shot.path, quad, folder), kCalib); };
  expectRefused(marked(shot.picture.truth.chart->patches[20].quad), Code::GreyUnfit, "lies on the chart itself");
  expectRefused(marked(toQuad({540, 160, 120, 120})), Code::GreyUnfit, "");
  expectRefused(marked(toQuad({1150, 160, 120, 120})), Code::RegionOutside, "");

  hr::SceneSpec bright = chartBeside({'a', "D65", 0.95, 0.0});
  bright.shop.camera.exposure = 1.06;  // the chart's white holds, a lighter patch does not
  const auto burnt = measured(bright, folder);
  ASSERT_FALSE(burnt);

  hr::SceneSpec bare = chartBeside({'a', "D65", 0.19, 0.0});
  bare.chart.reset();
  expectRefused(measured(bare, folder), Code::ChartNotFound, "No chart");
}

TEST(MeasureGrey, WrongUseIsSeenBeforeAFileIsOpened) {
  GreyRequest r;
  EXPECT_EQ(measureGrey(r, kCalib).error().code, Code::NoPhoto);
  r.photo = "/no/such/photo.jpg";
  EXPECT_EQ(measureGrey(r, kCalib).error().code, Code::NoGrey);
  r.grey = toQuad({1, 1, 50, 50});
  r.out = "grey.txt";
  EXPECT_EQ(measureGrey(r, kCalib).error().code, Code::BadChoice);
  r.out = "grey.json";
  r.chart_use = ChartUse::None;
  EXPECT_EQ(measureGrey(r, kCalib).error().code, Code::BadChoice);
  r.chart_use = ChartUse::Auto;
  EXPECT_EQ(measureGrey(r, kCalib).error().code, Code::FileMissing);
}

/// The patch in another shop, without a chart: the wanted colour is numbers.
struct Job {
  JudgeRequest request;
  Lab<D50> panel;      // true
  double truth = 0;    // ΔE00 from the card
};

Job jobWith(const Case& c, const fixtures::TempDir& folder, std::uint64_t seed) {
  hr::SceneSpec s = chartBeside(c);
  s.chart.reset();
  s.shop.style = hr::linearStyle(hr::Space::Srgb);
  s.panels[0].place = {60, 60, 240, 340, 0};
  s.card.place = {340, 60, 240, 340, 0};
  const Taken shot = shoot(folder, "job.tif", s, seed);
  Job job;
  job.request.photo = shot.path;
  job.request.regions = shot.picture.regions;
  job.request.regions.card.reset();
  job.request.card_lab = shot.picture.truth.card.lab;
  job.request.card_kind = CardKind::Same;
  job.request.chart_use = ChartUse::None;
  job.panel = shot.picture.truth.panels[0].surface.lab;
  job.truth = shot.picture.truth.panels[0].de00;
  return job;
}

TEST(KeptGreyInJudge, ACardOfNumbersIsJudgedNearerTheTruthThanWithAnAssumedGrey) {
  const fixtures::TempDir folder;
  const auto session = Session::open(kCalib).value();
  double kept_off = 0, assumed_off = 0;
  std::uint64_t seed = 60;
  for (const auto& [made, used] : {std::pair{Case{'a', "D65", 0.25, 0.05}, Case{'c', "LED-B3", 0.25, 0.05}}, std::pair{Case{'c', "D50", 0.30, -0.05}, Case{'a', "D65", 0.30, -0.05}},
                                   std::pair{Case{'b', "D50", 0.14, -0.04}, Case{'a', "D50", 0.14, -0.04}}}) {
    SCOPED_TRACE(testing::Message() << used.camera << " " << used.light);
    const auto grey = measured(chartBeside(made), folder, ++seed);
    ASSERT_TRUE(grey) << sentence(grey.error());
    Job job = jobWith(used, folder, ++seed);
    const auto assumed = session.judge(job.request);
    job.request.grey = folder.path() / "data/huewright/grey.json";
    const auto kept = session.judge(job.request);
    ASSERT_TRUE(assumed && kept);
    kept_off += deltaE2000(kept->reading.panels[0].lab, job.panel);
    assumed_off += deltaE2000(assumed->reading.panels[0].lab, job.panel);
    EXPECT_LE(kept->verdicts[0].low, job.truth);
    EXPECT_GE(kept->verdicts[0].high, job.truth);
    EXPECT_LT(kept->reading.panels[0].lab_sd[0], assumed->reading.panels[0].lab_sd[0]);
    EXPECT_EQ(kept->reading.grey.from, GreyFrom::Kept);
    ASSERT_TRUE(kept->reading.grey.colour);
    EXPECT_EQ(assumed->reading.grey.from, GreyFrom::Assumed);
    EXPECT_FALSE(says(*kept, CautionCode::GreyUnmeasured));
    ASSERT_TRUE(says(*assumed, CautionCode::GreyUnmeasured));
    const auto caution = std::ranges::find(assumed->cautions, CautionCode::GreyUnmeasured, &Caution::code);
    EXPECT_NE(sentence(*caution).find("numbers"), std::string::npos);
    EXPECT_NE(sentence(*caution).find("huewright grey"), std::string::npos);
    EXPECT_NE(sentence(*caution).find("--grey-y"), std::string::npos);
  }
  EXPECT_LT(kept_off, 0.7 * assumed_off);
}

TEST(KeptGreyInJudge, AToldLightnessComesFirstAndADamagedFileIsSaid) {
  const fixtures::TempDir folder;
  const auto session = Session::open(kCalib).value();
  Job job = jobWith({'a', "D65", 0.19, 0}, folder, 3);
  const auto path = folder.path() / "grey.json";
  std::ofstream(path) << "{\"format\": 1}";
  job.request.grey = path;
  const auto damaged = session.judge(job.request);
  ASSERT_FALSE(damaged);
  EXPECT_EQ(damaged.error().code, Code::KeptGreyUnusable);
  job.request.grey_y = 0.19;  // then nobody reads it
  const auto told = session.judge(job.request);
  ASSERT_TRUE(told) << sentence(told.error());
  EXPECT_EQ(told->reading.grey.from, GreyFrom::Told);
  job.request.grey_y.reset();
  job.request.regions.greys.clear();
  const auto none = session.judge(job.request);  // nor where there is no grey
  ASSERT_TRUE(none);
  EXPECT_EQ(none->reading.grey.from, GreyFrom::Nothing);
}

TEST(KeptGreyInJudge, BesideAChartItKeepsTheBrightnessOnlyIfItIsKnownBetter) {
  const fixtures::TempDir folder;
  const auto session = Session::open(kCalib).value();
  const Taken shot = shoot(folder, "chart.jpg", chartBeside({'a', "D65", 0.19, 0.0}));
  JudgeRequest request = requestFor(shot);
  request.grey_y.reset();
  request.regions = shot.picture.regions;
  request.grey = folder.path() / "grey.json";
  KeptGrey grey;
  grey.colour = {shot.picture.truth.greys[0].lab, {0.2, 0.4, 0.4}};  // 0.2 of L* is 0.9 % of the luminance
  ASSERT_TRUE(keepGrey(grey, *request.grey));
  const auto sure = session.judge(request);
  ASSERT_TRUE(sure) << sentence(sure.error());
  EXPECT_EQ(sure->reading.profile, ProfileKind::Chart);
  EXPECT_EQ(sure->reading.grey.from, GreyFrom::Kept);
  EXPECT_LT(std::abs(sure->reading.card.lab.L - shot.picture.truth.card.lab.L), 1.5);
  grey.colour.lab_sd = {1, 1, 1};
  ASSERT_TRUE(keepGrey(grey, *request.grey));
  const auto unsure = session.judge(request);
  ASSERT_TRUE(unsure);
  EXPECT_EQ(unsure->reading.grey.from, GreyFrom::Chart);
  EXPECT_GE(unsure->reading.card.lab_sd[0], sure->reading.card.lab_sd[0]);
  EXPECT_FALSE(says(*unsure, CautionCode::GreyUnmeasured));
}

}  // namespace
}  // namespace huewright
