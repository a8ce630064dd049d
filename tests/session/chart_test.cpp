// A chart in the photo, a stored profile, and what is said when neither fits: on simulated photographs.
#include "session/chart.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <gtest/gtest.h>

#include "colour/delta_e.hpp"
#include "session/shots.hpp"

namespace huewright {
namespace {

namespace hr = render;

hr::SceneSpec chartScene(const char* light = "LED-B3") {
  hr::SceneSpec s = chartBench(light);
  s.shop.style = hr::plainJpeg();
  s.shop.style.contrast = 0.3;
  s.shop.style.saturation = 1.15;
  return s;
}

/// The truth's regions.
JudgeRequest handMarked(const Taken& shot) {
  JudgeRequest r = requestFor(shot);
  r.regions = shot.picture.regions;
  return r;
}

double absoluteError(const JudgeReport& r, const Taken& shot) { return deltaE2000(r.reading.card.lab, shot.picture.truth.card.lab); }

TEST(ChartUse, AChartInThePhotoIsUsedByItself) {
  const fixtures::TempDir folder;
  const auto session = Session::open(kCalib).value();
  const Taken shot = shoot(folder, "chart.jpg", chartScene());
  JudgeRequest request = handMarked(shot);
  const auto with = session.judge(request);
  request.chart_use = ChartUse::None;
  const auto without = session.judge(request);
  ASSERT_TRUE(with && without);
  EXPECT_EQ(with->reading.profile, ProfileKind::Chart);
  ASSERT_TRUE(with->chart);
  EXPECT_LT(std::hypot(with->chart->corners[0].x - shot.picture.truth.chart->quad.corners[0].x, with->chart->corners[0].y - shot.picture.truth.chart->quad.corners[0].y), 4);
  EXPECT_FALSE(says(*with, CautionCode::AbsoluteNotTrusted));
  EXPECT_TRUE(says(*without, CautionCode::AbsoluteNotTrusted));
  EXPECT_FALSE(without->chart);
  EXPECT_LT(absoluteError(*with, shot), 3.5);
  EXPECT_LT(absoluteError(*with, shot), absoluteError(*without, shot));
  const double truth = shot.picture.truth.panels[0].de00;
  EXPECT_LE(with->verdicts[0].low, truth);
  EXPECT_GE(with->verdicts[0].high, truth);
  EXPECT_LT(with->verdicts[0].high - with->verdicts[0].low, without->verdicts[0].high - without->verdicts[0].low);
}

// 16 % across the picture: a tenth of the light from the chart to the far card, nearly two units of L*.
TEST(ChartUse, TheLightsFallOffAsTheChartShowsItIsEvenedOut) {
  const fixtures::TempDir folder;
  const auto session = Session::open(kCalib).value();
  for (const double direction : {20.0, 200.0}) {
    std::array<double, 2> dark{};
    for (const bool uneven : {false, true}) {
      hr::SceneSpec s = chartScene();
      s.shop.style = hr::linearStyle();
      s.shop.lamp.falloff = uneven ? 0.16 : 0;
      s.shop.lamp.direction_deg = direction;
      const Taken shot = shoot(folder, "light.tif", s);
      const auto r = session.judge(handMarked(shot));
      ASSERT_TRUE(r && r->chart);
      dark[uneven] = r->reading.card.lab.L - shot.picture.truth.card.lab.L;
    }
    EXPECT_NEAR(dark[1], dark[0], 0.4) << direction;
  }
}

TEST(ChartUse, ItsCornersMayBeGivenByHand) {
  const fixtures::TempDir folder;
  const Taken shot = shoot(folder, "chart.jpg", chartScene());
  JudgeRequest request = handMarked(shot);
  request.chart_use = ChartUse::Here;
  request.chart = shot.picture.truth.chart->quad;
  const auto r = Session::open(kCalib)->judge(request);
  ASSERT_TRUE(r) << sentence(r.error());
  EXPECT_EQ(r->reading.profile, ProfileKind::Chart);
  request.chart = toQuad({60, 500, 380, 250});  // the bench
  const auto bench = Session::open(kCalib)->judge(request);
  ASSERT_FALSE(bench);
  EXPECT_EQ(bench.error().code, Code::ChartNotFound);
}

TEST(ChartUse, ASpoiltChartIsSaidAndNotUsed) {
  const fixtures::TempDir folder;
  hr::SceneSpec s = chartScene();
  hr::Cover cover;
  cover.quad = Quad{{{{0.1, 0.1}, {0.75, 0.1}, {0.75, 0.8}, {0.1, 0.8}}}};
  cover.y = 0.3;
  s.chart->covers.push_back(cover);
  const auto r = Session::open(kCalib)->judge(handMarked(shoot(folder, "hidden.jpg", s)));
  ASSERT_TRUE(r) << sentence(r.error());
  EXPECT_FALSE(r->chart);
  EXPECT_NE(r->reading.profile, ProfileKind::Chart);
}

/// Two photographs side by side as one, the first at the left.
Taken sideBySide(const fixtures::TempDir& folder, const std::string& name, const hr::SceneSpec& left, const hr::SceneSpec& right) {
  Taken shot = shoot(folder, name, left, 1);
  const hr::Rendered other = hr::render(right, 2);
  hr::Rendered& picture = shot.picture;
  const Size one = picture.size;
  std::vector<float> both;
  const auto line = static_cast<std::ptrdiff_t>(3 * one.width);
  for (int y = 0; y < one.height; ++y)
    for (const hr::Rendered* half : {static_cast<const hr::Rendered*>(&picture), &other})
      both.insert(both.end(), half->linear.begin() + y * line, half->linear.begin() + (y + 1) * line);
  picture.linear = std::move(both);
  picture.size = {2 * one.width, one.height};
  hr::writePicture(shot.path, picture);
  return shot;
}

std::string whichChart(const JudgeReport& r) {
  for (const Caution& c : r.cautions)
    if (c.code == CautionCode::OtherCharts) return sentence(c);
  return {};
}

TEST(ChartUse, OfTwoChartsTheLargerOneIsUsedAndItIsSaidWhich) {
  const fixtures::TempDir folder;
  const auto session = Session::open(kCalib).value();
  hr::SceneSpec smaller = chartScene();
  smaller.chart->place = {760, 80, 280, 0, 0};
  const Taken shot = sideBySide(folder, "two.jpg", chartScene(), smaller);
  JudgeRequest request = handMarked(shot);
  const auto r = session.judge(request);
  ASSERT_TRUE(r) << sentence(r.error());
  ASSERT_TRUE(r->chart);
  EXPECT_LT(centre(*r->chart).x, 1200);
  EXPECT_EQ(whichChart(*r), "Two charts are in the photo; the one at the left was used, as it is the larger. Cover what is not meant, or say which with --chart and its corners.");

  const Taken turned = sideBySide(folder, "turned.jpg", smaller, chartScene());
  request = handMarked(turned);
  const auto other = session.judge(request);
  ASSERT_TRUE(other) << sentence(other.error());
  EXPECT_GT(centre(*other->chart).x, 1200);
  EXPECT_NE(whichChart(*other).find("the one at the right was used"), std::string::npos) << whichChart(*other);

  request.chart_use = ChartUse::Here;  // a person says which
  request.chart = turned.picture.truth.chart->quad;
  const auto marked = session.judge(request);
  ASSERT_TRUE(marked) << sentence(marked.error());
  EXPECT_LT(centre(*marked->chart).x, 1200);
  EXPECT_TRUE(whichChart(*marked).empty());
}

TEST(ChartUse, OfTwoChartsOneThatIsSpoiltGivesWayToTheOther) {
  const fixtures::TempDir folder;
  hr::SceneSpec spoilt = chartScene(), smaller = chartScene();
  hr::Cover cover;
  cover.quad = Quad{{{{0.02, 0.05}, {0.4, 0.05}, {0.4, 0.3}, {0.02, 0.3}}}};
  cover.y = 0.3;
  spoilt.chart->covers.push_back(cover);
  smaller.chart->place = {760, 80, 280, 0, 0};
  const auto r = Session::open(kCalib)->judge(handMarked(sideBySide(folder, "two.jpg", spoilt, smaller)));
  ASSERT_TRUE(r) << sentence(r.error());
  ASSERT_TRUE(r->chart);
  EXPECT_GT(centre(*r->chart).x, 1200);
  EXPECT_EQ(r->reading.profile, ProfileKind::Chart);
  EXPECT_NE(whichChart(*r).find("as a larger one is unfit: "), std::string::npos) << whichChart(*r);
}

TEST(ChartUse, ARawFileIsProfiledInItsOwnValues) {
  const fixtures::TempDir folder;
  hr::SceneSpec s = chartScene();
  const auto raw = hr::renderRaw(s, 4);
  const auto path = folder.path() / "chart.dng";
  hr::writeDng(path, raw);
  JudgeRequest request;
  request.photo = path;
  request.regions = raw.regions;
  request.grey_y = 0.19;
  request.card_kind = CardKind::Same;
  const auto r = Session::open(kCalib)->judge(request);
  ASSERT_TRUE(r) << sentence(r.error());
  EXPECT_EQ(r->reading.profile, ProfileKind::Chart);
  EXPECT_LT(deltaE2000(r->reading.card.lab, raw.truth.card.lab), 3);
  EXPECT_NEAR(r->verdicts[0].de00, raw.truth.panels[0].de00, 0.4);
}

TEST(Profile, OneThatWasStoredServesAnotherPhotoOfTheSameLight) {
  const fixtures::TempDir folder;
  const auto session = Session::open(kCalib).value();
  ProfileRequest make;
  make.photos = {shoot(folder, "a.jpg", chartScene(), 1).path, shoot(folder, "b.jpg", chartScene(), 2).path};
  make.out = folder.path() / "camera.json";
  make.icc = folder.path() / "camera.icc";
  const auto made = session.profile(make);
  ASSERT_TRUE(made) << sentence(made.error());
  EXPECT_TRUE(made->written);
  EXPECT_NE(made->health.health, Health::NotUsable);
  EXPECT_FALSE(made->health.sentences.empty());
  EXPECT_TRUE(std::filesystem::exists(*make.icc));

  hr::SceneSpec plain = chartScene();
  plain.chart.reset();
  plain.shop.camera.exposure = 0.5;
  const Taken shot = shoot(folder, "plain.jpg", plain, 3);
  JudgeRequest request = handMarked(shot);
  request.profile = make.out;
  const auto r = session.judge(request);
  ASSERT_TRUE(r) << sentence(r.error());
  EXPECT_EQ(r->reading.profile, ProfileKind::File);
  EXPECT_LT(absoluteError(*r, shot), 4);
  EXPECT_FALSE(says(*r, CautionCode::ProfileLight));

  request.chart_use = ChartUse::Auto;  // a chart in the frame comes before a stored profile
  request.photo = make.photos[0];
  EXPECT_EQ(session.judge(request)->reading.profile, ProfileKind::Chart);

  hr::SceneSpec tungsten = plain;
  tungsten.shop.lamp.light = "A";
  tungsten.shop.camera.balance = hr::Balance::Daylight;
  const Taken warm = shoot(folder, "warm.jpg", tungsten, 4);
  request = handMarked(warm);
  request.profile = make.out;
  EXPECT_TRUE(says(*session.judge(request), CautionCode::ProfileLight));
}

TEST(Profile, WhatCannotBeOneIsRefusedAndNothingIsWritten) {
  const fixtures::TempDir folder;
  const auto session = Session::open(kCalib).value();
  ProfileRequest r;
  EXPECT_EQ(session.profile(r).error().code, Code::NoPhoto);
  r.photos = {HUEWRIGHT_SOURCE_DIR "/sample-images/there.jpg"};
  r.out = folder.path() / "camera.txt";
  EXPECT_EQ(session.profile(r).error().code, Code::BadChoice);
  r.out = folder.path() / "camera.json";
  r.icc = folder.path() / "camera.png";
  EXPECT_EQ(session.profile(r).error().code, Code::BadChoice);
  r.icc.reset();
  const auto none = session.profile(r);
  ASSERT_FALSE(none);
  EXPECT_EQ(none.error().code, Code::ChartNotFound);
  EXPECT_NE(none.error().detail.find("there.jpg"), std::string::npos);
  EXPECT_FALSE(std::filesystem::exists(r.out));
}

TEST(Profile, FilesThatAreNoneAreRefused) {
  const fixtures::TempDir folder;
  const auto path = folder.path() / "p.json";
  std::ofstream(path) << "{\"format\": 1}";
  JudgeRequest request;
  request.photo = HUEWRIGHT_SOURCE_DIR "/sample-images/there.jpg";
  request.regions = {{toQuad({149, 110, 316, 400})}, toQuad({579, 126, 228, 229}), {toQuad({614, 453, 156, 89})}, {}};
  request.profile = path;
  const auto r = Session::open(kCalib)->judge(request);
  ASSERT_FALSE(r);
  EXPECT_EQ(r.error().code, Code::ProfileFileUnusable);
  EXPECT_EQ(exitCode(r.error().code), 3);
}

TEST(ChartData, AUsersOwnFileIsReadAndItsFaultsAreNamed) {
  const fixtures::TempDir folder;
  std::vector<Caution> cautions;
  const auto published = chartReferenceFor({}, kCalib, {}, cautions);
  ASSERT_TRUE(published);
  EXPECT_EQ(published->columns * published->rows, 24);
  const auto own = chartReferenceFor(kCalib / "charts/chart24.txt", kCalib, {}, cautions);
  ASSERT_TRUE(own);
  EXPECT_LT(deltaE2000(own->patches[5].lab, published->patches[5].lab), 1e-9);
  const auto path = folder.path() / "mine.txt";
  std::ofstream(path) << "CGATS.17\nNUMBER_OF_FIELDS 4\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B\nEND_DATA_FORMAT\nBEGIN_DATA\nA1 50 0 x\nEND_DATA\n";
  const auto bad = chartReferenceFor(path, kCalib, {}, cautions);
  ASSERT_FALSE(bad);
  EXPECT_EQ(bad.error().code, Code::ChartDataUnusable);
  EXPECT_NE(bad.error().detail.find("line 7"), std::string::npos) << bad.error().detail;
}

}  // namespace
}  // namespace huewright
