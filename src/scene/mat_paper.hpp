// Where the mat's blank paper and grey dots lie in a photo, and whether the sheet was printed to scale.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "photo/photo.hpp"
#include "scene/mat_finder.hpp"
#include "scene/scene.hpp"
#include "scene/window_state.hpp"

namespace huewright {

/// Small quads of blank paper, full-size pixels, clockwise, inside the picture: between and round the windows and markers, well clear of ink,
/// dots, ticks, labels and the shadows that things in windows throw; inside empty windows too. None inside windows that may be filled, nor
/// in the aperture. Some 2.5 to 5 mm wide, 80 to 200 on a whole page. In: one state for each window of the layout; one that is left out counts
/// as unsure.
std::vector<Quad> blankPaper(const FoundMat& mat, std::span<const WindowState> windows, Size picture);

/// The grey dots that are inside the picture.
/// Dots that lie inside the picture with two pieces of paper at least.
std::vector<DotPlace> dotPlaces(const FoundMat& mat, Size picture);

/// How large the sheet was printed, from the distances between the paper's own edges.
struct PrintScale {
  double along_width = 1, along_height = 1;  ///< printed length over the layout's
  double sd = 0.005;                          ///< of each, with what a lens, a curled sheet and the paper's cut add
};
/// Only for sheets that take up the whole page; nothing where one of the paper's edges is not in the picture or does not stand out from what the
/// sheet lies on. In: the preview in which the mat was found; layouts whose papers may have been used instead of the sheet's own (a letter sheet
/// on A4 paper): of all papers that one counts on which both scales come out most nearly alike, for printers scale both ways alike. Nothing
/// when they differ by more than 2 % on every paper: then what was seen is not the edges of such paper. Range: 0.94 to 1.06 where the sheet
/// stands in the middle of its page.
std::optional<PrintScale> printScale(const Preview& preview, const FoundMat& mat, std::span<const MatLayout> layouts = {});

}  // namespace huewright
