// Several photos of one set-up, from rendered photographs to a verdict.
#include "session/session.hpp"

#include <gtest/gtest.h>

#include "session/shots.hpp"

namespace huewright {
namespace {

namespace hr = render;

/// A bench with one grey and a linear file.
hr::SceneSpec linearBench() {
  hr::SceneSpec s;
  s.shop.style = hr::linearStyle();
  s.shop.camera.iso = 800;
  s.panels[0].paint.ground = s.card.paint.ground = hr::Ground::PearlWhite;
  s.panels[0].paint.share = 0.40;
  return s;
}

JudgeRequest byHand(const Taken& shot) {
  JudgeRequest r = requestFor(shot);
  r.regions = shot.picture.regions;
  return r;
}

double halfWidth(const JudgeReport& r) { return 0.5 * (r.verdicts[0].high - r.verdicts[0].low); }

TEST(Repeats, FourPhotosHoldTheTruth) {
  const fixtures::TempDir folder;
  const Taken first = shoot(folder, "a.tif", linearBench());
  JudgeRequest request = byHand(first);
  const auto one = judged(request);
  ASSERT_TRUE(one);
  EXPECT_FALSE(one->repeats);
  for (const char* name : {"b.tif", "c.tif", "d.tif"}) request.repeats.push_back(shoot(folder, name, linearBench(), request.repeats.size() + 2).path);
  const auto four = judged(request);
  ASSERT_TRUE(four) << sentence(four.error());
  ASSERT_TRUE(four->repeats);
  EXPECT_EQ(four->repeats->photos, 4u);
  EXPECT_EQ(four->repeats->used, 4u);
  EXPECT_FALSE(four->repeats->left_out);
  EXPECT_GT(four->repeats->scatter, 0);
  EXPECT_LT(four->repeats->scatter, halfWidth(*one));
  EXPECT_LT(halfWidth(*four), 1.1 * halfWidth(*one));  // most of it belongs to the set-up, of which photos tell no more
  const double truth = first.picture.truth.panels[0].de00;
  EXPECT_LE(four->verdicts[0].low, truth);
  EXPECT_GE(four->verdicts[0].high, truth);
}

TEST(Repeats, APhotoOfAnotherPanelIsNamed) {
  const fixtures::TempDir folder;
  const Taken first = shoot(folder, "a.tif", linearBench());
  JudgeRequest request = byHand(first);
  request.repeats.push_back(shoot(folder, "b.tif", linearBench(), 2).path);
  request.repeats.push_back(shoot(folder, "c.tif", linearBench(), 3).path);
  hr::SceneSpec wrong = linearBench();
  wrong.panels[0].paint.share = 0.55;
  request.repeats.push_back(shoot(folder, "odd.tif", wrong, 4).path);
  const auto r = judged(request);
  ASSERT_TRUE(r) << sentence(r.error());
  ASSERT_TRUE(r->repeats->left_out);
  EXPECT_EQ(r->repeats->left_out->filename(), "odd.tif");
  EXPECT_EQ(r->repeats->used, 3u);
  EXPECT_TRUE(says(*r, CautionCode::PhotoLeftOut));
}

TEST(Repeats, WhatCannotBeCombinedIsRefused) {
  const fixtures::TempDir folder;
  const Taken first = shoot(folder, "a.tif", linearBench());
  JudgeRequest request = byHand(first);
  hr::SceneSpec small = linearBench();
  small.size = {800, 600};
  request.repeats = {shoot(folder, "small.tif", small).path};
  const auto r = judged(request);
  ASSERT_FALSE(r);
  EXPECT_EQ(r.error().code, Code::RepeatsUnusable);
  EXPECT_NE(r.error().detail.find("small.tif"), std::string::npos) << r.error().detail;
  request.repeats = {folder.path() / "nowhere.tif"};
  EXPECT_EQ(judged(request).error().code, Code::FileMissing);
  request.swapped = first.path;
  EXPECT_EQ(judged(request).error().code, Code::BadChoice);
}

}  // namespace
}  // namespace huewright
