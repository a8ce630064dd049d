// A camera's tone curve, as the neutral patches of a chart show it.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "colour/matrix.hpp"

namespace huewright {

/// What a picture's values looked like against the light of the neutrals.
enum class RampShape {
  Unknown,       ///< too few neutrals to say
  Straight,      ///< proportional to light within 4 %
  Toned,         ///< bent by a picture style; a curve straightens it
  LinearStored,  ///< the file holds values proportional to light, but was decoded as sRGB: open it again as linear
  SrgbStored,    ///< the file holds sRGB codes, but was taken for linear: open it again as sRGB
};

/// Light for a value of a picture: monotone, without gaps, slope finite for all values.
///
/// ln(light) = slope·t + bend·t² + twist·t³, with t = ln(value ÷ pivot); the level is left to the balance. Below `low` the tangent goes on, also
/// through zero; above `high` the power law does. Before that, a decoding may be undone.
///
/// Knots, if any, add to ln(light) what the cubic leaves of the greys: cubic Hermite between them, the same beyond the outermost. They rise in t.
struct RampCurve {
  enum class Before { Nothing, UndoSrgb, ApplySrgb };
  Before before = Before::Nothing;
  double pivot = 0.2, slope = 1, bend = 0, twist = 0;
  double low = 0.01, high = 1;
  struct Knot {
    double t = 0, more = 0, slope = 0;  ///< slope: of `more` by t; zero for the first and the last
    bool operator==(const Knot&) const = default;
  };
  std::vector<Knot> knots{};

  bool isBent() const { return slope != 1 || bend != 0 || twist != 0 || !knots.empty(); }
  bool isStraight() const { return before == Before::Nothing && !isBent(); }
  /// True when light never falls as the value rises.
  bool isMonotone() const;
  double operator()(double value) const;
  double derivative(double value) const;  ///< of light by value
};

/// One neutral patch: linear device values, relative standard deviations of them, and its luminance factor, 0..1.
struct RampPoint {
  Vec3 device{}, relative_sd{};
  double y = 0;
  bool clipped = false;
};

struct RampFinding {
  RampShape shape = RampShape::Unknown;
  double log_slope = 1;   ///< of ln(value) over ln(Y), as the values came
  double rms_before = 0;  ///< relative departure from proportionality, root mean square
  double rms_after = 0;   ///< what the curve leaves of it
  RampCurve curve;        ///< straight unless shape is Toned, LinearStored or SrgbStored
};

/// The curve common to all channels and photos; each photo and channel has a level of its own. Least squares in the logarithm with priors (slope 1
/// ± 0.4, bend 0 ± 0.15, twist 0 ± 0.05) and Tukey's biweight, so that one bad patch does little. What each grey then leaves in all channels and
/// photos becomes a knot, with the prior 0 ± 0.06: tone curves of phones bend more sharply than a cubic. Fewer than three usable neutrals in every photo:
/// Unknown, straight. In: photos, each with its neutrals.
RampFinding fitRamp(std::span<const std::vector<RampPoint>> photos);

/// What the neutrals of a linear file have on top of their light: value = veil + Y ÷ balance, per channel.
struct VeilFit {
  Vec3 veil{};         ///< >= 0; all zero unless significant
  Vec3 measured{}, sd{};  ///< as fitted, and its standard deviation
  Vec3 balance{1, 1, 1};  ///< brings a neutral to its luminance factor: Y = balance·(value − veil)
  bool significant = false;
};

/// In: neutrals with straightened values. The veil counts when the three channels together lie above zero by more than a chance of one in two
/// hundred, by errors of 1.5 % of each value (tuned: greys are not quite flat, light not quite even) and the noise. Nothing without a usable
/// neutral.
/// may_have_veil: false where a curve has been fitted, which holds the veil already.
std::optional<VeilFit> fitVeil(std::span<const RampPoint> neutrals, bool may_have_veil);

}  // namespace huewright
