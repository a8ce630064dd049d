// From the patches of a chart to a camera profile.
#pragma once

#include <expected>
#include <span>
#include <string>
#include <vector>

#include "camera/chart_light.hpp"
#include "camera/patch.hpp"
#include "camera/profile.hpp"
#include "colour/lab.hpp"
#include "photo/geometry.hpp"

namespace huewright {

/// One patch of a chart: what the photo showed and what it is known to be.
struct FitPatch {
  std::string name;
  Vec3 device{};         ///< mean of the linear device RGB: camera RGB as in Raster, or linear sRGB from XYZ by kXyzD50ToSrgb
  Mat3 of_mean{};        ///< covariance of that mean; zero if unknown
  Lab<D50> reference;
  bool neutral = false;  ///< belongs to the grey ramp
  double clipped = 0;    ///< share of the pixels at either end of the range, 0..1; above 2 % the patch takes no part
  bool spoilt = false;   ///< in glare, covered or otherwise not to be used, as the chart's reading saw
  Point at;              ///< its middle, pixels
};

/// A patch as sampled, for a fit. In: XYZ (D50) in the patch for LinearSrgb, camera RGB for CameraRgb. Neutral by isNeutral.
FitPatch fitPatch(std::string name, const Patch& patch, DeviceKind device, const Lab<D50>& reference);

/// True for references that can stand in a grey ramp: chroma below 4. Of the 24-patch chart that is its grey row (at most 2.9; all others are above
/// 12).
bool isNeutral(const Lab<D50>& reference);

/// What the fit is told beside the patches.
struct FitOptions {
  DeviceKind device = DeviceKind::LinearSrgb;
  std::string camera{};   ///< maker and model, for the profile
  /// > 0, < 1e6. Tuned on simulated charts: from 1e-5 to 3e-3 the errors differ by a tenth, at the small end less noisy charts do better.
  double ridge = 1e-4;
  bool even = true;       ///< take an even slope of the light across each chart out of the patches first
};

/// One photo of the chart.
struct PhotoFit {
  Vec3 veil{}, veil_sd{};    ///< straightened device values; veil is zero unless significant
  Vec3 balance{1, 1, 1};
  bool has_neutrals = false; ///< false: the balance stands on all patches together
  LightSlope light{};        ///< how the light falls off over the picture
};

/// A patch after the fit. Values of a patch that took no part are those of the map at its device values.
struct FittedPatch {
  std::string name;
  std::size_t photo = 0;
  bool used = false;
  bool neutral = false;
  double clipped = 0, noise = 0;  ///< noise: relative standard deviation of the mean, of the noisiest channel
  Lab<D50> reference, fitted;
  double de00 = 0, loo_de00 = 0;  ///< loo: when the patch (in all photos) was left out; of unused ones equal to de00
  Point at;
  double light = 0;               ///< natural log of the light's level there, as an even slope across the chart; taken out of `fitted`
};

struct ProfileFit {
  CameraProfile profile;          ///< kind Chart; veil and balance are those of the first photo
  RampFinding ramp;
  std::vector<PhotoFit> photos;
  std::vector<FittedPatch> patches;  ///< photo by photo, in the order given
  std::size_t used = 0;              ///< different patches that took part
  double mean_de00 = 0, loo_de00 = 0, worst_loo_de00 = 0;
};

/// Fits the map. In: one or more photos of charts by the same camera under the same light, each with its patches; patches of one name are left out
/// together. Several photos are fitted jointly: one map, and a veil and a gain per channel for each photo.
///
/// How: the tone curve on the neutrals (pictures only), the veil on the neutrals where no curve was fitted, the balance from the neutrals, then the
/// coefficients by least squares of Σ |J·(XYZ − reference)|², with J the derivative of CIEDE2000 as a vector at the reference, so that the sum is
/// that of ΔE00² for small errors; noisy patches weigh less. The ridge holds the root terms only: `ridge` times the mean diagonal of the linear
/// terms' normal matrix, so that a large one gives the plain 3×3 fit. Leave-one-out errors by the hat matrix, exact at fixed veil, balance, light
/// and weights.
///
/// Light: each photo's slope of brightness across the chart (refinedSlope) is found in turn with the map, and curve, veil and balance anew after it.
///
/// Styles: where a curve was fitted, patches that are far off against the median lose weight, and the ridge is a fiftieth: out-of-gamut colours that a
/// picture cuts off, and colours that the style moves, would else pull on all. What is not known still counts them whole.
///
/// Exposure: if all device values are k times as large, the map of k times a device value is the same, to rounding.
///
/// What is not known: shifts of the coefficients, σ·(normal matrix + ridge)^(-1/2), and a misfit of the surface, both in proportion to σ, the root
/// mean square of the left-out errors along one axis. The two factors were tuned on simulated charts and paints
/// (tests/camera/profile_fit_test.cpp).
///
/// Errors, as a sentence: values that are not finite, fewer than 12 usable patches, a chart without light or colours.
/// Source: as ColourMap; the weighting is our own. Of cameras' JPEGs the curve cannot undo the saturation: five real ones
/// of one phone left 0.8 to 2.0 as the median error of a patch, and 3.0 through each other's profiles.
std::expected<ProfileFit, std::string> fitProfile(std::span<const std::vector<FitPatch>> photos, const FitOptions& options);

}  // namespace huewright
