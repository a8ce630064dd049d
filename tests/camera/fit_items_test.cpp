#include "camera/fit_items.hpp"

#include <cmath>
#include <gtest/gtest.h>

namespace huewright {
namespace {

/// The plain matrix of one, so that XYZ are the balanced values.
constexpr XyzByTerm kPlainTerms{{{1, 0, 0, 0, 0, 0}, {0, 1, 0, 0, 0, 0}, {0, 0, 1, 0, 0, 0}}};

std::vector<FitPatch> row() {
  std::vector<FitPatch> patches(6);
  for (std::size_t i = 0; i < patches.size(); ++i) {
    const double v = 0.1 + 0.1 * static_cast<double>(i);
    patches[i].device = {v, 0.9 * v, 1.1 * v};
    patches[i].at = {10.0 * static_cast<double>(i), i % 2 ? 7.0 : 3.0};
  }
  return patches;
}

std::vector<FitItem> itemsOf(const std::vector<FitPatch>& patches) {
  std::vector<FitItem> items(patches.size());
  for (std::size_t i = 0; i < items.size(); ++i) {
    items[i].patch = &patches[i];
    items[i].used = true;
    items[i].wanted = patches[i].device;
    items[i].metric = Mat3::diagonal({50, 50, 50});
  }
  return items;
}

TEST(FitItems, PlacesRunFromEdgeToEdge) {
  const auto patches = row();
  auto items = itemsOf(patches);
  placeItems(items);
  EXPECT_EQ(items.front().place.x, -1);
  EXPECT_EQ(items.back().place.x, 1);
  EXPECT_EQ(items[0].place.y, -1);
  EXPECT_EQ(items[1].place.y, 1);
}

TEST(FitItems, BalancedValuesAreFreeOfVeilAndLight) {
  const auto patches = row();
  auto items = itemsOf(patches);
  items[2].light = std::log(2.0);
  balanceItems(items, {}, {PhotoFit{{0.05, 0.05, 0.05}, {}, {2, 1, 0.5}, true}});
  for (std::size_t c = 0; c < 3; ++c) EXPECT_NEAR(items[2].balanced[c], 0.5 * (Vec3{2, 1, 0.5}[c]) * (patches[2].device[c] - 0.05), 1e-15);
}

TEST(FitItems, WhatIsFarOffIsSetBack) {
  const auto patches = row();
  auto items = itemsOf(patches);
  balanceItems(items, {}, {PhotoFit{}});
  items[4].wanted = items[4].wanted + Vec3{0.2, 0, 0};  // ten units
  setBack(items, kPlainTerms);
  EXPECT_LT(items[4].weight, 0.05);
  for (const std::size_t i : {0u, 1u, 2u, 3u, 5u}) EXPECT_NEAR(items[i].weight, 1, 1e-9);
}

TEST(FitItems, GainsOfTwoPhotosMeet) {
  const auto patches = row();
  auto items = itemsOf(patches), more = itemsOf(patches);
  for (FitItem& it : more) it.photo = 1;
  items.insert(items.end(), more.begin(), more.end());
  std::vector<PhotoFit> photos{{{}, {}, {1.02, 1.02, 1.02}, true}, {{}, {}, {0.98, 0.98, 0.98}, true}};
  for (int round = 0; round < 5; ++round) {
    balanceItems(items, {}, photos);
    refineGains(items, kPlainTerms, photos);
  }
  EXPECT_NEAR(photos[0].balance[1] / photos[1].balance[1], 1, 2e-3);
}

TEST(FitItems, TheLightIsFoundFromTheItems) {
  auto patches = row();
  for (int times = 0; times < 2; ++times) patches.insert(patches.end(), patches.begin(), patches.end());
  const auto published = patches;
  for (std::size_t i = 0; i < patches.size(); ++i) patches[i].device = std::exp(0.06 * (0.4 * static_cast<double>(i % 6) - 1)) * patches[i].device;
  auto items = itemsOf(patches);
  for (std::size_t i = 0; i < items.size(); ++i) items[i].wanted = published[i].device;
  placeItems(items);
  std::vector<SlopeOver> slopes(1);
  for (int round = 0; round < 6; ++round) {
    balanceItems(items, {}, {PhotoFit{}});
    refineLight(items, kPlainTerms, slopes);
  }
  EXPECT_NEAR(slopes[0].log[0], 0.06, 0.003);
  const LightSlope in_picture = slopeInPicture(items, 0, slopes[0]);
  const Point &first = items.front().patch->at, &sixth = items[5].patch->at;
  EXPECT_NEAR(in_picture.per_pixel[0] * (sixth.x - first.x), 2 * slopes[0].log[0], 1e-12);
  EXPECT_NEAR(in_picture.sd[0] * (sixth.x - first.x), 2 * slopes[0].sd[0], 1e-12);
  EXPECT_NEAR(in_picture.middle.x, 0.5 * (first.x + sixth.x), 1e-9);
  EXPECT_NEAR(items.back().light, slopes[0].log[0] + slopes[0].log[1], 1e-12);
}

}  // namespace
}  // namespace huewright
