#include "camera/profile_health.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <map>

#include "camera/robust.hpp"

namespace huewright {
namespace {

// Judgement, see the header.
constexpr double kGood = 2.5, kUsable = 6, kNoisy = 0.01, kUnevenFit = 0.04;
constexpr std::size_t kMany = 18;
constexpr double kStandsOut = 2.5;    // times the median, for a patch to be named
constexpr double kNotBad = 3.0;       // ΔE00: below nobody is named
constexpr double kDarkestLit = 0.02;  // luminance factor below which brightness says nothing of the light

std::string decimal(double value, int decimals) {
  char text[32];
  std::snprintf(text, sizeof text, "%.*f", decimals, value);
  return text;
}

std::string joined(const std::vector<std::string>& names) {
  std::string all;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) all += i + 1 == names.size() ? " and " : ", ";
    all += names[i];
  }
  return all;
}

/// The largest change of brightness across one photo's chart.
void judgeUnevenness(const ProfileFit& fit, ProfileHealth& out) {
  for (std::size_t p = 0; p < fit.photos.size(); ++p) {
    std::vector<Spot> spots;
    double left = 1e300, right = -1e300, top = 1e300, bottom = -1e300;
    for (const FittedPatch& patch : fit.patches) {
      const double want = toXyz(patch.reference).Y, have = toXyz(patch.fitted).Y;
      if (patch.photo != p || !patch.used || want < kDarkestLit || have <= 0) continue;
      spots.push_back({patch.at.x, patch.at.y, std::log(have / want) + patch.light, 1});
      left = std::min(left, patch.at.x);
      right = std::max(right, patch.at.x);
      top = std::min(top, patch.at.y);
      bottom = std::max(bottom, patch.at.y);
    }
    if (spots.size() < 6 || !(right > left) || !(bottom > top)) continue;
    const Plane plane = robustPlane(spots).first;
    const double size = std::hypot(plane.along_x * (right - left), plane.along_y * (bottom - top));
    if (size <= out.unevenness) continue;
    out.unevenness = size;
    out.unevenness_sd = std::hypot(plane.sd_x * (right - left), plane.sd_y * (bottom - top));
  }
}

void lightOf(const ProfileFit& fit, const HealthContext& context, ProfileHealth& out) {
  if (context.locus == nullptr || out.health == Health::NotUsable) return;
  const ColourMap& map = *fit.profile.map;
  if (map.device != DeviceKind::CameraRgb) {
    out.sentences.push_back("The white balance is already applied in this picture, so the light's colour temperature cannot be told from it; a raw file tells it.");
    return;
  }
  if (!context.native) {
    out.sentences.push_back("The raw file holds no colour matrix of its camera, so the light's colour temperature cannot be told from it.");
    return;
  }
  std::vector<Lab<D50>> chart;
  for (const FittedPatch& p : fit.patches)
    if (p.used && !p.neutral && p.photo == 0) chart.push_back(p.reference);
  const auto light = lightColour(map, *context.native, chart, *context.locus);
  if (light) out.light = *light;
  out.sentences.push_back(lightSentence(light));
}

}  // namespace

ProfileHealth profileHealth(const ProfileFit& fit, const HealthContext& context) {
  ProfileHealth out;
  // A patch that several photos show counts by its mean.
  std::map<std::string, std::pair<double, double>> by_name;
  std::vector<double> noise;
  for (const FittedPatch& p : fit.patches) {
    if (p.used) {
      noise.push_back(p.noise);
      auto& [sum, count] = by_name[p.name];
      sum += p.loo_de00;
      ++count;
    }
  }
  for (const FittedPatch& p : fit.patches)
    if (!by_name.contains(p.name) && std::ranges::find(out.left_out, p.name) == out.left_out.end()) out.left_out.push_back(p.name);
  std::vector<std::pair<double, std::string>> errors;
  std::vector<double> plain;
  for (const auto& [name, sum] : by_name) {
    errors.emplace_back(sum.first / sum.second, name);
    plain.push_back(errors.back().first);
  }
  if (errors.empty()) {
    out.sentences.push_back("The profile is not usable: no patch of the chart could be read.");
    return out;
  }
  out.noise = medianOf(noise);
  const double usual = medianOf(plain);
  std::ranges::sort(errors, std::greater{});
  for (const auto& [error, name] : errors)
    if (out.worst.size() < 3 && error > kNotBad && error > kStandsOut * usual) out.worst.push_back(name);
  judgeUnevenness(fit, out);
  const bool uneven = out.unevenness > kUnevenFit && out.unevenness > 3 * out.unevenness_sd;

  const bool flawed = !out.left_out.empty() || out.noise > kNoisy || uneven || fit.used < kMany;
  out.health = fit.loo_de00 > kUsable ? Health::NotUsable : fit.loo_de00 > kGood || flawed ? Health::Usable : Health::Good;
  const std::string error = "colours come out " + decimal(fit.loo_de00, 1) + " ΔE00 off on average, " + decimal(fit.worst_loo_de00, 1) + " at worst";
  switch (out.health) {
    case Health::Good: out.sentences.push_back("The profile is good: " + error + "."); break;
    case Health::Usable: out.sentences.push_back("The profile is usable: " + error + "."); break;
    case Health::NotUsable:
      out.sentences.push_back("The profile is not usable: " + error +
                              ". Check that the chart is the one that was named and lies the right way round, in even light without glare, and "
                              "photograph again, as raw if the camera can.");
      break;
  }
  const bool raw = fit.profile.map->device == DeviceKind::CameraRgb;
  switch (fit.ramp.shape) {
    case RampShape::LinearStored:
    case RampShape::SrgbStored:
    case RampShape::Toned:
      if (raw)
        out.sentences.push_back("The greys of this raw file do not follow the light. Check the chart's grey row for glare and shadow.");
      else if (fit.ramp.shape == RampShape::LinearStored && !context.linear)
        out.sentences.push_back("The file holds values proportional to light although it was read as sRGB. Open it with --encoding linear.");
      else if (fit.ramp.shape == RampShape::SrgbStored && context.linear)
        out.sentences.push_back("The file holds sRGB values although it was read as linear. Open it with --encoding srgb.");
      else
        out.sentences.push_back("The camera's tone curve was straightened by the greys, to " + decimal(100 * fit.ramp.rms_after, 1) + " %.");
      break;
    case RampShape::Unknown:
      out.sentences.push_back("Too few grey patches could be read to check the camera's tone curve.");
      break;
    case RampShape::Straight: break;
  }
  if (!out.worst.empty())
    out.sentences.push_back((out.worst.size() == 1 ? "This patch stands out: " : "These patches stand out: ") + joined(out.worst) +
                            ". Check for glare, dirt and shadow there, and that the chart's data belong to this chart.");
  if (!out.left_out.empty())
    out.sentences.push_back("Left out, because burnt out, black, in glare or covered: " + joined(out.left_out) +
                            ". Change the exposure or move the lamp, and photograph again.");
  if (out.noise > kNoisy)
    out.sentences.push_back("The patches are noisy, " + decimal(100 * out.noise, 1) +
                            " %. Give more light or a lower sensitivity, or bring the chart nearer.");
  if (uneven)
    out.sentences.push_back("The light falls off by about " + decimal(100 * out.unevenness, 0) +
                            " % over the chart. Move the lamp farther away or the chart to its middle.");
  if (fit.used < kMany)
    out.sentences.push_back("Only " + std::to_string(fit.used) +
                            " patches took part. A chart with more colours, all of them readable, is more reliable.");
  for (const PhotoFit& p : fit.photos)
    if (std::ranges::max(p.veil) > 0) {
      const double part = 100 * p.veil[1] * p.balance[1];
      out.sentences.push_back("A veil of " + decimal(part, 1) +
                            " % of white lies over the chart and was taken off. Keep windows and lamps out of the mirror's way.");
      break;
    }
  lightOf(fit, context, out);
  return out;
}

}  // namespace huewright
