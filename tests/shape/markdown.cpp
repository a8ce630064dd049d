#include "shape/markdown.hpp"

#include <algorithm>
#include <cstdlib>
#include <sstream>
#include <string_view>

namespace huewright::shape {
namespace {

std::string trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(" \t\r");
  if (first == std::string_view::npos) return {};
  return std::string(text.substr(first, text.find_last_not_of(" \t\r") - first + 1));
}

std::vector<std::string> linesOf(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

bool isFence(std::string_view line) {
  const std::string text = trimmed(line);
  return text.starts_with("```") || text.starts_with("~~~");
}

bool isIndented(std::string_view line) { return line.starts_with("    ") || line.starts_with("\t"); }

/// Lines joined where a backslash ends them.
std::string joined(const std::vector<std::string>& lines) {
  std::string out;
  for (const std::string& line : lines) {
    std::string text = trimmed(line);
    if (text.ends_with("\\")) text = trimmed(std::string_view(text).substr(0, text.size() - 1)) + " ";
    else text += "\n";
    out += text;
  }
  return out;
}

/// The number after the word "exit" in a trailing comment; 0 without one.
int exitOf(const std::string& words) {
  const auto comment = words.rfind(" #");
  if (comment == std::string::npos) return 0;
  const auto exit = words.find("exit", comment);
  const auto digit = exit == std::string::npos ? exit : words.find_first_of("0123456789", exit);
  return digit == std::string::npos ? 0 : std::atoi(words.c_str() + digit);
}

}  // namespace

std::vector<Block> blocksOf(const std::string& markdown) {
  std::vector<Block> blocks;
  const auto lines = linesOf(markdown);
  std::vector<std::string> above;  // the last paragraph or block
  bool fresh = true;               // the next line of text starts a new paragraph
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const bool fence = isFence(lines[i]);
    if (fence || (fresh && isIndented(lines[i]))) {
      Block block;
      block.before = joined(above);
      std::ranges::replace(block.before, '\n', ' ');
      block.line = static_cast<int>(i) + (fence ? 2 : 1);
      if (fence) {
        const std::string opening = trimmed(lines[i]), info = trimmed(std::string_view(opening).substr(3));
        block.language = info.substr(0, info.find_first_of(" {"));
        for (++i; i < lines.size() && !trimmed(lines[i]).starts_with(opening.substr(0, 3)); ++i) block.lines.push_back(lines[i]);
      } else {
        block.language = "indented";
        for (; i < lines.size() && isIndented(lines[i]); ++i) block.lines.push_back(lines[i]);
        --i;
      }
      above = block.lines;
      blocks.push_back(std::move(block));
      fresh = true;
    } else if (trimmed(lines[i]).empty()) {
      fresh = true;
    } else {
      if (fresh) above.clear();
      fresh = false;
      above.push_back(lines[i]);
    }
  }
  return blocks;
}

std::vector<Command> commandsOf(const Block& block) {
  const bool shell = block.language == "sh" || block.language == "bash" || block.language == "shell" || block.language == "console" ||
                     block.language == "indented";
  std::vector<Command> commands;
  if (!shell) return commands;
  const bool prompted = std::ranges::any_of(block.lines, [](const std::string& line) { return trimmed(line).starts_with("$ "); });
  for (std::size_t i = 0; i < block.lines.size(); ++i) {
    std::string text = trimmed(block.lines[i]);
    if (prompted && !text.starts_with("$ ")) continue;
    if (prompted) text = trimmed(std::string_view(text).substr(2));
    const int line = block.line + static_cast<int>(i);
    while (text.ends_with("\\") && i + 1 < block.lines.size()) {
      std::string next = trimmed(block.lines[++i]);
      if (next.starts_with("> ")) next = trimmed(std::string_view(next).substr(2));
      text = trimmed(std::string_view(text).substr(0, text.size() - 1)) + " " + next;
    }
    if (!text.empty() && text[0] != '#') commands.push_back({text, exitOf(text), line});
  }
  return commands;
}

std::string programOf(const Command& command) {
  const std::string word = command.words.substr(0, command.words.find(' '));
  const auto slash = word.rfind('/');
  return slash == std::string::npos ? word : word.substr(slash + 1);
}

std::string producerOf(const Block& block) {
  const auto start = block.before.rfind("huewright ");
  if (start == std::string::npos) return {};
  std::string command = block.before.substr(start);
  command = command.substr(0, command.find('`'));
  command = command.substr(0, command.find("-->"));
  command = trimmed(command.substr(0, command.find(" #")));
  return command.find("--json") == std::string::npos ? std::string{} : command;
}

std::vector<std::string> linkedFiles(const std::string& markdown) {
  std::vector<std::string> files;
  std::string prose;  // without blocks of code
  bool inside = false;
  for (const std::string& line : linesOf(markdown)) {
    if (isFence(line)) inside = !inside;
    else if (!inside) prose += line + "\n";
  }
  for (auto at = prose.find("]("); at != std::string::npos; at = prose.find("](", at + 2)) {
    std::string target = prose.substr(at + 2, prose.find_first_of(" )\n", at + 2) - at - 2);
    target = target.substr(0, target.find('#'));
    if (!target.empty() && target.find(':') == std::string::npos) files.push_back(target);
  }
  return files;
}

}  // namespace huewright::shape
