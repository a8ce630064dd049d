#include "sitting/folder.hpp"

#include <gtest/gtest.h>

#include <fstream>

#include "temp_dir.hpp"

namespace huewright {
namespace {

TEST(Folder, FoldersFirstThenFilesByName) {
  const fixtures::TempDir dir;
  std::filesystem::create_directory(dir.path() / "zinc");
  std::filesystem::create_directory(dir.path() / "an album");
  std::ofstream(dir.path() / "b.jpg") << "12345";
  std::ofstream(dir.path() / "a.json") << "1";
  std::ofstream(dir.path() / ".hidden") << "1";
  const FolderShown shown = readFolder(dir.path());
  EXPECT_EQ(shown.trouble, "");
  ASSERT_EQ(shown.entries.size(), 4u);
  EXPECT_EQ(shown.entries[0].name, "an album");
  EXPECT_TRUE(shown.entries[0].folder);
  EXPECT_EQ(shown.entries[1].name, "zinc");
  EXPECT_EQ(shown.entries[2].name, "a.json");
  EXPECT_EQ(shown.entries[3].name, "b.jpg");
  EXPECT_EQ(shown.entries[3].bytes, 5u);
  EXPECT_EQ(shown.entries[3].when.size(), std::string("2026-11-28 14:03").size());
}

TEST(Folder, OneThatIsNotThereIsSaid) {
  const FolderShown shown = readFolder("/no/such/folder");
  EXPECT_TRUE(shown.entries.empty());
  EXPECT_NE(shown.trouble.find("cannot be read"), std::string::npos);
}

}  // namespace
}  // namespace huewright
