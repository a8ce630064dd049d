#include "cli/help.hpp"

#include <algorithm>

namespace huewright {
namespace {

constexpr std::size_t kHelpWidth = 96;

std::string usage(const CommandRow& command) { return "huewright " + std::string(command.name) + " " + std::string(command.arguments) + " [options]"; }

std::string left(const OptionRow& option) {
  std::string text(option.name);
  if (!option.value.empty()) text += " " + std::string(option.value);
  if (option.takes == Takes::RepeatedValue) text += " …";
  return text;
}

/// A line of the program's help: the words in a column, then what they are for.
std::string useLine(std::string words, std::string_view text) {
  constexpr std::size_t kColumn = 18;
  words.resize(std::max(words.size() + 1, kColumn), ' ');
  return "  huewright " + words + std::string(text) + "\n";
}

std::string paragraphs(std::string_view text, std::size_t width) {
  std::string out;
  while (!text.empty()) {
    const auto gap = text.find("\n\n");
    out += (out.empty() ? "" : "\n") + wrapped(text.substr(0, gap), width, 0);
    text = gap == std::string_view::npos ? std::string_view{} : text.substr(gap + 2);
  }
  return out;
}

/// roff takes a hyphen for a soft one and a leading dot or quote for a command.
std::string roff(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '-') out += "\\-";
    else if (c == '\\') out += "\\e";
    else out += c;
  }
  if (!out.empty() && (out[0] == '.' || out[0] == '\'')) out.insert(0, "\\&");
  return out;
}

}  // namespace

std::string programHelp() {
  std::string out = wrapped(programAbout(), kHelpWidth, 0) + "\nUse\n";
  for (const CommandRow& command : commandTable())
    out += useLine(std::string(command.name) + " " + std::string(command.arguments), command.summary);
  out += useLine("COMMAND --help", "what a command takes") + useLine("--version", "which version this is") + "\nTake care\n" +
         wrapped(safetyText(), kHelpWidth, 2);
  return out;
}

std::string commandHelp(const CommandRow& command) {
  std::string out = usage(command) + "\n\n" + paragraphs(command.about, kHelpWidth);
  std::string_view group;
  for (const OptionRow& option : command.options) {
    if (option.group != group) out += "\n" + std::string(group = option.group) + "\n";
    out += "  " + left(option) + "\n";
    std::string text(option.text);
    if (!option.choices.empty() && option.name != "--tolerance") text += " One of: " + std::string(option.choices) + ".";
    out += wrapped(text, kHelpWidth, 6);
  }
  out += "\nFor example\n" + wrapped(command.example, kHelpWidth, 2) + "\nExit codes\n" + wrapped(exitCodesText(), kHelpWidth, 2) + "\nTake care\n" +
         wrapped(safetyText(), kHelpWidth, 2);
  return out;
}

std::string manPage(std::string_view version) {
  std::string out = ".TH HUEWRIGHT 1 \"\" \"huewright " + std::string(version) + "\" \"User Commands\"\n.SH NAME\n"
                    "huewright \\- judge a sprayed tint panel against a wanted colour from one photograph\n.SH SYNOPSIS\n";
  for (const CommandRow& command : commandTable())
    out += ".B huewright " + std::string(command.name) + "\n.I " + std::string(command.arguments) + "\n[options]\n.br\n";
  out += ".SH DESCRIPTION\n" + roff(programAbout()) + "\n";
  for (const CommandRow& command : commandTable()) {
    out += ".SH \"COMMAND " + std::string(command.name) + "\"\n";
    std::string_view about = command.about;
    while (!about.empty()) {
      const auto gap = about.find("\n\n");
      out += roff(about.substr(0, gap)) + "\n.PP\n";
      about = gap == std::string_view::npos ? std::string_view{} : about.substr(gap + 2);
    }
    std::string_view group;
    for (const OptionRow& option : command.options) {
      if (option.group != group) out += ".SS " + std::string(group = option.group) + "\n";
      out += ".TP\n.BI \"" + roff(option.name) + (option.value.empty() ? "" : "\" \" " + roff(option.value)) + "\"\n" + roff(option.text) + "\n";
      if (!option.choices.empty()) out += "Words: " + roff(option.choices) + ".\n";
    }
    out += ".SS Example\n.EX\n" + roff(command.example) + "\n.EE\n";
  }
  out += ".SH \"EXIT STATUS\"\n.EX\n" + roff(exitCodesText()) + "\n.EE\n.SH ENVIRONMENT\n.TP\n.B HUEWRIGHT_DATA\nThe folder of the program's data "
         "files, when it is not beside the program.\n.TP\n.B XDG_DATA_HOME\nWhere the grey patch is kept, in a folder huewright; without it in ~/.local/share.\n.SH \"TAKE CARE\"\n" + roff(safetyText()) + "\n";
  return out;
}

std::string bashCompletion() {
  std::string commands, cases;
  for (const CommandRow& command : commandTable()) {
    commands += (commands.empty() ? "" : " ") + std::string(command.name);
    std::string names = "--help", choices;
    for (const OptionRow& option : command.options) {
      names += " " + std::string(option.name);
      if (!option.choices.empty())
        choices += "        " + std::string(option.name) + ") COMPREPLY=($(compgen -W \"" + std::string(option.choices) + "\" -- \"$word\")); return ;;\n";
      else if (option.takes != Takes::Nothing) choices += "        " + std::string(option.name) + ") return ;;\n";
    }
    cases += "    " + std::string(command.name) + ")\n      case \"$before\" in\n" + choices + "      esac\n      if [[ $word == -* ]]; then\n" +
             "        COMPREPLY=($(compgen -W \"" + names + "\" -- \"$word\"))\n      else\n        mapfile -t COMPREPLY < <(compgen -f -- \"$word\")\n      fi ;;\n";
  }
  return "# bash completion for huewright; generated from its command table\n_huewright() {\n"
         "  local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD-1]}\n  COMPREPLY=()\n"
         "  if [[ $COMP_CWORD -eq 1 ]]; then\n    COMPREPLY=($(compgen -W \"" + commands + " --help --version\" -- \"$word\"))\n    return\n  fi\n"
         "  case \"${COMP_WORDS[1]}\" in\n" + cases + "  esac\n}\ncomplete -o filenames -F _huewright huewright\n";
}

}  // namespace huewright
