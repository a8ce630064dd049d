#include "camera/grey_by_chart.hpp"

#include <algorithm>
#include <cmath>
#include <vector>

#include "camera/light.hpp"
#include "colour/adapt.hpp"

namespace huewright {
namespace {

// One standard deviation, relative, of a sharpened channel; judgement, tried on simulated scenes.
constexpr double kPlace = 0.003;                        // small unevenness of the light that no slope shows
constexpr double kDrift = 0.0015;                       // drift of the light's colour from place to place
constexpr double kCopyLevel = 0.01, kCopyTint = 0.004;  // the chart in hand against the published one
constexpr double kOwnLevel = 0.004, kOwnTint = 0.002;   // the same where it was measured itself
constexpr double kChartBody = 0.15;                     // of the grey's tint: a camera is no eye
constexpr double kLeast = 0.003;                        // what the scatter of few chart greys can hide
constexpr double kCourse = 0.03;                        // change of brightness by which the slopes at chart and grey may differ over the way between them
constexpr double kGreyClipped = 0.02;                   // share of a patch's pixels

using Slope = std::array<double, 2>;               // natural log of the brightness, per pixel

struct Sloped {
  Slope at{}, sd{};
  bool known = false;
};

/// How much more the colour changes than the device values do: a tone curve stretches slopes.
double stretchAt(const ColourMap& map, const Vec3& device) {
  const double y = map.apply(device).Y;
  return y > 1e-6 ? (map.derivative(device) * device)[1] / y : 1;
}

Sloped slopeOf(const Patch& patch, double stretch) {
  Sloped s;
  s.known = patch.trend_sd[0] > 0 && patch.trend_sd[1] > 0;
  for (std::size_t d = 0; d < 2; ++d) {
    s.at[d] = stretch * patch.trend[d];
    s.sd[d] = std::abs(stretch) * patch.trend_sd[d];
  }
  return s;
}

/// The chart's: mean of its patches' slopes, those that say little counting little, those far from the median not at all.
Sloped slopeOf(std::span<const ChartGrey> chart, const ColourMap& map) {
  std::vector<Sloped> all;
  for (const ChartGrey& grey : chart)
    if (!grey.fit.spoilt && grey.fit.clipped <= kGreyClipped)
      if (const Sloped s = slopeOf(grey.patch, stretchAt(map, grey.fit.device)); s.known) all.push_back(s);
  Sloped mean;
  constexpr std::size_t kFew = 6;
  if (all.size() < kFew) return mean;
  mean.known = true;
  for (std::size_t d = 0; d < 2; ++d) {
    std::vector<double> values, off;
    for (const Sloped& s : all) values.push_back(s.at[d]);
    std::ranges::nth_element(values, values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2));
    const double median = values[values.size() / 2];
    for (const Sloped& s : all) off.push_back(std::abs(s.at[d] - median));
    std::ranges::nth_element(off, off.begin() + static_cast<std::ptrdiff_t>(off.size() / 2));
    const double usual = 1.4826 * off[off.size() / 2];  // a normal distribution's deviation from its median absolute one
    double weights = 0, sum = 0, squares = 0;
    for (const Sloped& s : all) {
      if (std::abs(s.at[d] - median) > 3 * usual) continue;
      const double w = 1 / (s.sd[d] * s.sd[d] + usual * usual);
      weights += w;
      sum += w * s.at[d];
      squares += w * w * (s.at[d] - median) * (s.at[d] - median);
    }
    mean.at[d] = sum / weights;
    mean.sd[d] = std::sqrt(std::max(squares, 0.5 * weights) ) / weights;  // by their scatter, or what they themselves say
  }
  return mean;
}

struct Anchor {
  double log_y = 0;  // as the map has it
  Vec3 off{};        // log of published over fitted, sharpened, in the grey's light
};

/// Straight between the two neighbours in lightness, held beyond the ends. In: at least one, rising; skip: one to leave out.
Vec3 between(const std::vector<Anchor>& anchors, double log_y, std::size_t skip) {
  const Anchor *below = nullptr, *above = nullptr;
  for (std::size_t i = 0; i < anchors.size(); ++i) {
    if (i == skip) continue;
    if (anchors[i].log_y <= log_y) below = &anchors[i];
    else if (above == nullptr) above = &anchors[i];
  }
  if (below == nullptr) return above->off;
  if (above == nullptr) return below->off;
  const double t = (log_y - below->log_y) / (above->log_y - below->log_y);
  return (1 - t) * below->off + t * above->off;
}

Vec3 logSharp(const Xyz<D50>& xyz) {
  const Vec3 s = kBradford * toVec(xyz);
  return {std::log(std::max(s[0], 1e-6)), std::log(std::max(s[1], 1e-6)), std::log(std::max(s[2], 1e-6))};
}

}  // namespace

std::expected<GreyByChart, std::string> greyByChart(const Patch& grey, const Vec3& grey_device, const Mat3& device_from_xyz, std::span<const ChartGrey> chart, const ColourMap& map,
                                                    bool own_data) {
  // The light: from the middle of the chart to the grey.
  Point middle;
  for (const ChartGrey& patch : chart) middle = {middle.x + patch.fit.at.x / static_cast<double>(chart.size()), middle.y + patch.fit.at.y / static_cast<double>(chart.size())};
  const Sloped on_chart = slopeOf(chart, map), on_grey = slopeOf(grey, stretchAt(map, grey_device));
  const Slope way{grey.centre.x - middle.x, grey.centre.y - middle.y};
  double change = 0, variance = kPlace * kPlace;
  const auto along = [](const Slope& slope, const Slope& path) { return slope[0] * path[0] + slope[1] * path[1]; };
  const auto noise = [&](const Sloped& s) { return std::pow(s.sd[0] * way[0], 2) + std::pow(s.sd[1] * way[1], 2); };
  if (on_chart.known) {
    change = along(on_chart.at, way);
    const double prior = 2 * kCourse * kCourse;
    const double apart = on_grey.known ? noise(on_grey) + noise(on_chart) : 1e9;
    const double trust = prior / (prior + apart);
    if (on_grey.known) change += 0.5 * trust * (along(on_grey.at, way) - along(on_chart.at, way));
    variance += noise(on_chart) + 0.25 * prior * (1 - trust);
  } else {
    variance += std::pow(kCourse * 2, 2);
  }

  std::vector<Anchor> anchors;
  double mean_light = 0;
  for (const ChartGrey& patch : chart) {
    if (!patch.fit.neutral || patch.fit.spoilt || patch.fit.clipped > kGreyClipped) continue;
    const Xyz<D50> fitted = map.apply(patch.fit.device);
    if (!(fitted.Y > 1e-4)) continue;
    const double lit = change + (on_chart.known ? along(on_chart.at, {middle.x - patch.fit.at.x, middle.y - patch.fit.at.y}) : 0);
    const Vec3 off = logSharp(toXyz(patch.fit.reference)) - logSharp(fitted) - Vec3{lit, lit, lit};
    anchors.push_back({std::log(fitted.Y), off});
    mean_light += lit;
  }
  if (anchors.size() < 3) return std::unexpected("fewer than three of the chart's greys can be used, and a grey patch is measured against those");
  std::ranges::sort(anchors, {}, &Anchor::log_y);
  for (std::size_t i = 1; i < anchors.size(); ++i)
    if (anchors[i].log_y - anchors[i - 1].log_y < 1e-3) return std::unexpected("two of the chart's greys look alike in the photo");

  const Xyz<D50> raw = map.apply(grey_device);
  const double log_y = std::log(std::max(raw.Y, 1e-6));
  const Vec3 seen = logSharp(raw), found = seen + between(anchors, log_y, anchors.size());
  const Vec3 sharp{std::exp(found[0]), std::exp(found[1]), std::exp(found[2])};
  const Vec3 xyz_vec = inverse(kBradford) * sharp;
  const Xyz<D50> xyz{xyz_vec[0], xyz_vec[1], xyz_vec[2]};

  // Covariance of the logs. A chart grey is told by neighbours twice as far apart, and misses by its own fault as well: two thirds of that is the grey's.
  Mat3 c{};
  double count = 0;
  for (std::size_t i = 0; i < anchors.size(); ++i) {
    if (anchors.size() > 3 && (i == 0 || i + 1 == anchors.size())) continue;  // the ends are told by one side alone
    const Vec3 miss = anchors[i].off - between(anchors, anchors[i].log_y, i);
    c = c + outer(miss, miss);
    ++count;
  }
  c = (2.0 / 3.0 / std::max(count, 1.0)) * c;
  const double level = own_data ? kOwnLevel : kCopyLevel, tint = own_data ? kOwnTint : kCopyTint;
  const Vec3 ones{1, 1, 1};
  c = c + (variance + level * level) * outer(ones, ones);
  const Vec3 white = logSharp(Xyz<D50>{kWhite<D50>[0], 1, kWhite<D50>[2]});
  for (std::size_t k = 0; k < 3; ++k) {
    const double body = kChartBody * (found[k] - white[k] - (found[1] - white[1]));
    c(k, k) += kLeast * kLeast + tint * tint + kDrift * kDrift + body * body;
  }
  const Mat3 to_log = Mat3::diagonal({1 / std::exp(seen[0]), 1 / std::exp(seen[1]), 1 / std::exp(seen[2])}) * kBradford * map.derivative(grey_device) * device_from_xyz;
  c = c + to_log * grey.of_mean * transpose(to_log);

  GreyByChart out;
  out.lab = toLab(xyz);
  const Mat3 to_lab = labByXyz(xyz) * xyzByLogGain(xyz_vec);
  const Mat3 of_lab = to_lab * c * transpose(to_lab);
  for (std::size_t k = 0; k < 3; ++k) out.lab_sd[k] = std::sqrt(std::max(of_lab(k, k), 0.0));
  out.light = mean_light / static_cast<double>(anchors.size());
  out.light_sd = std::sqrt(variance);
  return out;
}

}  // namespace huewright
