#include "photo/collect.hpp"

#include <gtest/gtest.h>

#include <algorithm>

namespace huewright {
namespace {

/// A source whose codes are its XYZ: enough to see where pixels go.
class PlainSource final : public PhotoSource {
 public:
  PlainSource(Size size, int orientation, int bits) {
    stored = size;
    turned = orientation;
    facts.bits = bits;
    const CurveTable table = tabulate([](double c) { return c; }, bits);
    colour = curvesAndMatrix({table, table, table}, Mat3::identity());
  }
  Result<void> decode(std::span<const Rect>, int, const RowSink&) override { return {}; }
};

TEST(Collect, clipBounds) {
  struct Row {
    int bits;
    bool linear;
    int top, bottom;
  };
  const Row rows[] = {{8, false, 253, 1},  {8, true, 253, 1},       {10, false, 1015, 4},
                      {10, true, 1015, 0}, {16, false, 65021, 257}, {16, true, 65021, 0}};
  for (const Row& row : rows) {
    EXPECT_EQ(clipBounds(row.bits, row.linear).top, row.top) << row.bits;
    EXPECT_EQ(clipBounds(row.bits, row.linear).bottom, row.bottom) << row.bits;
  }
}

TEST(Collect, clippingIsJudgedOnStoredCodes) {
  const PlainSource source({4, 1}, 1, 8);
  const Rect all{0, 0, 4, 1};
  Collector collector(source, std::span(&all, 1));
  const std::uint8_t codes[] = {253, 252, 1, 2, 255, 0, 0, 0, 0, 255, 255, 255};
  collector.take({0, 0, 4, Sample::Code8, 3, codes});
  const auto rasters = collector.release();
  EXPECT_EQ(rasters[0].clip, (std::vector<std::uint8_t>{1 | 32, 2 | 32, 8 | 16 | 32, 1 | 2 | 4}));
}

TEST(Collect, piecesOfRowsFillEveryRectangle) {
  const Size size{9, 6};
  for (int orientation = 1; orientation <= 8; ++orientation) {
    const PlainSource source(size, orientation, 16);
    const Size shown = uprightSize(orientation, size);
    const std::vector<Rect> rects{{0, 0, shown.width, shown.height}, {1, 2, 3, 2}, {1, 2, 3, 2}, {shown.width - 1, shown.height - 1, 1, 1}};
    Collector collector(source, rects);
    EXPECT_FALSE(collector.complete());
    const Turn turn = turnUpright(orientation, size);
    for (int y = size.height - 1; y >= 0; --y)  // rows in any order, each in two pieces
      for (const auto& [x, count] : {std::pair{5, 4}, {0, 5}}) {
        std::vector<std::uint16_t> codes;
        for (int i = 0; i < count; ++i) {
          codes.push_back(static_cast<std::uint16_t>(turn.xx * (x + i) + turn.xy * y + turn.x0));
          codes.push_back(static_cast<std::uint16_t>(turn.yx * (x + i) + turn.yy * y + turn.y0));
          codes.push_back(0);
        }
        collector.take({y, x, count, Sample::Code16, 3, codes.data()});
      }
    EXPECT_TRUE(collector.complete());
    for (const Raster& raster : collector.release())
      for (int i = 0; i < raster.rect.width * raster.rect.height; ++i) {
        EXPECT_NEAR(raster.xyz[std::size_t(3 * i)] * 65535, raster.rect.x + i % raster.rect.width, 0.01) << orientation;
        EXPECT_NEAR(raster.xyz[std::size_t(3 * i + 1)] * 65535, raster.rect.y + i / raster.rect.width, 0.01) << orientation;
      }
  }
}

TEST(Collect, aMissingRowLeavesItIncomplete) {
  const PlainSource source({2, 2}, 1, 8);
  const Rect all{0, 0, 2, 2};
  Collector collector(source, std::span(&all, 1));
  const std::uint8_t codes[6] = {};
  collector.take({1, 0, 2, Sample::Code8, 3, codes});
  EXPECT_FALSE(collector.complete());
  collector.take({0, 0, 2, Sample::Code8, 3, codes});
  EXPECT_TRUE(collector.complete());
}

}  // namespace
}  // namespace huewright
