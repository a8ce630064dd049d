#include "cli/arguments.hpp"

#include <CLI/CLI.hpp>
#include <algorithm>
#include <optional>

#include "cli/command_table.hpp"

namespace huewright {
namespace {

/// What a person should read instead of the library's own words.
std::string complaint(const CLI::ParseError& error, const CLI::App& app) {
  std::string text = error.what();
  text = text.substr(0, text.find('\n'));
  if (!text.empty() && text.back() == '.') text.pop_back();
  if (dynamic_cast<const CLI::ExtrasError*>(&error) != nullptr) {
    const auto left = app.remaining(true);
    const auto first = std::ranges::find_if(left, [](const std::string& word) { return word != "--"; });
    const std::string word = first == left.end() ? "--" : *first;
    if (word.starts_with("-")) return "\"" + word + "\" is not an option here";
    return "\"" + word + "\" is not a command";
  }
  if (dynamic_cast<const CLI::ArgumentMismatch*>(&error) != nullptr)
    if (const std::string name = text.substr(0, text.find(':')); name.starts_with("--")) return name + " needs a value after it";
  if (const auto name = text.find("--"); dynamic_cast<const CLI::ConversionError*>(&error) != nullptr && name != std::string::npos)
    return text.substr(name, text.find(' ', name) - name) + " is a switch and takes no value";
  return text;
}

/// Mistakes that the library lets pass: an option's value that is the next option, and an option that counts once given twice.
std::optional<Problem> wrongValues(const CommandRow& command, const Arguments& arguments) {
  for (const OptionRow& option : command.options) {
    const auto at = arguments.options.find(std::string(option.name));
    if (at == arguments.options.end()) continue;
    for (const std::string& value : at->second)
      if (value.starts_with("--") || value == "-h") return Problem{Code::BadOption, std::string(option.name) + " needs a value after it"};
    if (option.takes == Takes::OneValue && at->second.size() > 1)
      return Problem{Code::BadOption, std::string(option.name) + " was given " + std::to_string(at->second.size()) + " times; it counts once"};
  }
  return {};
}

}  // namespace

Result<Arguments> parseArguments(const std::vector<std::string>& words) {
  Arguments arguments;
  if (words.empty()) {
    arguments.want = Arguments::Want::Help;
    return arguments;
  }

  CLI::App app;
  app.set_help_flag();
  bool help = false, version = false;
  app.add_flag("-h,--help", help);
  app.add_flag("--version", version);
  app.require_subcommand(0, 1);
  std::map<std::string, bool> switches;
  std::map<std::string, std::vector<std::string>> values;
  for (const CommandRow& command : commandTable()) {
    CLI::App* sub = app.add_subcommand(std::string(command.name));
    sub->set_help_flag();
    sub->add_flag("-h,--help", help);
    sub->add_option("files", arguments.files);
    for (const OptionRow& option : command.options) {
      const std::string name(option.name);
      if (option.takes == Takes::Nothing) sub->add_flag(name, switches[name]);
      else sub->add_option(name, values[name])->allow_extra_args(false);
    }
  }
  std::vector<std::string> reversed(words.rbegin(), words.rend());  // the library takes them last first
  try {
    app.parse(reversed);
  } catch (const CLI::ParseError& error) {
    return fail(Code::BadOption, complaint(error, app));
  }
  const auto subcommands = app.get_subcommands();
  if (!subcommands.empty()) arguments.command = subcommands.front()->get_name();
  if (version) arguments.want = Arguments::Want::Version;
  else if (help) arguments.want = arguments.command.empty() ? Arguments::Want::Help : Arguments::Want::CommandHelp;
  for (const auto& [name, on] : switches)
    if (on) arguments.options[name] = {};
  for (const auto& [name, given] : values)
    if (!given.empty()) arguments.options[name] = given;

  const auto table = commandTable();
  if (const auto command = std::ranges::find(table, arguments.command, &CommandRow::name); command != table.end())
    if (const auto problem = wrongValues(*command, arguments)) return std::unexpected(*problem);
  return arguments;
}

}  // namespace huewright
