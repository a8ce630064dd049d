#include "shape/markdown.hpp"

#include <gtest/gtest.h>

namespace huewright::shape {
namespace {

TEST(Markdown, FindsBlocks) {
  const auto blocks = blocksOf("Text\n\n```sh\nhuewright judge a\n```\n\n- item\n\n  ~~~ json\n  {}\n  ~~~\n\n    huewright judge b \\\n      --json\nafter\n");
  ASSERT_EQ(blocks.size(), 3U);
  EXPECT_EQ(blocks[0].language, "sh");
  EXPECT_EQ(blocks[0].line, 4);
  EXPECT_EQ(blocks[0].before, "Text ");
  EXPECT_EQ(blocks[1].language, "json");
  EXPECT_EQ(blocks[1].lines, std::vector<std::string>{"  {}"});
  EXPECT_EQ(blocks[2].language, "indented");
  EXPECT_EQ(blocks[2].lines.size(), 2U);
  EXPECT_TRUE(blocksOf("no block\n    continued\n").empty());
}

TEST(Markdown, ReadsCommandsAndTheirExitCodes) {
  const Block plain{"sh", "", {"# a comment", "huewright judge a \\", "  --gate  # exit 1", "", "huewright --help", "huewright judge  # exits with 2"}, 10};
  const auto commands = commandsOf(plain);
  ASSERT_EQ(commands.size(), 3U);
  EXPECT_EQ(commands[0].words, "huewright judge a --gate  # exit 1");
  EXPECT_EQ(commands[0].exit, 1);
  EXPECT_EQ(commands[0].line, 11);
  EXPECT_EQ(commands[1].exit, 0);
  EXPECT_EQ(commands[2].exit, 2);

  const Block prompted{"console", "", {"$ huewright judge a \\", ">   --json", "The panel is there.", "$ build/bin/huewright --version"}, 1};
  const auto typed = commandsOf(prompted);
  ASSERT_EQ(typed.size(), 2U);
  EXPECT_EQ(typed[0].words, "huewright judge a --json");
  EXPECT_EQ(programOf(typed[1]), "huewright");
  EXPECT_TRUE(commandsOf({"text", "", {"huewright judge a"}, 1}).empty());
}

TEST(Markdown, FindsTheCommandThatMadeAJsonBlock) {
  const std::string json = "```json\n{}\n```\n";
  const auto producer = [&](const std::string& above) { return producerOf(blocksOf(above + json).back()); };
  EXPECT_EQ(producer("The output of `huewright judge a --json` is:\n\n"), "huewright judge a --json");
  EXPECT_EQ(producer("<!-- output of: huewright judge a --json -->\n"), "huewright judge a --json");
  EXPECT_EQ(producer("```sh\nhuewright judge a \\\n  --json\n```\n\n"), "huewright judge a --json");
  EXPECT_EQ(producer("The output of `huewright judge a --json` is:\n\nOther text.\n\n"), "");
  EXPECT_EQ(producer("With `huewright judge a` you get:\n"), "");
}

TEST(Markdown, FindsLinkedFiles) {
  EXPECT_EQ(linkedFiles("[a](docs/a.md#part) ![b](b.png \"B\") [c](https://example.org/) [d](#d)\n```\n[e](e.md)\n```\n"),
            (std::vector<std::string>{"docs/a.md", "b.png"}));
}

}  // namespace
}  // namespace huewright::shape
