// Scattering paint as a spectral body: a ground, perhaps of flakes, sprayed coats that absorb and scatter, a clear, its surface. All spectra are
// invented, and none is the first renderer's.
#pragma once

#include <string_view>

#include "render2/spectra.hpp"

namespace huewright::render2 {

enum class Ground { White, Grey, FineSilver, CoarseSilver, Pearl, Gold };
inline constexpr Ground kGrounds[] = {Ground::White, Ground::Grey, Ground::FineSilver, Ground::CoarseSilver, Ground::Pearl, Ground::Gold};

/// Two tints each, a strong and a weak one.
enum class Tints { GreenLime, BrickOchre, NavySky, PlumRose };
inline constexpr Tints kTints[] = {Tints::GreenLime, Tints::BrickOchre, Tints::NavySky, Tints::PlumRose};

/// Diffuse part and flakes' part of a ground, both as seen at 45°:0° from inside the clear, 0..1.
struct GroundBody {
  Spectrum diffuse, flakes;
  double exponent = 30;      ///< of the cosine lobe of the flakes' normals; their spread is about 1/√exponent
  double sparkle = 0;        ///< relative spread of the flakes' brightness from pixel to pixel, one standard deviation
};
const GroundBody& body(Ground ground);
std::string_view nameOf(Ground ground);
std::string_view nameOf(Tints tints);

/// A recipe and how much of it lies there.
struct Paint {
  Ground ground = Ground::White;
  double ground_tone = 1;    ///< multiplies the ground's reflectance
  Tints tints = Tints::GreenLime;
  double shift_nm = 0;       ///< the pigments' bands lie so much further to the red: another maker's
  double share = 0.4;        ///< strong ÷ (strong + weak), 0..1
  double coats = 4;          ///< a real number, >= 0
  double load = 0.6;         ///< tint in the wet paint, relative
  double shade = 0.06;       ///< black in the tint, relative to it, >= 0
};

/// Reflectance and transmittance of a layer without its surfaces, for diffuse light.
struct Layer {
  double r = 0, t = 1;
};
/// In: absorption and scattering (Kubelka-Munk K and S) times thickness, both >= 0. Accuracy: 1e-9. Source: Kubelka (1948).
Layer layerOf(double kx, double sx);
/// Reflectance of the layer over something that reflects `under`.
double over(const Layer& layer, double under);
/// Of an infinitely thick layer. Source: Kubelka and Munk (1931).
double thickLimit(double k, double s);

/// Where light comes from and goes to at a place of a surface: cosines in air with the surface's normal, and of the half angle inside the clear.
struct Geometry {
  double cos_in = 0.70710678118654752, cos_out = 1, cos_half = 1;
};
/// From unit vectors towards the lamp and towards the eye; z is the surface's normal.
Geometry geometryOf(const Vec3& to_lamp, const Vec3& to_eye);
/// Light from 45°, seen upright.
Geometry standardGeometry();

/// The flakes' brightness relative to that at 45°:0°. `half_spread` is what the lamp's own size adds to the spread of the half angle, radians.
double flakeGain(const GroundBody& ground, const Geometry& at, double half_spread = 0);
/// Its mean over light from everywhere, seen upright.
double flakeGainDiffuse(const GroundBody& ground);

/// What a body inside the clear reflects, 0..1, to a radiance factor outside it, mirror reflection left out: Fresnel's two crossings, n = 1.5, and
/// what the surface throws back down. Source: Saunderson (1942), with the solid angle's n² and Fresnel's reflectance for the directions given.
double throughSurface(double inside, const Geometry& at);
/// The same where the body reflects directed light by another part than the diffuse light that the surface throws back (flakes); `directed` may
/// exceed 1.
double throughSurface(double directed, double diffuse, const Geometry& at);
/// Fresnel's reflectance of the clear in unpolarised light, 0..1.
double fresnel(double cos_in_air);

/// Radiance factor at that geometry's surface, with the flakes' gain given apart. `film` multiplies the coats.
Spectrum reflectance(const Paint& paint, double film, double flake_gain, const Geometry& at);
/// As a 45°:0° instrument sees it.
Spectrum reflectance(const Paint& paint, double film = 1);
inline Lab<D50> labOf(const Paint& paint) { return labD50(reflectance(paint)); }

}  // namespace huewright::render2
