// What in a photo should make people careful: exposure, glare, the light, the greys.
#pragma once

#include <string>
#include <vector>

#include "camera/light.hpp"
#include "judge/influences.hpp"
#include "judge/samples.hpp"
#include "judge/through_profile.hpp"

namespace huewright {

/// Of one panel or the card.
void cautionRegion(const Named& region, std::vector<Caution>& out);

/// Of the greys, the paper, the mat's dots and the light as a whole. Writes down how far the camera's local tone goes.
void cautionLight(const Samples& samples, const Light& light, const MeasureOptions& options, bool card_in_photo, Circumstances& at,
                  std::vector<Caution>& out);

/// Of a profile that does not fit this photo, and of colours that its chart does not span.
void cautionProfile(const Samples& samples, const CameraProfile& profile, const ThroughProfile& through, std::vector<Caution>& out);

}  // namespace huewright
