#include "scene/patch_edges.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "colour/rgb.hpp"
#include "scene/homography.hpp"
#include "scene/middle_value.hpp"

namespace huewright {
namespace {

constexpr double kFaintestPatchEdge = 0.012;  // distance in linear R, G, B, of full white
constexpr double kReach = 0.2;                // of a step, from where the edge is expected, either way
constexpr double kPatchEdgeStray = 3.5;       // robust standard deviations

/// Linear R, G, B by bilinear interpolation; nothing beyond the outermost pixels' centres.
std::optional<Vec3> patchLightAt(const Preview& picture, Point at) {
  static const std::array<double, 256> kLight = [] {
    std::array<double, 256> light{};
    for (std::size_t i = 0; i < light.size(); ++i) light[i] = srgbToLinear(static_cast<double>(i) / 255);
    return light;
  }();
  const double x = at.x - 0.5, y = at.y - 0.5;
  if (!(x >= 0 && y >= 0 && x < picture.size.width - 1 && y < picture.size.height - 1)) return std::nullopt;
  const auto left = static_cast<std::size_t>(x), top = static_cast<std::size_t>(y);
  const double u = x - static_cast<double>(left), v = y - static_cast<double>(top);
  const std::uint8_t* here = picture.rgb.data() + 3 * (top * static_cast<std::size_t>(picture.size.width) + left);
  const std::uint8_t* below = here + 3 * static_cast<std::ptrdiff_t>(picture.size.width);
  Vec3 out{};
  for (std::size_t c = 0; c < 3; ++c)
    out[c] = (1 - v) * ((1 - u) * kLight[here[c]] + u * kLight[here[c + 3]]) + v * ((1 - u) * kLight[below[c]] + u * kLight[below[c + 3]]);
  return out;
}

/// How far from the patch's centre, in steps, its edge lies in a direction: of `across` lines the middle one. Nothing where it is faint.
std::optional<double> edge(const Preview& picture, const Mat3& h, Point centre, Point out, double share) {
  const Point side{-out.y, out.x};
  const double step = std::sqrt(std::abs(areaScale(h, centre)));  // pixels
  const double from = std::max(0.1, 0.5 * share - kReach), to = std::min(0.5 * share + kReach, 0.62);
  const int count = std::clamp(static_cast<int>(std::ceil((to - from) * step * 3)), 8, 60);
  std::vector<double> found;
  for (const double aside : {-0.22, -0.11, 0.0, 0.11, 0.22}) {
    const auto at = [&](double away) {
      return patchLightAt(picture, mapped(h, {centre.x + out.x * away + side.x * aside, centre.y + out.y * away + side.y * aside}));
    };
    // Outside is the middle of the frame between this patch and the next.
    const auto inside = at(0.5 * from), outside = at(std::max(0.5, 0.5 * share + 0.04));
    if (!inside || !outside) continue;
    const Vec3 way = *outside - *inside;
    const double square = dot(way, way);
    if (square < kFaintestPatchEdge * kFaintestPatchEdge) continue;
    double before = 0;
    for (int i = 0; i <= count; ++i) {
      const double away = from + (to - from) * i / count;
      const auto light = at(away);
      if (!light) break;
      const double part = dot(*light - *inside, way) / square;
      if (part >= 0.5) {
        if (i > 0) found.push_back(away - (to - from) / count * (part - 0.5) / std::max(1e-9, part - before));
        break;
      }
      before = part;
    }
  }
  if (found.size() < 3) return std::nullopt;
  const auto [low, high] = std::ranges::minmax(found);
  const double middle = middleValue(found);
  if (high - low > 0.16 && high - low > 3 / step) return std::nullopt;  // not straight: something lies across it
  return middle;
}

struct Seen {
  Point grid, picture;
  double width = 0, height = 0;
};

std::vector<Seen> look(const Preview& picture, const Mat3& h, std::span<const std::pair<int, int>> patches, double share) {
  std::vector<Seen> all;
  for (const auto& [column, row] : patches) {
    const Point centre{column + 0.5, row + 0.5};
    if (!(areaScale(h, centre) > 0)) continue;
    const auto left = edge(picture, h, centre, {-1, 0}, share), right = edge(picture, h, centre, {1, 0}, share);
    if (!left || !right) continue;
    const auto up = edge(picture, h, centre, {0, -1}, share), down = edge(picture, h, centre, {0, 1}, share);
    if (!up || !down) continue;
    all.push_back({centre, mapped(h, {centre.x + 0.5 * (*right - *left), centre.y + 0.5 * (*down - *up)}), *left + *right, *up + *down});
  }
  return all;
}

}  // namespace

std::optional<EdgeFit> fitByEdges(const Preview& preview, const Mat3& homography, std::span<const std::pair<int, int>> patches, double share) {
  EdgeFit fit{homography, share, 0, 0};
  for (int round = 0; round < 3; ++round) {
    std::vector<Seen> seen = look(preview, fit.homography, patches, fit.share);
    std::vector<double> sides;
    for (const Seen& s : seen) sides.push_back(0.5 * (s.width + s.height));
    if (sides.size() < 6) return std::nullopt;
    const double side = middleValue(sides);
    std::erase_if(seen, [&](const Seen& s) { return std::abs(s.width - side) > 0.12 || std::abs(s.height - side) > 0.12; });
    for (int again = 0; again < 2; ++again) {
      if (seen.size() < 6) return std::nullopt;
      std::vector<Point> from, to;
      for (const Seen& s : seen) from.push_back(s.grid), to.push_back(s.picture);
      const auto found = fitHomography(from, to);
      if (!found) return std::nullopt;
      fit = {found->matrix, side, found->sd, seen.size()};
      std::vector<double> off;
      const auto distance = [&](const Seen& s) {
        const Point at = mapped(found->matrix, s.grid);
        return std::hypot(at.x - s.picture.x, at.y - s.picture.y);
      };
      for (const Seen& s : seen) off.push_back(distance(s));
      const double most = std::max(0.25, kPatchEdgeStray * 0.85 * middleValue(off));  // the median distance of a plane normal is 1 / 0.85 of its sd
      if (std::erase_if(seen, [&](const Seen& s) { return distance(s) > most; }) == 0) break;
    }
  }
  return fit;
}

}  // namespace huewright
