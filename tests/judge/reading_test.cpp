// From a photo in memory to a reading: the order of the work, the cautions, the refusals.
#include "judge/reading.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <gtest/gtest.h>

#include "colour/adapt.hpp"
#include "colour/delta_e.hpp"
#include "judge/judge_support.hpp"
#include "render/random.hpp"

namespace huewright {
namespace {

const Lab<D50> kShotPanel{41, -28, -14}, kShotCard{45, -30, -12};
const Size kSize{600, 400};
const Regions kRegions{{toQuad({20, 20, 220, 250})}, toQuad({300, 20, 220, 250}), {toQuad({200, 300, 120, 80})}};

struct Shot {
  Vec3 cast{1, 1, 1};                              // on the sharpened channels
  std::function<double(int, int)> light = [](int, int) { return 1.0; };
  std::function<double(int, int)> mirrored = [](int, int) { return 0.0; };  // part of white
  std::function<Vec3(int, int)> tint = [](int, int) { return Vec3{1, 1, 1}; };  // of the light, on X, Y, Z
  double grey_y = 0.19, noise = 0.01;
  double veil = 0.002;                             // part of the light's white that panel and card mirror: the usual one
  PhotoFacts facts{};
};

Photo shoot(const Shot& shot) {
  render::Random random(5);
  std::vector<float> xyz;
  const Mat3 cast = inverse(kBradford) * Mat3::diagonal(shot.cast) * kBradford;
  const Vec3 panel = toVec(toXyz(kShotPanel)), card = toVec(toXyz(kShotCard)), grey = shot.grey_y * kWhite<D50>, bench = 0.5 * kWhite<D50>;
  for (int y = 0; y < kSize.height; ++y)
    for (int x = 0; x < kSize.width; ++x) {
      const Point at{x + 0.5, y + 0.5};
      const bool on_panel = contains(kRegions.panels[0], at), on_card = contains(*kRegions.card, at);
      Vec3 body = on_panel ? panel : on_card ? card : contains(kRegions.greys[0], at) ? grey : bench;
      if (on_panel || on_card) body = body + shot.veil * kWhite<D50>;
      const Vec3 seen = shot.light(x, y) * (1 + shot.noise * random.normal()) * (cast * body) + shot.mirrored(x, y) * kWhite<D50>;
      const Vec3 tint = shot.tint(x, y);
      for (std::size_t k = 0; k < 3; ++k) xyz.push_back(static_cast<float>(tint[k] * seen[k]));
    }
  return Photo::fromMemory(kSize, std::move(xyz), shot.facts);
}

Result<Reading> readShot(const Shot& shot, const Regions& regions = kRegions, MeasureOptions options = {0.19, {}}) {
  Photo photo = shoot(shot);
  return measure(photo, arrange(regions, kSize).value(), {}, options);
}

TEST(Measure, ColoursComeBackThroughCastAndExposure) {
  Shot shot;
  shot.cast = {0.9, 0.7, 0.45};
  const auto r = readShot(shot);
  ASSERT_TRUE(r);
  EXPECT_LT(deltaE2000(r->panels[0].lab, kShotPanel), 0.1);
  EXPECT_LT(deltaE2000(r->card.lab, kShotCard), 0.1);
  EXPECT_GT(r->panels[0].lab_sd[0], 0);
}

TEST(Measure, AGreyThatWasMeasuredIsTakenForWhatItIs) {
  // The scene's grey is a neutral of 0.19; said to be bluish, everything else turns bluish with it.
  MeasureOptions options;
  options.grey = KnownGrey{toLab(Xyz<D50>{0.19 * kWhite<D50>[0], 0.19, 0.19 * kWhite<D50>[2]}), {0.2, 0.2, 0.2}};
  Shot shot;
  shot.cast = {0.9, 0.7, 0.45};
  const auto kept = readShot(shot, kRegions, options), told = readShot(shot);
  ASSERT_TRUE(kept && told);
  EXPECT_LT(deltaE2000(kept->card.lab, told->card.lab), 1e-6);
  EXPECT_EQ(kept->grey.from, GreyFrom::Kept);
  EXPECT_EQ(told->grey.from, GreyFrom::Told);
  EXPECT_FALSE(says(*kept, CautionCode::GreyUnmeasured));
  options.grey->lab.b -= 3;
  const auto bluish = readShot(shot, kRegions, options);
  EXPECT_LT(bluish->card.lab.b, kept->card.lab.b - 2);
  options.grey_y = 0.19;  // comes before it
  EXPECT_LT(deltaE2000(readShot(shot, kRegions, options)->card.lab, told->card.lab), 1e-6);
}

TEST(Measure, WithoutAGreyThePhotoIsTakenAsItIsAndSaid) {
  Regions regions = kRegions;
  regions.greys.clear();
  const auto r = readShot({}, regions);
  ASSERT_TRUE(r);
  EXPECT_LT(deltaE2000(r->panels[0].lab, kShotPanel), 0.1);
  EXPECT_TRUE(says(*r, CautionCode::LightNotCorrected));
}

TEST(Measure, AFallOffAcrossPanelAndCardIsEvenedOutByTheirOwnSlopes) {
  Shot shot;
  shot.light = [](int x, int) { return 1.0 - 0.15 * x / 600.0; };
  const auto r = readShot(shot);
  ASSERT_TRUE(r);
  const double truth = deltaE2000(kShotPanel, kShotCard), seen = deltaE2000(r->panels[0].lab, r->card.lab);
  EXPECT_NEAR(seen, truth, 0.3);
  EXPECT_TRUE(says(*r, CautionCode::LightUneven));
}

TEST(Measure, TwoKindsOfLightAreSaidAndWidenTheAnswer) {
  Shot mixed;
  mixed.tint = [](int x, int) { return Vec3{1 + 0.1 * x / 600.0, 1, 1 - 0.1 * x / 600.0}; };
  const auto plain = readShot({}), r = readShot(mixed);
  ASSERT_TRUE(plain && r);
  EXPECT_FALSE(says(*plain, CautionCode::LightMixed));
  EXPECT_TRUE(says(*r, CautionCode::LightMixed));
  EXPECT_GT(r->panels[0].lab_sd[2], plain->panels[0].lab_sd[2]);
}

TEST(Measure, CautionsSayWhatIsWrong) {
  Shot blue;
  blue.cast = {0.7, 1, 1.9};
  EXPECT_TRUE(says(*readShot(blue), CautionCode::LightColoured));

  Shot dark;
  dark.light = [](int, int) { return 0.06; };
  EXPECT_TRUE(says(*readShot(dark), CautionCode::GreyExposure));

  EXPECT_TRUE(says(*readShot({}, kRegions, {}), CautionCode::GreyUnmeasured));
  EXPECT_FALSE(says(*readShot({}), CautionCode::GreyUnmeasured));
  EXPECT_TRUE(says(*readShot({}), CautionCode::AbsoluteNotTrusted));

  Shot glare;  // a mirrored lamp adds its light
  glare.mirrored = [](int x, int y) { return x > 40 && x < 120 && y < 290 ? 0.2 : 0.0; };
  EXPECT_TRUE(says(*readShot(glare), CautionCode::Glare));

  Shot shadow;
  shadow.light = [](int x, int y) { return x > 40 && x < 120 && y < 290 ? 0.4 : 1.0; };
  EXPECT_TRUE(says(*readShot(shadow), CautionCode::Shadow));
  EXPECT_FALSE(says(*readShot({}), CautionCode::Shadow) || says(*readShot({}), CautionCode::Glare));

  Regions no_grey = kRegions;
  no_grey.greys.clear();
  Shot night;
  night.light = [](int, int) { return 0.02; };
  EXPECT_TRUE(says(*readShot(night, no_grey), CautionCode::TooDark));
  EXPECT_FALSE(says(*readShot({}, no_grey), CautionCode::TooDark));

  Regions off_grey = kRegions;
  off_grey.greys[0] = toQuad({200, 340, 120, 58});
  Shot lines;
  lines.light = [](int x, int y) { return y > 300 && (x / 25) % 2 == 0 ? 1.3 : 1.0; };
  EXPECT_TRUE(says(*readShot(lines, off_grey), CautionCode::GreyNotGrey));

  Regions coloured_grey = kRegions;
  coloured_grey.greys[0] = toQuad({310, 30, 100, 100});
  coloured_grey.card = toQuad({420, 30, 80, 200});
  EXPECT_TRUE(says(*readShot({}, coloured_grey), CautionCode::LightColoured));  // the "grey" lies on the card

  Regions small = kRegions;
  small.panels[0] = toQuad({20, 20, 18, 18});
  EXPECT_TRUE(says(*readShot({}, small), CautionCode::TooFewPixels));

  Regions over = kRegions;
  over.panels[0] = toQuad({20, 20, 270, 250});
  EXPECT_TRUE(says(*readShot({}, over), CautionCode::RegionEdge));
}

TEST(Measure, GreysUnderTwoLightsDisagree) {
  Regions regions = kRegions;
  regions.greys.push_back(toQuad({540, 20, 50, 100}));
  Photo photo = shoot({});  // the second region is bench, a neutral of its own: it agrees in colour
  auto r = measure(photo, arrange(regions, kSize).value(), {}, {0.19, {}});
  ASSERT_TRUE(r);
  EXPECT_FALSE(says(*r, CautionCode::GreysDisagree));
  regions.greys[1] = toQuad({310, 30, 100, 100});
  regions.card = toQuad({420, 30, 80, 200});
  auto on_card = measure(photo, arrange(regions, kSize).value(), {}, {0.19, {}});  // a "grey" that lies on the card
  ASSERT_TRUE(on_card);
  EXPECT_TRUE(says(*on_card, CautionCode::GreysDisagree));
}

TEST(Measure, ACardOfNumbersNeedsNoRegionAndCancelsNothing) {
  Regions regions = kRegions;
  regions.card.reset();
  const auto r = readShot({}, regions, {0.19, kShotCard});
  ASSERT_TRUE(r);
  EXPECT_FALSE(r->card_in_photo);
  EXPECT_EQ(r->card.lab, kShotCard);
  EXPECT_EQ(length(r->card.lab_sd), 0);
}

TEST(Measure, RefusesWhatItCannotRead) {
  Regions no_panel = kRegions, no_card = kRegions;
  no_panel.panels.clear();
  no_card.card.reset();
  EXPECT_EQ(readShot({}, no_panel).error().code, Code::NoPanel);
  EXPECT_EQ(readShot({}, no_card).error().code, Code::NoCard);
  Shot black;
  black.light = [](int, int) { return 0.001; };
  EXPECT_EQ(readShot(black).error().code, Code::GreyUnusable);
}

TEST(CovarianceOfDifference, IsTheSumOverItsCauses) {
  const auto r = readShot({});
  ASSERT_TRUE(r);
  const DeltaVector d = deltaVector(r->panels[0].lab, r->card.lab);
  Mat3 sum{};
  for (std::size_t i = 0; i < kPartCount; ++i) sum = sum + covarianceOfDifference(*r, 0, d.by_panel, d.by_card, static_cast<Part>(i));
  const Mat3 all = covarianceOfDifference(*r, 0, d.by_panel, d.by_card);
  for (std::size_t k = 0; k < 3; ++k) EXPECT_NEAR(sum(k, k), all(k, k), 1e-12);
}

TEST(Measure, WideningTheRenderingWidensNothingElse) {
  const auto plain = readShot({});
  ASSERT_TRUE(plain);
  Reading wide = *plain;
  widenRendering(wide, 2);
  const auto sums = [](const Reading& r) {
    std::array<double, 2> sum{};  // rendering, all else
    for (const Influence& i : r.influences)
      for (const Vec3& shift : i.on_lab) sum[i.part != Part::ToneCurve && i.part != Part::ToneColour] += dot(shift, shift);
    return sum;
  };
  const auto before = sums(*plain), after = sums(wide);
  EXPECT_GT(before[0], 0);
  EXPECT_NEAR(after[0], 4 * before[0], 1e-9);
  EXPECT_EQ(after[1], before[1]);
  EXPECT_GT(wide.panels[0].lab_sd[0], plain->panels[0].lab_sd[0]);
}

TEST(Measure, WhatTheChartsSlopeLeavesUnknownCountsForACardAsNumbers) {
  MeasureOptions options{0.19, kShotCard};
  Regions regions = kRegions;
  regions.card.reset();
  options.course = LightSlope{{0, 0}, {}, {1e-3, 0}};
  Photo photo = shoot({});
  const auto r = measure(photo, arrange(regions, kSize).value(), {ProfileKind::Chart, 1.0, {}}, options);
  ASSERT_TRUE(r);
  double course = 0;
  for (const Influence& i : r->influences)
    if (i.part == Part::LightCourse) course += dot(i.on_lab[0], i.on_lab[0]);
  // From the grey's middle at x = 260 to the panel's at 130. A factor on XYZ moves L* + 16, a* and b* by a third of themselves.
  const Vec3 lab = toVec(r->panels[0].lab), by_log = (1 / 3.0) * Vec3{lab[0] + 16, lab[1], lab[2]};
  EXPECT_NEAR(std::sqrt(course), 130 * 1e-3 * length(by_log), 0.02 * length(by_log) * 0.13);
}

}  // namespace
}  // namespace huewright
