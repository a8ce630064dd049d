// Lamps that stand near, and the room's own light. All spectra are invented, but for the black body's.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "photo/geometry.hpp"
#include "render2/spectra.hpp"

namespace huewright::render2 {

/// Names of all lamps: "led 2700", "triphosphor 4100", "black body 3000" …, by colour temperature.
const std::vector<std::string>& lampNames();
/// Scaled to a mean of 1. LEDs and tri-phosphor tubes have the chromaticity of the black body of their temperature.
/// Throws std::invalid_argument for a name that is not there.
const Spectrum& lampSpectrum(std::string_view name);
/// Planck's law, scaled to a mean of 1. In: kelvin.
Spectrum blackBody(double kelvin);

inline constexpr int kWalls = 5;
/// Reflectance of a painted wall: cream, pale green, pale blue, brick, greyish white.
Spectrum wall(int which);

struct LightSpec {
  std::string lamp = "led 4500";
  Vec3 at{0, -90, 90};       ///< cm from the middle of the scene; x to the right, y down the picture, z up
  double radius = 0;         ///< cm; 0: a bare point; else a disc that faces the middle of the scene
  double ambient = 0.15;     ///< the room's part of the light in the middle, 0..1
  int wall = 0;              ///< what the room's light comes back from
  double ambient_x = 0, ambient_y = 0;  ///< the room's light grows by this part over half_width to the right, and downwards
  double half_width = 25;    ///< cm
};

/// Irradiance relative to that in the middle, where lamp and room add up to 1.
class LightField {
 public:
  explicit LightField(const LightSpec& spec);
  double lamp(Point place) const;        ///< cm
  double ambient(Point place) const;
  Vec3 toLamp(Point place) const;        ///< unit vector
  const Spectrum& lampLight() const { return lamp_light_; }
  const Spectrum& ambientLight() const { return ambient_light_; }
  /// Standard deviation of the half angle inside the clear that the lamp's own size makes, radians.
  double halfSpread() const { return half_spread_; }

 private:
  double plain(Point place) const;
  LightSpec spec_;
  double middle_, half_spread_;
  Spectrum lamp_light_, ambient_light_;
};

}  // namespace huewright::render2
