#include "cli/help.hpp"

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <gtest/gtest.h>
#include <sstream>
#include <vector>

#include "support/temp_dir.hpp"

namespace huewright {
namespace {

std::size_t widest(const std::string& text) {
  std::istringstream lines(text);
  std::size_t most = 0;
  for (std::string line; std::getline(lines, line);)
    most = std::max(most, static_cast<std::size_t>(std::ranges::count_if(line, [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; })));
  return most;
}

TEST(Help, ShowsEveryCommandOptionAndCaution) {
  const std::string program = programHelp();
  EXPECT_NE(program.find("isocyanates"), std::string::npos);
  EXPECT_LE(widest(program), 100U);
  for (const CommandRow& command : commandTable()) {
    EXPECT_NE(program.find("huewright " + std::string(command.name)), std::string::npos);
    const std::string help = commandHelp(command);
    EXPECT_LE(widest(help), 100U);
    EXPECT_NE(help.find("isocyanates"), std::string::npos);
    EXPECT_NE(help.find("Exit codes"), std::string::npos);
    for (const OptionRow& option : command.options) {
      EXPECT_NE(help.find("  " + std::string(option.name)), std::string::npos) << option.name;
      std::istringstream words{std::string(option.choices)};
      for (std::string word; words >> word;) EXPECT_NE(help.find(word), std::string::npos) << word;
    }
  }
}

struct Ran {
  int status = -1;
  std::string out;
};

/// Both outputs of a shell command.
Ran ran(const fixtures::TempDir& folder, const std::string& words) {
  const std::string out = (folder.path() / "out").string();
  const int status = std::system(("{ " + words + "\n} >'" + out + "' 2>&1 </dev/null").c_str());
  std::ifstream file(out, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return {status, text.str()};
}

std::string put(const fixtures::TempDir& folder, const std::string& name, const std::string& text) {
  return folder.put(name, {reinterpret_cast<const unsigned char*>(text.data()), text.size()}).string();
}

TEST(ManPage, RendersWithoutWarnings) {
  const fixtures::TempDir folder;
  if (ran(folder, "command -v groff && command -v preconv").status != 0) GTEST_SKIP() << "groff is not installed";
  const std::string page = put(folder, "huewright.1", manPage("1.2.3"));
  const Ran formatted = ran(folder, "LC_ALL=C.UTF-8 groff -man -K utf8 -Tutf8 -rHY=0 -ww -P-cbou '" + page + "'");
  EXPECT_EQ(formatted.status, 0);
  EXPECT_EQ(formatted.out.find("warning:"), std::string::npos) << formatted.out;
  EXPECT_EQ(formatted.out.find("error:"), std::string::npos) << formatted.out;
  std::istringstream words(formatted.out);
  std::string text;  // the page in one line, however it is filled
  for (std::string word; words >> word;) text += word + " ";
  EXPECT_NE(text.find("1.2.3"), std::string::npos);
  for (const char* part : {"NAME", "SYNOPSIS", "EXIT STATUS", "HUEWRIGHT_DATA", "isocyanates", "\"can't say\""})
    EXPECT_NE(text.find(part), std::string::npos) << part << "\n" << formatted.out;
  for (const CommandRow& command : commandTable())
    for (const OptionRow& option : command.options)
      EXPECT_NE(text.find(std::string(option.name) + (option.value.empty() ? "" : " " + std::string(option.value))), std::string::npos) << option.name;
}

class Completion : public testing::Test {
 protected:
  /// What bash offers for the last of the words, one a line. Run in a folder of its own.
  std::string offered(const std::vector<std::string>& words) {
    std::string list;
    for (const std::string& word : words) list += " '" + word + "'";
    const Ran answer = ran(folder_, "cd '" + folder_.path().string() + "' && bash --norc --noprofile -c '. ./huewright.bash; "
                                    "COMP_WORDS=(\"$@\"); COMP_CWORD=$(($# - 1)); "
                                    "_huewright; printf \"%s\\n\" \"${COMPREPLY[@]}\"' bash" + list);
    EXPECT_EQ(answer.status, 0) << answer.out;
    return answer.out;
  }
  void SetUp() override {
    put(folder_, "huewright.bash", bashCompletion());
    put(folder_, "my photo.jpg", "x");
  }
  const fixtures::TempDir folder_;
};

TEST_F(Completion, IsGoodBash) {
  const Ran checked = ran(folder_, "bash -n '" + (folder_.path() / "huewright.bash").string() + "'");
  EXPECT_EQ(checked.status, 0) << checked.out;
  EXPECT_EQ(checked.out, "");
}

TEST_F(Completion, OffersCommandsOptionsWordsAndFiles) {
  EXPECT_EQ(offered({"huewright", "j"}), "judge\n");
  EXPECT_EQ(offered({"huewright", "--v"}), "--version\n");
  EXPECT_EQ(offered({"huewright", "judge", "--card"}), "--card\n--card-lab\n--card-kind\n");
  EXPECT_EQ(offered({"huewright", "judge", "--card-kind", "s"}), "same\nsimilar\n");
  EXPECT_EQ(offered({"huewright", "judge", "--encoding", ""}), "auto\nlinear\nsrgb\n");
  EXPECT_EQ(offered({"huewright", "judge", "--coats", ""}), "\n");   // a number: nothing to offer
  EXPECT_EQ(offered({"huewright", "judge", "my"}), "my photo.jpg\n");
  EXPECT_EQ(offered({"huewright", "judge", "--json", "my"}), "my photo.jpg\n");
}

TEST_F(Completion, OffersEveryOption) {
  for (const CommandRow& command : commandTable()) {
    const std::string all = offered({"huewright", std::string(command.name), "--"});
    for (const OptionRow& option : command.options) EXPECT_NE(all.find(std::string(option.name) + "\n"), std::string::npos) << option.name;
  }
}

}  // namespace
}  // namespace huewright
