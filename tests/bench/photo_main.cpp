// Writes the benchmark's photograph, without and with a chart, and prints what huewright is to be told about the first.
#include <cstdio>
#include <exception>

#include "bench/photo.hpp"

int main(int argc, char** argv) {
  if (argc != 3) {
    std::fputs("Name two files to write: without and with a chart.\n", stderr);
    return 2;
  }
  try {
    huewright::bench::writePhoto(argv[1]);
    huewright::bench::writePhoto(argv[2], true);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 5;
  }
  for (const auto& word : huewright::bench::judgeWords(argv[1])) std::printf("%s ", word.c_str());
  std::puts("");
  return 0;
}
