// Every command and option once: the parser, --help, the man page and the completion are made from this table.
#pragma once

#include <span>
#include <string_view>

namespace huewright {

enum class Takes { Nothing, OneValue, RepeatedValue };

struct OptionRow {
  std::string_view group;     ///< heading in the help
  std::string_view name;      ///< "--panel"
  std::string_view value;     ///< "Q", empty for a switch
  Takes takes;
  std::string_view choices;   ///< words separated by spaces, or empty
  std::string_view text;      ///< one or two sentences
};

struct CommandRow {
  std::string_view name;       ///< "judge"
  std::string_view arguments;  ///< "PHOTO"
  std::string_view summary;    ///< one line
  std::string_view about;      ///< paragraphs, separated by an empty line
  std::span<const OptionRow> options;
  std::string_view example;
};

std::span<const CommandRow> commandTable();

/// What the whole program is for; stands at the top of --help and of the man page.
std::string_view programAbout();

/// The usual cautions for people who spray; stands at the end of --help and of the man page.
std::string_view safetyText();

/// Exit codes in words, one a line.
std::string_view exitCodesText();

}  // namespace huewright
