// Deterministic random numbers, fast enough for three a pixel.
#pragma once

#include <cstdint>

namespace huewright::render {

/// xoshiro256++ seeded by splitmix64. The same seed gives the same numbers on every platform.
/// Source: Blackman and Vigna (2021).
class Random {
 public:
  explicit Random(std::uint64_t seed);

  std::uint64_t bits();
  double uniform();                            ///< [0, 1)
  double uniform(double low, double high);     ///< [low, high)
  int below(int count);                        ///< 0 .. count-1
  double normal();                             ///< standard normal, cut off at about ±4.3
  bool chance(double probability) { return uniform() < probability; }

  /// Four standard normals at once, from one 64-bit draw through a table of 65 536 quantiles. Accuracy: variance 1 within 1e-9.
  void normals4(float out[4]);

 private:
  std::uint64_t s_[4];
};

/// A stream of random numbers of its own for each part of a picture, so that one part does not shift the others.
inline Random streamOf(std::uint64_t seed, std::uint64_t part) { return Random(seed * 0x2545f4914f6cdd1dULL + part * 0x9e3779b97f4a7c15ULL); }

}  // namespace huewright::render
