// A camera: invented sensitivities, a mosaic of colour filters, noise, and a colour matrix that does not quite fit.
#pragma once

#include <array>
#include <string_view>
#include <vector>

#include "photo/geometry.hpp"
#include "render/random.hpp"
#include "render2/spectra.hpp"

namespace huewright::render2 {

using render::Random;

/// 'f': dyes on a phone's sensor. 'g': an older, larger camera with wide filters. Both are invented and frozen, as all of this renderer.
inline constexpr std::string_view kCameras = "fg";

/// Spectral sensitivities R, G, B. Throws std::invalid_argument for another letter.
const std::array<Spectrum, 3>& sensitivities(char camera);

struct CameraSpec {
  char letter = 'f';
  double exposure = 0.7;     ///< sensor level (1 = full) of the fullest channel of a white diffuser in the middle of the scene
  double iso = 100;
  double full_well = 12000;  ///< electrons at ISO 100; 0: no noise of any sort
  double read_noise = 3;     ///< electrons at ISO 100, one standard deviation
  double prnu = 0.006;       ///< relative spread of the pixels' response, one standard deviation
  double banding = 1.2;      ///< electrons at ISO 100: offset from row to row, one standard deviation
  double red_error = 0, blue_error = 0;   ///< of the balance: natural logarithms of the gains' factors
  double guess_error = 0;    ///< of the lamp's reciprocal temperature that the matrix is fitted for, reciprocal megakelvins
  Mat3 matrix_error{};       ///< added to the matrix; its rows should add up to 0
  double blur = 0.7;         ///< of lens and anti-alias filter, standard deviation in pixels
  double vignetting = 0.3;   ///< part of the natural cos⁴ that is left uncorrected, 0..1
  bool p3 = false;           ///< output primaries Display P3 rather than sRGB
};

/// Light as the camera's channels see it.
class Sensor {
 public:
  /// A perfect diffuser under `reference` gets G = 1.
  Sensor(char camera, const Spectrum& reference);
  Vec3 raw(const Spectrum& light, const Spectrum& reflectance) const;

 private:
  const std::array<Spectrum, 3>& curves_;
  double scale_;
};

/// 150 smooth invented reflectances, 0..1, that the matrices are fitted on; always the same.
const std::vector<Spectrum>& trainingSurfaces();

/// White-balanced raw to linear output colours under a black body's light: least squares over the training surfaces; white is kept.
Mat3 fittedMatrix(char camera, double kelvin, bool p3);

/// The standard deviation of one pixel's sensor value by photons, reading and response (banding apart).
double noiseSd(const CameraSpec& camera, double sensor_value);

/// One value a pixel, red at the top left, then green / green, blue. In: three a pixel, interleaved, sensor 0..1. Noise, then saturation at 1.
std::vector<float> mosaic(const CameraSpec& camera, Size size, const std::vector<float>& sensor, Random& random);

/// The means of the nearest pixels that have the colour (bilinear), interleaved.
std::vector<float> demosaiced(Size size, const std::vector<float>& mosaic);

/// Sensor values to linear output, in place, interleaved. In: raw of a white diffuser in the middle, and the lamp's colour temperature.
void develop(const CameraSpec& camera, const Vec3& white_raw, double lamp_kelvin, std::vector<float>& rgb);

/// Separable Gaussian in place, interleaved.
void blurred(Size size, double sigma, std::vector<float>& rgb);

}  // namespace huewright::render2
