#include "session/probe.hpp"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

#include "camera/upright.hpp"
#include "colour/rgb.hpp"
#include "photo/device.hpp"
#include "session/as_judged.hpp"

namespace huewright {
namespace {

/// Where so many pixels round one begin, so that all of them lie in the picture.
int firstOf(int pixel, int side, int length) { return std::clamp(pixel - side / 2, 0, length - side); }

Vec3 pixelAt(const Raster& raster, std::size_t i) { return {raster.xyz[3 * i], raster.xyz[3 * i + 1], raster.xyz[3 * i + 2]}; }

Lab<D50> labOfVec(const Vec3& xyz) { return toLab(Xyz<D50>{xyz[0], xyz[1], xyz[2]}); }

}  // namespace

Result<Probe> probe(Photo& photo, Point at, int side, const Reading* corrected_by, std::optional<std::size_t> panel) {
  const Size size = photo.size();
  if (!(at.x >= 0 && at.y >= 0 && at.x <= size.width && at.y <= size.height))
    return fail(Code::RegionOutside, fmt::format("The place {:.0f}, {:.0f} does not lie inside the picture, which is {} by {} pixels", at.x, at.y, size.width, size.height));
  Probe p;
  p.x = std::min(static_cast<int>(at.x), size.width - 1);  // the right and lower edges belong to the last pixels
  p.y = std::min(static_cast<int>(at.y), size.height - 1);
  const int across = std::clamp(side, 1, size.width), down = std::clamp(side, 1, size.height);
  p.around = {firstOf(p.x, across, size.width), firstOf(p.y, down, size.height), across, down};
  auto rasters = photo.pixels(std::span(&p.around, 1));
  if (!rasters) return std::unexpected(rasters.error());
  Raster& raster = rasters->front();
  const auto i = static_cast<std::size_t>(p.y - p.around.y) * static_cast<std::size_t>(across) + static_cast<std::size_t>(p.x - p.around.x);
  p.camera_rgb = photo.facts().camera_rgb;
  p.values = pixelAt(raster, i);
  makeXyz(raster, photo.facts());
  p.srgb = srgbCodes(raster);
  const Vec3 xyz = pixelAt(raster, i);
  p.linear_srgb = kXyzD50ToSrgb * xyz;
  p.lab = labOfVec(xyz);
  if (corrected_by) p.corrected = labOfVec(toEvenLight(*corrected_by, {p.x + 0.5, p.y + 0.5}, panel) * withoutVeil(*corrected_by, xyz));
  p.clip = std::move(raster.clip);
  p.clipped_top = (p.clip[i] & 0x07) != 0;
  p.clipped_bottom = (p.clip[i] & 0x38) != 0;
  return p;
}

}  // namespace huewright
