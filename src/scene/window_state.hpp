// Whether something lies in a window of the mat.
#pragma once

#include "photo/photo.hpp"
#include "scene/mat_finder.hpp"

namespace huewright {

enum class WindowState { Empty, Filled, Unsure };

/// How a window's inside differs from the blank paper round it.
struct WindowContrast {
  double difference = 0;    ///< CIELAB ΔE*ab of the inside's mean from the paper round it, the paper counting as white
  double beyond_shade = 0;  ///< the same from paper of whatever brightness is found round it: smaller where a shadow's edge crosses the window
  double texture = 0;       ///< root mean square of the first of the inside's blocks from their mean
};

/// In: the window of that index in the mat's layout. The paper's light is taken from the ring close round the window, side by side, so that
/// it may change across the sheet; a side on which something lies over the ring is left out.
WindowContrast windowContrast(const Preview& preview, const FoundMat& mat, std::size_t window);

/// Empty: like the paper in colour, and flat. Filled: clearly another colour, whatever the shadows. Unsure between the two: a white card, an empty
/// window with a shadow's edge in it, a grey that could be one.
WindowState windowState(const Preview& preview, const FoundMat& mat, std::size_t window);

/// The part of a filled window, in the sheet's millimetres, that the thing in it takes up: things are laid a little askew, or are smaller. Rows and
/// columns of blank paper at the window's edges, shaded or not, are left out, up to some 5 mm from each side, and a millimetre more; what is as
/// colourless and light as paper all over loses that millimetre only.
MatRect windowContents(const Preview& preview, const FoundMat& mat, std::size_t window);

}  // namespace huewright
