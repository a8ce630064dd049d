// Whether a profile can be relied on, in plain sentences.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "camera/profile_fit.hpp"
#include "colour/cct.hpp"

namespace huewright {

enum class Health { Good, Usable, NotUsable };

/// What is known beside the fit.
struct HealthContext {
  const PlanckianLocus* locus = nullptr;  ///< for the light's temperature; nullptr: not asked for
  /// Unbalanced camera RGB (veil off) to XYZ of the light itself, not adapted; from nativeMatrix of a profile made under a known light. Absent: the
  /// light's temperature cannot be known, because a chart tells the camera's white and not the light's.
  std::optional<Mat3> native{};
};

struct ProfileHealth {
  Health health = Health::NotUsable;
  std::vector<std::string> sentences;   ///< the first says good, usable or not usable; the rest what is behind it and what to do
  std::vector<std::string> worst;       ///< names of up to three patches that fit worst, those that stand out only
  std::vector<std::string> left_out;    ///< names of patches that took no part in any photo: burnt out, black, in glare or covered
  double noise = 0;                     ///< median relative standard deviation of a patch's mean
  double unevenness = 0, unevenness_sd = 0;  ///< relative change of brightness across the chart that the patches' errors show; of the photo with the most
  std::optional<Cct> light;             ///< of the first photo's light, where it can be known
};

/// Bounds (judgement; simulated raw charts give 0.5 to 3.5, real pictures 2 to 6): leave-one-out mean up to 2.5 good, up to 6 usable. A clipped
/// patch, noise above 1 % of a patch or a fall-off above 4 % make a good one usable; fewer than 18 patches too.
ProfileHealth profileHealth(const ProfileFit& fit, const HealthContext& context = {});

/// Unbalanced camera RGB to XYZ of the light itself, from a profile made under a light whose white is known. In: its map; the light's white (any
/// scale). Accuracy: that of the 3×3 fit and of Bradford's adaptation; a light's temperature comes out within some 8 % for lights between 2800 and
/// 6500 K that are not far from a black body's, when the profile was made under such a light too.
Mat3 nativeMatrix(const ColourMap& map, const Vec3& light_white);

}  // namespace huewright
