#include "figures/figures.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <thread>
#include <unistd.h>

namespace huewright::figures {

double quantile(std::vector<double> values, double q) {
  if (values.empty()) return NAN;
  std::ranges::sort(values);
  const double at = q * static_cast<double>(values.size() - 1);
  const auto i = static_cast<std::size_t>(at);
  return i + 1 < values.size() ? values[i] + (at - static_cast<double>(i)) * (values[i + 1] - values[i]) : values[i];
}

void Coverage::add(const std::string& cluster, bool covered) {
  auto& [in, all] = of_[cluster];
  in += covered;
  all += 1;
  covered_ += covered;
  ++trials_;
}

double Coverage::share() const { return covered_ / static_cast<double>(trials_); }

double Coverage::half() const {
  double variance = 0;
  for (const auto& [key, counts] : of_) variance += std::pow(counts.first - share() * counts.second, 2);
  return 1.96 * std::sqrt(variance) / static_cast<double>(trials_);
}

TemporaryFile::TemporaryFile(std::uint64_t seed, const std::string& tail, const std::string& ending)
    : path_(std::filesystem::temp_directory_path() / ("figures-" + std::to_string(getpid()) + "-" + std::to_string(seed) + tail + ending)) {}

TemporaryFile::~TemporaryFile() {
  std::error_code ignored;
  std::filesystem::remove(path_, ignored);
}

void forEach(int count, const std::function<void(int)>& one) {
  std::atomic<int> next{0};
  std::vector<std::jthread> workers;
  for (unsigned k = 0; k < std::max(1u, std::thread::hardware_concurrency()); ++k)
    workers.emplace_back([&] {
      for (int i = next++; i < count; i = next++) one(i);
    });
}

render::Shop mildShop(std::uint64_t seed, bool linear, render::Random& random) {
  render::ShopOptions options;
  options.max_falloff = 0.05;
  options.max_vignette = 0.03;
  render::Shop shop = render::randomShop(seed, options);
  shop.lamp.direction_deg = random.uniform(0, 360);
  if (linear) shop.style = render::linearStyle(random.chance(0.5) ? render::Space::P3 : render::Space::Srgb);
  else shop.style.tagged = true;
  return shop;
}

render::Paint randomPaint(render::Random& random, std::span<const render::Ground> grounds) {
  render::Paint paint;
  paint.ground = grounds[static_cast<std::size_t>(random.below(static_cast<int>(grounds.size())))];
  paint.pair = render::kPairs[random.below(3)];
  paint.share = random.uniform(0.15, 0.6);
  paint.coats = random.uniform(2.5, 5);
  paint.carrier_per_tint = 5;
  return paint;
}

std::optional<render::Paint> paintAt(render::Random& random, const render::Paint& card, double de00) {
  const Lab<D50> wanted = render::labOf(card);
  render::Paint panel = card;
  if (de00 == 0) return panel;
  const render::Side side = random.chance(0.5) ? render::Side::Stronger : render::Side::Weaker;
  const bool by_share = random.chance(0.6);
  const auto value = by_share ? render::shareForDistance(panel, wanted, de00, side) : render::coatsForDistance(panel, wanted, de00, side);
  if (!value) return {};
  (by_share ? panel.share : panel.coats) = *value;
  return panel;
}

}  // namespace huewright::figures
