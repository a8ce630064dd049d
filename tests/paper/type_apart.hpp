// That type on a drawn page is all legible.
#pragma once

#include <span>

#include <gtest/gtest.h>

#include "photo/geometry.hpp"

namespace huewright::drawn {

/// Every line of type lies on the page, so far from its sides and so far from its top and foot, mm, and on no other line.
inline void expectTypeApart(std::span<const Quad> type, const Size& page, double sides, double ends) {
  for (std::size_t i = 0; i < type.size(); ++i) {
    const auto& a = type[i].corners;
    EXPECT_GE(a[0].x, sides) << i;
    EXPECT_GE(a[0].y, ends) << i;
    EXPECT_LE(a[2].x, page.width - sides) << i;
    EXPECT_LE(a[2].y, page.height - ends) << i;
    for (std::size_t j = 0; j < i; ++j) {
      const auto& b = type[j].corners;
      EXPECT_TRUE(a[2].x <= b[0].x || b[2].x <= a[0].x || a[2].y <= b[0].y || b[2].y <= a[0].y) << j << " and " << i << " at " << a[0].x << "," << a[0].y;
    }
  }
}

}  // namespace huewright::drawn
