// Finds printed tags in a photo and reads them.
#pragma once

#include <vector>

#include "base/problem.hpp"
#include "photo/geometry.hpp"
#include "photo/photo.hpp"
#include "scene/tag_text.hpp"

namespace huewright {

struct SeenTag {
  TagText text;
  Quad place;                ///< outside of the black frame, full-size pixels; the tag's own top left corner first, then clockwise
  std::size_t mended = 0;    ///< of 40 bytes, that were spoilt and worked out again
};

struct TagSearch {
  std::vector<SeenTag> tags;   ///< from the top of the picture down
  std::vector<Quad> unread;    ///< have a tag's frames and cells, and cannot be read
};

/// The smallest side, in pixels of the preview, of a tag's black frame that is read: 2.5 pixels a cell.
inline constexpr double kSmallestTag = 55;

/// In any turn and tilted to 35°, with blur up to a standard deviation of a third of a cell. In: a preview of about 1500 pixels. Finds nothing in a picture under 64 pixels.
/// Errors: Internal, OutOfMemory.
Result<TagSearch> findTags(const Preview& preview);

}  // namespace huewright
