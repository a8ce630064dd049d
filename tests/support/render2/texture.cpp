#include "render2/texture.hpp"

#include <cmath>
#include <numbers>

namespace huewright::render2 {
namespace {
constexpr double kTurn = 2 * std::numbers::pi;
}  // namespace

Waves::Waves(double shortest_cm, double longest_cm, int count, Random& random) : height_(std::sqrt(2.0 / count)) {
  for (int i = 0; i < count; ++i) {
    const double length = shortest_cm * std::pow(longest_cm / shortest_cm, random.uniform()), way = random.uniform(0, kTurn);
    waves_.push_back({static_cast<float>(kTurn / length * std::cos(way)), static_cast<float>(kTurn / length * std::sin(way)),
                      static_cast<float>(random.uniform(0, kTurn))});
  }
}

double Waves::at(Point p) const {
  float sum = 0;
  for (const Wave& w : waves_) sum += std::cos(w.x * static_cast<float>(p.x) + w.y * static_cast<float>(p.y) + w.phase);
  return height_ * static_cast<double>(sum);
}

Stripes::Stripes(double pitch_cm, double turn_deg, Random& random)
    : x_(kTurn / pitch_cm * std::cos(turn_deg * std::numbers::pi / 180)), y_(kTurn / pitch_cm * std::sin(turn_deg * std::numbers::pi / 180)),
      phase_(random.uniform(0, kTurn)), wander_(random.uniform(0.2, 0.8)), wander_phase_(random.uniform(0, kTurn)) {}

double Stripes::at(Point p) const {
  const double way = x_ * p.x + y_ * p.y;
  return std::numbers::sqrt2 * std::sin(way + phase_ + wander_ * std::sin(0.37 * way + wander_phase_));
}

}  // namespace huewright::render2
