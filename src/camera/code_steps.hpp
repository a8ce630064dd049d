// What steps of a compressed file's codes are in light.
#pragma once

#include "colour/matrix.hpp"

namespace huewright {

/// R, G, B codes from luma, Cb, Cr, both as departures from grey. Source: ITU-T T.871 (JFIF), section 7.
inline constexpr Mat3 kRgbFromYcc{{{{1, 0, 1.402}, {1, -0.344136, -0.714136}, {1, 1.772, 0}}}};

/// The linear light of one 8-bit sRGB code, per channel, at this linear sRGB colour; below black and above white as at the ends.
Vec3 lightPerCode(const Vec3& rgb);

/// The most light by which a channel of a smooth surface can jump between neighbouring blocks of 8×8 samples when each of luma, Cb and Cr falls on the next step
/// and is then rounded to a whole code: linear sRGB, per channel. rounding: as in PhotoFacts.
Vec3 lightOfSteps(const Vec3& rgb, const Vec3& rounding);

}  // namespace huewright
