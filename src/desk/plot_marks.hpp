// Marks of readings, told apart by shape: in the plot and in its key.
#pragma once

#include <cstdint>

#include "desk/plot.hpp"

struct ImDrawList;

namespace huewright::desk {

/// In: the middle, screen pixels; fill packed as ink(). The outline has the type's grey; a chosen one has a second outline round it.
void drawMark(ImDrawList* list, Mark mark, float x, float y, std::uint32_t fill, bool selected, const Look& look);

}  // namespace huewright::desk
