// Veil, light and shadows on the way from photographed to corrected colours.
#include "judge/correct.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <gtest/gtest.h>
#include <span>

#include "colour/delta_e.hpp"
#include "judge/bench_photo.hpp"
#include "judge/judge_support.hpp"

namespace huewright {
namespace {

Result<Reading> readBench(const BenchShot& shot, const Scene& scene, MeasureOptions options = {0.19, {}}) {
  Photo photo = shootBench(shot);
  return measure(photo, scene, {}, options);
}

double offTruth(const Reading& r) { return std::abs(deltaE2000(r.panels[0].lab, r.card.lab) - deltaE2000(kBenchPanel, kBenchCard)); }

const auto kFallOff = [](int x, int y) { return 1.0 - 0.2 * x / 600.0 + 0.05 * y / 400.0; };

TEST(Correct, PaperTakesOffAFallOffThatOneGreyCannotShow) {
  BenchShot shot;
  shot.light = kFallOff;
  MeasureOptions no_slopes{0.19, {}};
  no_slopes.by_slopes = false;  // so that only the paper can
  Scene bare = benchScene();
  bare.paper.clear();
  const auto with = readBench(shot, benchScene(), no_slopes), without = readBench(shot, bare, no_slopes);
  ASSERT_TRUE(with && without);
  EXPECT_GT(offTruth(*without), 0.5);
  EXPECT_LT(offTruth(*with), 0.1);
  EXPECT_EQ(with->light_from, LightFrom::Paper);
  EXPECT_EQ(without->light_from, LightFrom::Greys);
  EXPECT_LT(*with->paper_residual, 0.01);
  EXPECT_FALSE(says(*with, CautionCode::LightNotCorrected));
  // The level is still that of the grey.
  EXPECT_NEAR(with->card.lab.L, kBenchCard.L, 0.3);
}

TEST(Correct, WithoutAGreyThePaperSetsTheLevelAndThatIsSaid) {
  Scene scene = benchScene();
  scene.regions.greys.clear();
  BenchShot shot;
  shot.light = [](int x, int y) { return 0.5 * kFallOff(x, y); };
  const auto r = readBench(shot, scene);
  ASSERT_TRUE(r);
  EXPECT_TRUE(says(*r, CautionCode::PaperAsGrey));
  EXPECT_NEAR(r->card.lab.L, kBenchCard.L, 1);
  EXPECT_LT(offTruth(*r), 0.15);
}

TEST(Correct, PaperThatCannotBeUsedIsSaid) {
  Scene few = benchScene();
  few.paper.resize(8);  // as if the rest were cut off
  const auto r = readBench({}, few);
  ASSERT_TRUE(r);
  EXPECT_EQ(r->light_from, LightFrom::Greys);
  EXPECT_TRUE(says(*r, CautionCode::PaperUnusable));
  EXPECT_FALSE(says(*readBench({}, benchScene()), CautionCode::PaperUnusable));
}

TEST(Correct, APlainSheetCountsBeforeThePaperInThePhoto) {
  BenchShot sheet, shot;
  sheet.light = shot.light = kFallOff;
  Photo plain = Photo::fromMemory(kBenchSize, [&] {
    std::vector<float> xyz;
    for (int y = 0; y < kBenchSize.height; ++y)
      for (int x = 0; x < kBenchSize.width; ++x)
        for (const double v : 0.5 * kFallOff(x, y) * kWhite<D50>) xyz.push_back(static_cast<float>(v));
    return xyz;
  }());
  std::vector<PaperSpot> spots;
  for (int y = 10; y < 380; y += 40)
    for (int x = 10; x < 580; x += 40) {
      const Rect rect{x, y, 12, 12};
      spots.push_back(paperSpot(plain.pixels(std::span(&rect, 1)).value()[0], toQuad(rect)).value());
    }
  MeasureOptions options{0.19, {}};
  options.sheet = LightMap::fit(spots).value();
  options.by_slopes = false;
  Scene bare = benchScene();
  bare.paper.clear();
  const auto r = readBench(shot, bare, options);
  ASSERT_TRUE(r);
  EXPECT_EQ(r->light_from, LightFrom::Sheet);
  EXPECT_LT(offTruth(*r), 0.1);
  // Without a grey its exposure says nothing of this photo's: only the course is taken.
  bare.regions.greys.clear();
  const auto no_grey = readBench(shot, bare, options);
  ASSERT_TRUE(no_grey);
  EXPECT_LT(offTruth(*no_grey), 0.1 + 0.2);
  EXPECT_NEAR(no_grey->card.xyz.Y, toXyz(kBenchCard).Y * kFallOff(430, 160), 0.01);
}

TEST(Correct, TheChipTakesTheVeilOff) {
  BenchShot shot;
  shot.veil = 0.02 * kWhite<D50>;
  const auto with = readBench(shot, benchScene(true), {0.19, {}, {}, true, Gloss::Yes}), without = readBench(shot, benchScene());
  ASSERT_TRUE(with && without);
  EXPECT_GT(deltaE2000(without->panels[0].lab, kBenchPanel), 2);
  EXPECT_LT(deltaE2000(with->panels[0].lab, kBenchPanel), 0.3);
  EXPECT_LT(deltaE2000(with->card.lab, kBenchCard), 0.3);
  EXPECT_NEAR(*with->veil, 0.02, 0.001);
  EXPECT_TRUE(says(*with, CautionCode::VeilTakenOff));
  EXPECT_FALSE(without->veil);
}

TEST(Correct, AMattCardHasNoVeilToTakeOff) {
  const auto glossy = readBench({}, benchScene(true), {0.19, {}, {}, true, Gloss::Yes});
  BenchShot shot;
  shot.veil = 0.02 * kWhite<D50>;
  const auto unsure = readBench(shot, benchScene(true), {0.19, {}, {}, true, Gloss::Unsure}), matt = readBench(shot, benchScene(true), {0.19, {}, {}, true, Gloss::No});
  ASSERT_TRUE(glossy && unsure && matt);
  EXPECT_NEAR(matt->card.xyz.Y - unsure->card.xyz.Y, 0.02, 0.001);
  EXPECT_GT(unsure->card.lab_sd[1], matt->card.lab_sd[1]);  // nobody said: wider
}

TEST(Correct, WithoutAChipAMattCardLeavesTheVeilUnknownBetweenPanelAndCard) {
  const auto glossy = readBench({}, benchScene(), {0.19, {}, {}, true, Gloss::Yes}), matt = readBench({}, benchScene(), {0.19, {}, {}, true, Gloss::No});
  ASSERT_TRUE(glossy && matt);
  EXPECT_NEAR(matt->card.xyz.Y - glossy->card.xyz.Y, 0.002, 2e-4);
  const auto veilOf = [](const Reading& r) {
    double squares = 0;
    for (const Influence& i : r.influences)
      if (i.part == Part::VeilShared) squares += std::pow(length(i.on_lab[0] - i.on_lab[1]), 2);
    return squares;
  };
  EXPECT_GT(veilOf(*matt), 2 * veilOf(*glossy));
}

TEST(Correct, AChipThatIsNotBlackIsRefusedWhenToldAndSaidWhenFound) {
  BenchShot shot;
  shot.chip = 0.4;
  Scene scene = benchScene(true);
  const auto told = readBench(shot, scene);
  ASSERT_FALSE(told);
  EXPECT_EQ(told.error().code, Code::BlackUnusable);
  scene.found_by_itself = true;
  const auto found = readBench(shot, scene);
  ASSERT_TRUE(found);
  EXPECT_TRUE(says(*found, CautionCode::BlackNotBlack));
  EXPECT_FALSE(found->veil);
}

TEST(Correct, AHardShadowAcrossThePanelIsSaidAndWidens) {
  BenchShot shot;
  shot.light = [](int x, int) { return x < 170 ? 0.6 : 1.0; };  // its edge runs through the panel
  const auto plain = readBench({}, benchScene()), r = readBench(shot, benchScene());
  ASSERT_TRUE(plain && r);
  EXPECT_FALSE(says(*plain, CautionCode::ShadowAcross));
  EXPECT_TRUE(says(*r, CautionCode::ShadowAcross));
  EXPECT_GT(r->panels[0].lab_sd[0], plain->panels[0].lab_sd[0]);
  EXPECT_LT(offTruth(*r), 0.5);  // its lit part was read
}

// The shadow's edge at many places: in a region, between the two, near the rim; of any depth. Whatever is read lies within its interval, and a
// shadow that touches panel or card is said.
TEST(Correct, WhereverAShadowFallsTheAnswerIsSafe) {
  constexpr std::array kDepths{0.75, 0.6, 0.88};
  for (const double depth : kDepths)
    for (const int edge : {40, 100, 170, 240, 295, 360, 430, 500, 560})
      for (const bool left : {true, false}) {
        BenchShot shot;
        shot.light = [=](int x, int) { return (x < edge) == left ? depth : 1.0; };
        const auto r = readBench(shot, benchScene());
        SCOPED_TRACE(testing::Message() << depth << " " << edge << (left ? " left" : " right"));
        ASSERT_TRUE(r);
        const DeltaVector d = deltaVector(r->panels[0].lab, r->card.lab), truth = deltaVector(kBenchPanel, kBenchCard);
        const Mat3 covariance = covarianceOfDifference(*r, 0, d.by_panel, d.by_card);
        EXPECT_LT(std::abs(d.u[0] - truth.u[0]), 2.5 * std::sqrt(covariance(0, 0)) + 0.15);
        const bool touches = (edge > 60 && edge < 260) || (edge > 330 && edge < 530);
        if (touches) {
          EXPECT_TRUE(says(*r, CautionCode::ShadowAcross));
        }
      }
}

TEST(Correct, DirtBesideAPanelIsNoShadow) {
  BenchShot shot;
  shot.light = [](int x, int y) { return (x > 268 && x < 300 && y > 100 && y < 130) || (x > 100 && x < 130 && y < 30) ? 0.6 : 1.0; };
  const auto r = readBench(shot, benchScene());
  ASSERT_TRUE(r);
  EXPECT_FALSE(says(*r, CautionCode::ShadowAcross) || says(*r, CautionCode::ShadowOver));
  EXPECT_LT(offTruth(*r), 0.1);
}

// 20 % fall-off, about 9 % of it from panel to card. The grey at (280, 330) is nearly as far from the panel at (160, 160) as from the card at (430, 160).
TEST(Correct, WhatTheSlopesExplainIsSharedByPanelAndCard) {
  BenchShot shot;
  shot.light = kFallOff;
  MeasureOptions plain{0.19, {}};
  plain.by_slopes = false;
  Scene bare = benchScene();
  bare.paper.clear();
  const auto evened = readBench(shot, bare), as_seen = readBench(shot, bare, plain);
  ASSERT_TRUE(evened && as_seen);
  const double panel = std::log(evened->panels[0].xyz.Y / as_seen->panels[0].xyz.Y), card = std::log(evened->card.xyz.Y / as_seen->card.xyz.Y);
  EXPECT_LT(panel, -0.03);
  const double of_panel = std::hypot(120, 170), of_card = std::hypot(150, 170);
  EXPECT_NEAR(card / (card - panel), of_card / (of_card + of_panel), 0.02);
  EXPECT_NEAR(evened->evened[0], -panel, 1e-9);
  EXPECT_LT(offTruth(*evened), 0.3);
}

}  // namespace
}  // namespace huewright
