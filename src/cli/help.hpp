// Texts made from the command table: --help, the man page, the bash completion.
#pragma once

#include <string>
#include <string_view>

#include "cli/command_table.hpp"

namespace huewright {

/// Text wrapped to a width, each line indented, those after the first by `hang` more; words longer than a line stand alone. Counts
/// code points, not bytes.
std::string wrapped(std::string_view text, std::size_t width, std::size_t indent, std::size_t hang = 0);

std::string programHelp();
std::string commandHelp(const CommandRow& command);
std::string manPage(std::string_view version);
std::string bashCompletion();

}  // namespace huewright
