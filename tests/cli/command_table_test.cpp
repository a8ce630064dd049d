#include "cli/command_table.hpp"

#include <gtest/gtest.h>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "cli/arguments.hpp"
#include "cli/judge_command.hpp"

namespace huewright {
namespace {

std::vector<std::string> wordsOf(std::string_view text) {
  std::istringstream stream{std::string(text)};
  std::vector<std::string> words;
  for (std::string word; stream >> word;) words.push_back(word);
  return words;
}

bool isSentence(std::string_view text) { return !text.empty() && text.ends_with("."); }

TEST(CommandTable, RowsAreComplete) {
  std::set<std::string_view> commands;
  for (const CommandRow& command : commandTable()) {
    EXPECT_TRUE(commands.insert(command.name).second) << command.name;
    EXPECT_FALSE(command.summary.empty() || command.summary.ends_with(".")) << command.name;
    EXPECT_TRUE(isSentence(command.about)) << command.name;
    std::set<std::string_view> options, groups;
    std::string_view group;
    for (const OptionRow& option : command.options) {
      EXPECT_TRUE(option.name.starts_with("--")) << option.name;
      EXPECT_TRUE(options.insert(option.name).second) << option.name << " stands twice";
      EXPECT_EQ(option.takes == Takes::Nothing, option.value.empty()) << option.name;
      EXPECT_TRUE(isSentence(option.text)) << option.name;
      if (option.group != group) {
        EXPECT_TRUE(groups.insert(group = option.group).second) << option.name << " is torn from its group";
      }
    }
  }
  EXPECT_TRUE(commands.contains("judge"));
}

TEST(CommandTable, TextsAreComplete) {
  EXPECT_TRUE(isSentence(programAbout()));
  for (const char* word : {"isocyanates", "ventilation", "ignition", "safety data sheets"})
    EXPECT_NE(safetyText().find(word), std::string_view::npos) << word;
  for (const char* code : {"0  ", "1  ", "2  ", "3  ", "4  ", "5  "}) EXPECT_NE(exitCodesText().find(code), std::string_view::npos) << code;
}

TEST(CommandTable, TheParserKnowsEveryOption) {
  for (const CommandRow& command : commandTable())
    for (const OptionRow& option : command.options) {
      std::vector<std::string> words{std::string(command.name), "a.jpg", std::string(option.name)};
      if (option.takes != Takes::Nothing) words.push_back("1");
      const auto once = parseArguments(words);
      ASSERT_TRUE(once) << option.name;
      EXPECT_TRUE(once->has(std::string(option.name))) << option.name;
      if (option.takes == Takes::Nothing) continue;
      words.insert(words.end(), {std::string(option.name), "2"});
      EXPECT_EQ(parseArguments(words).has_value(), option.takes == Takes::RepeatedValue) << option.name;
    }
}

// Words that the table offers are words that the command takes, and the other way about for the first letter cut off.
TEST(CommandTable, ChoicesAreTaken) {
  const auto standards = readStandards(HUEWRIGHT_SOURCE_DIR "/calib");
  ASSERT_TRUE(standards);
  for (const OptionRow& option : commandTable().front().options)
    for (const std::string& word : wordsOf(option.choices)) {
      const auto takes = [&](const std::string& value) {
        const auto a = parseArguments({"judge", "a.jpg", std::string(option.name), value});
        return a && judgeRequest(*a, *standards).has_value();
      };
      EXPECT_TRUE(takes(word)) << option.name << " " << word;
      EXPECT_FALSE(takes(word.substr(1))) << option.name << " " << word;
    }
}

TEST(CommandTable, SituationsOfTheDataFileAreOffered) {
  const auto standards = readStandards(HUEWRIGHT_SOURCE_DIR "/calib");
  ASSERT_TRUE(standards);
  for (const OptionRow& option : commandTable().front().options) {
    if (option.name != "--tolerance") continue;
    std::set<std::string> offered;
    for (const std::string& word : wordsOf(option.choices)) offered.insert(word);
    for (const Situation& situation : standards->situations) EXPECT_TRUE(offered.contains(situation.word)) << situation.word;
    EXPECT_EQ(offered.size(), standards->situations.size());
  }
}

TEST(CommandTable, ExamplesParse) {
  for (const CommandRow& command : commandTable()) {
    auto words = wordsOf(command.example);
    ASSERT_FALSE(words.empty());
    EXPECT_EQ(words.front(), "huewright");
    words.erase(words.begin());
    const auto a = parseArguments(words);
    ASSERT_TRUE(a) << a.error().detail;
    EXPECT_EQ(a->command, command.name);
  }
}

}  // namespace
}  // namespace huewright
