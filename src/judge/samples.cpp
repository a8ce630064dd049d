#include "judge/samples.hpp"

#include <algorithm>

#include "photo/device.hpp"

namespace huewright {
namespace {

constexpr double kAllMasked = 0.92;

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
    rects.push_back(insidePicture(boundingBox(region->quad), photo.size()));
  }
  for (const Quad& quad : scene.paper) rects.push_back(insidePicture(boundingBox(quad), photo.size()));
  for (const DotPlace& place : scene.dots) {
    rects.push_back(insidePicture(boundingBox(place.dot), photo.size()));
    for (const Quad& quad : place.paper) rects.push_back(insidePicture(boundingBox(quad), photo.size()));
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
