// The mat, stepped panels, plain sheets and swapped shots, from rendered photographs to a verdict.
#include "session/set_up.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "colour/delta_e.hpp"
#include "session/shots.hpp"

namespace huewright {
namespace {

namespace hr = render;

/// A mat on a bench: a metallic panel and its card, two greys, a black chip, a linear file.
hr::SceneSpec matScene() {
  hr::SceneSpec s;
  s.size = {1300, 950};
  s.shop.style = hr::linearStyle();
  s.shop.view.tilt_deg = 12;
  s.greys.resize(2);
  s.black = hr::ChipSpec{};
  s.mat = hr::MatSpec{};
  s.mat->layout = readMatLayout(kCalib, "a4").value();
  s.mat->panels = {{MatWindowKind::Panel, 1}};
  s.panels[0].paint.share = 0.42;
  return s;
}

JudgeReport surelyJudged(const JudgeRequest& request) {
  auto report = Session::open(kCalib)->judge(request);
  if (!report) throw std::runtime_error(sentence(report.error()));
  return std::move(*report);
}

TEST(SetUp, TheMatsPaperEvensOutAFallOff) {
  const fixtures::TempDir folder;
  hr::SceneSpec s = matScene();
  s.shop.lamp.falloff = 0.15;
  s.shop.lamp.direction_deg = 20;
  s.panels[0].paint.ground = s.card.paint.ground = hr::Ground::PearlWhite;
  const Taken shot = shoot(folder, "fall.tif", s);
  const JudgeReport r = surelyJudged(requestFor(shot));
  EXPECT_EQ(r.reading.light_from, LightFrom::Paper);
  EXPECT_NEAR(r.verdicts[0].de00, shot.picture.truth.panels[0].de00, 0.3);
  EXPECT_LE(r.verdicts[0].low, shot.picture.truth.panels[0].de00);
  EXPECT_GE(r.verdicts[0].high, shot.picture.truth.panels[0].de00);
  EXPECT_FALSE(says(r, CautionCode::LightNotCorrected));
  EXPECT_FALSE(says(r, CautionCode::PrintScale));
  EXPECT_FALSE(says(r, CautionCode::ToneLocal));
  ASSERT_TRUE(r.regions.black);
  EXPECT_TRUE(r.reading.veil);
}

TEST(SetUp, ASheetPrintedTooSmallIsSaid) {
  const fixtures::TempDir folder;
  hr::SceneSpec s = matScene();
  s.mat->print_scale_x = s.mat->print_scale_y = 0.95;
  const JudgeReport r = surelyJudged(requestFor(shoot(folder, "small.tif", s)));
  EXPECT_TRUE(says(r, CautionCode::PrintScale));
}

TEST(SetUp, APhoneThatBrightensPartsIsSaid) {
  const fixtures::TempDir folder;
  hr::SceneSpec s = matScene();
  s.shop.style = hr::plainJpeg();
  s.shop.style.local_tone = 0.9;
  s.shop.lamp.falloff = 0.4;
  s.shop.camera.exposure = 0.6;
  const JudgeReport toned = surelyJudged(requestFor(shoot(folder, "toned.jpg", s)));
  s.shop.style.local_tone = 0;
  const JudgeReport plain = surelyJudged(requestFor(shoot(folder, "plain.jpg", s)));
  EXPECT_FALSE(says(plain, CautionCode::ToneLocal));
  EXPECT_GE(toned.verdicts[0].high - toned.verdicts[0].low, plain.verdicts[0].high - plain.verdicts[0].low);
}

TEST(SetUp, AShadowAcrossTheSheetIsSaid) {
  const fixtures::TempDir folder;
  hr::SceneSpec s = matScene();
  const Taken even = shoot(folder, "even.tif", s);
  const Quad panel = even.picture.regions.panels[0];
  const double x = centre(panel).x;
  s.shadow = hr::CastShadow{{x, 900}, {x, 0}, 8, 0.35};
  const JudgeReport r = surelyJudged(requestFor(shoot(folder, "shade.tif", s)));
  EXPECT_FALSE(says(surelyJudged(requestFor(even)), CautionCode::ShadowAcross));
  EXPECT_TRUE(says(r, CautionCode::ShadowAcross));
  EXPECT_GE(r.verdicts[0].high, even.picture.truth.panels[0].de00);
  EXPECT_LE(r.verdicts[0].low, even.picture.truth.panels[0].de00);
}

TEST(SetUp, AStripOfEachCoatIsReadAndTheSeriesWritten) {
  const fixtures::TempDir folder;
  hr::SceneSpec s = matScene();
  s.panels[0].steps = {0, 1, 2, 3, 4};
  s.panels[0].step_widths = {1, 1.1, 0.9, 1, 1.05};
  s.panels[0].tape = {3, -0.3, 1};
  const Taken shot = shoot(folder, "steps.tif", s);
  JudgeRequest request = requestFor(shot);
  request.steps = {0, 1, 2, 3, 4};
  request.mixes = {{1, 2}};
  request.carrier = 5;
  request.series = folder.path() / "series.json";
  const JudgeReport r = surelyJudged(request);
  ASSERT_EQ(r.verdicts.size(), 5u);
  for (std::size_t i = 1; i < 5; ++i) {
    const double truth = deltaE2000(shot.picture.truth.panels[0].strips[i].lab, shot.picture.truth.card.lab);
    EXPECT_LE(r.verdicts[i].low, truth) << i;
    EXPECT_GE(r.verdicts[i].high, truth) << i;
    EXPECT_EQ(*r.coats[i], static_cast<double>(i));
  }
  EXPECT_FALSE(says(r, CautionCode::StepsReversed));
  EXPECT_EQ(r.ranking.order.size(), 4u);  // bare ground is no candidate
  EXPECT_EQ(r.main, r.ranking.order.front().panel);
  std::ifstream in(*request.series);
  const auto series = nlohmann::json::parse(in);
  EXPECT_EQ(series["panels"].size(), 4u);
  EXPECT_TRUE(series.contains("ground"));

  EXPECT_EQ(Session::open(kCalib)->judge(request).error().code, Code::FileThere);  // never overwritten
  request.series.reset();
  request.steps = {4, 3, 2, 1, 0};
  EXPECT_TRUE(says(surelyJudged(request), CautionCode::StepsReversed));
  request.steps = {0, 1};
  const auto fewer = Session::open(kCalib)->judge(request);
  ASSERT_FALSE(fewer);
  EXPECT_EQ(fewer.error().code, Code::StepsNotFound);
}

// The angle's effect on flake is what one shot cannot tell from paint.
TEST(SetUp, TwoShotsCancelWhatTheAngleDoes) {
  const fixtures::TempDir folder;
  hr::SceneSpec s = matScene();
  s.panels[0].paint.ground = s.card.paint.ground = hr::Ground::BrightSilver;
  s.panels[0].paint.share = s.card.paint.share;
  s.shop.lamp.direction_deg = 0;  // along panel and card
  const Taken first = shoot(folder, "first.tif", s), second = shoot(folder, "swap.tif", hr::swapped(s), 2), turned = shoot(folder, "turn.tif", hr::halfTurned(s), 3);
  JudgeRequest request = requestFor(first);
  for (const Taken* other : {&second, &turned}) {
    request.swapped = other->path;
    const JudgeReport r = surelyJudged(request);
    ASSERT_TRUE(r.swap);
    EXPECT_GT(std::abs(r.swap->brightness), 0.005);
    EXPECT_LT(r.verdicts[0].de00, 0.2);
    EXPECT_FALSE(says(r, CautionCode::ShotsApart));
  }
}

TEST(SetUp, HandMarkedThingsAreLookedForInEachOthersPlaces) {
  const fixtures::TempDir folder;
  hr::SceneSpec s;
  s.shop.style = hr::linearStyle();
  s.panels[0].paint.share = 0.42;
  s.card.place = {560, 90, 200, 220, 0};
  const Taken first = shoot(folder, "first.tif", s), second = shoot(folder, "swap.tif", hr::swapped(s), 2);
  JudgeRequest request = requestFor(first);
  request.regions = first.picture.regions;
  request.swapped = second.path;
  const JudgeReport r = surelyJudged(request);
  EXPECT_NEAR(r.verdicts[0].de00, first.picture.truth.panels[0].de00, 0.35);
  const Taken small = [&] {
    hr::SceneSpec other = hr::swapped(s);
    other.size = {800, 600};
    return shoot(folder, "small.tif", other, 2);
  }();
  request.swapped = small.path;
  EXPECT_EQ(Session::open(kCalib)->judge(request).error().code, Code::SwappedUnusable);
}

TEST(SetUp, APlainSheetEvensOutWhatOneGreyCannot) {
  const fixtures::TempDir folder;
  hr::SceneSpec s;
  s.shop.style = hr::linearStyle();
  s.shop.lamp.falloff = 0.15;
  s.shop.lamp.direction_deg = 0;
  s.panels[0].paint.ground = s.card.paint.ground = hr::Ground::PearlWhite;
  s.panels[0].paint.share = 0.42;
  const Taken shot = shoot(folder, "p.tif", s);
  const auto sheet = folder.path() / "sheet.tif", part = folder.path() / "part.tif";
  hr::writePicture(sheet, hr::plainSheet(s, 5));
  hr::writePicture(part, hr::plainSheet(s, 5, hr::Place{0, 0, 450, 600, 0}));
  JudgeRequest request = requestFor(shot);
  request.regions = shot.picture.regions;
  request.plain_sheet = sheet;
  const JudgeReport r = surelyJudged(request);
  EXPECT_EQ(r.reading.light_from, LightFrom::Sheet);
  EXPECT_NEAR(r.verdicts[0].de00, shot.picture.truth.panels[0].de00, 0.3);
  request.plain_sheet = part;  // it covers only half of what is read
  EXPECT_EQ(Session::open(kCalib)->judge(request).error().code, Code::SheetUnusable);
  request.plain_sheet = HUEWRIGHT_SOURCE_DIR "/sample-images/there.jpg";
  EXPECT_EQ(Session::open(kCalib)->judge(request).error().code, Code::SheetUnusable);
}

TEST(SetUp, RequestsThatCannotWorkAreRefusedBeforeAnyFileIsOpened) {
  JudgeRequest base;
  base.photo = "no-such.jpg";
  const auto codeOf = [](const JudgeRequest& r) { return Session::open(kCalib)->judge(r).error().code; };
  struct Row {
    void (*spoil)(JudgeRequest&);
    Code code;
  };
  for (const Row& row : {Row{[](JudgeRequest& r) { r.steps = {1, 1, 2}; }, Code::BadSteps}, Row{[](JudgeRequest& r) { r.steps = {1}; }, Code::BadSteps},
                         Row{[](JudgeRequest& r) { r.steps = {0, 1}; r.coats = 2; }, Code::BadChoice},
                         Row{[](JudgeRequest& r) { r.steps = {0, 1}; r.swapped = "b.jpg"; }, Code::BadChoice},
                         Row{[](JudgeRequest& r) { r.swapped = "b.jpg"; r.card_lab = Lab<D50>{50, 0, 0}; }, Code::BadChoice},
                         Row{[](JudgeRequest& r) { r.carrier = -1; }, Code::BadNumber}, 
                         // With a mat or a chart to look for, a tag in the photo may tell what a series needs.
                         Row{[](JudgeRequest& r) {
                               r.series = "s.json";
                               r.regions = {{toQuad({0, 0, 50, 50})}, toQuad({60, 0, 50, 50}), {}};
                               r.chart_use = ChartUse::None;
                             }, Code::BadChoice},
                         Row{[](JudgeRequest& r) { r.steps = {0, 1}; r.mixes = {{1, 2}, {1, 3}}; }, Code::BadChoice}}) {
    JudgeRequest r = base;
    row.spoil(r);
    EXPECT_EQ(codeOf(r), row.code);
  }
}

}  // namespace
}  // namespace huewright
