// Chart and paints as a simulated camera sees them.
#pragma once

#include <string>
#include <vector>

#include "camera/profile_fit.hpp"
#include "colour/chart_reference.hpp"
#include "render/camera.hpp"
#include "render/paint.hpp"
#include "render/random.hpp"
#include "render/spectra.hpp"

namespace huewright::sim {

inline const std::vector<std::string>& lights() {
  static const std::vector<std::string> all{"D65", "D50", "A", "FL2", "FL11", "LED-B1", "LED-B3", "LED-B5", "LED-V1", "ID65"};
  return all;
}

inline render::Sensor sensor(char camera = 'a', const std::string& light = "D65") { return {camera, render::illuminant(light)}; }

/// Names and neutrals of the chart as stored; reflectances as the renderer has them.
inline const ChartReference& chart() {
  static const ChartReference reference = readChart24(render::calibFolder()).value();
  return reference;
}

using Photos = std::vector<std::vector<FitPatch>>;

inline Lab<D50> chartLab(std::size_t i) { return render::labUnderD50(render::chart24()[i]); }

/// Camera values of the chart's patches, unbalanced; exposure: of a white diffuser's green. noise: relative standard deviation of the means.
inline std::vector<FitPatch> chartPatches(const render::Sensor& sensor, double exposure = 0.6, double noise = 0, std::uint64_t seed = 1) {
  render::Random random(seed);
  std::vector<FitPatch> out;
  for (std::size_t i = 0; i < render::chart24().size(); ++i) {
    FitPatch p;
    p.name = chart().patches[i].name;
    p.device = exposure * sensor.raw(render::chart24()[i]);
    for (std::size_t c = 0; c < 3; ++c) {
      const double sd = noise * p.device[c];
      p.of_mean(c, c) = sd * sd;
      p.device[c] += sd * random.normal();
    }
    p.reference = chartLab(i);
    p.neutral = i >= 18;
    p.at = {100.0 * static_cast<double>(i % 6), 100.0 * static_cast<double>(i / 6)};
    out.push_back(p);
  }
  return out;
}

}  // namespace huewright::sim
