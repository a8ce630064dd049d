#include "session/region_marks.hpp"

#include <algorithm>
#include <array>
#include <new>

#include "camera/patch.hpp"
#include "camera/upright.hpp"
#include "photo/device.hpp"
#include "session/as_judged.hpp"
#include "session/panel_map.hpp"

namespace huewright {
namespace {

constexpr int kMarksLongest = 300;

std::vector<RegionMarks> regionsToMark(const JudgeReport& report) {
  const Regions& r = report.regions;
  std::vector<RegionMarks> all;
  const auto add = [&](std::string name, const Quad& quad) { all.push_back({std::move(name), inset(quad, kInset), {}, {}}); };
  for (std::size_t i = 0; i < r.panels.size(); ++i) add(report.names[i], r.panels[i]);
  if (r.card) add("card", *r.card);
  for (std::size_t i = 0; i < r.greys.size(); ++i) add(r.greys.size() == 1 ? "grey patch" : greyName(i, r.greys.size()), r.greys[i]);
  if (r.black) add("black chip", *r.black);
  return all;
}

/// What became of a place of the photo. Blocks of which less than half lies in the region were not judged: they go with their neighbours.
Kept keptAt(const SampledBlocks& sampled, const Rect& rect, Point place) {
  const Grid& g = sampled.grid;
  const auto block = [&](double at, int first, int count) { return std::clamp(static_cast<int>((at - first) / g.side), 0, count - 1); };
  const int column = block(place.x, rect.x, g.columns), row = block(place.y, rect.y, g.rows);
  constexpr std::array<std::array<int, 2>, 9> kNear{{{0, 0}, {-1, 0}, {1, 0}, {0, -1}, {0, 1}, {-1, -1}, {1, -1}, {-1, 1}, {1, 1}}};
  for (const auto& [x, y] : kNear) {
    const int c = column + x, r = row + y;
    if (c < 0 || r < 0 || c >= g.columns || r >= g.rows) continue;
    const Kept kept = sampled.kept[static_cast<std::size_t>(r) * static_cast<std::size_t>(g.columns) + static_cast<std::size_t>(c)];
    if (kept != Kept::Outside) return kept;
  }
  return Kept::Yes;
}

void setMarks(const Raster& raster, RegionMarks& marks) {
  const SampledBlocks sampled = sampleBlocks(raster, marks.quad);
  marks.glare = sampled.patch.glare;
  marks.shadow = sampled.patch.shadow;
  marks.clipped = sampled.patch.clipped_top + sampled.patch.clipped_bottom;
  marks.size = uprightSize(marks.quad, kMarksLongest);
  const Raster upright = rectify(raster, marks.quad, marks.size);
  const std::vector<Point> places = uprightPlaces(marks.quad, marks.size);
  for (std::size_t i = 0; i < places.size(); ++i)
    marks.parts.push_back(mapPart(sampled.kept.empty() ? Kept::Yes : keptAt(sampled, raster.rect, places[i]), upright.clip[i]));
}

}  // namespace

Result<std::vector<RegionMarks>> regionMarks(const JudgeRequest& request, const JudgeReport& report, std::stop_token stop) try {
  auto photo = openAsJudged(request, report);
  if (!photo) return std::unexpected(photo.error());
  std::vector<RegionMarks> all = regionsToMark(report);
  std::vector<Rect> rects;
  for (const RegionMarks& marks : all) rects.push_back(insidePicture(boundingBox(marks.quad), photo->size()));
  auto rasters = xyzPixels(*photo, rects);
  if (!rasters) return std::unexpected(rasters.error());
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (stop.stop_requested()) return fail(Code::Stopped);
    setMarks((*rasters)[i], all[i]);
    (*rasters)[i] = {};  // a large region's pixels are no longer needed
  }
  return all;
} catch (const std::bad_alloc&) {
  return fail(Code::OutOfMemory, "this picture");
}

}  // namespace huewright
