#include "cli/terminal.hpp"

#include <cstdlib>
#include <fcntl.h>
#include <gtest/gtest.h>
#include <string>
#include <unistd.h>

#include "support/temp_dir.hpp"

namespace huewright {
namespace {

TEST(ColourBlock, IsSixCellsInTheColour) {
  EXPECT_EQ(colourBlock({100, 0, 0}), "\x1b[48;2;255;255;255m      \x1b[0m");
  EXPECT_EQ(colourBlock({0, 0, 0}), "\x1b[48;2;0;0;0m      \x1b[0m");
  const std::string out_of_gamut = colourBlock({50, -120, 90});
  EXPECT_TRUE(out_of_gamut.starts_with("\x1b[48;2;0;")) << out_of_gamut.substr(1);
}

/// Puts a file in the place of standard output for as long as it lives, and gives back the environment too.
class Stdout {
 public:
  explicit Stdout(int file) : kept_(::dup(STDOUT_FILENO)) { ::dup2(file, STDOUT_FILENO); }
  Stdout(const Stdout&) = delete;
  Stdout& operator=(const Stdout&) = delete;
  ~Stdout() {
    ::dup2(kept_, STDOUT_FILENO);
    ::close(kept_);
  }

 private:
  int kept_;
};

class ShowsTrueColour : public testing::Test {
 protected:
  void SetUp() override {
    clear();
    if (!hasPseudoTerminals()) GTEST_SKIP() << "skipped: no pseudo-terminals here (is /dev/pts mounted?)";
  }
  void TearDown() override { clear(); }

  static void clear() {
    ::unsetenv("NO_COLOR");
    ::unsetenv("COLORTERM");
  }

  static bool hasPseudoTerminals() {
    const int main_side = ::posix_openpt(O_RDWR | O_NOCTTY);
    const bool has = main_side >= 0 && ::grantpt(main_side) == 0;
    if (main_side >= 0) ::close(main_side);
    return has;
  }

  /// Asks with a pseudo-terminal, or a plain file, as standard output.
  static bool asked(bool terminal) {
    const fixtures::TempDir folder;
    const int main_side = terminal ? ::posix_openpt(O_RDWR | O_NOCTTY) : ::open((folder.path() / "out").c_str(), O_RDWR | O_CREAT, 0600);
    int side = main_side;
    if (terminal) {
      EXPECT_EQ(::grantpt(main_side), 0);
      EXPECT_EQ(::unlockpt(main_side), 0);
      side = ::open(::ptsname(main_side), O_RDWR | O_NOCTTY);
    }
    EXPECT_GE(side, 0);
    bool shows = false;
    {
      const Stdout in_place(side);
      shows = showsTrueColour();
    }
    if (side != main_side) ::close(side);
    ::close(main_side);
    return shows;
  }
};

TEST_F(ShowsTrueColour, OnlyOnATerminalThatSaysSo) {
  EXPECT_FALSE(asked(true));
  for (const char* word : {"truecolor", "24bit"}) {
    ::setenv("COLORTERM", word, 1);
    EXPECT_TRUE(asked(true)) << word;
    EXPECT_FALSE(asked(false)) << word;
  }
  ::setenv("COLORTERM", "256", 1);
  EXPECT_FALSE(asked(true));
}

TEST_F(ShowsTrueColour, NotWhenColourIsUnwanted) {
  ::setenv("COLORTERM", "truecolor", 1);
  ::setenv("NO_COLOR", "1", 1);
  EXPECT_FALSE(asked(true));
}

}  // namespace
}  // namespace huewright
