#include "judge/frame_noise.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include "camera/patch.hpp"
#include "colour/delta_e.hpp"
#include "colour/rgb.hpp"

namespace huewright {
namespace {

constexpr std::size_t kLately = 24;      // frames
constexpr std::size_t kFewestFrames = 4;
constexpr double kMostAlike = 0.8;       // of the correlation of neighbours that is believed; judgement

const std::array<double, 256>& lightOfCodes(bool linear) {
  static const auto kLights = [] {
    std::array<std::array<double, 256>, 2> lights{};
    for (std::size_t i = 0; i < 256; ++i) {
      lights[0][i] = srgbToLinear(static_cast<double>(i) / 255);
      lights[1][i] = static_cast<double>(i) / 255;
    }
    return lights;
  }();
  return kLights[linear ? 1 : 0];
}

/// The pixels of a row whose middles lie in a convex quad: the first, and the one after the last.
std::pair<int, int> columnsIn(const Quad& quad, int y, int width) {
  const double middle = y + 0.5;
  double first = width, end = 0;
  for (std::size_t i = 0; i < 4; ++i) {
    const Point a = quad.corners[i], b = quad.corners[(i + 1) % 4];
    if ((a.y <= middle) == (b.y <= middle)) continue;
    const double x = a.x + (middle - a.y) / (b.y - a.y) * (b.x - a.x);
    first = std::min(first, x);
    end = std::max(end, x);
  }
  return {static_cast<int>(std::clamp(std::ceil(first - 0.5), 0.0, static_cast<double>(width))), static_cast<int>(std::clamp(std::ceil(end - 0.5), 0.0, static_cast<double>(width)))};
}

Vec3 meanIn(std::span<const std::uint8_t> rgb, Size size, const Quad& region, bool linear) {
  const Quad quad = inset(region, kInset);
  const auto& light = lightOfCodes(linear);
  const Rect box = boundingBox(quad);
  Vec3 sum{};
  double count = 0;
  for (int y = std::max(0, box.y); y < std::min(size.height, box.y + box.height); ++y) {
    const auto [first, end] = columnsIn(quad, y, size.width);
    const std::uint8_t* row = rgb.data() + std::size_t{3} * static_cast<std::size_t>(size.width) * static_cast<std::size_t>(y);
    double r = 0, g = 0, b = 0;
    for (int x = first; x < end; ++x) r += light[row[3 * x]], g += light[row[3 * x + 1]], b += light[row[3 * x + 2]];
    sum = sum + Vec3{r, g, b};
    count += std::max(0, end - first);
  }
  return count > 0 ? kSrgbToXyzD50 * ((1 / count) * sum) : Vec3{};
}

Vec3 relative(const Vec3& value, const Vec3& mean) {
  Vec3 out{};
  for (std::size_t k = 0; k < 3; ++k) out[k] = mean[k] > 1e-6 ? value[k] / mean[k] - 1 : 0;
  return out;
}

/// What a relative change of the light of each colour does to the Labs of a reading.
Influence influenceOf(const std::vector<Vec3>& departure, const Reading& reading, double scale) {
  Influence influence{Part::Scatter, std::vector<Vec3>(reading.panels.size() + 1), Renewal::Photo};
  for (std::size_t i = 0; i < departure.size() && i < influence.on_lab.size(); ++i) {
    const ColourReading& colour = i < reading.panels.size() ? reading.panels[i] : reading.card;
    const Vec3 xyz = toVec(colour.xyz);
    influence.on_lab[i] = labByXyz(colour.xyz) * (scale * Vec3{departure[i][0] * xyz[0], departure[i][1] * xyz[1], departure[i][2] * xyz[2]});
  }
  return influence;
}

}  // namespace

FrameMeans frameMeans(std::span<const std::uint8_t> rgb, Size size, const Regions& regions, Encoding encoding) {
  const bool linear = encoding == Encoding::Linear;
  FrameMeans means;
  for (const Quad& panel : regions.panels) means.colours.push_back(meanIn(rgb, size, panel, linear));
  if (regions.card) means.colours.push_back(meanIn(rgb, size, *regions.card, linear));
  for (const Quad& grey : regions.greys) means.grey = means.grey.value_or(Vec3{}) + (1.0 / static_cast<double>(regions.greys.size())) * meanIn(rgb, size, grey, linear);
  return means;
}

void FrameNoise::add(const FrameMeans& means) {
  lately_.push_back(means);
  if (lately_.size() > kLately) lately_.pop_front();
}

std::vector<std::vector<Vec3>> FrameNoise::departures() const {
  const double share = 1.0 / static_cast<double>(lately_.size());
  std::vector<Vec3> mean(lately_.front().colours.size());
  Vec3 grey{};
  for (const FrameMeans& frame : lately_) {
    for (std::size_t i = 0; i < mean.size(); ++i) mean[i] = mean[i] + share * frame.colours[i];
    grey = grey + share * frame.grey.value_or(Vec3{});
  }
  std::vector<std::vector<Vec3>> all;
  for (const FrameMeans& frame : lately_) {
    std::vector<Vec3> departure;
    const Vec3 common = relative(frame.grey.value_or(Vec3{}), grey);
    for (std::size_t i = 0; i < mean.size(); ++i) departure.push_back(relative(frame.colours[i], mean[i]) - common);
    all.push_back(std::move(departure));
  }
  return all;
}

double FrameNoise::alike() const {
  if (lately_.size() < kFewestFrames) return 0;
  const auto all = departures();
  double square = 0, product = 0;
  for (std::size_t f = 0; f < all.size(); ++f)
    for (std::size_t i = 0; i < all[f].size(); ++i) {
      square += dot(all[f][i], all[f][i]);
      if (f > 0) product += dot(all[f][i], all[f - 1][i]);
    }
  // Taking the mean off makes neighbours look less alike by 1 ÷ n. What chance alone makes of frames that have nothing to do with each other is not believed:
  // two standard deviations, 1 ÷ √(n m) with m colours, whose channels go together.
  const double n = static_cast<double>(all.size()), m = static_cast<double>(all.front().size());
  return square > 0 ? std::clamp(product / square * n / (n - 1) + 1 / n - 2 / std::sqrt(n * m), 0.0, kMostAlike) : 0;
}

std::optional<FrameNoise::Departure> FrameNoise::departure(const FrameMeans& means) const {
  if (lately_.size() < kFewestFrames || means.colours.size() != lately_.front().colours.size()) return {};
  const double n = static_cast<double>(lately_.size());
  Departure most;
  const auto look = [&](const auto& of) {  // one colour in every frame
    Vec3 mean{}, square{};
    for (const FrameMeans& frame : lately_) mean = mean + (1 / n) * of(frame);
    for (const FrameMeans& frame : lately_)
      for (std::size_t k = 0; k < 3; ++k) square[k] += (of(frame)[k] - mean[k]) * (of(frame)[k] - mean[k]) / (n - 1);
    for (std::size_t k = 0; k < 3; ++k) {
      const double off = std::abs(of(means)[k] - mean[k]);
      most.relative = std::max(most.relative, off / std::max(mean[k], 0.01));
      most.sds = std::max(most.sds, off / std::max(std::sqrt(square[k]), 1e-9));
    }
  };
  for (std::size_t i = 0; i < means.colours.size(); ++i) look([i](const FrameMeans& frame) { return frame.colours[i]; });
  if (means.grey) look([](const FrameMeans& frame) { return frame.grey.value_or(Vec3{}); });
  return most;
}

void FrameNoise::put(Reading& reading, double averaged, std::optional<double> alike_told) const {
  if (lately_.size() < kFewestFrames || !(averaged > 0)) return;
  const auto all = departures();
  const double r = alike_told.value_or(alike());
  const double scale = std::sqrt((1 + r) / ((1 - r) * (static_cast<double>(all.size()) - 1) * averaged));
  for (const auto& departure : all) reading.influences.push_back(influenceOf(departure, reading, scale));
  refreshDeviations(reading);
}

std::optional<double> FrameNoise::ofOneFrame(const Reading& reading, std::size_t panel) const {
  if (lately_.size() < kFewestFrames) return {};
  const auto all = departures();
  const DeltaVector u = deltaVector(reading.panels[panel].lab, reading.card.lab);
  double square = 0;
  for (const auto& departure : all) {
    const Influence influence = influenceOf(departure, reading, 1);
    const Vec3 shift = u.by_panel * influence.on_lab[panel] + u.by_card * influence.on_lab.back();
    square += dot(shift, shift);
  }
  return std::sqrt(square / (static_cast<double>(all.size()) - 1));
}

}  // namespace huewright
