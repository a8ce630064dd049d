#include "cli/arguments.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

using Words = std::vector<std::string>;

TEST(ParseArguments, ReadsACommandWithItsFilesAndOptions) {
  const auto a = parseArguments({"judge", "a.jpg", "--panel", "1,2,3,4", "--panel=5,6,7,8", "--mix", "1:3", "--json", "--coats", "4.5"});
  ASSERT_TRUE(a);
  EXPECT_EQ(a->want, Arguments::Want::Run);
  EXPECT_EQ(a->command, "judge");
  EXPECT_EQ(a->files, Words{"a.jpg"});
  EXPECT_EQ(a->options.at("--panel"), (Words{"1,2,3,4", "5,6,7,8"}));
  EXPECT_EQ(*a->value("--panel"), "5,6,7,8");
  EXPECT_EQ(*a->value("--coats"), "4.5");
  EXPECT_TRUE(a->has("--json"));
  EXPECT_FALSE(a->has("--gate"));
  EXPECT_EQ(a->value("--json"), nullptr);
  EXPECT_EQ(a->value("--tolerance"), nullptr);
}

TEST(ParseArguments, TakesOneWordForEachOption) {
  const auto a = parseArguments({"judge", "--panel", "1,2,3,4", "a.jpg", "--mix", "1:3", "b.jpg"});
  ASSERT_TRUE(a);
  EXPECT_EQ(a->files, (Words{"a.jpg", "b.jpg"}));
  EXPECT_EQ(a->options.at("--panel").size(), 1U);
}

TEST(ParseArguments, TakesNegativeNumbersAsValues) {
  const auto a = parseArguments({"judge", "a.jpg", "--panel", "-5,-6,10,10", "--mix", "-1:2"});
  ASSERT_TRUE(a);
  EXPECT_EQ(*a->value("--panel"), "-5,-6,10,10");
  EXPECT_EQ(*a->value("--mix"), "-1:2");
}

TEST(ParseArguments, TakesOddFileNames) {
  for (const char* name : {"judge", "-", "a b.jpg", "größe.jpg", "a=b.jpg", "a,b.jpg", "[1] a.jpg"}) {
    const auto a = parseArguments({"judge", name});
    ASSERT_TRUE(a) << name;
    EXPECT_EQ(a->files, Words{name});
  }
  const auto a = parseArguments({"judge", "--json", "--", "-a.jpg"});
  ASSERT_TRUE(a);
  EXPECT_EQ(a->files, Words{"-a.jpg"});
}

TEST(ParseArguments, KnowsHelpAndVersion) {
  struct Row {
    Words words;
    Arguments::Want want;
  };
  using enum Arguments::Want;
  for (const auto& [words, want] : {Row{{}, Help}, Row{{"--help"}, Help}, Row{{"-h"}, Help}, Row{{"--version"}, Version}, Row{{"judge", "--help"}, CommandHelp},
                                    Row{{"judge", "-h"}, CommandHelp}, Row{{"judge", "a.jpg", "--panel", "1,2", "--help"}, CommandHelp},
                                    Row{{"judge", "a.jpg"}, Run}}) {
    const auto a = parseArguments(words);
    ASSERT_TRUE(a) << words.size();
    EXPECT_EQ(a->want, want);
  }
}

// The sentence must name the word that is wrong, and be ours, not the library's.
TEST(ParseArguments, NamesWhatIsWrong) {
  struct Row {
    Words words;
    std::string says;
  };
  for (const auto& [words, says] :
       {Row{{"juge", "a.jpg"}, "\"juge\" is not a command"},
        Row{{""}, "\"\" is not a command"},
        Row{{"--version", "now"}, "\"now\" is not a command"},
        Row{{"--", "x"}, "\"x\" is not a command"},
        Row{{"--panel", "1,2,3,4"}, "\"--panel\" is not an option here"},
        Row{{"judge", "a.jpg", "--panels", "1,2,3,4"}, "\"--panels\" is not an option here"},
        Row{{"judge", "a.jpg", "-x", "-y"}, "\"-x\" is not an option here"},
        Row{{"judge", "a.jpg", "--panel"}, "--panel needs a value after it"},
        Row{{"judge", "a.jpg", "--panel="}, "--panel needs a value after it"},
        Row{{"judge", "a.jpg", "--panel", "--card", "1,2,3,4"}, "--panel needs a value after it"},
        Row{{"judge", "a.jpg", "--coats", "--json"}, "--coats needs a value after it"},
        Row{{"judge", "a.jpg", "--coats", "-h"}, "--coats needs a value after it"},
        Row{{"judge", "a.jpg", "--json=yellow"}, "--json is a switch and takes no value"},
        Row{{"judge", "a.jpg", "--coats", "3", "--coats", "4"}, "--coats was given 2 times; it counts once"},
        Row{{"judge", "a.jpg", "--card", "1,2,3,4", "--card", "1,2,3,4"}, "--card was given 2 times; it counts once"}}) {
    const auto a = parseArguments(words);
    ASSERT_FALSE(a) << says;
    EXPECT_EQ(a.error().code, Code::BadOption);
    EXPECT_EQ(a.error().detail, says);
  }
}

}  // namespace
}  // namespace huewright
