#include "base/caution.hpp"

#include <gtest/gtest.h>
#include <set>

namespace huewright {
namespace {

TEST(Caution, EveryCodeHasASentenceAndAName) {
  std::set<std::string_view> names;
  for (std::size_t i = 0; i < kCautionCount; ++i) {
    const auto code = static_cast<CautionCode>(i);
    const std::string text = sentence({code, "the panel"});
    EXPECT_EQ(text.back(), '.') << text;
    EXPECT_TRUE(text[0] >= 'A' && text[0] <= 'Z') << text;
    EXPECT_EQ(text.find("{}"), std::string::npos) << text;
    EXPECT_TRUE(names.insert(cautionName(code)).second) << cautionName(code);
  }
}

}  // namespace
}  // namespace huewright
