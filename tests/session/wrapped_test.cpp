#include "session/wrapped.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

TEST(Wrapped, BreaksAtTheWidth) {
  EXPECT_EQ(wrapped("", 10, 2), "");
  EXPECT_EQ(wrapped("one", 10, 0), "one\n");
  EXPECT_EQ(wrapped("one two three", 7, 0), "one two\nthree\n");
  EXPECT_EQ(wrapped("one two three", 13, 0), "one two three\n");
  EXPECT_EQ(wrapped("one two three", 12, 0), "one two\nthree\n");
  EXPECT_EQ(wrapped("one two", 9, 2), "  one two\n");
  EXPECT_EQ(wrapped("one two", 8, 2), "  one\n  two\n");
}

TEST(Wrapped, KeepsLineEndsAndLongWords) {
  EXPECT_EQ(wrapped("one\ntwo", 20, 1), " one\n two\n");
  EXPECT_EQ(wrapped("one\ntwo\n", 20, 0), "one\ntwo\n");
  EXPECT_EQ(wrapped("a incomprehensible b", 5, 0), "a\nincomprehensible\nb\n");
  EXPECT_EQ(wrapped("incomprehensible", 5, 3), "   incomprehensible\n");
}

TEST(Wrapped, CountsCharactersNotBytes) {
  EXPECT_EQ(wrapped("ΔE00 ±0.3 größer", 16, 0), "ΔE00 ±0.3 größer\n");
  EXPECT_EQ(wrapped("ΔE00 ±0.3 größer", 15, 0), "ΔE00 ±0.3\ngrößer\n");
  EXPECT_EQ(wrapped("…… …… ……", 5, 0), "…… ……\n……\n");
}

}  // namespace
}  // namespace huewright
