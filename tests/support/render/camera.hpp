// A camera: sensitivities, exposure, white balance, noise, colour matrix.
#pragma once

#include <span>
#include <string_view>

#include "colour/rgb.hpp"
#include "render/random.hpp"
#include "render/spectra.hpp"

namespace huewright::render {

enum class Balance {
  Grey,      ///< exact on the first grey patch of the scene
  Lamp,      ///< exact on a perfect diffuser under the (first) lamp
  Daylight   ///< preset for D65, whatever the lamp
};

enum class Space { Srgb, P3 };
const Primaries& primaries(Space space);

/// Which cameras there are. 'a', 'b' and 'c' have measured sensitivities, and constants may be tuned on them. 'd' and 'e' are invented and frozen:
/// they are for stating figures on cameras that nothing was tuned on. Look at no single picture of theirs to change a constant, and never change them;
/// whoever needs another camera takes the next letter.
inline constexpr std::string_view kTuningCameras = "abc", kUnseenCameras = "de";

struct Camera {
  char sensitivity = 'a';            ///< a letter of kTuningCameras or kUnseenCameras
  double exposure = 0.8;             ///< output level (0..1, linear) of a white diffuser at light level 1; above 1: over-exposed
  double iso = 100;
  double full_well = 30000;          ///< electrons of one output pixel at saturation and ISO 100; 0: no noise at all
  double read_noise = 4;             ///< electrons at ISO 100, one standard deviation
  double noise_correlation = 0.3;    ///< between horizontal neighbours (demosaicing), 0..0.9
  Balance balance = Balance::Lamp;
  double red_error = 0;              ///< error of the balance: natural logarithm of the red gain's factor
  double blue_error = 0;             ///< the same for blue
  double blur = 0.6;                 ///< standard deviation of the lens and the anti-alias filter, pixels; 0: none
  bool matrix = true;                ///< false: white-balanced camera colours go out as they are
  double warm_matrix = -1;           ///< weight of the matrix for A against that for D65; negative: from the lamp's temperature
};

/// Spectra to numbers for one camera under one lamp.
class Sensor {
 public:
  Sensor(char camera, const Spectrum& light);
  /// Channel sums of a reflectance, scaled so that a perfect diffuser has G = 1.
  Vec3 raw(const Spectrum& reflectance) const;

 private:
  std::array<Spectrum, 3> weight_;
};

/// White-balanced raw to linear output colours: least squares over 190 surfaces, neutrals kept (rows add up to 1).
/// `warm` 0: fitted under D65, 1: under A, between: mixed.
Mat3 cameraMatrix(char camera, Space space, double warm);

/// How a lamp's temperature mixes the two matrices (linear in reciprocal temperature), 0..1.
double warmWeight(const Spectrum& light);

/// The way from raw (white diffuser G = 1) to linear output.
struct Development {
  double to_sensor = 1;      ///< raw to the sensor's own 0..1 (1 = saturation), one factor for all channels
  Vec3 gain{1, 1, 1};        ///< white balance, smallest gain 1
  Mat3 matrix = Mat3::identity();
};
Development development(const Camera& camera, Space space, const Spectrum& light, const Vec3& grey_raw);

/// XYZ under D65 (Y of white = 1) to the camera's own colours, white diffuser G = 1: the white-keeping matrix for D65, turned round.
Mat3 colourMatrix(char camera);

/// What the camera takes for white, in its own colours, largest 1.
Vec3 neutralOf(const Development& how);

/// Standard deviation of a sensor value 0..1 from shot and read noise.
double noiseSd(const Camera& camera, double sensor_value);

/// Noise, saturation, balance and matrix, in place on interleaved pixels. In: raw (white diffuser G = 1). Out: linear output.
void develop(const Camera& camera, const Development& how, int width, std::span<float> rgb, Random& random);

/// Noise and saturation alone, in place: raw (white diffuser G = 1) to the sensor's own 0..1. Noise is independent from value to value.
void readOut(const Camera& camera, double to_sensor, std::span<float> rgb, Random& random);

}  // namespace huewright::render
