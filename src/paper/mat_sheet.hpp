// The mat as a page to print.
#pragma once

#include <string>
#include <vector>

#include "paper/pen.hpp"
#include "scene/mat_layout.hpp"

namespace huewright {

/// One page of the paper's size, vectors only, no date: the same bytes every time on a machine with the same fonts.
/// Errors: Internal, OutOfMemory.
Result<std::string> matPdf(const MatLayout& layout);

/// The same page as a picture, for previews and tests. In: dpi, dots an inch, 20 … 1200. Errors: Internal, OutOfMemory.
Result<DrawnPicture> matPicture(const MatLayout& layout, double dpi);

/// Corners of the ink of every line of type, mm from the sheet's top left: for the tests.
std::vector<Quad> matTypeBoxes(const MatLayout& layout);

}  // namespace huewright
