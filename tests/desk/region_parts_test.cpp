#include "desk/region_parts.hpp"

#include <gtest/gtest.h>

namespace huewright::desk {
namespace {

constexpr Size kPartsPicture{1000, 800};
const Quad kSquareHundred = toQuad({100, 100, 100, 100});

Regions allKinds() {
  Regions r;
  r.panels = {toQuad({0, 0, 10, 10}), toQuad({20, 0, 10, 10})};
  r.card = toQuad({40, 0, 10, 10});
  r.greys = {toQuad({60, 0, 10, 10}), toQuad({80, 0, 10, 10})};
  r.black = toQuad({100, 0, 10, 10});
  return r;
}

TEST(RegionParts, AllOfThemInOrderWithTheirNames) {
  const auto parts = partsOf(allKinds());
  const char* names[]{"panel A", "panel B", "card", "grey", "grey 2", "black"};
  ASSERT_EQ(parts.size(), 6u);
  for (std::size_t i = 0; i < 6; ++i) {
    EXPECT_EQ(parts[i].name, names[i]);
    EXPECT_EQ(parts[i].quad, toQuad({static_cast<int>(20 * i), 0, 10, 10}));
  }
  EXPECT_TRUE(partsOf({}).empty());
}

TEST(RegionParts, ChangingAndRemovingTouchesOneOnly) {
  const Quad other = toQuad({300, 300, 50, 50});
  for (std::size_t part = 0; part < 6; ++part) {
    const auto changed = partsOf(withQuad(allKinds(), part, other));
    const auto left = partsOf(withoutPart(allKinds(), part));
    const auto before = partsOf(allKinds());
    ASSERT_EQ(changed.size(), 6u);
    ASSERT_EQ(left.size(), 5u);
    for (std::size_t i = 0; i < 6; ++i) {
      EXPECT_EQ(changed[i].quad, i == part ? other : before[i].quad);
      if (i != part) {
        EXPECT_EQ(left[i < part ? i : i - 1].quad, before[i].quad);
      }
    }
  }
  EXPECT_EQ(partsOf(withoutPart(allKinds(), 6)).size(), 6u);
}

TEST(RegionParts, AnAddedOneIsFoundWhereItIsSaid) {
  const Quad other = toQuad({300, 300, 50, 50});
  struct Case {
    PartKind kind;
    std::size_t count;  // there is only one card and one black chip
  };
  for (const Case c : {Case{PartKind::Panel, 7}, Case{PartKind::Card, 6}, Case{PartKind::Grey, 7}, Case{PartKind::Black, 6}}) {
    for (const Regions& to : {allKinds(), Regions{}}) {
      const AddedPart added = withPart(to, c.kind, other);
      const auto parts = partsOf(added.regions);
      ASSERT_LT(added.part, parts.size());
      EXPECT_EQ(parts[added.part].quad, other);
      EXPECT_EQ(parts[added.part].kind, c.kind);
      EXPECT_EQ(parts.size(), partsOf(to).empty() ? 1u : c.count);
    }
  }
}

TEST(RegionParts, ACornerGoesWhereItIsPulled) {
  const Quad moved = cornerMoved(kSquareHundred, 2, {240, 215}, kPartsPicture);
  EXPECT_EQ(moved.corners[2], (Point{240, 215}));
  for (const std::size_t i : {0u, 1u, 3u}) EXPECT_EQ(moved.corners[i], kSquareHundred.corners[i]);
}

TEST(RegionParts, ACornerNeitherFoldsTheRegionNorLeavesThePicture) {
  for (std::size_t corner = 0; corner < 4; ++corner)
    for (const Point to : {Point{-500, -500}, Point{2000, 150}, Point{150, 2000}, Point{150, 150}, Point{90, 320}, Point{400, 20}, Point{199, 199}}) {
      const Quad moved = cornerMoved(kSquareHundred, corner, to, kPartsPicture);
      EXPECT_TRUE(isConvex(moved)) << corner << " to " << to.x << ", " << to.y;
      EXPECT_GT(signedArea(moved), 0);
      const Point c = moved.corners[corner];
      EXPECT_TRUE(c.x >= 0 && c.y >= 0 && c.x <= kPartsPicture.width && c.y <= kPartsPicture.height);
    }
  // The first corner pulled to the middle and beyond stops on the diagonal between its neighbours, x + y = 300.
  const Point stopped = cornerMoved(kSquareHundred, 0, {180, 180}, kPartsPicture).corners[0];
  EXPECT_NEAR(stopped.x, 150, 0.01);
  EXPECT_NEAR(stopped.y, 150, 0.01);
}

TEST(RegionParts, ARegionStaysInThePicture) {
  EXPECT_EQ(quadMoved(kSquareHundred, {5, -7}, kPartsPicture), toQuad({105, 93, 100, 100}));
  EXPECT_EQ(quadMoved(kSquareHundred, {-1000, 5}, kPartsPicture), toQuad({0, 105, 100, 100}));
  EXPECT_EQ(quadMoved(kSquareHundred, {5000, 5000}, kPartsPicture), toQuad({900, 700, 100, 100}));
}

TEST(RegionParts, ARectangleFromAnyCorner) {
  const Quad wanted = toQuad({10, 20, 30, 40});
  for (const auto& [a, b] : {std::pair{Point{10, 20}, Point{40, 60}}, std::pair{Point{40, 60}, Point{10, 20}}, std::pair{Point{10, 60}, Point{40, 20}}}) EXPECT_EQ(quadBetween(a, b, kPartsPicture), wanted);
  EXPECT_EQ(quadBetween({900, 700}, {5000, 5000}, kPartsPicture), toQuad({900, 700, 100, 100}));
  EXPECT_FALSE(quadBetween({10, 10}, {200, 12}, kPartsPicture));
  EXPECT_FALSE(quadBetween({2000, 10}, {3000, 200}, kPartsPicture));
}

}  // namespace
}  // namespace huewright::desk
