#include "desk/keys.hpp"

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <set>
#include <string>
#include <tuple>

#include "desk_frames.hpp"

namespace huewright::desk {
namespace {

TEST(Keys, EveryActionHasAKeyAWordAndATip) {
  ASSERT_EQ(keyTable().size(), static_cast<std::size_t>(Do::Count));
  for (const KeyLine& line : keyTable()) {
    EXPECT_GT(line.key, 0) << line.word;
    EXPECT_STRNE(line.word, "");
    const std::string tip = line.tip;
    EXPECT_GT(tip.size(), 10u) << line.word;
    EXPECT_TRUE(tip.ends_with('.')) << tip;
    EXPECT_EQ(&keyLine(line.what), &line);
  }
}

TEST(Keys, NoKeyMeansTwoThingsOnOnePage) {
  std::set<std::tuple<Page, int, bool, bool>> seen;
  for (const KeyLine& line : keyTable()) {
    EXPECT_TRUE(seen.insert({line.page, line.key, line.ctrl, line.shift}).second) << line.word;
    // What lies over a page goes before everywhere; a page itself does not.
    for (const Page page : {Page::Panel, Page::Mixes, Page::Camera, Page::Room, Page::Live})
      if (line.page == Page::Everywhere) {
        EXPECT_TRUE(seen.insert({page, line.key, line.ctrl, line.shift}).second) << line.word << " on page " << static_cast<int>(page);
      }
  }
}

TEST(Keys, WhatLiesOverAPageHasTheFirstSay) {
  const struct {
    Page on;
    Do what;
    bool works;
  } rows[] = {{Page::Panel, Do::StopWork, true},        {Page::Sprayed, Do::StopWork, false}, {Page::Sprayed, Do::SprayedDone, true}, {Page::FirstSteps, Do::NotNow, true}, {Page::FirstSteps, Do::Undo, true},
              {Page::FirstSteps, Do::AddToSeries, false}, {Page::Files, Do::LeaveFiles, true},  {Page::Files, Do::Undo, false},        {Page::Mixes, Do::AddAgain, false},   {Page::Everywhere, Do::StopWork, true}};
  for (const auto& row : rows) {
    bool seen = false;
    Frames frames(row.on, [&](DeskState&, Drawing&) { seen = seen || keyPressed(row.what); });
    frames.pressed(row.what);
    EXPECT_EQ(seen, row.works) << keyLine(row.what).word << " on " << static_cast<int>(row.on);
  }
}

TEST(Keys, AGreyButtonSaysWhatIsMissing) {
  EXPECT_EQ(tipWords(Do::RemoveReading, true), "Take the chosen reading out of the series.\nKey: Delete");
  EXPECT_EQ(tipWords(Do::RemoveReading, false), "Take the chosen reading out of the series.\nChoose a reading first: click it, or press Tab.\nKey: Delete");
  bool done = false;
  Frames frames(Page::Mixes, [&](DeskState&, Drawing&) { done = done || button(Do::RemoveReading, false); });
  frames.move(20, 20);
  frames.frames(2);
  EXPECT_TRUE(frames.tooltip());
  frames.pressed(Do::RemoveReading);
  EXPECT_FALSE(done);
}

TEST(Keys, WordsOfKeys) {
  for (const auto& [what, words] : {std::pair{Do::OpenPhoto, "Ctrl+O"}, std::pair{Do::Redo, "Ctrl+Shift+Z"}, std::pair{Do::PagePanel, "F1"}, std::pair{Do::Keys, "F12"}, std::pair{Do::NudgeLeft, "Left"},
                                    std::pair{Do::TextLarger, "Ctrl++"}, std::pair{Do::AddToSeries, "Enter"}, std::pair{Do::ZoomWhole, "0"}, std::pair{Do::StopWork, "Esc"}, std::pair{Do::TakeStill, "Space"}})
    EXPECT_EQ(keyWords(keyLine(what)), words);
}

TEST(Keys, TheGuideHasThemAll) {
  std::ifstream file(HUEWRIGHT_SOURCE_DIR "/docs/desk.md");
  const std::string guide{std::istreambuf_iterator<char>(file), {}};
  ASSERT_FALSE(guide.empty());
  std::size_t rows = 0;
  for (const KeyLine& line : keyTable()) EXPECT_NE(guide.find("| " + keyWords(line) + " | " + line.word + " | " + line.tip + " |\n"), std::string::npos) << line.word;
  for (std::size_t at = guide.find("## Keys"); (at = guide.find("\n| ", at + 1)) != std::string::npos;) ++rows;
  EXPECT_EQ(rows, keyTable().size() + 9);  // and the headings
}

}  // namespace
}  // namespace huewright::desk
