// What colour a mix of transparent tints has over a ground, after so many coats: a saturating Beer-Lambert law in three channels.
#pragma once

#include <span>
#include <vector>

#include "colour/lab.hpp"

namespace huewright {

/// Light that comes back from the film itself even where the tint is as deep as can be, relative to white. A guess of the right size for a
/// clear tint; it matters only for very dark panels.
inline constexpr double kFilmFloor = 0.005;

/// One tint. Per channel of Bradford-sharpened linear RGB: `k`, absorbance (natural logarithm) of one coat of undiluted tint, there and back;
/// `beta`, how fast that absorbance saturates because a channel is wide and light outside the tint's band still comes through. One beta for all would leave
/// 0.57 / 2.6 ΔE00 (median / 95th) of the renderer's paints unexplained, one a channel 0.26 / 1.3, one a tint 0.54 / 2.6, one a tint and channel 0.15 / 0.5.
struct Tint {
  Vec3 k{3, 3, 3};               ///< > 0
  Vec3 beta{0.08, 0.08, 0.08};   ///< >= 0; 0 is Beer-Lambert's law
};

/// Bradford-sharpened linear RGB, white = 1 in each channel. Accuracy: 1e-12.
Vec3 sharpened(const Lab<D50>& lab);
Lab<D50> labOfSharpened(const Vec3& rgb);

/// What was sprayed: the share of each tint in all the tint (they add up to 1), the tint's part of what is in the cup, and coats.
struct Film {
  std::span<const double> shares;
  double tint_part = 1.0 / 7.0;   ///< c = tint / (tint + carrier), 0..1
  double coats = 0;               ///< a real number >= 0
};

/// c = tint / (tint + carrier) from volumes of carrier to one of all the tint.
constexpr double tintPart(double carrier_per_tint) { return 1.0 / (1.0 + carrier_per_tint); }

/// A predicted colour and how it changes.
struct FilmColour {
  Lab<D50> lab;
  std::vector<Vec3> by_ln_k;      ///< ∂Lab/∂ln k: three a tint, of its channels 1, 2, 3 in turn
  std::vector<Vec3> by_beta;      ///< ∂Lab/∂β, in the same order
  std::vector<Vec3> by_share;     ///< ∂Lab/∂share of each tint, the others held
  Vec3 by_ln_coats{};             ///< ∂Lab/∂ln coats, which is also ∂Lab/∂ln (tint part) and ∂Lab/∂ln (film build)
  Mat3 by_ground{};               ///< ∂Lab/∂(sharpened RGB of the ground)
};

/// Per channel: a_t = c · coats · s_t · k_t, D = Σ a_t, and the film lets E = D / (1 + Σ β_t a_t) through as exp(−E):
///   linear = r0 + (ground − r0) · exp(−E), r0 = kFilmFloor.
/// For one β this is D / (1 + β D). For β = 0 it is the law of Bouguer, Lambert and Beer for two passes (natural absorbance); absorbances of tints
/// add (Beer). The saturation is our own: it stands for the channel's width, and was chosen for its limits (slope 1 at nothing, at most 1/β).
/// In: as many shares as tints. Accuracy of the arithmetic: 1e-12; of the model: some tenths of ΔE00 over a painter's range, see docs/advise.md.
Lab<D50> filmLab(std::span<const Tint> tints, const Film& film, const Vec3& ground);

/// The same with all derivatives, analytic. At 0 coats the derivatives by tint are 0.
FilmColour filmColour(std::span<const Tint> tints, const Film& film, const Vec3& ground);

}  // namespace huewright
