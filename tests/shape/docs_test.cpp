// What the documentation shows is tried: commands run and exit as stated, JSON parses and has the program's keys, files exist.
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>
#include <unistd.h>

#include "shape/command.hpp"
#include "shape/markdown.hpp"
#include "support/temp_dir.hpp"

namespace huewright::shape {
namespace {

namespace fs = std::filesystem;

struct Page {
  std::string name, text;
};

/// README.md, the one of the sample photographs, and all of docs/.
std::vector<Page> pages() {
  const fs::path root = HUEWRIGHT_SOURCE_DIR;
  std::vector<fs::path> paths{root / "README.md", root / "sample-images/README.md"};
  if (fs::is_directory(root / "docs"))
    for (const auto& entry : fs::recursive_directory_iterator(root / "docs"))
      if (entry.path().extension() == ".md") paths.push_back(entry.path());
  std::vector<Page> found;
  for (const fs::path& path : paths) {
    std::ifstream file(path, std::ios::binary);
    if (!file) continue;
    std::ostringstream text;
    text << file.rdbuf();
    found.push_back({fs::relative(path, root).generic_string(), text.str()});
  }
  return found;
}

/// Runs a shell command in a folder that shows the project's sample photos, with the built program first in the path; what it writes goes with the folder.
Ran runInRoot(std::string words) {
  const fixtures::TempDir folder;
  fs::create_directory_symlink(fs::path(HUEWRIGHT_SOURCE_DIR) / "sample-images", folder.path() / "sample-images");
  // A path to the program, such as build/bin/huewright, depends on where one builds.
  if (const auto space = words.find(' '); words.substr(0, space).find('/') != std::string::npos) words = "huewright" + words.substr(std::min(space, words.size()));
  const fs::path program = HUEWRIGHT_PROGRAM;
  return runShell("cd '" + folder.path().string() + "' && PATH='" + program.parent_path().string() + "':\"$PATH\" && export PATH && unset HUEWRIGHT_DATA && XDG_DATA_HOME=\"$PWD/data\" && export XDG_DATA_HOME && " + words);
}

/// A command of the program, also where a folder is made for it first.
bool runsTheProgram(const Command& command) {
  return programOf(command) == "huewright" || (programOf(command) == "mkdir" && command.words.find("; huewright ") != std::string::npos);
}

std::string at(const Page& page, int line) { return page.name + ":" + std::to_string(line); }

TEST(Docs, CommandsRunAndExitAsStated) {
  for (const Page& page : pages()) {
    int commands = 0;
    for (const Block& block : blocksOf(page.text))
      for (const Command& command : commandsOf(block)) {
        if (!runsTheProgram(command)) continue;
        ++commands;
        const Ran ran = runInRoot(command.words);
        EXPECT_EQ(ran.exit, command.exit) << at(page, command.line) << "\n" << command.words << "\n" << ran.out << ran.err;
      }
    if (page.name == "README.md") {
      EXPECT_GT(commands, 0) << "README.md shows no huewright command";
    }
  }
}

TEST(Docs, PagesAreThere) {
  for (const char* page : {"README.md", "docs/json.md"}) EXPECT_TRUE(fs::exists(fs::path(HUEWRIGHT_SOURCE_DIR) / page)) << page;
}

// Commands that set things up would change the machine or take long: they must only be there.
TEST(Docs, ScriptsCanBeRun) {
  for (const Page& page : pages())
    for (const Block& block : blocksOf(page.text))
      for (const Command& command : commandsOf(block)) {
        std::istringstream words(command.words);
        std::string word;
        words >> word;
        const bool by_shell = word == "sh" || word == "bash";
        if (by_shell) words >> word;
        if (block.language == "indented" || word.find('/') == std::string::npos || programOf(command) == "huewright" || !word.ends_with(".sh")) continue;
        const fs::path path = fs::path(HUEWRIGHT_SOURCE_DIR) / word;
        EXPECT_TRUE(fs::exists(path)) << at(page, command.line) << " " << word;
        EXPECT_TRUE(by_shell || ::access(path.c_str(), X_OK) == 0) << at(page, command.line) << " " << word << " is not executable";
      }
}

/// Where the two differ in their keys. An empty list or one value standing for another is not a difference.
void compareKeys(const nlohmann::json& shown, const nlohmann::json& real, const std::string& where, std::set<std::string>& differences) {
  if (shown.is_array() && real.is_array()) {
    if (shown.empty() || real.empty()) return;
    for (const auto& one : shown) compareKeys(one, real.front(), where + "[]", differences);
    return;
  }
  if (shown.is_object() != real.is_object() || shown.is_array() != real.is_array()) {
    differences.insert(where + " is of another kind");
    return;
  }
  if (!shown.is_object()) return;
  for (const auto& [key, value] : shown.items())
    if (real.contains(key)) compareKeys(value, real[key], where + "." + key, differences);
    else differences.insert(where + "." + key + " is shown but not printed");
  for (const auto& [key, value] : real.items())
    if (!shown.contains(key)) differences.insert(where + "." + key + " is printed but not shown");
}

std::set<std::string> differences(const char* shown, const char* real) {
  std::set<std::string> found;
  compareKeys(nlohmann::json::parse(shown), nlohmann::json::parse(real), "", found);
  return found;
}

TEST(Docs, KeysAreCompared) {
  EXPECT_TRUE(differences(R"({"a": 1, "b": [{"c": 2}]})", R"({"a": 5, "b": [{"c": 3}, {"c": 4}]})").empty());
  EXPECT_TRUE(differences(R"({"b": []})", R"({"b": [{"c": 3}]})").empty());
  EXPECT_EQ(differences(R"({"a": 1})", R"({"a": 1, "b": 2})").size(), 1U);
  EXPECT_EQ(differences(R"({"a": {"x": 1}})", R"({"a": null})").size(), 1U);
  EXPECT_EQ(differences(R"({"b": [{"d": 2}]})", R"({"b": [{"c": 3}]})").size(), 2U);
}

TEST(Docs, JsonParsesAndHasTheProgramsKeys) {
  for (const Page& page : pages())
    for (const Block& block : blocksOf(page.text)) {
      if (block.language != "json") continue;
      std::string text;
      for (const std::string& line : block.lines) text += line + "\n";
      const auto shown = nlohmann::json::parse(text, nullptr, false);
      EXPECT_FALSE(shown.is_discarded()) << at(page, block.line) << " is not JSON";
      const std::string command = producerOf(block);
      if (shown.is_discarded() || command.empty()) continue;
      const Ran ran = runInRoot(command);
      const auto real = nlohmann::json::parse(ran.out, nullptr, false);
      ASSERT_FALSE(real.is_discarded()) << at(page, block.line) << "\n" << command << "\n" << ran.out << ran.err;
      std::set<std::string> found;
      compareKeys(shown, real, "", found);
      for (const std::string& difference : found) ADD_FAILURE() << at(page, block.line) << ": " << difference;
    }
}

TEST(Docs, LinkedFilesAreThere) {
  const fs::path root = HUEWRIGHT_SOURCE_DIR;
  for (const Page& page : pages())
    for (const std::string& file : linkedFiles(page.text))
      EXPECT_TRUE(fs::exists((root / page.name).parent_path() / file)) << page.name << " links to " << file;
}

}  // namespace
}  // namespace huewright::shape
