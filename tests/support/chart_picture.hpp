// Photographs of a colour chart, made up, with the truth of where it lies. Draws by looking up each pixel; shares no code with the rooms that find and
// read charts. All light is linear sRGB, 0..1.
#pragma once

#include <array>
#include <cstdint>
#include <random>
#include <vector>

#include "colour/chart_reference.hpp"
#include "colour/matrix.hpp"
#include "photo/geometry.hpp"
#include "photo/photo.hpp"

namespace huewright::fixtures {

/// How the camera sees the chart: a pinhole with a focal length of 0.9 of the picture's longer side.
struct ChartPose {
  double turn = 0;            ///< in its plane, degrees, clockwise
  double tilt = 0;            ///< of its plane, degrees
  double towards = 0;         ///< the way in which it falls back, degrees
  double width = 0.5;         ///< of the patches' bounding box over the picture's width; less where it would not fit into the height
  Point middle{0.5, 0.5};     ///< of that box, as shares of the picture's sides
};

/// Chart units (a patch and its gap are one) to pixels.
Mat3 chartHomography(const ChartPose& pose, Size picture, int columns = 6, int rows = 4);

/// Any turn and direction, tilted by up to so many degrees, 12 to 60 % of the picture's width, whole in the picture.
ChartPose randomChartPose(std::mt19937_64& random, double most_tilt);

struct ChartLook {
  Vec3 frame{0.03, 0.03, 0.03};
  double share = 0.82;        ///< a patch's side over the distance between centres
  double margin = 0.35;       ///< frame beyond the outermost places, chart units
};

/// The reference's colours; outside sRGB cut off.
std::vector<Vec3> chartLight(const ChartReference& reference);

class ChartPicture {
 public:
  /// A bench with boxes, papers, stripes and grain on it, another for each seed.
  ChartPicture(Size size, std::uint64_t seed);

  void lay(const std::vector<Vec3>& patches, const Mat3& homography, const ChartLook& look = {}, int columns = 6, int rows = 4);
  void cover(const Quad& quad, Vec3 light);
  /// A soft round reflection that adds light.
  void glare(Point at, double radius, double light);
  /// The light falls off to (1 − by) across the picture, in a direction in degrees.
  void fallOff(double by, double direction);
  void mirror();
  /// What a camera makes of it: gains of R, G, B, an S-shaped curve (0: none, 1: as strong as a phone's) and more colour (1: as it is).
  void develop(Vec3 gains, double contrast, double colour);

  const std::vector<Vec3>& light() const { return light_; }
  Size size() const { return size_; }

  /// 8-bit sRGB codes after a lens's blur (standard deviation in pixels) and noise (in codes, seeded by the picture).
  std::vector<std::uint8_t> codes(double blur, double noise) const;
  Preview preview(double blur, double noise) const { return {size_, 1, codes(blur, noise)}; }

 private:
  Size size_;
  std::uint64_t seed_;
  std::vector<Vec3> light_;
};

/// The codes as a photo in memory: XYZ (D50), nothing clipped.
Photo photoOf(Size size, const std::vector<std::uint8_t>& codes);

}  // namespace huewright::fixtures
