#include "session/text_file.hpp"

#include <fstream>
#include <gtest/gtest.h>

#include "support/temp_dir.hpp"

namespace huewright {
namespace {

TEST(TextFile, GivesEveryByte) {
  const fixtures::TempDir folder;
  std::ofstream(folder.path() / "a.json", std::ios::binary) << std::string("{\"a\":\r\n1}\n\0x", 12);
  const auto text = readTextFile(folder.path() / "a.json", Code::SeriesUnusable);
  ASSERT_TRUE(text);
  EXPECT_EQ(*text, std::string("{\"a\":\r\n1}\n\0x", 12));
}

TEST(TextFile, SaysWhatIsWrongUnderTheGivenCode) {
  const fixtures::TempDir folder;
  std::ofstream(folder.path() / "empty.json");
  std::ofstream(folder.path() / "large.json") << std::string((4U << 20) + 1, ' ');
  for (const auto& [name, says] : {std::pair{"none.json", "there is no file"}, {"empty.json", "is empty"}, {".", "is a folder"}, {"large.json", "is too large"}}) {
    const auto text = readTextFile(folder.path() / name, Code::TintFileUnusable);
    ASSERT_FALSE(text) << name;
    EXPECT_EQ(text.error().code, Code::TintFileUnusable);
    EXPECT_NE(sentence(text.error()).find(says), std::string::npos) << sentence(text.error());
  }
}

}  // namespace
}  // namespace huewright
