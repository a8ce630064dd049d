// The checked-in data, and the chart that many tests read from it.
#pragma once

#include <filesystem>
#include <vector>

#include "colour/chart_reference.hpp"
#include "support/chart_picture.hpp"

namespace huewright::fixtures {

inline const std::filesystem::path kCalib = HUEWRIGHT_SOURCE_DIR "/calib";

/// The published colours of the 24-patch chart.
inline const ChartReference& publishedChart() {
  static const ChartReference kChart = readChart24(kCalib).value();
  return kChart;
}

/// The same as light.
inline const std::vector<Vec3>& publishedLight() {
  static const auto kLight = chartLight(publishedChart());
  return kLight;
}

}  // namespace huewright::fixtures
