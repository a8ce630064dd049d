// Square fiducial markers in a grey picture: each one's corners, and whether it was seen in a mirror.
#pragma once

#include <array>
#include <span>
#include <vector>

#include "photo/geometry.hpp"
#include "scene/grey_view.hpp"
#include "scene/mat_layout.hpp"

namespace huewright {

struct SeenMarker {
  int id = 0;
  std::array<Point, 4> corners{};  ///< of the border's outside: the marker's own top left first, then clockwise on paper; pixels
  bool mirrored = false;           ///< its cells are those of the marker in a mirror; the corners then run the other way round
  bool rough = false;              ///< the edges could not be followed: corners are good to about a pixel
};

enum class SearchEffort { Quick, Thorough };  ///< thorough: also small and faint markers, at twice the time

/// All markers of the list in the picture, in the order of the list, then by their place. Each has been checked against its own pattern (marksAgree).
/// Corners: as cornersByEdges, or rough ones by OpenCV's cornerSubPix.
std::vector<SeenMarker> searchMarkers(const GreyView& picture, std::span<const MatMarker> wanted, SearchEffort effort);

/// True when the picture shows the marker's pattern between the corners: wherever a white cell, or the white paper round the border, lies
/// beside a black cell, it is clearly the lighter of the two. Only neighbours are compared, so that a shadow across the marker
/// does no harm; up to a tenth of the comparisons may fail (a glint, a finger on the paper).
bool marksAgree(const GreyView& picture, const SeenMarker& seen, const MatMarker& marker);

}  // namespace huewright
