#include "cli/talk.hpp"

namespace huewright {

void Talk::say(const std::function<bool(std::string_view)>& to, std::string& kept, std::string_view text) {
  if (text.empty()) return;
  if (!to) kept += text;
  else writes_ = to(text) && writes_;
}

Outcome Talk::wrong(const Problem& problem) {
  outcome_.exit = exitCode(problem.code);
  outcome_.err += sentence(problem) + "\n";
  return outcome_;
}

Outcome Talk::unheard() {
  outcome_.exit = exitCode(Code::WriteFailed);
  outcome_.err += "The verdicts could not be written out. Check where they are sent to and the free space.\n";
  return outcome_;
}

}  // namespace huewright
