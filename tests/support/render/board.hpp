// The chart on the canvas.
#pragma once

#include "render/canvas.hpp"

namespace huewright::render {

/// The chart must have its place, height included.
Quad boardQuad(const ChartSpec& chart, const Perspective& perspective);
ChartTruth paintChart(Canvas& canvas, const Eye& eye, const SceneSpec& scene, const Perspective& perspective, std::uint64_t seed);

}  // namespace huewright::render
