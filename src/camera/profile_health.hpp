// Whether a profile can be relied on, in plain sentences.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "camera/light_colour.hpp"
#include "camera/profile_fit.hpp"

namespace huewright {

enum class Health { Good, Usable, NotUsable };

/// What is known beside the fit.
struct HealthContext {
  const PlanckianLocus* locus = nullptr;  ///< for the light's temperature, of a usable profile; nullptr: not asked for
  std::optional<Mat3> native{};           ///< PhotoFacts::native of the first photo; absent: the light's temperature cannot be known
  bool linear = false;                    ///< the stored codes were taken for proportional to light (PhotoFacts::linear)
};

struct ProfileHealth {
  Health health = Health::NotUsable;
  std::vector<std::string> sentences;   ///< the first says good, usable or not usable; the rest what is behind it and what to do
  std::vector<std::string> worst;       ///< names of up to three patches that fit worst, those that stand out only
  std::vector<std::string> left_out;    ///< names of patches that took no part in any photo: burnt out, black, in glare or covered
  double noise = 0;                     ///< median relative standard deviation of a patch's mean
  double unevenness = 0, unevenness_sd = 0;  ///< relative change of brightness across the chart that the patches' errors show; of the photo with the most
  std::optional<LightColour> light;     ///< of the first photo's light, where it can be known
};

/// Bounds (judgement; simulated raw charts give 0.5 to 3.5, real pictures 2 to 6): leave-one-out mean up to 2.5 good, up to 6 usable. A clipped
/// patch, noise above 1 % of a patch or a fall-off above 4 % make a good one usable; fewer than 18 patches too.
ProfileHealth profileHealth(const ProfileFit& fit, const HealthContext& context = {});

}  // namespace huewright
