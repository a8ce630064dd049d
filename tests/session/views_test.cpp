// A second look at panel and card, from rendered photographs to sentences.
#include "session/views.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <vector>

#include "render/picture_file.hpp"
#include "render/scene.hpp"
#include "shots.hpp"
#include "temp_dir.hpp"

namespace huewright {
namespace {

namespace hr = render;

/// A plain panel and a card of other pigments that looks like it in daylight.
hr::SceneSpec benchUnder(hr::CardKind kind, const char* light) {
  hr::SceneSpec s;
  s.shop.style = hr::linearStyle();
  s.shop.lamp.light = light;
  s.panels[0].paint.ground = s.card.paint.ground = hr::Ground::PearlWhite;
  s.card.kind = kind;
  s.card.pigment_set = 1;
  return s;
}

JudgeRequest kindRequest(const Taken& taken, CardKind kind) {
  JudgeRequest r;
  r.photo = taken.path;
  r.regions = taken.picture.regions;
  r.grey_y = 0.19;
  r.card_kind = kind;
  return r;
}

TEST(SecondLight, TheSamePaintDoesNotPart) {
  const fixtures::TempDir folder;
  JudgeRequest request = kindRequest(shoot(folder, "day.tif", benchUnder(hr::CardKind::Same, "D50")), CardKind::Same);
  request.also = ViewRequest{shoot(folder, "bulb.tif", benchUnder(hr::CardKind::Same, "A"), 2).path, {}};
  const auto r = judged(request);
  ASSERT_TRUE(r) << sentence(r.error());
  ASSERT_TRUE(r->also);
  EXPECT_EQ(r->also->comparison.change, ViewChange::None);
  EXPECT_EQ(r->also->verdicts[0].band, Band::There);
}

TEST(SecondLight, ItsPhotoHasATrustOfItsOwn) {
  const fixtures::TempDir folder;
  hr::SceneSpec day = benchUnder(hr::CardKind::Same, "D50"), bulb = benchUnder(hr::CardKind::Same, "A");
  bulb.shop.style = hr::plainJpeg();
  JudgeRequest request = kindRequest(shoot(folder, "day.tif", day), CardKind::Same);
  const auto passed_on = folder.path() / "bulb.jpg";
  hr::writePicture(passed_on, hr::render(bulb, 2), {.exif = false});
  request.also = ViewRequest{passed_on, {}};
  const auto r = judged(request);
  ASSERT_TRUE(r && r->also);
  const auto codes = [](const Trust& t) {
    std::vector<TrustCode> all;
    for (const TrustReason& reason : t.reasons) all.push_back(reason.code);
    return all;
  };
  EXPECT_TRUE(std::ranges::count(codes(r->also->trust), TrustCode::CameraDataMissing));
  EXPECT_FALSE(std::ranges::count(codes(r->trust), TrustCode::CameraDataMissing));
}

TEST(SecondLight, OtherPigmentsPart) {
  const fixtures::TempDir folder;
  JudgeRequest request = kindRequest(shoot(folder, "day.tif", benchUnder(hr::CardKind::OtherPigments, "D50")), CardKind::Other);
  request.also = ViewRequest{shoot(folder, "bulb.tif", benchUnder(hr::CardKind::OtherPigments, "FL11"), 2).path, {}};
  const auto r = judged(request);
  ASSERT_TRUE(r) << sentence(r.error());
  EXPECT_TRUE(r->also->comparison.change == ViewChange::Changed || r->also->comparison.change == ViewChange::Parted)
      << viewChangeName(r->also->comparison.change) << " " << r->also->comparison.measured;
  EXPECT_NE(r->also->sentence.find("pigments"), std::string::npos) << r->also->sentence;
}

TEST(Flop, HasItsOwnVerdictAtItsOwnPlaces) {
  const fixtures::TempDir folder;
  hr::SceneSpec face = benchUnder(hr::CardKind::Same, "D50");
  face.panels[0].paint.ground = face.card.paint.ground = hr::Ground::BrightSilver;
  JudgeRequest request = kindRequest(shoot(folder, "face.tif", face), CardKind::Same);
  auto r = judged(request);
  ASSERT_TRUE(r) << sentence(r.error());
  const auto one_angle = [](const JudgeReport& report) {
    return std::ranges::any_of(report.cautions, [](const Caution& c) { return c.code == CautionCode::OneAngle; });
  };
  EXPECT_TRUE(one_angle(*r)) << r->reading.panels[0].grain << " " << r->reading.grey_grain;

  hr::SceneSpec tilted = face;
  tilted.size = {1000, 700};
  tilted.shop.view.tilt_deg = 25;
  tilted.panels[0].paint.coats = 5.5;  // as if the flop were deeper than the card's
  const Taken flop = shoot(folder, "flop.tif", tilted, 3);
  request.flop = ViewRequest{flop.path, {}};
  EXPECT_EQ(judged(request).error().code, Code::ViewUnusable);  // the first photo's places do not hold in another size
  request.flop->regions = flop.picture.regions;
  r = judged(request);
  ASSERT_TRUE(r) << sentence(r.error());
  ASSERT_TRUE(r->flop);
  EXPECT_FALSE(one_angle(*r));
  EXPECT_EQ(r->verdicts[0].band, Band::There);
  EXPECT_LE(r->flop->verdicts[0].low, flop.picture.truth.panels[0].de00);
  EXPECT_GE(r->flop->verdicts[0].high, flop.picture.truth.panels[0].de00);
  EXPECT_EQ(r->flop->comparison.change, ViewChange::Parted);
  EXPECT_NE(r->flop->sentence.find("face"), std::string::npos);
}

TEST(Flop, WhatIsMarkedInItMustBeComplete) {
  const fixtures::TempDir folder;
  const Taken face = shoot(folder, "face.tif", benchUnder(hr::CardKind::Same, "D50"));
  JudgeRequest request = kindRequest(face, CardKind::Same);
  request.flop = ViewRequest{face.path, {}};
  request.flop->regions.panels = face.picture.regions.panels;
  EXPECT_EQ(judged(request).error().code, Code::ViewUnusable);  // no card
  request.flop->regions.card = face.picture.regions.card;
  request.flop->regions.panels.push_back(face.picture.regions.greys[0]);
  EXPECT_EQ(judged(request).error().code, Code::ViewUnusable);  // two panels
}

TEST(LooksMetallic, BySparkleNotByNoise) {
  const fixtures::TempDir folder;
  for (const bool metallic : {true, false})
    for (const bool linear : {true, false})
      for (const double iso : {100.0, 1600.0}) {
        hr::SceneSpec s = benchUnder(hr::CardKind::Same, "D50");
        s.panels[0].paint.ground = s.card.paint.ground = hr::Ground::BrightSilver;
        s.panels[0].finish.flake = s.card.finish.flake = metallic ? 1 : 0;
        s.shop.camera.iso = iso;
        if (!linear) s.shop.style = {};
        const auto r = judged(kindRequest(shoot(folder, linear ? "a.tif" : "a.jpg", s), CardKind::Same));
        ASSERT_TRUE(r);
        EXPECT_EQ(looksMetallic(r->reading, 0), metallic)
            << "iso " << iso << (linear ? " linear " : " jpeg ") << r->reading.panels[0].grain << " " << r->reading.grey_grain;
      }
}

}  // namespace
}  // namespace huewright
