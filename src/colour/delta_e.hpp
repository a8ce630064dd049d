// CIEDE2000 as a vector: its length is the colour difference, its derivatives carry the uncertainty.
#pragma once

#include "colour/lab.hpp"

namespace huewright {

/// CIEDE2000 colour difference, kL = kC = kH = 1. Symmetric. Accuracy: 1e-12 away from the 180° hue tie, where the published
/// formula itself jumps. Errors: none. Source: Sharma, Wu, Dalal (2005), equations 2 to 22; ISO/CIE 11664-6:2014.
double deltaE2000(const Lab<D50>& a, const Lab<D50>& b);

/// The difference `panel` minus `card` as a vector u with |u| = ΔE00, in the order lightness, chroma, hue. The rotation term of
/// the formula is folded in by the symmetric square root of [[1, RT/2], [RT/2, 1]], so that no cross term is left. Where one of the
/// two has a chroma below 2, chroma and hue have no derivatives worth the name: there the last two parts run along a* and b*, with the
/// same length, and their scale counts as constant in the derivatives (within 10 % for differences up to 5).
struct DeltaVector {
  Vec3 u{};
  Mat3 by_panel{};  ///< ∂u/∂(L, a, b) of the panel: exact derivatives (forward mode), smooth through zero difference
  Mat3 by_card{};   ///< ∂u/∂(L, a, b) of the card
};
DeltaVector deltaVector(const Lab<D50>& panel, const Lab<D50>& card);

/// Plain CIELAB components, panel minus card. dC = ΔC*ab, dH = ΔH*ab with the sign of the hue change (counter-clockwise positive).
/// Source: CIE 15:2018, 8.2.2.2.
struct LabDifference {
  double dL = 0, da = 0, db = 0, dC = 0, dH = 0;
};
LabDifference labDifference(const Lab<D50>& panel, const Lab<D50>& card);

}  // namespace huewright
