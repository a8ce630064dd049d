#include "session/judged_list.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

const std::string kSumA(64, 'a'), kSumB(64, 'b');

TEST(JudgedList, KeepsEveryNameOfAContent) {
  JudgedList list;
  EXPECT_EQ(list.namesOf(kSumA), nullptr);
  EXPECT_TRUE(list.add(kSumA, "1.jpg"));
  EXPECT_FALSE(list.add(kSumA, "1.jpg"));
  EXPECT_TRUE(list.add(kSumA, "2.jpg"));
  EXPECT_EQ(*list.namesOf(kSumA), (std::vector<std::string>{"1.jpg", "2.jpg"}));
  JudgedList other;
  other.add(kSumB, "3.jpg");
  other.add(kSumA, "2.jpg");
  list.add(other);
  EXPECT_EQ(list.size(), 2U);
  EXPECT_EQ(list.namesOf(kSumA)->size(), 2U);
}

TEST(JudgedList, IsReadBack) {
  JudgedList list;
  EXPECT_EQ(JudgedList::parse(list.text())->size(), 0U);
  list.add(kSumB, "a \"quoted\" näme.jpg");
  list.add(kSumA, "1.jpg");
  list.add(kSumA, "2.jpg");
  const auto read = JudgedList::parse(list.text());
  ASSERT_TRUE(read) << read.error();
  EXPECT_EQ(read->text(), list.text());
  EXPECT_EQ(*read->namesOf(kSumB), (std::vector<std::string>{"a \"quoted\" näme.jpg"}));
}

TEST(JudgedList, IsReadStrictly) {
  JudgedList list;
  list.add(kSumA, "1.jpg");
  const std::string good = list.text();
  ASSERT_TRUE(JudgedList::parse(good));
  const auto with = [&](const std::string& from, const std::string& to) {
    std::string text = good;
    EXPECT_NE(text.find(from), std::string::npos) << from;
    return text.replace(text.find(from), from.size(), to);
  };
  for (const std::string& text :
       {std::string(), std::string("[]"), good.substr(0, good.size() - 4), with("\"format\": 1", "\"format\": 2"), with("judged photos", "photos"), with("\"format\": 1", "\"format\": 1, \"more\": 2"),
        with("[\"1.jpg\"]", "[]"), with("[\"1.jpg\"]", "[1]"), with("[\"1.jpg\"]", "\"1.jpg\""), with(kSumA, kSumA.substr(1)), with(kSumA, "A" + kSumA.substr(1)),
        with("{\"sha256\"", "{\"sha256\":\"" + kSumA + "\",\"names\":[\"x\"]},{\"sha256\""), with("\"names\"", "\"name\"")}) {
    const auto read = JudgedList::parse(text);
    EXPECT_FALSE(read) << text;
  }
}

}  // namespace
}  // namespace huewright
