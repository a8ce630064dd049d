// The parts of Markdown that the documentation's tests need.
#pragma once

#include <string>
#include <vector>

namespace huewright::shape {

/// A fenced block, or a run of indented lines (language "indented").
struct Block {
  std::string language;            ///< first word after the fence: "sh", "json"
  std::string before;              ///< the paragraph or block right above it, one line
  std::vector<std::string> lines;
  int line = 0;                    ///< of the first line inside, from 1
};
std::vector<Block> blocksOf(const std::string& markdown);

/// A command as it would be typed, with the exit code that it must have.
struct Command {
  std::string words;
  int exit = 0;                    ///< as a trailing comment states it: "# exit 2"
  int line = 0;
};

/// Commands of a block in the language of a shell. Where a line of the block starts with "$ ", only such lines are commands and the
/// others their output. A backslash at the end joins lines. Comment lines are left out.
std::vector<Command> commandsOf(const Block& block);

/// The first word of a command, without a folder: "huewright" of "build/bin/huewright judge".
std::string programOf(const Command& command);

/// The command whose output a JSON block is said to be: the last `huewright … --json …` in the paragraph or block right above it.
/// Empty when there is none.
std::string producerOf(const Block& block);

/// Targets of links and pictures that name a file: no "https:", no "#part".
std::vector<std::string> linkedFiles(const std::string& markdown);

}  // namespace huewright::shape
