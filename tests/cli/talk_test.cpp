#include "cli/talk.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

TEST(Talk, GoesOutAtOnceOrIsKept) {
  std::string heard;
  const Outlet outlet{[&](std::string_view text) { return heard += text, true; }, {}};
  Outcome outcome;
  Talk talk(outlet, outcome);
  talk.out("a\n");
  talk.err("b\n");
  talk.out("");
  EXPECT_EQ(heard, "a\n");
  EXPECT_EQ(outcome.out, "");
  EXPECT_EQ(outcome.err, "b\n");
  EXPECT_TRUE(talk.writes());
}

TEST(Talk, OnceUnheardItStaysSo) {
  bool open = false;
  const Outlet outlet{[&](std::string_view) { return open; }, {}};
  Outcome outcome;
  Talk talk(outlet, outcome);
  talk.out("a");
  open = true;
  talk.out("b");
  EXPECT_FALSE(talk.writes());
  const Outcome told = talk.unheard();
  EXPECT_EQ(told.exit, 5);
  EXPECT_EQ(told.err, "The verdicts could not be written out. Check where they are sent to and the free space.\n");
}

TEST(Talk, AProblemIsOneSentenceAndItsExit) {
  Outcome outcome;
  const Outlet nowhere;
  Talk talk(nowhere, outcome);
  const Outcome told = talk.wrong({Code::FolderUnusable, "photos"});
  EXPECT_EQ(told.exit, 3);
  EXPECT_EQ(told.err, sentence(Problem{Code::FolderUnusable, "photos"}) + "\n");
}

}  // namespace
}  // namespace huewright
