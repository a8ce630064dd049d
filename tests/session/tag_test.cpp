#include "session/tag.hpp"

#include <fstream>
#include <gtest/gtest.h>
#include <iterator>

#include "temp_dir.hpp"

namespace huewright {
namespace {

std::string bytesOf(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

const TagText kNamed{"frame 3", TagParts{1, 4}, 4, 5};

TEST(WriteTags, WritesAndReplaces) {
  const fixtures::TempDir folder;
  const auto out = folder.path() / "tags.Pdf";
  std::string before;
  for (const char* paper : {"a4", "letter"}) {
    const auto written = writeTags({{kNamed, kNamed}, out, paper, 20});
    ASSERT_TRUE(written) << sentence(written.error());
    EXPECT_EQ(written->count, 2U);
    EXPECT_EQ(written->paper, std::string(paper) == "a4" ? "A4" : "Letter");
    const std::string bytes = bytesOf(out);
    EXPECT_TRUE(bytes.starts_with("%PDF-") && bytes.ends_with("%%EOF\n"));
    EXPECT_NE(bytes, before);
    before = bytes;
  }
  EXPECT_EQ(std::distance(std::filesystem::directory_iterator(folder.path()), {}), 1);
}

TEST(WriteTags, RefusesWrongRequestsBeforeItWritesAnything) {
  const fixtures::TempDir folder;
  const auto out = folder.path() / "x.pdf";
  const std::vector<std::pair<TagRequest, Code>> rows{
      {{{kNamed}, {}}, Code::BadChoice},
      {{{kNamed}, folder.path() / "photo.jpg"}, Code::BadChoice},
      {{{kNamed}, folder.path()}, Code::BadChoice},
      {{{}, out}, Code::BadChoice},
      {{{kNamed}, out, "a3"}, Code::BadChoice},
      {{{kNamed}, out, "a4", 11}, Code::BadNumber},
      {{{kNamed}, out, "a4", 61}, Code::BadNumber},
      {{{kNamed, TagText{"", {}, {}, {}}}, out}, Code::BadChoice},
      {{{TagText{"x", TagParts{0, 0}, {}, {}}}, out}, Code::BadMix},
      {{std::vector<TagText>(21, kNamed), out}, Code::BadChoice},
  };
  for (const auto& [request, code] : rows) {
    const auto written = writeTags(request);
    ASSERT_FALSE(written) << codeName(code);
    EXPECT_EQ(codeName(written.error().code), codeName(code)) << sentence(written.error());
  }
  EXPECT_TRUE(std::filesystem::is_empty(folder.path()));
}

TEST(WriteTags, LeavesNothingBehindWhenItFails) {
  const fixtures::TempDir folder;
  EXPECT_EQ(writeTags({{kNamed}, folder.path() / "missing" / "x.pdf"}).error().code, Code::WriteFailed);
  std::filesystem::create_directory(folder.path() / "folder.pdf");
  EXPECT_EQ(writeTags({{kNamed}, folder.path() / "folder.pdf"}).error().code, Code::WriteFailed);
  EXPECT_EQ(std::distance(std::filesystem::directory_iterator(folder.path()), {}), 1);
}

}  // namespace
}  // namespace huewright
