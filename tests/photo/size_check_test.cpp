#include "photo/size_check.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

TEST(SizeCheck, letsOrdinaryPicturesThrough) {
  EXPECT_EQ(*checkSize(4032, 3024, {}, "x"), (Size{4032, 3024}));
  EXPECT_EQ(*checkSize(20000, 10000, {}, "x"), (Size{20000, 10000})) << "just at the limit";
}

TEST(SizeCheck, saysHowLargeAndHowLargeIsAllowed) {
  struct Row {
    std::uint64_t width, height;
    double megapixels;
    const char* detail;
  };
  const Row rows[] = {{65536, 65536, 200, "\"x.png\" has 4295 megapixels; 200 are allowed"},
                      {20001, 10000, 200, "\"x.png\" has 201 megapixels; 200 are allowed"},
                      {1000, 1200, 0.5, "\"x.png\" has 1.2 megapixels; 0.5 are allowed"},
                      {70000, 10, 200, "\"x.png\" is 70000 pixels long; 65500 are allowed"},
                      {0xFFFFFFFF, 0xFFFFFFFF, 200, "\"x.png\" has 18446744065120 megapixels; 200 are allowed"}};
  for (const Row& row : rows) {
    Limits limits;
    limits.megapixels = row.megapixels;
    const auto size = checkSize(row.width, row.height, limits, "x.png");
    ASSERT_FALSE(size) << row.detail;
    EXPECT_EQ(size.error().code, Code::PhotoTooLarge);
    EXPECT_EQ(size.error().detail, row.detail);
  }
}

TEST(SizeCheck, nothingIsNoPicture) {
  EXPECT_EQ(checkSize(0, 5, {}, "x").error().code, Code::PhotoEmpty);
  EXPECT_EQ(checkSize(5, 0, {}, "x").error().code, Code::PhotoEmpty);
}

}  // namespace
}  // namespace huewright
