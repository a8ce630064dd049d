#include "scene/tag_text.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

TEST(TagText, ComesBackFromItsBytes) {
  const std::vector<TagText> texts{
      {"frame 3", TagParts{1, 4}, 4, 5},
      {"x", {}, {}, {}},
      {"twenty characters ab", TagParts{100, 0.1}, 100, 100},
      {"Rahmen grün", TagParts{0, 1}, 0.5, 0},
      {"タンク 2", {}, 3, {}},
      {"a=b, c", TagParts{2.5, 1}, {}, 2.5},
  };
  for (const TagText& text : texts) {
    const auto message = tagMessage(text);
    ASSERT_TRUE(message) << text.name;
    const auto back = readTagMessage(*message);
    ASSERT_TRUE(back) << text.name;
    EXPECT_EQ(*back, text) << text.name;
  }
}

TEST(TagText, WrongOnesAreRefusedInWords) {
  const struct {
    TagText text;
    Code code;
    const char* says;
  } rows[]{
      {{"", {}, {}, {}}, Code::BadChoice, "needs a name"},
      {{"   ", {}, {}, {}}, Code::BadChoice, "needs a name"},
      {{"twenty-one characters", {}, {}, {}}, Code::BadChoice, "too long"},
      {{"größter Rücken ößü", {}, {}, {}}, Code::BadChoice, "too long"},  // 18 letters, 24 bytes
      {{"a\nb", {}, {}, {}}, Code::BadChoice, "cannot be printed"},
      {{std::string("a\0b", 3), {}, {}, {}}, Code::BadChoice, "cannot be printed"},
      {{"a\xff", {}, {}, {}}, Code::BadChoice, "cannot be printed"},
      {{"a", TagParts{0, 0}, {}, {}}, Code::BadMix, "not a mix"},
      {{"a", TagParts{-1, 2}, {}, {}}, Code::BadMix, "not a mix"},
      {{"a", TagParts{1, 101}, {}, {}}, Code::BadNumber, "0 to 100"},
      {{"a", TagParts{1.25, 1}, {}, {}}, Code::BadNumber, "one decimal"},
      {{"a", {}, 0, {}}, Code::BadNumber, "coats"},
      {{"a", {}, 100.1, {}}, Code::BadNumber, "coats"},
      {{"a", {}, {}, -1}, Code::BadNumber, "carrier"},
      {{"a", {}, {}, 2.25}, Code::BadNumber, "carrier"},
  };
  for (const auto& row : rows) {
    const auto message = tagMessage(row.text);
    ASSERT_FALSE(message) << row.says;
    EXPECT_EQ(codeName(message.error().code), codeName(row.code)) << row.says;
    EXPECT_NE(sentence(message.error()).find(row.says), std::string::npos) << sentence(message.error());
    EXPECT_EQ(exitCode(message.error().code), 2);
  }
}

TEST(TagText, OtherBytesAreNoTag) {
  const TagMessage good = tagMessage({"ab", TagParts{1, 4}, 4, 5}).value();
  const auto with = [&](std::size_t at, std::uint8_t byte) {
    TagMessage changed = good;
    changed[at] = byte;
    return readTagMessage(changed);
  };
  EXPECT_TRUE(with(0, good[0]));
  EXPECT_FALSE(with(0, 2));       // another format
  EXPECT_FALSE(with(6, 0));       // no name, and something behind it
  EXPECT_FALSE(with(6, 0xC3));    // broken UTF-8
  EXPECT_FALSE(with(6, '\n'));
  EXPECT_FALSE(with(25, 'x'));    // something behind the name's end
  TagMessage half = good;         // a strong part, and no weak one
  half[2] = static_cast<std::uint8_t>(half[2] | 0x3F);
  half[3] = static_cast<std::uint8_t>(half[3] | 0xF0);
  EXPECT_FALSE(readTagMessage(half));
  EXPECT_FALSE(readTagMessage(TagMessage{}));
}

TEST(TagText, FactsInWords) {
  EXPECT_EQ(tagFacts({"a", TagParts{2.5, 1}, 1, 5}), "2.5:1, 1 coat, carrier 5");
  EXPECT_EQ(tagFacts({"a", {}, 3.5, {}}), "3.5 coats");
  EXPECT_EQ(tagFacts({"a", {}, {}, {}}), "");
}

}  // namespace
}  // namespace huewright
