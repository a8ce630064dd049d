// Transparent tint paint as a spectral body: ground, coats of a strong and a weak tint, clear. All spectra are invented.
//
// One layer is a two-flux (Kubelka-Munk) layer with absorption K and a very small scattering S, crossed obliquely; the surface of
// the clear follows Saunderson. This shares nothing with the product's own tint model.
#pragma once

#include <span>
#include <string>
#include <string_view>

#include "render/spectra.hpp"

namespace huewright::render {

enum class Ground { BrightSilver, PearlWhite, PaleGold, Graphite };
enum class Pair { TealAqua, RedOrange, VioletBlue };

inline constexpr Ground kGrounds[] = {Ground::BrightSilver, Ground::PearlWhite, Ground::PaleGold, Ground::Graphite};
inline constexpr Pair kPairs[] = {Pair::TealAqua, Pair::RedOrange, Pair::VioletBlue};

/// What a ground is under the clear. Invented.
struct GroundBody {
  Spectrum reflectance{};    ///< seen from inside the clear, 0..1
  double k2 = 0.4;           ///< share of the light that the clear's surface throws back down (less for directed flakes)
  double sparkle = 0;        ///< relative spread of brightness from flake to flake, one standard deviation of a pixel
  double angle = 0;          ///< relative change of brightness across the picture, along the light, from the flakes' alignment
};
const GroundBody& body(Ground ground);
std::string_view nameOf(Ground ground);       ///< "bright silver" …
std::string_view strongName(Pair pair);       ///< "teal, strong" …
std::string_view weakName(Pair pair);         ///< "aqua, weak" …

/// A recipe and how much of it lies there.
struct Paint {
  Ground ground = Ground::BrightSilver;
  Pair pair = Pair::TealAqua;
  double share = 1.0 / 3.0;          ///< strong ÷ (strong + weak), 0..1
  double coats = 4;                  ///< a real number, >= 0
  double carrier_per_tint = 5;       ///< volumes of clear carrier to one of tint
  double film = 1;                   ///< what was sprayed ÷ what was meant (film build), multiplies the coats
};

/// Reflectance factor of the cleared paint, mirror reflection left out (as a 45°:0° instrument sees it), 0..1.
Spectrum reflectance(const Paint& paint);

/// The same for several film builds, each multiplying paint.film.
std::vector<Spectrum> reflectances(const Paint& paint, std::span<const double> films);

Lab<D50> labOf(const Paint& paint);

/// A colour made of other stuff: three dyes over a white, fitted so that it looks like `wanted` under D50 (2° observer), as nearly
/// as the dyes can. `set` 0..2 chooses dyes. Printed: narrow process inks on paper, no clear; else: pigments under a clear.
Spectrum otherPigments(const Lab<D50>& wanted, int set);
Spectrum printed(const Lab<D50>& wanted);

/// A nearly neutral patch with luminance factor exactly y under D50; `tilt` is the largest relative departure from flat.
Spectrum grey(double y, double tilt);

}  // namespace huewright::render
