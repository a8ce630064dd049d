#include "photo/geometry.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <limits>

namespace huewright {
namespace {

Quad quad(double a, double b, double c, double d, double e, double f, double g, double h) {
  return {{{{a, b}, {c, d}, {e, f}, {g, h}}}};
}

const Quad kSquare = quad(0, 0, 10, 0, 10, 10, 0, 10);

TEST(Geometry, rectangleBecomesItsOuterEdges) {
  EXPECT_EQ(toQuad({2, 3, 4, 5}), quad(2, 3, 6, 3, 6, 8, 2, 8));
  EXPECT_EQ(boundingBox(toQuad({2, 3, 4, 5})), (Rect{2, 3, 4, 5}));
}

TEST(Geometry, boundingBoxHoldsEveryTouchedPixel) {
  EXPECT_EQ(boundingBox(quad(1.2, 2.9, 5.1, 1, 6, 7.01, -0.5, 6)), (Rect{-1, 1, 7, 7}));
}

TEST(Geometry, boundingBoxOfAnAbsurdQuadStaysWithinAnInt) {
  const Rect box = boundingBox(quad(-1e300, -1e300, 1e300, -1e300, 1e300, 1e300, -1e300, 1e300));
  EXPECT_GT(box.width, 0);
  EXPECT_GT(box.height, 0);
}

TEST(Geometry, areaIsPositiveClockwise) {
  EXPECT_DOUBLE_EQ(signedArea(kSquare), 100);
  EXPECT_DOUBLE_EQ(signedArea(quad(0, 0, 0, 10, 10, 10, 10, 0)), -100);
  EXPECT_DOUBLE_EQ(signedArea(quad(1e8, 1e8, 1e8 + 1, 1e8, 1e8 + 1, 1e8 + 1, 1e8, 1e8 + 1)), 1);
  EXPECT_EQ(clockwise(quad(0, 0, 0, 10, 10, 10, 10, 0)), kSquare);
  EXPECT_EQ(clockwise(kSquare), kSquare);
  EXPECT_EQ(centre(kSquare), (Point{5, 5}));
}

TEST(Geometry, convexity) {
  EXPECT_TRUE(isConvex(kSquare));
  EXPECT_TRUE(isConvex(quad(0, 0, 0, 10, 10, 10, 10, 0))) << "the other way round";
  EXPECT_FALSE(isConvex(quad(0, 0, 10, 10, 10, 0, 0, 10))) << "crossed";
  EXPECT_FALSE(isConvex(quad(0, 0, 10, 0, 3, 3, 0, 10))) << "bent inward";
  EXPECT_FALSE(isConvex(quad(0, 0, 5, 0, 10, 0, 5, 5))) << "three corners on a line";
}

TEST(Geometry, containsEdgesToo) {
  EXPECT_TRUE(contains(kSquare, {5, 5}));
  EXPECT_TRUE(contains(kSquare, {0, 5}));
  EXPECT_TRUE(contains(kSquare, {10, 10}));
  EXPECT_FALSE(contains(kSquare, {10.001, 5}));
}

TEST(Geometry, overlapNeedsSharedArea) {
  EXPECT_TRUE(overlap(kSquare, quad(9, 9, 20, 9, 20, 20, 9, 20)));
  EXPECT_TRUE(overlap(kSquare, quad(2, 2, 3, 2, 3, 3, 2, 3))) << "one inside the other";
  EXPECT_FALSE(overlap(kSquare, quad(10, 0, 20, 0, 20, 10, 10, 10))) << "a shared edge";
  EXPECT_FALSE(overlap(kSquare, quad(11, 11, 20, 11, 20, 20, 11, 20)));
  // A turned square whose bounding box overlaps, but which itself does not: only its own edge separates the two.
  EXPECT_FALSE(overlap(kSquare, quad(15, 6, 23, 14, 15, 22, 7, 14)));
  EXPECT_FALSE(overlap(kSquare, quad(14, 6, 22, 14, 14, 22, 6, 14))) << "touching at a corner";
  EXPECT_TRUE(overlap(kSquare, quad(13, 6, 21, 14, 13, 22, 5, 14)));
}

TEST(Geometry, insetCutsTheFractionOffEachHalf) {
  EXPECT_EQ(inset(kSquare, 0.2), quad(1, 1, 9, 1, 9, 9, 1, 9));
  EXPECT_EQ(inset(kSquare, 0), kSquare);
}

TEST(Geometry, parsesRegions) {
  EXPECT_EQ(*parseQuad("1,2,3,4"), quad(1, 2, 4, 2, 4, 6, 1, 6));
  EXPECT_EQ(*parseQuad(" 1.5 , 2 ,3, 4 "), quad(1.5, 2, 4.5, 2, 4.5, 6, 1.5, 6));
  EXPECT_EQ(*parseQuad("0,0,10,0,10,10,0,10"), kSquare);
  EXPECT_EQ(*parseQuad("-1,+2,3,4"), quad(-1, 2, 2, 2, 2, 6, -1, 6));
  EXPECT_TRUE(parseQuad("0,0,10,10,10,0,0,10").has_value()) << "crossed corners are for the caller to name";
}

TEST(Geometry, refusesOtherText) {
  for (const char* text : {"", ",", "1", "1,2,3", "1,2,3,4,", "1,2,3,4,5", "a,b,c,d", "1,2,3,x", "1;2;3;4", "1,,3,4", "nan,1,2,3",
                           "inf,1,2,3", "1e999,1,2,3", "1,2,3,4,5,6,7,8,9", "1 2,3,4,5", "0x10,1,2,3", "+-1,2,3,4", "1,2,3,4 px"}) {
    const auto quad_or = parseQuad(text);
    ASSERT_FALSE(quad_or) << text;
    EXPECT_EQ(quad_or.error().code, Code::BadRegion) << text;
    EXPECT_EQ(quad_or.error().detail, text);
  }
  for (const char* text : {"1,2,0,4", "1,2,3,0", "1,2,-3,4", "0,0,0,0", "0,0,1,1,2,2,3,3", "5,5,5,5,5,5,5,5"}) {
    const auto quad_or = parseQuad(text);
    ASSERT_FALSE(quad_or) << text;
    EXPECT_EQ(quad_or.error().code, Code::ZeroRegion) << text;
  }
}

TEST(InsidePicture, CutsToThePictureAndLeavesAPixel) {
  EXPECT_EQ(insidePicture({2, 3, 4, 5}, {10, 10}), (Rect{2, 3, 4, 5}));
  EXPECT_EQ(insidePicture({-2, 7, 5, 9}, {10, 10}), (Rect{0, 7, 3, 3}));
  EXPECT_EQ(insidePicture({20, -9, 5, 3}, {10, 10}), (Rect{9, 0, 1, 1}));
}

}  // namespace
}  // namespace huewright
