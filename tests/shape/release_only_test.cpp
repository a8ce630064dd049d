// Holds tests/release_only.txt to the rules of release_only.hpp.
#include "shape/release_only.hpp"

#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <sstream>

namespace huewright::shape {
namespace {

namespace fs = std::filesystem;

std::string textOf(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

std::string theList() { return textOf(fs::path(HUEWRIGHT_SOURCE_DIR) / "tests/release_only.txt"); }

std::vector<SourceFile> sourcesBelow(const std::string& folder) {
  std::vector<SourceFile> files;
  for (const auto& entry : fs::recursive_directory_iterator(fs::path(HUEWRIGHT_SOURCE_DIR) / folder))
    if (entry.path().extension() == ".cpp") files.push_back({fs::relative(entry.path(), HUEWRIGHT_SOURCE_DIR).generic_string(), textOf(entry.path())});
  return files;
}

TEST(ReleaseOnly, NamesWhatIsThereAndSaysWhy) {
  EXPECT_NE(theList(), "");
  for (const std::string& complaint : leftOutWrongly(theList(), sourcesBelow("tests"))) ADD_FAILURE() << complaint;
}

TEST(ReleaseOnly, LeavesNoSourceFileWithoutATestUnderTheSanitizers) {
  std::vector<std::string> paths;
  for (const char* folder : {"src", "tests"})
    for (const SourceFile& file : sourcesBelow(folder)) paths.push_back(file.path);
  for (const std::string& complaint : withoutTest(withoutLeftOut(theList(), paths))) ADD_FAILURE() << complaint;
}

TEST(ReleaseOnly, SeesWrongLines) {
  const std::vector<SourceFile> tests{{"tests/photo/jpeg_test.cpp", "TEST(Jpeg, Reads) {}\n\nTEST_P(Sizes, AllOfThem) {}\n// TEST(Jpeg, NotThere)\n"}};
  const auto wrong = [&](const std::string& list) { return leftOutWrongly(list, tests).size(); };
  EXPECT_EQ(wrong("# a remark\n\nphoto/jpeg_test.cpp  long\nphoto/Jpeg.Reads  long\nphoto/Sizes.*  long\nphoto/Sizes.AllOfThem  long\n"), 0U);
  for (const char* line : {"photo/png_test.cpp  long", "photo/Jpeg.Read  long", "photo/Jpeg.NotThere  long", "photo/Png.*  long", "camera/Jpeg.Reads  long",
                           "Jpeg.Reads  long", "photo/Jpeg  long", "photo/*  long", "photo/Jpeg.Reads", "photo/Jpeg.Reads  long; and wide"})
    EXPECT_EQ(wrong(line), 1U) << line;
}

TEST(ReleaseOnly, LeavesOutWholeFilesOnly) {
  const std::vector<std::string> paths{"src/photo/jpeg.cpp", "tests/photo/jpeg_test.cpp", "tests/photo/png_test.cpp"};
  EXPECT_EQ(withoutLeftOut("photo/Jpeg.Reads  long\n", paths), paths);
  EXPECT_EQ(withoutTest(withoutLeftOut("photo/png_test.cpp  long\n", paths)).size(), 0U);
  EXPECT_EQ(withoutTest(withoutLeftOut("photo/jpeg_test.cpp  long\n", paths)).size(), 1U);
}

}  // namespace
}  // namespace huewright::shape
