// Times pairs and prints one line for each. First arguments: the two photos of bench_photo; others go to Google Benchmark, such as
// --benchmark_filter=verdict.
#include <cstdio>

#include "bench/pair.hpp"
#include "bench/ratios.hpp"

int main(int argc, char** argv) {
  benchmark::Initialize(&argc, argv);
  if (argc != 3) {
    std::fputs("Name the two photos that bench_photo has written.\n", stderr);
    return 2;
  }
  huewright::bench::addVerdict(argv[1], argv[2]);
  huewright::bench::addColour();
  huewright::bench::addMap();
  huewright::bench::addAdvice();
  huewright::bench::Lines lines;
  benchmark::RunSpecifiedBenchmarks(&lines);
  return 0;
}
