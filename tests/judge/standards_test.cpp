#include "judge/standards.hpp"

#include <cmath>
#include <fstream>
#include <gtest/gtest.h>

#include "temp_dir.hpp"

namespace huewright {
namespace {

TEST(Standards, TheShippedFileReads) {
  const auto s = readStandards(HUEWRIGHT_SOURCE_DIR "/calib");
  ASSERT_TRUE(s);
  EXPECT_EQ(s->situations.front().tolerance, 1.0);  // common practice: a part next to the old paint
  EXPECT_EQ(visibilityWords(*s, 0), s->visibility[0].words);
  EXPECT_EQ(visibilityWords(*s, 1000), s->visibility.back().words);
  EXPECT_EQ(visibilityWords(*s, s->visibility[2].from), s->visibility[2].words);
}

TEST(Standards, CardKinds) {
  const auto s = readStandards(HUEWRIGHT_SOURCE_DIR "/calib");
  ASSERT_TRUE(s);
  EXPECT_EQ(cardKindSd(*s, CardKind::Same), 0);
  EXPECT_LT(cardKindSd(*s, CardKind::Printed), cardKindSd(*s, CardKind::Other));
  // The 95th percentile of a 3-vector's length is √7.815 standard deviations (NIST/SEMATECH e-Handbook, 1.3.6.7.4).
  EXPECT_NEAR(cardKindSd(*s, CardKind::Other) * std::sqrt(7.815), 4.0, 1e-3);
  EXPECT_EQ(cardKindName(CardKind::Unknown), "unknown");
}

TEST(Standards, BrokenFilesAreRefused) {
  const fixtures::TempDir folder;
  EXPECT_EQ(readStandards(folder.path()).error().code, Code::DataMissing);
  for (const char* text : {"", "{", "{}", R"({"situations":[],"visibility":[],"card_kinds":[]})",
                           R"({"situations":[{"word":1,"meaning":"x","tolerance":"y"}],"visibility":[{"from":0,"words":"x"}],"card_kinds":[]})"}) {
    std::ofstream(folder.path() / "standards.json") << text;
    const auto s = readStandards(folder.path());
    ASSERT_FALSE(s) << text;
    EXPECT_EQ(s.error().code, Code::DataMissing);
  }
  std::filesystem::remove(folder.path() / "standards.json");
  std::filesystem::create_directory(folder.path() / "standards.json");
  EXPECT_EQ(readStandards(folder.path()).error().code, Code::DataMissing);
}

}  // namespace
}  // namespace huewright
