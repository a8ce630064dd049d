#include "photo/jpeg_tail.hpp"

#include <gtest/gtest.h>

#include "support/fixtures.hpp"

namespace huewright {
namespace {

using Bytes = fixtures::Bytes;

TEST(JpegTail, stuffingAndRestartMarkersAreData) {
  const std::pair<Bytes, bool> rows[] = {
      {{0xFF, 0xD9}, true},
      {{1, 2, 3, 0xFF, 0xD9}, true},
      {{1, 0xFF, 0x00, 0xFF, 0xD3, 9, 0xFF, 0xFF, 0xFF, 0xD9}, true},
      {{1, 0xFF, 0xD9, 5, 6, 7}, true},                                // trailing bytes do not matter
      {{}, false},
      {{1, 2, 3}, false},
      {{1, 2, 0xFF}, false},
      {{1, 0xFF, 0x00, 0xD9}, false},                                  // D9 without its FF
      {{0xFF, 0xDA, 0, 8, 0xFF, 0xD9, 0, 0, 0, 0}, false},             // an end marker inside a segment is none
      {{0xFF, 0xDA, 0, 4, 0xFF, 0xD9, 1, 2, 0xFF, 0xD9}, true},
      {{0xFF, 0xDC, 0}, false},
      {{0xFF, 0xC4, 0xFF, 0xFF, 0xFF, 0xD9}, false},                   // a length past the end
  };
  for (std::size_t i = 0; i < std::size(rows); ++i) EXPECT_EQ(reachesEnd(rows[i].first, 0), rows[i].second) << "row " << i;
}

TEST(JpegTail, startsWhereItIsTold) {
  const Bytes bytes{0xFF, 0xD9, 1, 2, 3};
  EXPECT_TRUE(reachesEnd(bytes, 0));
  EXPECT_FALSE(reachesEnd(bytes, 1));
  EXPECT_FALSE(reachesEnd(bytes, 99));
}

}  // namespace
}  // namespace huewright
