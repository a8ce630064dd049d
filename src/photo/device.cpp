#include "photo/device.hpp"

#include "colour/rgb.hpp"

namespace huewright {

Mat3 deviceToXyz(const PhotoFacts& facts) {
  if (!facts.camera_rgb) return kSrgbToXyzD50;
  return facts.builtin.value_or(kSrgbToXyzD50) * Mat3::diagonal(facts.balance.value_or(Vec3{1, 1, 1}));
}

void makeXyz(Raster& raster, const PhotoFacts& facts) {
  if (!facts.camera_rgb) return;
  const Mat3 m = deviceToXyz(facts);
  for (std::size_t i = 0; i + 2 < raster.xyz.size(); i += 3) {
    const Vec3 xyz = m * Vec3{raster.xyz[i], raster.xyz[i + 1], raster.xyz[i + 2]};
    for (std::size_t k = 0; k < 3; ++k) raster.xyz[i + k] = static_cast<float>(xyz[k]);
  }
}

Result<std::vector<Raster>> xyzPixels(Photo& photo, std::span<const Rect> rects) {
  auto rasters = photo.pixels(rects);
  if (!rasters) return rasters;
  for (Raster& raster : *rasters) makeXyz(raster, photo.facts());
  return rasters;
}

}  // namespace huewright
