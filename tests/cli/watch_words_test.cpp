#include "cli/watch_words.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

Result<WatchWords> told(std::vector<std::string> more) {
  more.insert(more.begin(), {"watch", "--folder", "photos"});
  return watchWords(parseArguments(more).value(), "photos");
}

TEST(WatchWords, AreReadWhereTheyAreGiven) {
  const auto words = told({"--count", "3", "--json", "--explain", "--gate"});
  ASSERT_TRUE(words);
  EXPECT_EQ(words->count, 3U);
  EXPECT_TRUE(words->json && words->explain && words->gate);
  const auto none = told({});
  ASSERT_TRUE(none);
  EXPECT_FALSE(none->count || none->json || none->explain || none->gate);
}

TEST(WatchWords, ACountIsAWholeNumberFromOneOn) {
  for (const char* count : {"0", "-1", "2.5", "all", "nan", "1e10"}) {
    const auto words = told({std::string("--count=") + count});
    ASSERT_FALSE(words) << count;
    EXPECT_EQ(words.error().code, Code::BadNumber);
    EXPECT_EQ(words.error().detail, "\"" + std::string(count) + "\" is not a number of photos. Give --count a whole number, 1 or more");
  }
  EXPECT_EQ(told({"--count", "1000000000"})->count, 1000000000U);
}

}  // namespace
}  // namespace huewright
