#include "sitting/window_words.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

TEST(WindowWords, NoSentenceOfTheTablesNamesAnOption) {
  for (std::size_t i = 0; i < kCodeCount; ++i) {
    const Problem problem{static_cast<Code>(i), "the detail"};
    EXPECT_EQ(windowWords(problem).find("--"), std::string::npos) << windowWords(problem);
  }
  for (std::size_t i = 0; i < kCautionCount; ++i) {
    const Caution caution{static_cast<CautionCode>(i), "The detail"};
    EXPECT_EQ(windowWords(caution).find("--"), std::string::npos) << windowWords(caution);
  }
}

TEST(WindowWords, PhrasesBecomeKeys) {
  struct Row {
    const char *told, *here;
  };
  for (const Row& row : {Row{"No mat was found in the photo. Keep its markers in the picture, or say where things are with --panel and --card.",
                             "No mat was found in the photo. Keep its markers in the picture, or mark panel and card yourself (P, K)."},
                         Row{"No panel was given. Say where it is in the photo with --panel X,Y,WIDTH,HEIGHT.", "No panel was given. Mark it in the photo (P)."},
                         Row{"--swapped is for one panel. Judge several one by one", "A photo with panel and card changed over is for one panel. Judge several one by one"},
                         Row{"The grey patch's lightness (--grey-y) must lie from 0.02 to 1, as a share of white", "The grey patch's lightness must lie from 0.02 to 1, as a share of white"},
                         Row{"--steps and --steps", "the strips' coats and the strips' coats"},
                         Row{"More of the strong tint.", "More of the strong tint."}})
    EXPECT_EQ(windowWords(std::string(row.told)), row.here);
}

}  // namespace
}  // namespace huewright
