// Texts made from the command table: --help, the man page, the bash completion.
#pragma once

#include <string>
#include <string_view>

#include "cli/command_table.hpp"
#include "session/wrapped.hpp"

namespace huewright {

std::string programHelp();
std::string commandHelp(const CommandRow& command);
std::string manPage(std::string_view version);
std::string bashCompletion();

}  // namespace huewright
