#include "cli/enter_key.hpp"

#include <array>
#include <gtest/gtest.h>
#include <unistd.h>

namespace huewright {
namespace {

TEST(EnterKey, IsSeenOnceAndNeverWaitedFor) {
  std::array<int, 2> ends{};
  ASSERT_EQ(::pipe(ends.data()), 0);
  EnterKey key(ends[0]);
  EXPECT_FALSE(key.pressed());
  ASSERT_EQ(::write(ends[1], "abc", 3), 3);
  EXPECT_FALSE(key.pressed());
  ASSERT_EQ(::write(ends[1], "d\n\n", 3), 3);
  EXPECT_TRUE(key.pressed());
  EXPECT_FALSE(key.pressed());
  ASSERT_EQ(::write(ends[1], "\n", 1), 1);
  ::close(ends[1]);
  EXPECT_TRUE(key.pressed());
  EXPECT_FALSE(key.pressed());  // the input has ended
  ::close(ends[0]);
}

TEST(EnterKey, ADescriptorThatIsNoneIsNoKey) {
  EnterKey key(-1);
  EXPECT_FALSE(key.pressed());
  std::array<int, 2> ends{};
  ASSERT_EQ(::pipe(ends.data()), 0);
  ::close(ends[0]);
  ::close(ends[1]);
  EnterKey closed(ends[0]);
  EXPECT_FALSE(closed.pressed());
}

}  // namespace
}  // namespace huewright
