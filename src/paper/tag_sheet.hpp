// Tags as a page to print, cut apart and stick by their panels.
#pragma once

#include <span>
#include <string>

#include "paper/pen.hpp"
#include "scene/tag_text.hpp"

namespace huewright {

struct TagPaper {
  double width = 210, height = 297;   ///< mm
  bool operator==(const TagPaper&) const = default;
};
inline constexpr TagPaper kTagA4{210, 297}, kTagLetter{215.9, 279.4};

inline constexpr double kTagSide = 28, kSmallestTagSide = 12, kLargestTagSide = 60;  ///< mm, of the black frame

/// How many tags of that side one page takes.
std::size_t tagsOnPage(const TagPaper& paper, double side);

/// Outside of the black frame of one tag, mm from the page's top left.
Quad tagPlace(const TagPaper& paper, double side, std::size_t index);

/// One page, vectors only, no date: the same bytes every time on a machine with the same fonts. In: 1 to tagsOnPage tags; side in mm, kSmallestTagSide to kLargestTagSide.
/// Errors: those of checkTag; Internal, OutOfMemory.
Result<std::string> tagPdf(std::span<const TagText> tags, const TagPaper& paper, double side);

/// The same page as a picture, for previews and tests. In: dpi, dots an inch, 20 … 1200. Errors: the same.
Result<DrawnPicture> tagPicture(std::span<const TagText> tags, const TagPaper& paper, double side, double dpi);

}  // namespace huewright
