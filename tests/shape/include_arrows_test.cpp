// Reads the project's files and holds them to the rules of rules.hpp. With one include root an upward #include compiles, so
// that nothing else would see it.
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <sstream>

#include "shape/rules.hpp"

namespace huewright::shape {
namespace {

namespace fs = std::filesystem;

std::string contents(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

/// Paths of all C++ and CMake files below a folder of the project, from the project's root.
std::vector<std::string> pathsBelow(const std::string& folder) {
  const fs::path root = HUEWRIGHT_SOURCE_DIR;
  std::vector<std::string> paths;
  for (const auto& entry : fs::recursive_directory_iterator(root / folder)) {
    const std::string path = fs::relative(entry.path(), root).generic_string();
    if (path.ends_with(".cpp") || path.ends_with(".hpp") || path.ends_with("CMakeLists.txt")) paths.push_back(path);
  }
  return paths;
}

std::vector<SourceFile> sources() {
  std::vector<SourceFile> files;
  for (const std::string& path : pathsBelow("src"))
    if (!path.ends_with("CMakeLists.txt")) files.push_back({path, contents(fs::path(HUEWRIGHT_SOURCE_DIR) / path)});
  return files;
}

void expectNone(const Complaints& complaints) {
  for (const std::string& complaint : complaints) ADD_FAILURE() << complaint;
}

TEST(SourceTree, HasFilesToLookAt) { EXPECT_GT(sources().size(), 50U); }

TEST(SourceTree, IncludesPointDownward) {
  for (const SourceFile& file : sources()) expectNone(upwardIncludes(file, allowedArrows()));
}

TEST(SourceTree, HeadersShowNoThirdParty) {
  for (const SourceFile& file : sources()) expectNone(strangersInHeader(file));
}

TEST(SourceTree, CoreNeitherPrintsNorExits) {
  for (const SourceFile& file : sources()) expectNone(printsOrExits(file));
}

TEST(SourceTree, OnlyOneFileKnowsTheOptionParser) {
  for (const SourceFile& file : sources()) expectNone(parserElsewhere(file));
}

TEST(SourceTree, OnlyTheModuleKnowsTheVideoLibrary) {
  for (const SourceFile& file : sources()) expectNone(videoElsewhere(file));
}

TEST(SourceTree, CMakeAgreesWithTheTable) {
  std::map<std::string, std::string> cmake;
  const auto files = sources();
  std::set<std::string> rooms;  // folders without C++ are no rooms
  for (const SourceFile& file : files) rooms.insert(roomOf(file.path));
  const std::string list = contents(fs::path(HUEWRIGHT_SOURCE_DIR) / "src/CMakeLists.txt");
  for (const std::string& room : rooms) {
    EXPECT_TRUE(allowedArrows().contains(room)) << "src/" << room << " is no room of the table";
    EXPECT_NE(list.find(room), std::string::npos) << "src/CMakeLists.txt leaves out " << room;
    const fs::path path = fs::path(HUEWRIGHT_SOURCE_DIR) / "src" / room / "CMakeLists.txt";
    if (fs::exists(path)) cmake[room] = contents(path);
  }
  for (const std::string& room : rooms) expectNone(cmakeDisagrees(room, cmake, files, allowedArrows()));
}

TEST(SourceTree, EverySourceFileHasATest) {
  auto paths = pathsBelow("src");
  const auto tests = pathsBelow("tests");
  paths.insert(paths.end(), tests.begin(), tests.end());
  expectNone(withoutTest(paths));
}

}  // namespace
}  // namespace huewright::shape
