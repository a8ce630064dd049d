// Linear RGB spaces from their primaries, and the sRGB curve.
#pragma once

#include "colour/adapt.hpp"
#include "colour/lab.hpp"

namespace huewright {

struct Primaries {
  Chromaticity red, green, blue, white;
};

// Published primaries. Matrices are computed from them, never typed in.
inline constexpr Primaries kSrgbPrimaries{{.64, .33}, {.30, .60}, {.15, .06}, {.3127, .3290}};       // IEC 61966-2-1
inline constexpr Primaries kP3D65Primaries{{.680, .320}, {.265, .690}, {.150, .060}, {.3127, .3290}};// SMPTE EG 432-1, D65 white
inline constexpr Primaries kAdobePrimaries{{.64, .33}, {.21, .71}, {.15, .06}, {.3127, .3290}};      // IEC 61966-2-5 (opRGB)
inline constexpr Primaries kRommPrimaries{{.734699, .265301}, {.159597, .840403}, {.036598, .000105}, {.345704, .358540}};  // ISO 22028-2

/// Linear RGB (0..1) to XYZ relative to the space's own white. Source: SMPTE RP 177.
constexpr Mat3 rgbToXyz(const Primaries& p) {
  const Vec3 r = toXyzAtUnitY(p.red), g = toXyzAtUnitY(p.green), b = toXyzAtUnitY(p.blue);
  const Mat3 columns = transpose(Mat3{{r, g, b}});
  return columns * Mat3::diagonal(inverse(columns) * toXyzAtUnitY(p.white));
}

/// Linear RGB (0..1) to XYZ relative to D50, by Bradford.
constexpr Mat3 rgbToXyzD50(const Primaries& p) { return bradford(toXyzAtUnitY(p.white), kWhite<D50>) * rgbToXyz(p); }

/// Linear sRGB to XYZ (D50) and back.
inline constexpr Mat3 kSrgbToXyzD50 = rgbToXyzD50(kSrgbPrimaries);
inline constexpr Mat3 kXyzD50ToSrgb = inverse(kSrgbToXyzD50);

/// Linear-light sRGB, 0..1 inside the gamut.
struct LinearSrgb {
  double r = 0, g = 0, b = 0;
};

/// The sRGB curve, code 0..1 to light 0..1, mirrored for negative values. Accuracy: 1e-15. Source: IEC 61966-2-1:1999, 5.2.
double srgbToLinear(double code);

/// Its inverse, light 0..1 to code 0..1. Source: IEC 61966-2-1:1999, 5.3.
double srgbFromLinear(double light);

Xyz<D50> toXyzD50(const LinearSrgb& rgb);
LinearSrgb toLinearSrgb(const Xyz<D50>& xyz);

/// 8-bit sRGB codes for showing a colour; out-of-gamut channels are cut off.
std::array<unsigned char, 3> toSrgb8(const Lab<D50>& lab);

}  // namespace huewright
