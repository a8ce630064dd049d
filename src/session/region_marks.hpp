// What a reading left out of each region, place by place.
#pragma once

#include <stop_token>
#include <string>
#include <vector>

#include "paper/map_picture.hpp"
#include "session/session.hpp"

namespace huewright {

struct RegionMarks {
  std::string name;              ///< "panel B", "3 coats", "card", "grey patch 2", "black chip"
  Quad quad;                     ///< as it was read: without the rim that is cut off each outline (kInset); full-size pixels
  Size size;                     ///< of the upright grid over the quad, at most 300 pixels a side
  std::vector<MapPart> parts;    ///< row by row: Shown was read, Clipped was read and is at an end of its range, the rest was left out
  double glare = 0, shadow = 0;  ///< shares of the region, 0..1
  double clipped = 0;            ///< share of what was read, 0..1
};

/// Every region of the request's first photo: panels (of a stepped one its strips), card, greys, black chip. Glare, shadows and dirt are masked once more, as for
/// the reading, and the shares are those that it had. In: the report that judge gave for this request. Errors: of Photo; Stopped; OutOfMemory.
Result<std::vector<RegionMarks>> regionMarks(const JudgeRequest& request, const JudgeReport& report, std::stop_token stop = {});

}  // namespace huewright
