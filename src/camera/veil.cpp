#include "camera/veil.hpp"

#include <algorithm>
#include <cmath>

#include "colour/white.hpp"

namespace huewright {
namespace {

constexpr double kVeilUsual = 0.002, kVeilUsualSd = 0.002;
constexpr double kVeilBody = 0.004, kBodySd = 0.001;  // luminance factor of a glossy black body, from memory
constexpr double kRoom = 0.10;                        // relative: another place sees another part of the room; judgement
constexpr double kLightest = 0.12;                    // luminance factor: what is lighter is no black chip
constexpr double kMostMasked = 0.9;

}  // namespace

Veil usualVeil(const Mat3& correction) {
  Veil veil;
  veil.share = kVeilUsual;
  veil.sd = kVeilUsualSd;
  veil.xyz = inverse(correction) * (kVeilUsual * kWhite<D50>);
  return veil;
}

Result<Veil> veilOf(const Patch& chip, const Mat3& correction) {
  if (chip.pixels == 0) return fail(Code::BlackUnusable, "its region holds no pixel");
  if (chip.masked > kMostMasked) return fail(Code::BlackUnusable, "it is glare or shadow almost everywhere");
  const Vec3 seen = correction * toVec(chip.mean);
  if (seen[1] > kLightest) return fail(Code::BlackUnusable, "what lies there is not black");
  // The body's part, brought back to how the photo would hold it.
  const Vec3 body = inverse(correction) * (kVeilBody * kWhite<D50>);
  Veil veil;
  for (std::size_t k = 0; k < 3; ++k) veil.xyz[k] = std::max(0.0, toVec(chip.mean)[k] - body[k]);
  veil.share = (correction * veil.xyz)[1];
  const double noise = std::sqrt(std::max(0.0, (correction * chip.of_mean * transpose(correction))(1, 1)));
  veil.sd = std::hypot(kBodySd, noise, kRoom * veil.share);
  return veil;
}

}  // namespace huewright
