#include "desk/photo_place.hpp"

#include <gtest/gtest.h>

namespace huewright::desk {
namespace {

const Field kView{100, 50, 800, 600};
constexpr Size kPhotoSize{4000, 2000};

TEST(PhotoPlace, TheWholePhotoFitsItsNarrowerWay) {
  const PhotoPlace place = placeOf(kView, kPhotoSize, 0, {17, 23});
  EXPECT_DOUBLE_EQ(place.zoom, 0.2);
  EXPECT_TRUE(isWhole(place));
  EXPECT_EQ(place.toScreen({0, 0}), (Point{100, 150}));
  EXPECT_EQ(place.toScreen({4000, 2000}), (Point{900, 550}));
  EXPECT_EQ(place.shown({1000, 500}), (Rect{0, 0, 1000, 500}));
}

TEST(PhotoPlace, ThereAndBackIsTheSamePoint) {
  const PhotoPlace place = placeOf(kView, kPhotoSize, 3.7, {1234.5, 678.25});
  for (const Point p : {Point{0, 0}, Point{1234.5, 678.25}, Point{3999, 1}}) {
    const Point back = place.toPhoto(place.toScreen(p));
    EXPECT_NEAR(back.x, p.x, 1e-9);
    EXPECT_NEAR(back.y, p.y, 1e-9);
  }
}

TEST(PhotoPlace, ZoomKeepsThePixelUnderThePointer) {
  PhotoPlace place = placeOf(kView, kPhotoSize, 1, {1500, 900});
  const Point pointer{340, 500}, under = place.toPhoto(pointer);
  for (const double factor : {1.25, 1.25, 4.0, 0.8, 0.5}) {
    place = zoomed(place, factor, pointer);
    EXPECT_NEAR(place.toPhoto(pointer).x, under.x, 1e-9) << factor;
    EXPECT_NEAR(place.toPhoto(pointer).y, under.y, 1e-9) << factor;
  }
  EXPECT_NEAR(place.zoom, 2.5, 1e-12);
}

TEST(PhotoPlace, ZoomEndsAtTheWholePhotoAndAtTheNearest) {
  PhotoPlace place = placeOf(kView, kPhotoSize, 1, {1500, 900});
  EXPECT_TRUE(isWhole(zoomed(place, 0.01, {300, 300})));
  EXPECT_DOUBLE_EQ(zoomed(place, 1e6, {300, 300}).zoom, kNearestZoom);
}

TEST(PhotoPlace, PullingKeepsTheCentreOnThePhoto) {
  const PhotoPlace place = placeOf(kView, kPhotoSize, 2, {1500, 900});
  EXPECT_EQ(panned(place, {100, -40}).centre, (Point{1450, 920}));
  EXPECT_EQ(panned(place, {1e6, 1e6}).centre, (Point{0, 0}));
  EXPECT_EQ(panned(place, {-1e6, -1e6}).centre, (Point{4000, 2000}));
  const PhotoPlace whole = placeOf(kView, kPhotoSize, 0, {});
  EXPECT_EQ(panned(whole, {100, 100}).centre, whole.centre);
}

TEST(PhotoPlace, WhatLiesOverThePhotoIsSmallerInALowField) {
  struct Case {
    double height;
    float type, want;
  };
  for (const Case c : {Case{1000, 1, 1}, Case{1000, 3, 3}, Case{640, 3, 2}, Case{100, 3, 1}, Case{100, 1, 1}}) EXPECT_FLOAT_EQ(overlayScale({0, 0, 500, c.height}, c.type), c.want) << c.height;
}

TEST(PhotoPlace, OnlyWhatTheFieldShowsIsAskedFor) {
  const PhotoPlace place = placeOf(kView, kPhotoSize, 2, {1500, 900});
  EXPECT_EQ(place.shown(kPhotoSize), (Rect{1300, 750, 400, 300}));
  EXPECT_EQ(place.shown({2000, 1000}), (Rect{650, 375, 200, 150}));
}

}  // namespace
}  // namespace huewright::desk
