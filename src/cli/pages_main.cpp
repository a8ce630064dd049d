// Writes the man page and the bash completion into a folder; run by the build.
#include <cstdio>

#include "cli/help.hpp"
#include "photo/write.hpp"

int main(int argc, char** argv) {
  if (argc != 2) {
    std::fputs("Name one folder to write the pages into.\n", stderr);
    return 2;
  }
  const std::filesystem::path folder = argv[1];
  for (const auto& [name, text] : {std::pair{"huewright.1", huewright::manPage(HUEWRIGHT_VERSION)}, std::pair{"huewright.bash", huewright::bashCompletion()}})
    if (const auto written = huewright::writeWhole(folder / name, text); !written) {
      std::fprintf(stderr, "%s\n", huewright::sentence(written.error()).c_str());
      return huewright::exitCode(written.error().code);
    }
  return 0;
}
