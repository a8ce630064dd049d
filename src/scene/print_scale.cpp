#include <algorithm>
#include <array>
#include <cmath>

#include "colour/rgb.hpp"
#include "scene/homography.hpp"
#include "scene/mat_paper.hpp"
#include "scene/middle_value.hpp"

namespace huewright {
namespace {

// Millimetres on the sheet.
constexpr double kInward = 8.5, kOutward = 21;  // from the sheet's rim: short of any ink, and beyond a page of another size
constexpr double kRayStep = 0.1, kApart = 2;    // along a ray, and between rays
constexpr double kBench = 1.6;                  // beyond the edge, where the bench must be seen
constexpr double kAgree = 0.6;                  // rays that lie nearer to their side's line agree
constexpr double kLeastAgreeing = 0.6;          // share of a side's rays
constexpr double kDrop = 0.8;                   // bench over paper, linear light: above it the edge does not stand out
constexpr double kSheetSkew = 0.02;             // printed askew, at the most: a slope
constexpr double kAlike = 0.02;                 // between the scales of both ways, at the most
// Standard deviation of each scale: lenses, curled paper and the homography's own, and A4's tolerance of cut (2 mm at the most by ISO 216, far
// less in what is sold). Common sense; on flat simulated sheets the error was a quarter of it.
constexpr double kScaleSd = 0.004;

/// Linear Rec. 709 luminance at a place of the full-size picture, bilinear; nothing beyond the preview.
class LightAt {
 public:
  LightAt(const Preview& preview, const Mat3& homography) : preview_(preview), homography_(homography) {
    for (std::size_t i = 0; i < light_.size(); ++i) light_[i] = srgbToLinear(static_cast<double>(i) / 255);
  }

  std::optional<double> operator()(Point mm) const {
    const Point at = mapped(homography_, mm);
    const double x = at.x * preview_.scale - 0.5, y = at.y * preview_.scale - 0.5;
    if (!(x >= 0 && y >= 0 && x < preview_.size.width - 1 && y < preview_.size.height - 1)) return std::nullopt;
    const auto left = static_cast<std::size_t>(x), top = static_cast<std::size_t>(y);
    const double u = x - static_cast<double>(left), v = y - static_cast<double>(top);
    const auto pixel = [&](std::size_t column, std::size_t row) {
      const std::uint8_t* rgb = &preview_.rgb[3 * (row * static_cast<std::size_t>(preview_.size.width) + column)];
      return 0.2126 * light_[rgb[0]] + 0.7152 * light_[rgb[1]] + 0.0722 * light_[rgb[2]];
    };
    return (1 - v) * ((1 - u) * pixel(left, top) + u * pixel(left + 1, top)) + v * ((1 - u) * pixel(left, top + 1) + u * pixel(left + 1, top + 1));
  }

 private:
  const Preview& preview_;
  Mat3 homography_;
  std::array<double, 256> light_{};
};

/// A side of the sheet: rays start on it at `from` + t·`along` and run `out`.
struct SheetSide {
  Point from, along, out;
  double length = 0;
};

/// How far from the rim the paper ends on one ray; negative inward.
std::optional<double> edgeOn(const LightAt& light, const SheetSide& side, double t) {
  const Point start{side.from.x + t * side.along.x, side.from.y + t * side.along.y};
  std::vector<double> profile;
  for (double way = -kInward; way <= kOutward + kBench; way += kRayStep) {
    const auto one = light({start.x + way * side.out.x, start.y + way * side.out.y});
    if (!one) break;
    profile.push_back(*one);
  }
  constexpr std::ptrdiff_t kPaper = 20, kBenchSteps = 16;  // 2 mm of paper just inside the edge, and what kBench is in steps
  for (std::ptrdiff_t i = kPaper; i + kBenchSteps < std::ssize(profile); ++i) {
    // The paper in front, short of the edge's blur.
    const auto here = profile.begin() + static_cast<std::ptrdiff_t>(i);
    const double paper = middleValue({here - kPaper, here - kPaper / 2});
    if (!(*here < 0.5 * (1 + kDrop) * paper)) continue;
    const double bench = middleValue({here + kBenchSteps / 2, here + kBenchSteps});
    if (!(bench < kDrop * paper)) continue;
    const double middle = 0.5 * (paper + bench);
    for (auto at = here - kPaper / 2; at < here + kBenchSteps; ++at)
      if (at[0] >= middle && at[1] < middle)
        return (static_cast<double>(at - profile.begin()) + (at[0] - middle) / (at[0] - at[1])) * kRayStep - kInward;
    return std::nullopt;
  }
  return std::nullopt;
}

struct Edge {
  double out = 0;  // at the side's middle, from the rim
  double sd = 0;
};

/// The paper's edge along a side as a line that most rays agree about.
std::optional<Edge> edgeAlong(const LightAt& light, const SheetSide& side, double margin) {
  std::vector<Point> hits;
  std::size_t rays = 0;
  for (double t = margin; t <= side.length - margin; t += kApart, ++rays)
    if (const auto out = edgeOn(light, side, t)) hits.push_back({t - side.length / 2, *out});
  const double least = kLeastAgreeing * static_cast<double>(rays);
  if (rays < 10 || static_cast<double>(hits.size()) < least) return std::nullopt;
  // The median of the slopes between points half the hits apart, then of what is left.
  std::vector<double> slopes, left;
  const std::size_t half = hits.size() / 2;
  for (std::size_t i = 0; i + half < hits.size(); ++i) slopes.push_back((hits[i + half].y - hits[i].y) / (hits[i + half].x - hits[i].x));
  const double slope = std::clamp(middleValue(std::move(slopes)), -kSheetSkew, kSheetSkew);
  for (const Point& hit : hits) left.push_back(hit.y - slope * hit.x);
  const double out = middleValue(left);
  std::vector<double> off;
  for (const double one : left)
    if (std::abs(one - out) <= kAgree) off.push_back(std::abs(one - out));
  const auto agreeing = static_cast<double>(off.size());
  if (agreeing < least) return std::nullopt;
  return Edge{out, 1.4826 * 1.2533 * middleValue(std::move(off)) / std::sqrt(agreeing)};  // of a median: 1.2533 times that of a mean
}

}  // namespace

std::optional<PrintScale> printScale(const Preview& preview, const FoundMat& mat, std::span<const MatLayout> layouts) {
  const MatLayout& layout = mat.layout;
  if (layout.isCutOut()) return std::nullopt;
  const LightAt light(preview, mat.homography);
  const double w = layout.width, h = layout.height;
  const std::array<SheetSide, 4> sides{
      {{{0, 0}, {0, 1}, {-1, 0}, h}, {{w, 0}, {0, 1}, {1, 0}, h}, {{0, 0}, {1, 0}, {0, -1}, w}, {{0, h}, {1, 0}, {0, 1}, w}}};
  std::array<Edge, 4> edges;
  for (std::size_t i = 0; i < sides.size(); ++i) {
    // The corners are left out: that is where the markers are, and a page of another size ends.
    const auto edge = edgeAlong(light, sides[i], kOutward + kInward);
    if (!edge) return std::nullopt;
    edges[i] = *edge;
  }
  const double wide = w + edges[0].out + edges[1].out, high = h + edges[2].out + edges[3].out;

  std::vector<Point> pages{{layout.page_width, layout.page_height}};
  for (const MatLayout& other : layouts)
    if (std::ranges::find(pages, Point{other.page_width, other.page_height}) == pages.end()) pages.push_back({other.page_width, other.page_height});
  std::optional<PrintScale> best;
  double unlike = kAlike;
  for (const Point& page : pages) {
    const double across = page.x / wide, down = page.y / high, differ = std::abs(across / down - 1);
    if (!(differ < unlike)) continue;
    unlike = differ;
    const double seen = std::max(std::hypot(edges[0].sd, edges[1].sd) / wide, std::hypot(edges[2].sd, edges[3].sd) / high);
    best = PrintScale{across, down, std::hypot(kScaleSd, seen)};
  }
  return best;
}

}  // namespace huewright
