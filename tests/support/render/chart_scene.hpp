// A chart alone on an untidy bench, to find it and to fit profiles on.
#pragma once

#include "render/scene.hpp"

namespace huewright::render {

struct ChartSceneOptions {
  Size size{1200, 800};
  /// The chart's longer side in the picture, from outer patch edge to outer patch edge, over the picture's width; less where it would not fit.
  double min_width = 0.12, max_width = 0.60;
  double max_tilt_deg = 35;          ///< of the camera to the plane, in any direction
  double max_turn_deg = 180;         ///< of the chart in the plane, either way
  int most_clutter = 14;             ///< sheets, cards, tools, rulers and rows of swatches; some partly under the chart
  double bright_frame_chance = 0.15;
  double mirrored_chance = 0;
  double cover_chance = 0;           ///< that something hides one to six patches at an edge or a corner
  double glare_chance = 0;
  double shadow_chance = 0;          ///< of a shadow whose edge crosses the chart
  double spread = 0;                 ///< ChartSpec::spread
  ShopOptions shop{};                ///< its max_tilt_deg does not matter
};

/// The same seed and options always give the same scene. The whole board lies in the picture.
SceneSpec chartScene(std::uint64_t seed, const ChartSceneOptions& options = {});

}  // namespace huewright::render
