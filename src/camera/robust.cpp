#include "camera/robust.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>

namespace huewright {

double medianOf(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::ranges::nth_element(values, middle);
  return *middle;
}

Plane fitPlane(const std::vector<Spot>& samples) {
  Plane p;
  double w = 0;
  for (const auto& s : samples) {
    w += s.weight;
    p.x0 += s.weight * s.x;
    p.y0 += s.weight * s.y;
    p.at += s.weight * s.value;
  }
  if (w <= 0) return p;
  p.x0 /= w;
  p.y0 /= w;
  p.at /= w;
  double xx = 0, xy = 0, yy = 0, xv = 0, yv = 0;
  for (const auto& s : samples) {
    const double dx = s.x - p.x0, dy = s.y - p.y0;
    xx += s.weight * dx * dx;
    xy += s.weight * dx * dy;
    yy += s.weight * dy * dy;
    xv += s.weight * dx * (s.value - p.at);
    yv += s.weight * dy * (s.value - p.at);
  }
  const double det = xx * yy - xy * xy;
  if (det <= 1e-12 * xx * yy || det <= 0) return p;
  p.along_x = (yy * xv - xy * yv) / det;
  p.along_y = (xx * yv - xy * xv) / det;
  double rss = 0;
  for (const auto& s : samples) rss += s.weight * (s.value - p(s.x, s.y)) * (s.value - p(s.x, s.y));
  const double variance = samples.size() > 3 ? rss / static_cast<double>(samples.size() - 3) : 0.0;
  p.sd_x = std::sqrt(variance * yy / det);
  p.sd_y = std::sqrt(variance * xx / det);
  return p;
}

Shorth shorth(std::vector<double> values) {
  std::ranges::sort(values);
  const std::size_t hold = values.size() / 2 + 1;
  Shorth best{values.front(), 1e300};
  for (std::size_t i = 0; i + hold <= values.size(); ++i) {
    const double half = 0.5 * (values[i + hold - 1] - values[i]);
    if (half < best.half) best = {0.5 * (values[i + hold - 1] + values[i]), half};
  }
  return best;
}

std::pair<Plane, double> robustPlane(std::vector<Spot> samples) {
  std::vector<double> left(samples.size());
  Plane plane;
  double spread = 0;
  for (int round = 0; round < 5; ++round) {
    for (std::size_t i = 0; i < samples.size(); ++i) left[i] = samples[i].value - plane(samples[i].x, samples[i].y);
    const Shorth core = shorth(left);
    plane.at += core.middle;
    spread = core.half / 0.6745;  // half of a normal distribution lies within 0.6745 standard deviations
    if (round == 4 || spread <= 0) break;
    for (std::size_t i = 0; i < samples.size(); ++i) {
      const double t = (left[i] - core.middle) / (4.685 * spread);  // the biweight's usual constant (Huber and Ronchetti 2009, section 4.8)
      samples[i].weight = std::abs(t) < 1 ? (1 - t * t) * (1 - t * t) : 0;
    }
    plane = fitPlane(samples);
  }
  return {plane, spread};
}

std::pair<double, double> trimmedMean(std::vector<double> v) {
  if (v.size() < 4) return {0, 1e9};
  std::ranges::sort(v);
  const std::size_t cut = v.size() / 6;
  double sum = 0, all = 0, square = 0;
  for (std::size_t i = 0; i < v.size(); ++i) {
    const double held = std::clamp(v[i], v[cut], v[v.size() - 1 - cut]);
    if (i >= cut && i < v.size() - cut) sum += v[i];
    all += held;
    square += held * held;
  }
  const auto n = static_cast<double>(v.size()), kept = static_cast<double>(v.size() - 2 * cut);
  return {sum / kept, std::sqrt(std::max(0.0, square - all * all / n) / (kept * (kept - 1)))};
}

}  // namespace huewright
