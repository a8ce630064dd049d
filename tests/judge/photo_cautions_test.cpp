#include "judge/photo_cautions.hpp"

#include <algorithm>
#include <gtest/gtest.h>

#include "judge/judge_support.hpp"

namespace huewright {
namespace {

Patch good() {
  Patch p;
  p.mean = {0.2, 0.2, 0.16};
  p.pixels = 5000;
  return p;
}

TEST(CautionRegion, EachFaultHasItsWord) {
  std::vector<Caution> none;
  cautionRegion({good(), {}, "the panel"}, none);
  EXPECT_TRUE(none.empty());
  struct Row {
    void (*spoil)(Patch&);
    CautionCode code;
  };
  for (const Row& row : {Row{[](Patch& p) { p.clipped_top = 0.03; }, CautionCode::Clipped}, Row{[](Patch& p) { p.mean.Y = 0.002; }, CautionCode::TooDark},
                         Row{[](Patch& p) { p.pixels = 100; }, CautionCode::TooFewPixels}, Row{[](Patch& p) { p.glare = 0.5; }, CautionCode::Glare},
                         Row{[](Patch& p) { p.shadow = 0.5; }, CautionCode::Shadow}, Row{[](Patch& p) { p.over_edge = true; }, CautionCode::RegionEdge}}) {
    Patch p = good();
    row.spoil(p);
    std::vector<Caution> all;
    cautionRegion({p, {}, "the panel"}, all);
    ASSERT_EQ(all.size(), 1u);
    EXPECT_EQ(all[0], (Caution{row.code, "the panel"}));
  }
}

TEST(CautionRegion, ShadowsAreNamed) {
  Named region{good(), {}, "the card"};
  std::vector<Caution> all;
  region.shade = Shading::Across;
  cautionRegion(region, all);
  region.shade = Shading::Over;
  cautionRegion(region, all);
  EXPECT_EQ(all, (std::vector<Caution>{{CautionCode::ShadowAcross, "the card"}, {CautionCode::ShadowOver, "the card"}}));
}

TEST(CautionLight, WithoutAnythingToGoByThatIsSaid) {
  Circumstances at;
  std::vector<Caution> all;
  cautionLight({}, Light(), {}, true, at, all);
  EXPECT_TRUE(says(all, CautionCode::LightNotCorrected));
  EXPECT_FALSE(says(all, CautionCode::GreyUnmeasured));  // there is none to measure
}

TEST(CautionLight, DotsThatDifferAreSaidAndKept) {
  Samples samples;
  for (int i = 0; i < 12; ++i) {
    const double tone = i % 2 ? 0.30 : 0.36;
    samples.dots.push_back({{{0, 0}, {tone, tone, tone}, 0.001}, {{{0, 0}, {0.8, 0.8, 0.8}, 0.001}}});
  }
  Circumstances at;
  std::vector<Caution> all;
  cautionLight(samples, Light(), {}, true, at, all);
  EXPECT_TRUE(says(all, CautionCode::ToneLocal));
  EXPECT_GT(at.tone_spread, 0.04);
}

TEST(CautionLight, WhatWasEvenedOutIsSaid) {
  Circumstances at;
  at.most_uneven = 0.05;
  at.colour_drift = 0.03;
  std::vector<Caution> all;
  cautionLight({}, Light(), {}, true, at, all);
  EXPECT_TRUE(says(all, CautionCode::LightUneven) && says(all, CautionCode::LightMixed));
}

TEST(CautionProfile, AnotherLightAndColoursOutsideAreSaid) {
  Samples samples;
  samples.coloured = {{good(), {}, "the panel"}, {good(), {}, "the card"}};
  CameraProfile profile;
  profile.kind = ProfileKind::File;
  ThroughProfile through;
  through.outside = {0.1, 0.9};
  through.colour_off = 0.3;
  std::vector<Caution> all;
  cautionProfile(samples, profile, through, all);
  EXPECT_EQ(all, (std::vector<Caution>{{CautionCode::ProfileLight, "30"}, {CautionCode::OutsideChart, "the card"}}));
  profile.kind = ProfileKind::Chart;  // of this very light
  through.outside = {0, 0};
  all.clear();
  cautionProfile(samples, profile, through, all);
  EXPECT_TRUE(all.empty());
}

}  // namespace
}  // namespace huewright
