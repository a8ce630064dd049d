#include "render/random.hpp"

#include <bit>
#include <cmath>
#include <numbers>
#include <vector>

namespace huewright::render {
namespace {

constexpr int kQuantiles = 65536;

// The standard normal's quantile by Newton steps on its distribution function (std::erfc), from the neighbour's value.
std::vector<float> quantiles() {
  std::vector<double> q(kQuantiles);
  double z = 0, sum = 0;
  for (int i = kQuantiles / 2; i < kQuantiles; ++i) {
    const double p = (i + 0.5) / kQuantiles;
    for (int k = 0; k < 8; ++k) {
      const double tail = 0.5 * std::erfc(z / std::numbers::sqrt2);
      const double density = std::exp(-0.5 * z * z) / std::sqrt(2 * std::numbers::pi);
      z += (tail - (1 - p)) / density;
    }
    q[static_cast<std::size_t>(i)] = z;
    q[static_cast<std::size_t>(kQuantiles - 1 - i)] = -z;
    sum += 2 * z * z;
  }
  const double scale = std::sqrt(kQuantiles / sum);
  std::vector<float> out;
  out.reserve(kQuantiles);
  for (const double v : q) out.push_back(static_cast<float>(scale * v));
  return out;
}

const float* quantileTable() {
  static const std::vector<float> table = quantiles();
  return table.data();
}

}  // namespace

Random::Random(std::uint64_t seed) : s_{} {
  for (auto& word : s_) {
    seed += 0x9e3779b97f4a7c15ULL;
    std::uint64_t z = seed;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
    word = z ^ (z >> 31);
  }
}

std::uint64_t Random::bits() {
  const std::uint64_t result = std::rotl(s_[0] + s_[3], 23) + s_[0];
  const std::uint64_t t = s_[1] << 17;
  s_[2] ^= s_[0];
  s_[3] ^= s_[1];
  s_[1] ^= s_[2];
  s_[0] ^= s_[3];
  s_[2] ^= t;
  s_[3] = std::rotl(s_[3], 45);
  return result;
}

double Random::uniform() { return static_cast<double>(bits() >> 11) * 0x1.0p-53; }

double Random::uniform(double low, double high) { return low + (high - low) * uniform(); }

int Random::below(int count) { return static_cast<int>(uniform() * count); }

double Random::normal() { return static_cast<double>(quantileTable()[bits() >> 48]); }

void Random::normals4(float out[4]) {
  const float* table = quantileTable();
  const std::uint64_t b = bits();
  out[0] = table[b & 0xffff];
  out[1] = table[(b >> 16) & 0xffff];
  out[2] = table[(b >> 32) & 0xffff];
  out[3] = table[b >> 48];
}

}  // namespace huewright::render
