#include "paper/plot_axis.hpp"

#include <array>
#include <cmath>
#include <cstdio>

namespace huewright {
namespace {

constexpr double kTickSlack = 1e-9;  // of a step, so that 0.3 / 0.1 counts as 3

}  // namespace

double tickStep(double span, int most) {
  const double rough = span / most, power = std::pow(10.0, std::floor(std::log10(rough)));
  for (const double times : {1.0, 2.0, 5.0})
    if (times * power >= rough * (1 - kTickSlack)) return times * power;
  return 10 * power;
}

std::vector<double> ticksWithin(double low, double high, int most) {
  const double step = tickStep(high - low, most);
  std::vector<double> ticks;
  for (double i = std::ceil(low / step - kTickSlack); i * step <= high + kTickSlack * step; ++i) ticks.push_back(i * step + 0.0);
  return ticks;
}

double scaleEnd(double value, int most) {
  const double step = tickStep(value, most);
  return std::ceil(value / step - kTickSlack) * step;
}

std::string tickWords(double value) {
  std::array<char, 32> text{};
  std::snprintf(text.data(), text.size(), "%.6g", value + 0.0);
  return text.data();
}

}  // namespace huewright
