// What the source tree must look like. Each rule looks at text alone, so that it can be shown to fail on made-up text.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

namespace huewright::shape {

/// A file of the project; its path runs from the project's root, such as "src/judge/verdict.cpp".
struct SourceFile {
  std::string path, text;
};

/// Sentences, one for each thing that is wrong.
using Complaints = std::vector<std::string>;

/// For each room, the rooms that it may use directly.
using Arrows = std::map<std::string, std::set<std::string>>;

/// The rooms of src/, whether they are built yet or not.
const Arrows& allowedArrows();

/// The room itself and everything that it may use, directly or through others.
std::set<std::string> reach(const Arrows& arrows, const std::string& room);

/// "judge" of "src/judge/verdict.cpp"; empty for a file that is in no room.
std::string roomOf(const std::string& path);

/// The text with its comments blanked out and, if asked, the contents of strings too. Lines stay where they are.
std::string withoutComments(const std::string& text, bool without_strings);

/// One #include line. `name` is what stands between the quotes or angle brackets; empty when it is neither.
struct Include {
  std::string name;
  bool angled = false;
  int line = 0;
};
std::vector<Include> includesOf(const std::string& text);

/// Rooms that a room's CMakeLists.txt says it uses.
std::set<std::string> usesInCMake(const std::string& room, const std::string& cmake);

/// Arrows point downward only.
Complaints upwardIncludes(const SourceFile& file, const Arrows& arrows);

/// A room's header shows no third-party header to those who use it.
Complaints strangersInHeader(const SourceFile& file);

/// The core neither prints nor exits.
Complaints printsOrExits(const SourceFile& file);

/// Only src/cli/arguments.cpp knows the option parser.
Complaints parserElsewhere(const SourceFile& file);

/// Only src/frames includes OpenCV's videoio: nothing else may be linked with it.
Complaints videoElsewhere(const SourceFile& file);

/// What CMake is told a room uses lies within the table, and covers what the room's files include.
Complaints cmakeDisagrees(const std::string& room, const std::map<std::string, std::string>& cmake_by_room,
                          const std::vector<SourceFile>& files, const Arrows& arrows);

/// src/x/y.cpp is tested by tests/x/y_test.cpp or tests/x/y_…_test.cpp. In: all paths of the project.
Complaints withoutTest(const std::vector<std::string>& paths);

}  // namespace huewright::shape
