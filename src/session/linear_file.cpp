#include "session/linear_file.hpp"

#include <cmath>

namespace huewright {

bool looksLinear(const PhotoFacts& facts, Encoding encoding, const ProfileFit& fit) {
  return encoding == Encoding::Auto && !facts.camera_rgb && !facts.linear && !facts.path.empty() && fit.ramp.shape == RampShape::LinearStored;
}

bool clearlyLinear(const ProfileFit& as_srgb, const ProfileFit& as_linear) {
  constexpr double kSlope = 1.0 / 7, kLeft = 0.25;
  const RampFinding &before = as_srgb.ramp, &after = as_linear.ramp;
  if (before.shape != RampShape::LinearStored || after.shape == RampShape::Unknown || after.shape == RampShape::SrgbStored) return false;
  return std::abs(after.log_slope - 1) < kSlope && after.rms_before < kLeft * before.rms_before;
}

std::optional<Caution> aboutLinear(const std::string& file, bool read_as_linear, Encoding told, const PhotoFacts& facts, const ProfileFit& fit) {
  if (read_as_linear) return Caution{CautionCode::ValuesLinear, file};
  if (told == Encoding::Srgb && !facts.camera_rgb && fit.ramp.shape == RampShape::LinearStored) return Caution{CautionCode::ValuesLinearTold, file};
  return {};
}

void forSrgbDecoding(ColourMap& map) { map.curve.before = RampCurve::Before::UndoSrgb; }

bool isOfLinearFiles(const ColourMap& map) { return map.curve.before == RampCurve::Before::UndoSrgb; }

}  // namespace huewright
