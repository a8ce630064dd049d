// The command line as words. The only file that includes CLI11 is arguments.cpp.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "base/problem.hpp"

namespace huewright {

struct Arguments {
  enum class Want { Run, Help, CommandHelp, Version } want = Want::Run;
  std::string command;
  std::vector<std::string> files;
  std::map<std::string, std::vector<std::string>> options;  ///< by name with dashes; a switch has an empty list

  bool has(const std::string& name) const { return options.contains(name); }
  /// The last value given, or nullptr.
  const std::string* value(const std::string& name) const {
    const auto at = options.find(name);
    return at == options.end() || at->second.empty() ? nullptr : &at->second.back();
  }
};

/// Splits the words of the command line (without the program's name) by the command table. Errors: BadOption.
Result<Arguments> parseArguments(const std::vector<std::string>& words);

}  // namespace huewright
