// The two parts of chart_figures. Both print tables.
#pragma once

#include <cstdint>

#include "render/scene.hpp"

namespace huewright::figures {

/// So many photos with a chart, and as many without one. In: the shops that take turns by chance.
void chartFinder(int trials, std::uint64_t seed, const render::ShopOptions& shops);

/// Photos with a chart, panel, card and grey, so many for each kind of file and true distance.
/// In: where a csv of all trials is to go, or nothing.
void chartColour(int trials, std::uint64_t seed, const render::ShopOptions& shops, const char* csv);

}  // namespace huewright::figures
