// Writes the pictures of sample-images/ and their truth.json again: make_samples OUTDIR
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>

#include "render/samples.hpp"

int main(int argc, char** argv) {
  using namespace huewright::render;
  if (argc != 2) {
    std::fputs("usage: make_samples OUTDIR\n", stderr);
    return 2;
  }
  try {
    const std::filesystem::path folder(argv[1]);
    std::filesystem::create_directories(folder);
    const auto all = samples();
    std::vector<Rendered> rendered;
    for (const Sample& s : all) {
      rendered.push_back(render(s.scene, s.seed));
      writePicture(folder / s.file, rendered.back(), s.options);
    }
    std::ofstream truth(folder / "truth.json", std::ios::binary);
    truth << truthJson(all, rendered);
    return truth.flush() ? 0 : 5;
  } catch (const std::exception& problem) {
    std::fprintf(stderr, "%s\n", problem.what());
    return 5;
  }
}
