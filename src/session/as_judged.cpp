#include "session/as_judged.hpp"

#include <cmath>

namespace huewright {

Result<Photo> openAsJudged(const JudgeRequest& request, const JudgeReport& report) {
  auto photo = Photo::open(request.photo, request.limits, request.encoding);
  if (!photo || report.photo.linear == photo->facts().linear) return photo;
  return Photo::open(request.photo, request.limits, Encoding::Linear);
}

Vec3 withoutVeil(const Reading& reading, const Vec3& photographed) {
  const Vec3 xyz = reading.map ? toVec(reading.map->apply(reading.device_from_xyz * photographed, reading.gain)) : photographed;
  return xyz - reading.veil_xyz;
}

Mat3 toEvenLight(const Reading& reading, Point place, std::optional<std::size_t> panel) {
  const double evened = panel && *panel < reading.evened.size() ? reading.evened[*panel] : 0;
  return std::exp(-evened) * reading.light.correction(place);
}

}  // namespace huewright
