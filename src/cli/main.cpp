// The program. Everything it does is in run(); here it prints and exits.
#include <cstdio>
#include <exception>
#include <new>
#include <string_view>

#include "cli/run.hpp"
#include "cli/terminal.hpp"

int main(int argc, char** argv) {
  try {
    const auto to = [](std::FILE* stream) { return [stream](std::string_view text) { return std::fwrite(text.data(), 1, text.size(), stream) == text.size() && std::fflush(stream) == 0; }; };
    const auto outcome = huewright::run({argv + 1, argv + argc}, huewright::showsTrueColour(), {to(stdout), to(stderr)});
    std::fputs(outcome.err.c_str(), stderr);
    const bool written = std::fputs(outcome.out.c_str(), stdout) >= 0 && std::fflush(stdout) == 0;
    if (!written) {
      std::fputs("The answer could not be written out. Check where it is sent to and the free space.\n", stderr);
      return 5;
    }
    return outcome.exit;
  } catch (const std::bad_alloc&) {
    std::fputs("There is not enough memory. Close other programs or use a smaller picture.\n", stderr);
    return 5;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "Huewright made a mistake of its own (%s). Nothing was changed; please report it.\n", error.what());
    return 4;
  }
}
