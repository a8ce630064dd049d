// Random numbers for the tests of this room.
#pragma once

#include <cmath>
#include <cstdint>
#include <random>

namespace huewright {

/// One that gives the same numbers with every library.
struct Chance {
  explicit Chance(std::uint64_t seed) : engine(seed) {}
  std::mt19937_64 engine;
  double uniform() { return static_cast<double>(engine() >> 11) * 0x1p-53; }
  double normal() { return std::sqrt(-2 * std::log(1 - uniform())) * std::cos(6.283185307179586 * uniform()); }
};

}  // namespace huewright
