#include "render/lamp.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace huewright::render {

LightField::LightField(const Lamp& lamp, Size size, const std::optional<CastShadow>& shadow)
    : size_(size),
      gx_(-lamp.falloff * std::cos(lamp.direction_deg * std::numbers::pi / 180) / size.width),
      gy_(-lamp.falloff * std::sin(lamp.direction_deg * std::numbers::pi / 180) / size.width),
      vignette_(4 * lamp.vignette / (static_cast<double>(size.width) * size.width + static_cast<double>(size.height) * size.height)),
      from_(lamp.second_light.empty() ? 0 : lamp.second_from),
      slope_(lamp.second_light.empty() ? 0 : (lamp.second_to - lamp.second_from) / size.width),
      shaded_(shadow.has_value()) {
  if (!shadow) return;
  const double dx = shadow->b.x - shadow->a.x, dy = shadow->b.y - shadow->a.y, length = std::hypot(dx, dy);
  nx_ = -dy / length;
  ny_ = dx / length;
  offset_ = nx_ * shadow->a.x + ny_ * shadow->a.y;
  softness_ = std::max(shadow->softness, 1.0);
  darkness_ = shadow->darkness;
}

Level LightField::at(double x, double y) const {
  const double dx = x - 0.5 * size_.width, dy = y - 0.5 * size_.height;
  double level = (1 + gx_ * dx + gy_ * dy) * (1 - vignette_ * (dx * dx + dy * dy));
  if (shaded_) {
    const double t = std::clamp((nx_ * x + ny_ * y - offset_) / softness_ + 0.5, 0.0, 1.0);
    level *= 1 - darkness_ * t * t * (3 - 2 * t);
  }
  const double second = from_ + slope_ * x;
  return {level * (1 - second), level * second};
}

}  // namespace huewright::render
