#include "cli/tag_command.hpp"

#include <algorithm>
#include <filesystem>
#include <gtest/gtest.h>

#include "cli/run.hpp"
#include "support/temp_dir.hpp"

namespace huewright {
namespace {

using TagWords = std::vector<std::string>;

class TagCommand : public testing::Test {
 protected:
  void expectRefused(const TagWords& words, int exit, const std::string& says) {
    const Outcome outcome = run(words, false);
    EXPECT_EQ(outcome.exit, exit) << says << "\n" << outcome.err;
    EXPECT_EQ(outcome.out, "");
    EXPECT_TRUE(outcome.err.ends_with(".\n")) << outcome.err;
    EXPECT_EQ(std::ranges::count(outcome.err, '\n'), 1) << outcome.err;
    EXPECT_NE(outcome.err.find(says), std::string::npos) << says << "\n" << outcome.err;
    EXPECT_TRUE(std::filesystem::is_empty(folder_.path())) << says;
  }
  std::string path(const std::string& name) const { return (folder_.path() / name).string(); }

  const fixtures::TempDir folder_;
};

TEST_F(TagCommand, WritesAndSaysHowToPrint) {
  for (const auto& [words, says] : {std::pair{TagWords{"tag", "frame 3", "--mix", "1:4", "--coats", "4", "--carrier", "5"}, "The tag is in "},
                                    std::pair{TagWords{"tag", "frame 1=1:4,3,5", "frame 2=1:4,4", "--paper", "letter", "--size", "20"}, "2 tags are in "}}) {
    TagWords all = words;
    all.push_back(path("tags.pdf"));
    const Outcome outcome = run(all, false);
    EXPECT_EQ(outcome.exit, 0) << outcome.err;
    EXPECT_TRUE(outcome.out.starts_with(says)) << outcome.out;
    EXPECT_NE(outcome.out.find("100 %"), std::string::npos);
    EXPECT_EQ(std::ranges::count(outcome.out, '\n'), 1);
    EXPECT_GT(std::filesystem::file_size(path("tags.pdf")), 1000U);
  }
}

TEST_F(TagCommand, WordsBecomeTags) {
  const auto tagOfWord = [](const std::string& word, TagWords more = {}) {
    TagWords words{"tag", word, "x.pdf"};
    words.insert(words.end(), more.begin(), more.end());
    return tagRequest(parseArguments(words).value()).value().tags.at(0);
  };
  EXPECT_EQ(tagOfWord("frame 3"), (TagText{"frame 3", {}, {}, {}}));
  EXPECT_EQ(tagOfWord(" frame 3 = 1:4 , 4, 5"), (TagText{"frame 3", TagParts{1, 4}, 4, 5}));
  EXPECT_EQ(tagOfWord("f=,4"), (TagText{"f", {}, 4, {}}));
  EXPECT_EQ(tagOfWord("f=2.5:1"), (TagText{"f", TagParts{2.5, 1}, {}, {}}));
  EXPECT_EQ(tagOfWord("a=b=1:2"), (TagText{"a=b", TagParts{1, 2}, {}, {}}));
  EXPECT_EQ(tagOfWord("f=1:2", {"--coats", "3", "--mix", "1:9", "--carrier", "0"}), (TagText{"f", TagParts{1, 2}, 3, 0}));
  const auto request = tagRequest(parseArguments({"tag", "a", "b", "c.pdf", "--size", "40"}).value()).value();
  EXPECT_EQ(request.tags.size(), 2U);
  EXPECT_EQ(request.out, "c.pdf");
  EXPECT_EQ(request.side, 40);
}

TEST_F(TagCommand, WrongUse) {
  const std::string good = path("tags.pdf");
  expectRefused({"tag"}, 2, "No file was named");
  expectRefused({"tag", good}, 2, "No name was given");
  expectRefused({"tag", "frame 3"}, 2, ".pdf");
  expectRefused({"tag", "frame 3", path("photo.jpg")}, 2, ".pdf");
  expectRefused({"tag", "", good}, 2, "needs a name");
  expectRefused({"tag", "=1:4", good}, 2, "needs a name");
  expectRefused({"tag", "a name that is far too long", good}, 2, "too long");
  expectRefused({"tag", "a\tb", good}, 2, "cannot be printed");
  expectRefused({"tag", "x=1-4", good}, 2, "\"1-4\" is not a mix");
  expectRefused({"tag", "x=0:0", good}, 2, "not a mix");
  expectRefused({"tag", "x=1:4,many", good}, 2, "\"many\" is not a number for the coats");
  expectRefused({"tag", "x=1:4,4,5,6", good}, 2, "more than mix");
  expectRefused({"tag", "x", good, "--carrier", "thin"}, 2, "\"thin\" is not a number for the carrier");
  expectRefused({"tag", "x", good, "--coats", "0"}, 2, "coats");
  expectRefused({"tag", "x", good, "--size", "huge"}, 2, "--size");
  expectRefused({"tag", "x", good, "--size", "5"}, 2, "12 to 60");
  expectRefused({"tag", "x", good, "--paper", "a3"}, 2, "--paper");
  expectRefused({"tag", "x", good, "--panel", "1,2,3,4"}, 2, "--panel");
  TagWords many{"tag"};
  for (int i = 0; i < 21; ++i) many.push_back("panel " + std::to_string(i));
  many.push_back(good);
  expectRefused(many, 2, "do not fit");
}

TEST_F(TagCommand, PlacesThatCannotBeWritten) {
  expectRefused({"tag", "x", path("missing/tags.pdf")}, 5, "could not be written");
  expectRefused({"tag", "x", "/proc/tags.pdf"}, 5, "could not be written");
}

}  // namespace
}  // namespace huewright
