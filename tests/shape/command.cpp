#include "shape/command.hpp"

#include <cstdio>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <sys/wait.h>

#include "support/temp_dir.hpp"

namespace huewright::shape {

Ran runShell(const std::string& words) {
  const fixtures::TempDir folder;
  const std::string out = (folder.path() / "out").string(), err = (folder.path() / "err").string();
  FILE* shell = ::popen(("exec >'" + out + "' 2>'" + err + "' </dev/null\n" + words + "\n").c_str(), "w");
  if (shell == nullptr) throw std::runtime_error("no shell");
  const int status = ::pclose(shell);
  const auto contents = [](const std::string& path) {
    std::ifstream file(path, std::ios::binary);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
  };
  return {WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status), contents(out), contents(err)};
}

}  // namespace huewright::shape
