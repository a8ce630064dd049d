// How a camera's linear values become colours.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include "camera/ramp_curve.hpp"
#include "colour/lab.hpp"

namespace huewright {

/// Where the map from camera values to colours came from.
enum class ProfileKind {
  None,     ///< nothing known: sRGB was assumed
  Builtin,  ///< the colour space that the file itself names
  File,     ///< a profile that was stored earlier
  Chart,    ///< a chart in the photo itself
};

/// What the values are that a map starts from.
enum class DeviceKind {
  LinearSrgb,  ///< a picture: its XYZ (D50) by kXyzD50ToSrgb
  CameraRgb,   ///< a raw file's own linear values
};

inline constexpr std::size_t kTerms = 6;                ///< of the root-polynomial of degree 2
inline constexpr std::size_t kParameters = 3 * kTerms;  ///< of the map
using Terms = std::array<double, kTerms>;
using XyzByTerm = std::array<Terms, 3>;                 ///< rows X, Y, Z

/// From device values to XYZ (D50), with what is not known of it.
///
/// In order: the ramp's curve, per channel; a gain of the caller's; the veil off; the balance; the root-polynomial.
///
/// Domain: balanced values, in which every neutral has its luminance factor in all three channels, 0..1. The curve belongs to the values as stored,
/// so it comes before any gain. Another photo by the same camera and light is brought into the domain by gainFor(its grey): the root-polynomial
/// itself does not depend on exposure: k times the light is k times the XYZ.
///
/// Terms: r, g, b and, for each two of them, √(rg) − (r + g)/2 and the like, which is nothing for neutrals. The functions that can be written so
/// are those of r, g, b, √(rg), √(gb), √(rb). Source: Finlayson, Mackiewicz, Hurlbert (2015), IEEE Trans. Image Process. 24, 1460-1470. Under a
/// root each channel is held above zero smoothly (0.2 % of the length of (r, g, b)), which moves values above 5 % of it by less than 1e-4 of it and
/// keeps the degree.
struct ColourMap {
  DeviceKind device = DeviceKind::LinearSrgb;
  std::string camera{};      ///< maker and model, may be empty
  RampCurve curve{};
  Vec3 veil{};               ///< straightened device values, >= 0
  Vec3 balance{1, 1, 1};     ///< > 0
  Mat3 matrix = Mat3::identity();  ///< the plain 3×3 fit: XYZ by balanced values
  XyzByTerm terms{};         ///< the root-polynomial: XYZ by term

  // What is not known of it.
  std::vector<XyzByTerm> unsure{};       ///< independent shifts of the coefficients, each one standard deviation
  double misfit = 0;                     ///< ΔE00 along each axis, one standard deviation: what no such map can tell of a surface
  double misfit_reach = 25;              ///< CIELAB units over which the misfit changes, > 0
  std::array<Terms, kTerms> span{};      ///< inverse of Σ t·tᵀ over the chart, t = terms of a balanced value of length 1
  double largest_leverage = 1;           ///< of the chart's own patches: max tᵀ·span·t

  /// Straightened values: proportional to light, still with veil and unbalanced. The greys' gains belong here.
  Vec3 straightened(const Vec3& device) const;

  /// In: device values; the gain multiplies straightened values. Finite for all finite input. Accuracy: that of double.
  Xyz<D50> apply(const Vec3& device_rgb, const Vec3& gain = {1, 1, 1}) const;

  /// The same through the plain 3×3 instead of the root-polynomial.
  Xyz<D50> applyMatrix(const Vec3& device_rgb, const Vec3& gain = {1, 1, 1}) const;

  /// ∂XYZ by ∂device, exact. At black itself, where roots have no derivative, that of a dark neutral.
  Mat3 derivative(const Vec3& device_rgb, const Vec3& gain = {1, 1, 1}) const;

  /// How far outside of what the chart spans a colour lies, whatever its brightness: 0 within, else √(leverage ÷ largest of the chart) − 1. At 1
  /// the map is twice as unsure as at its worst patch.
  double extrapolation(const Vec3& device_rgb, const Vec3& gain = {1, 1, 1}) const;

  /// Independent shifts of (L*, a*, b*), each one standard deviation, in the same order for all colours, so that panel and card move together.
  /// Their outer products sum up to the covariance. The first are those of `unsure`; then the misfit, as waves in CIELAB along each of its axes
  /// (cosine and sine of L*, a*, b* ÷ misfit_reach): the same size everywhere, nearly the same shift for colours that are nearly the same, so that
  /// of a difference it leaves about misfit·distance ÷ (reach·√3). Sizes and reach are tuned on simulated charts and paints: see fitProfile.
  std::vector<Vec3> shifts(const Vec3& device_rgb, const Vec3& gain = {1, 1, 1}) const;

  /// Their sum: the covariance of (L*, a*, b*).
  Mat3 covariance(const Vec3& device_rgb, const Vec3& gain = {1, 1, 1}) const;

  /// The straightened value that a neutral of luminance factor y has in this map's domain.
  Vec3 neutral(double y) const;

  /// The gain for another photo, in which a grey of luminance factor y (0..1) has these device values. In: straightened values above zero.
  Vec3 gainFor(const Vec3& grey_device, double y) const;
};

/// The terms of balanced values, and their derivatives by r, g, b.
Terms rootTerms(const Vec3& balanced);
std::array<Vec3, kTerms> rootTermsBy(const Vec3& balanced);

/// A camera's map to colours. Photos that name their colour space are linear XYZ (D50) already, so that nothing is left to map.
struct CameraProfile {
  ProfileKind kind = ProfileKind::None;
  std::optional<double> loo_de00{};  ///< mean leave-one-out error, ΔE00; absent without a chart
  std::optional<ColourMap> map{};    ///< from a chart or a file; absent: device values count as linear sRGB

  /// As in ColourMap.
  Xyz<D50> apply(const Vec3& device, const Vec3& gain = {1, 1, 1}) const;
  Mat3 derivative(const Vec3& device, const Vec3& gain = {1, 1, 1}) const;
  double extrapolation(const Vec3& device, const Vec3& gain = {1, 1, 1}) const;
  std::vector<Vec3> shifts(const Vec3& device, const Vec3& gain = {1, 1, 1}) const;
};

}  // namespace huewright
