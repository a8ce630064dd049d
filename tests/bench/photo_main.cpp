// Writes the benchmark's photograph and prints what huewright is to be told about it.
#include <cstdio>
#include <exception>

#include "bench/photo.hpp"

int main(int argc, char** argv) {
  if (argc != 2) {
    std::fputs("Name one file to write.\n", stderr);
    return 2;
  }
  try {
    huewright::bench::writePhoto(argv[1]);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 5;
  }
  for (const auto& word : huewright::bench::judgeWords(argv[1])) std::printf("%s ", word.c_str());
  std::puts("");
  return 0;
}
