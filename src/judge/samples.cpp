#include "judge/samples.hpp"

#include <algorithm>

#include "photo/device.hpp"

namespace huewright {
namespace {

constexpr double kAllMasked = 0.92;

Rect insidePicture(const Quad& quad, Size size) {
  Rect box = boundingBox(quad);
  const int right = std::clamp(box.x + box.width, 1, size.width), bottom = std::clamp(box.y + box.height, 1, size.height);
  box.x = std::clamp(box.x, 0, right - 1);
  box.y = std::clamp(box.y, 0, bottom - 1);
  return {box.x, box.y, right - box.x, bottom - box.y};
}

}  // namespace

Result<Samples> samplePhoto(Photo& photo, const Scene& scene) {
  const Regions& r = scene.regions;
  Samples samples;
  for (std::size_t i = 0; i < r.panels.size(); ++i) samples.coloured.push_back({{}, r.panels[i], scene.nameOfPanel(i)});
  if (r.card) samples.coloured.push_back({{}, *r.card, "the card"});
  for (std::size_t i = 0; i < r.greys.size(); ++i) samples.greys.push_back({{}, r.greys[i], greyName(i, r.greys.size())});
  if (r.black) samples.black = Named{{}, *r.black, "the black chip"};
  std::vector<Named*> regions;
  for (Named& named : samples.coloured) regions.push_back(&named);
  for (Named& named : samples.greys) regions.push_back(&named);
  if (samples.black) regions.push_back(&*samples.black);

  std::vector<Rect> rects;
  for (Named* region : regions) {
    region->quad = inset(region->quad, kInset);
    rects.push_back(insidePicture(region->quad, photo.size()));
  }
  for (const Quad& quad : scene.paper) rects.push_back(insidePicture(quad, photo.size()));
  for (const DotPlace& place : scene.dots) {
    rects.push_back(insidePicture(place.dot, photo.size()));
    for (const Quad& quad : place.paper) rects.push_back(insidePicture(quad, photo.size()));
  }
  auto rasters = xyzPixels(photo, rects);
  if (!rasters) return std::unexpected(rasters.error());

  std::size_t next = 0;
  for (Named* region : regions) {
    region->patch = sample((*rasters)[next], region->quad);
    (*rasters)[next++] = {};  // a large region's pixels are no longer needed
    if (region->patch.pixels == 0) return fail(Code::RegionTooSmall, "The region of " + region->name + " holds no pixel");
    if (region->patch.masked > kAllMasked) return fail(Code::RegionAllMasked, region->name);
  }
  for (const Quad& quad : scene.paper)
    if (const auto spot = paperSpot((*rasters)[next++], quad)) samples.paper.push_back(*spot);
  for (const DotPlace& place : scene.dots) {
    const auto dot = paperSpot((*rasters)[next++], place.dot);
    DotSpot spot{dot.value_or(PaperSpot{}), {}};
    for (const Quad& quad : place.paper)
      if (const auto paper = paperSpot((*rasters)[next++], quad)) spot.paper.push_back(*paper);
    if (dot && !spot.paper.empty()) samples.dots.push_back(std::move(spot));
  }
  return samples;
}

}  // namespace huewright
