#include "cli/mat_command.hpp"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <gtest/gtest.h>

#include "cli/run.hpp"
#include "support/temp_dir.hpp"

namespace huewright {
namespace {

using Words = std::vector<std::string>;

class MatCommand : public testing::Test {
 protected:
  void SetUp() override { ::setenv("HUEWRIGHT_DATA", HUEWRIGHT_SOURCE_DIR "/calib", 1); }
  void TearDown() override { ::unsetenv("HUEWRIGHT_DATA"); }

  /// Fails with that code and one plain sentence or two on one line, and writes nothing.
  void expectRefused(const Words& words, int exit, const std::string& says) {
    const Outcome outcome = run(words, false);
    EXPECT_EQ(outcome.exit, exit) << says << "\n" << outcome.err;
    EXPECT_EQ(outcome.out, "");
    EXPECT_TRUE(outcome.err.ends_with(".\n")) << outcome.err;
    EXPECT_EQ(std::ranges::count(outcome.err, '\n'), 1) << outcome.err;
    EXPECT_NE(outcome.err.find(says), std::string::npos) << outcome.err;
    EXPECT_EQ(std::distance(std::filesystem::directory_iterator(folder_.path()), {}), 0) << says;
  }
  std::string path(const std::string& name) const { return (folder_.path() / name).string(); }

  const fixtures::TempDir folder_;
};

TEST_F(MatCommand, WritesAndSaysHowToPrint) {
  for (const auto& [more, says] : {std::pair{Words{}, "The mat is in "}, std::pair{Words{"--paper", "letter"}, "on Letter"},
                                   std::pair{Words{"--small"}, "The small mat is in "}, std::pair{Words{"--strip", "--paper=a4"}, "cut it out"}}) {
    Words words{"mat", path("mat.pdf")};
    words.insert(words.end(), more.begin(), more.end());
    const Outcome outcome = run(words, false);
    EXPECT_EQ(outcome.exit, 0) << outcome.err;
    EXPECT_EQ(outcome.err, "");
    EXPECT_EQ(std::ranges::count(outcome.out, '\n'), 1) << outcome.out;
    for (const std::string& part : {std::string("mat.pdf"), std::string("100 %"), std::string("100 mm"), std::string(says)})
      EXPECT_NE(outcome.out.find(part), std::string::npos) << part << "\n" << outcome.out;
    EXPECT_GT(std::filesystem::file_size(path("mat.pdf")), 1000U);
  }
}

TEST_F(MatCommand, WrongUse) {
  const std::string good = path("mat.pdf");
  expectRefused({"mat"}, 2, "No file was named");
  expectRefused({"mat", ""}, 2, "No file was named");
  expectRefused({"mat", "--small"}, 2, "No file was named");
  expectRefused({"mat", good, path("other.pdf")}, 2, "2 files");
  expectRefused({"mat", path("photo.jpg")}, 2, ".pdf");
  expectRefused({"mat", good, "--paper", "a3"}, 2, "\"a3\" is not a word for --paper");
  expectRefused({"mat", good, "--paper"}, 2, "--paper needs a value");
  expectRefused({"mat", good, "--paper", "a4", "--paper", "letter"}, 2, "counts once");
  expectRefused({"mat", good, "--small", "--strip"}, 2, "Both --small and --strip");
  expectRefused({"mat", good, "--small=tiny"}, 2, "--small is a switch");
  expectRefused({"mat", good, "--panel", "1,2,3,4"}, 2, "--panel");
  expectRefused({"mat", good, "--large"}, 2, "--large");
}

TEST_F(MatCommand, PlacesThatCannotBeWritten) {
  expectRefused({"mat", path("missing/mat.pdf")}, 5, "could not be written");
  expectRefused({"mat", "/proc/mat.pdf"}, 5, "could not be written");
  ::setenv("HUEWRIGHT_DATA", "/no/such/folder", 1);
  expectRefused({"mat", path("mat.pdf")}, 5, "/no/such/folder");
}

TEST_F(MatCommand, WordsBecomeARequest) {
  const auto arguments = parseArguments({"mat", "a.pdf", "--paper", "letter", "--strip"});
  ASSERT_TRUE(arguments);
  const auto request = matRequest(*arguments);
  ASSERT_TRUE(request);
  EXPECT_EQ(request->out, "a.pdf");
  EXPECT_EQ(request->paper, "letter");
  EXPECT_TRUE(request->strip);
  EXPECT_FALSE(request->small);
  EXPECT_EQ(matText({"a\nb.pdf"}, {"A4", false}), "The mat is in a?b.pdf: print it on A4 at 100 %, and check that its line is 100 mm long.\n");
}

}  // namespace
}  // namespace huewright
