#include "base/text.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

TEST(Capitalised, ChangesLettersOnly) {
  EXPECT_EQ(capitalised("panel A"), "Panel A");
  EXPECT_EQ(capitalised("--panel"), "--panel");
  EXPECT_EQ(capitalised("Δ"), "Δ");
  EXPECT_EQ(capitalised(""), "");
}

TEST(Filled, PutsTheDetailInItsPlace) {
  EXPECT_EQ(filled("{} overlap.", "the panel and the card"), "The panel and the card overlap.");
  EXPECT_EQ(filled("No \"{}\" here, {}.", "{}"), "No \"{}\" here, {}.");
  EXPECT_EQ(filled("Nothing to fill.", "x"), "Nothing to fill.");
}

TEST(Filled, KeepsToOneLineWhateverAFileIsCalled) {
  EXPECT_EQ(filled("No \"{}\".", "a\nb\t\x1b[31m\x7f.jpg"), "No \"a?b??[31m?.jpg\".");
  EXPECT_EQ(filled("No \"{}\".", "ü\xff"), "No \"ü\xff\".");
}

TEST(Filled, LeavesOutTheMiddleOfALongDetailBetweenCharacters) {
  const std::string whole(400, 'x');
  EXPECT_EQ(filled("{}", "-" + whole.substr(1)), "-" + whole.substr(1));
  std::string long_one;
  for (int i = 0; i < 5000; ++i) long_one += "ü";
  const std::string text = filled("-{}-", "1" + long_one + "22");
  EXPECT_LE(text.size(), 410U);
  EXPECT_TRUE(text.starts_with("-1ü")) << text;
  EXPECT_TRUE(text.ends_with("ü22-")) << text;
  EXPECT_NE(text.find("ü…ü"), std::string::npos) << text;
}

TEST(UpperCase, TurnsOnlyPlainLetters) {
  EXPECT_EQ(upperCase("lab_L 1a-z{`üΔ"), "LAB_L 1A-Z{`üΔ");
  EXPECT_EQ(upperCase(""), "");
}

TEST(IsDigit, KnowsTheTen) {
  for (int c = -128; c < 128; ++c) EXPECT_EQ(isDigit(static_cast<char>(c)), std::string_view("0123456789").contains(static_cast<char>(c))) << c;
}

TEST(NumberOf, TakesOneFiniteNumber) {
  for (const auto& [text, value] : {std::pair{"1", 1.0}, std::pair{" -0.5 ", -0.5}, std::pair{"+2e3", 2000.0}, std::pair{"\t.25", 0.25}})
    EXPECT_EQ(numberOf(text), value) << text;
  for (const char* text : {"", " ", "+", "+-1", "1,5", "1 2", "0x10", "nan", "inf", "1e400", "four", "18%", "1_000"})
    EXPECT_FALSE(numberOf(text)) << text;
}

// RFC 3629, from memory: the first bytes, lengths, and the ranges that are no characters.
TEST(PlainUtf8, IsToldFromWhatIsNot) {
  for (const char* text : {"", "teal, strong", "grün", "水色", "\xF0\x9F\x8E\xA8", "\xED\x9F\xBF", "\xF4\x8F\xBF\xBF", "\xC2\xA0"}) EXPECT_TRUE(isPlainUtf8(text)) << text;
  for (const char* text : {"a\nb", "\x7F", "\x1B[1m", "\x80", "\xC3", "\xC3(", "\xC0\xAF", "\xE0\x9F\xBF", "\xED\xA0\x80", "\xF0\x8F\xBF\xBF", "\xF4\x90\x80\x80", "\xF5\x80\x80\x80",
                           "\xE6\xB0", "\xC2\x85", "\xFF"})
    EXPECT_FALSE(isPlainUtf8(text)) << text;
  EXPECT_EQ(asPlainUtf8("a\xFF\x80\tb"), "a???b");
  EXPECT_TRUE(isPlainUtf8(asPlainUtf8("\xFF\xC3\n")));
}

}  // namespace
}  // namespace huewright
