// What a glossy clear mirrors of the room, as a glossy black chip shows it.
#pragma once

#include "base/problem.hpp"
#include "camera/patch.hpp"

namespace huewright {

/// Light that the surroundings add to every glossy surface alike, as it stands in the photo, before any correction.
struct Veil {
  Vec3 xyz{};       ///< to take off a glossy surface's photographed colour
  double share = 0; ///< of white, after correction: 0.01 is one per cent
  double sd = 0;    ///< standard deviation of `share`: the chip's own body and noise, and a room that is not the same all round
};

/// What a cleared panel mirrors where nobody measured it: 0.2 ± 0.2 % of white. A clear mirrors 4 % (Fresnel, n = 1.5) of a room that is a twentieth as bright
/// as the light on the panel; judgement, and a room with white walls near by mirrors several times as much. In: the light's correction at the panel.
Veil usualVeil(const Mat3& correction);

/// The chip's own body is taken as 0.4 % of white (0.2 to 0.6 % for glossy black lacquer, glass and acrylic; from memory).
/// In: the chip as sampled, and the light's correction at its place. Errors: BlackUnusable when it is no black chip: lighter than 12 % of white,
/// masked almost everywhere, or without a pixel.
Result<Veil> veilOf(const Patch& chip, const Mat3& correction);

}  // namespace huewright
