#include "base/problem.hpp"

#include <gtest/gtest.h>
#include <set>

namespace huewright {
namespace {

TEST(Problem, EveryCodeHasASentenceANameAndAnExit) {
  std::set<std::string_view> names;
  for (std::size_t i = 0; i < kCodeCount; ++i) {
    const auto code = static_cast<Code>(i);
    const std::string text = sentence({code, "THING"});
    EXPECT_FALSE(text.empty()) << i;
    EXPECT_EQ(text.back(), '.') << text;
    EXPECT_EQ(text.find("{}"), std::string::npos) << text;
    EXPECT_TRUE(names.insert(codeName(code)).second) << codeName(code) << " is used twice";
    EXPECT_EQ(codeName(code).find_first_not_of("abcdefghijklmnopqrstuvwxyz-"), std::string_view::npos) << codeName(code);
    EXPECT_GE(exitCode(code), 2);
    EXPECT_LE(exitCode(code), 5);
  }
}

TEST(Problem, ExitsFollowTheKindOfProblem) {
  struct Row {
    Code code;
    int exit;
  };
  for (const Row& r : {Row{Code::BadMix, 2}, Row{Code::NoCard, 2}, Row{Code::FileMissing, 3}, Row{Code::GreyUnusable, 3},
                       Row{Code::Internal, 4}, Row{Code::WriteFailed, 5}, Row{Code::DataMissing, 5}})
    EXPECT_EQ(exitCode(r.code), r.exit) << codeName(r.code);
}

TEST(Problem, TheDetailStandsInTheSentence) {
  EXPECT_EQ(sentence({Code::FileMissing, "a.jpg"}), "There is no file \"a.jpg\". Check the name and the folder.");
}

TEST(Problem, ABraceInTheDetailIsLeftAlone) {
  EXPECT_EQ(sentence({Code::FileMissing, "{}"}), "There is no file \"{}\". Check the name and the folder.");
}

}  // namespace
}  // namespace huewright
