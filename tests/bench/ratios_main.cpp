// Times pairs and prints one line for each. First argument: the photo of bench_photo; others go to Google Benchmark, such as
// --benchmark_filter=verdict.
#include <cstdio>

#include "bench/pair.hpp"
#include "bench/ratios.hpp"

int main(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  if (argc != 2) {
    std::fputs("Name the photo that bench_photo has written.\n", stderr);
    return 2;
  }
  huewright::bench::addVerdict(argv[1]);
  huewright::bench::addColour();
  huewright::bench::addMap();
  huewright::bench::Lines lines;
  benchmark::RunSpecifiedBenchmarks(&lines);
  return 0;
}
