#include "scene/shake.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <opencv2/imgproc.hpp>

namespace huewright {
namespace {

constexpr int kSmallSide = 480;       // pixels, of the longest side of what is compared
constexpr double kWholeResponse = 0.08, kPartResponse = 0.15;  // of 1, of the correlation's peak: set on simulated frames
constexpr double kFarFromOthers = 0.6, kFineEnough = 0.1, kSettled = 0.5;  // pixels of the small picture
constexpr int kRounds = 4;

/// Levels of a small picture, each the mean of a square of the large one, its three channels together.
cv::Mat smallLevels(std::span<const std::uint8_t> rgb, Size size, int by) {
  const int width = size.width / by, height = size.height / by;
  cv::Mat small(height, width, CV_32F);
  const std::size_t line = std::size_t{3} * static_cast<std::size_t>(size.width);
  std::vector<std::uint32_t> sums(static_cast<std::size_t>(width));
  for (int y = 0; y < height; ++y) {
    std::ranges::fill(sums, 0U);
    for (int j = 0; j < by; ++j) {
      const std::uint8_t* row = rgb.data() + line * static_cast<std::size_t>(y * by + j);
      for (int x = 0; x < width; ++x) {
        std::uint32_t sum = 0;
        for (int i = 0; i < 3 * by; ++i) sum += row[3 * by * x + i];
        sums[static_cast<std::size_t>(x)] += sum;
      }
    }
    auto* to = small.ptr<float>(y);
    for (int x = 0; x < width; ++x) to[x] = static_cast<float>(sums[static_cast<std::size_t>(x)]) / static_cast<float>(3 * by * by);
  }
  return small;
}

/// Slopes carry the edges; levels alone would let a change of the light look like a shift.
cv::Mat slopes(const cv::Mat& levels) {
  cv::Mat across, down, length;
  cv::Sobel(levels, across, CV_32F, 1, 0, 3);
  cv::Sobel(levels, down, CV_32F, 0, 1, 3);
  cv::magnitude(across, down, length);
  return length;
}

/// About the middle of the small picture, in its pixels: x' = x + dx + scale x − turn y, y' = y + dy + turn x + scale y.
struct SmallMove {
  double dx = 0, dy = 0, turn = 0, scale = 0;
};

/// First the one, then the other.
SmallMove after(const SmallMove& a, const SmallMove& b) {
  const double c = 1 + b.scale, s = b.turn;
  return {b.dx + c * a.dx - s * a.dy, b.dy + s * a.dx + c * a.dy, s * (1 + a.scale) + c * a.turn, c * (1 + a.scale) - s * a.turn - 1};
}

double reachOf(const SmallMove& m, cv::Size size) { return std::hypot(m.dx, m.dy) + std::hypot(m.turn, m.scale) * 0.5 * std::hypot(size.width, size.height); }

/// The picture as it was before the movement.
cv::Mat undone(const cv::Mat& levels, const SmallMove& m) {
  const double mx = 0.5 * (levels.cols - 1), my = 0.5 * (levels.rows - 1), c = 1 + m.scale;
  const cv::Matx23d forth(c, -m.turn, m.dx + mx - c * mx + m.turn * my, m.turn, c, m.dy + my - m.turn * mx - c * my);
  cv::Mat out;
  cv::warpAffine(levels, out, forth, levels.size(), cv::INTER_LINEAR | cv::WARP_INVERSE_MAP, cv::BORDER_REPLICATE);
  return out;
}

/// The longest even side up to this one that suits OpenCV's Fourier transform as it is: with an odd one its phase correlation is off by half a pixel.
int sideUpTo(int limit) {
  int side = limit - limit % 2;
  while (side > 2 && cv::getOptimalDFTSize(side) != side) side -= 2;
  return side;
}

/// OpenCV 4.6 lays the window over its inputs in place where their sides suit its Fourier transform, so it gets copies. In: sides of sideUpTo.
cv::Point2d shiftBetween(const cv::Mat& first, const cv::Mat& now, const cv::Mat& window, double& response) {
  return cv::phaseCorrelate(first.clone(), now.clone(), window, &response);
}

struct PartShift {
  double x = 0, y = 0;    // of its middle from the picture's
  double dx = 0, dy = 0;
};

/// Least squares over the parts.
std::optional<SmallMove> smallMoveOf(const std::vector<PartShift>& shifts) {
  double mx = 0, my = 0, mdx = 0, mdy = 0;
  const auto n = static_cast<double>(shifts.size());
  for (const PartShift& p : shifts) mx += p.x / n, my += p.y / n, mdx += p.dx / n, mdy += p.dy / n;
  double square = 0, s = 0, t = 0;
  for (const PartShift& p : shifts) {
    const double x = p.x - mx, y = p.y - my;
    square += x * x + y * y;
    s += x * (p.dx - mdx) + y * (p.dy - mdy);
    t += x * (p.dy - mdy) - y * (p.dx - mdx);
  }
  if (square < 1) return {};
  s /= square, t /= square;
  return SmallMove{mdx - s * mx + t * my, mdy - t * mx - s * my, t, s};
}

}  // namespace

struct ShakeMeter::Inside {
  Size size{};
  int by = 1;
  cv::Mat first;
  cv::Rect whole;         ///< the middle of the small picture
  cv::Mat whole_window, part_window;
  std::vector<cv::Rect> parts;
};

namespace {

/// What movement is left between the first picture and one in which most of it is undone; nothing when fewer than two quarters are known again. Of four, one that does not go
/// with the others is left out: something may lie before it.
std::optional<SmallMove> restOf(const cv::Mat& first, const cv::Mat& now, const std::vector<cv::Rect>& parts, const cv::Mat& window) {
  std::vector<PartShift> shifts;
  for (const cv::Rect& part : parts) {
    double sure = 0;
    const cv::Point2d d = shiftBetween(first(part), now(part), window, sure);
    if (sure >= kPartResponse) shifts.push_back({part.x + 0.5 * (part.width - first.cols), part.y + 0.5 * (part.height - first.rows), d.x, d.y});
  }
  if (shifts.size() < 2) return {};
  auto found = smallMoveOf(shifts);
  if (!found || shifts.size() < 4) return found;
  const auto off = [&](const PartShift& p) { return std::hypot(p.dx - found->dx - found->scale * p.x + found->turn * p.y, p.dy - found->dy - found->turn * p.x - found->scale * p.y); };
  const auto worst = std::ranges::max_element(shifts, {}, off);
  if (off(*worst) < kFarFromOthers) return found;
  shifts.erase(worst);
  return smallMoveOf(shifts);
}

}  // namespace

Point Shake::moved(Point at) const {
  const double x = at.x - 0.5 * size.width, y = at.y - 0.5 * size.height;
  return {at.x + dx + scale * x - turn * y, at.y + dy + turn * x + scale * y};
}

double Shake::beyondShift() const { return std::hypot(turn, scale) * 0.5 * std::hypot(size.width, size.height); }

ShakeMeter::ShakeMeter(std::span<const std::uint8_t> rgb, Size size) : in_(std::make_unique<Inside>()) {
  in_->size = size;
  in_->by = std::max(1, (std::max(size.width, size.height) + kSmallSide - 1) / kSmallSide);
  in_->first = slopes(smallLevels(rgb, size, in_->by));
  const cv::Size all = in_->first.size(), whole(sideUpTo(all.width), sideUpTo(all.height)), part(sideUpTo(all.width / 2), sideUpTo(all.height / 2));
  in_->whole = cv::Rect((all.width - whole.width) / 2, (all.height - whole.height) / 2, whole.width, whole.height);
  cv::createHanningWindow(in_->whole_window, whole, CV_32F);
  cv::createHanningWindow(in_->part_window, part, CV_32F);
  for (const int y : {0, all.height - part.height})
    for (const int x : {0, all.width - part.width}) in_->parts.emplace_back(x, y, part.width, part.height);
}

ShakeMeter::ShakeMeter(ShakeMeter&&) noexcept = default;
ShakeMeter& ShakeMeter::operator=(ShakeMeter&&) noexcept = default;
ShakeMeter::~ShakeMeter() = default;

std::optional<Shake> ShakeMeter::measure(std::span<const std::uint8_t> rgb) const {
  const Inside& in = *in_;
  if (rgb.size() != std::size_t{3} * static_cast<std::size_t>(in.size.width) * static_cast<std::size_t>(in.size.height)) return {};
  const cv::Mat levels = smallLevels(rgb, in.size, in.by);
  double response = 0;
  const cv::Point2d whole = shiftBetween(in.first(in.whole), slopes(levels)(in.whole), in.whole_window, response);
  if (!(response >= kWholeResponse)) return {};
  // What was found is undone, and what is left of it measured quarter by quarter.
  SmallMove found{whole.x, whole.y, 0, 0};
  double rest = INFINITY;
  for (int round = 0; round < kRounds && rest >= kFineEnough; ++round) {
    const auto left = restOf(in.first, slopes(undone(levels, found)), in.parts, in.part_window);
    if (!left) return {};
    found = after(found, *left);
    rest = reachOf(*left, levels.size());
  }
  // What goes on moving however often it is undone was taken for something else.
  if (rest > kSettled) return {};
  return Shake{found.dx * in.by, found.dy * in.by, found.turn, found.scale, in.size};
}

}  // namespace huewright
