#include "support/mat_picture.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numbers>
#include <opencv2/imgproc.hpp>
#include <tuple>

namespace huewright::fixtures {
namespace {

constexpr double kFocal = 0.8;
constexpr double kDrawn = 5;  // pixels for a millimetre on the drawing of the sheet

double radians(double degrees) { return degrees * std::numbers::pi / 180; }

Mat3 turned(double degrees) {
  const double c = std::cos(radians(degrees)), s = std::sin(radians(degrees));
  return {{{{c, -s, 0}, {s, c, 0}, {0, 0, 1}}}};
}

Mat3 fallenBack(double degrees) {
  const double c = std::cos(radians(degrees)), s = std::sin(radians(degrees));
  return {{{{c, 0, s}, {0, 1, 0}, {-s, 0, c}}}};
}

Point through(const Mat3& h, Point p) {
  const Vec3 v = h * Vec3{p.x, p.y, 1};
  return {v[0] / v[2], v[1] / v[2]};
}

cv::Vec4f opaque(const Light& light) { return {static_cast<float>(light[0]), static_cast<float>(light[1]), static_cast<float>(light[2]), 1}; }

/// Fills a rectangle in millimetres, each pixel by the share of it that is covered.
void fill(cv::Mat& drawing, const MatRect& mm, const cv::Vec4f& colour) {
  const double left = mm.x * kDrawn, top = mm.y * kDrawn, right = (mm.x + mm.width) * kDrawn, bottom = (mm.y + mm.height) * kDrawn;
  const auto covered = [](int pixel, double low, double high) { return std::clamp(std::min(pixel + 1.0, high) - std::max<double>(pixel, low), 0.0, 1.0); };
  for (int y = std::max(0, static_cast<int>(top)); y < std::min<int>(drawing.rows, static_cast<int>(std::ceil(bottom))); ++y)
    for (int x = std::max(0, static_cast<int>(left)); x < std::min<int>(drawing.cols, static_cast<int>(std::ceil(right))); ++x) {
      const auto share = static_cast<float>(covered(x, left, right) * covered(y, top, bottom));
      auto& pixel = drawing.at<cv::Vec4f>(y, x);
      pixel = pixel * (1 - share) + colour * share;
    }
}

cv::Mat drawn(const MatLayout& layout, const Contents& contents, cv::RNG& rng) {
  cv::Mat drawing(static_cast<int>(std::ceil(layout.height * kDrawn)), static_cast<int>(std::ceil(layout.width * kDrawn)), CV_32FC4, cv::Scalar(kMatPaper[0], kMatPaper[1], kMatPaper[2], 1));
  const cv::Vec4f ink = opaque(kMatInk), paper = opaque(kMatPaper);
  for (const MatMarker& marker : layout.markers) {
    const double cell = marker.side / 6;
    fill(drawing, {marker.x, marker.y, marker.side, marker.side}, ink);
    for (std::size_t y = 0; y < 4; ++y)
      for (std::size_t x = 0; x < 4; ++x)
        if (marker.white[y][x])
          fill(drawing, {marker.x + cell * (1 + static_cast<double>(x)), marker.y + cell * (1 + static_cast<double>(y)), cell, cell}, paper);
  }
  for (const Point& dot : layout.dots.centres)
    cv::circle(drawing, {static_cast<int>(dot.x * kDrawn), static_cast<int>(dot.y * kDrawn)}, static_cast<int>(layout.dots.diameter / 2 * kDrawn),
               cv::Scalar(0.3, 0.3, 0.3, 1), cv::FILLED, cv::LINE_AA);
  const MatTicks& t = layout.ticks;
  for (const MatWindow& window : layout.windows)
    for (int corner = 0; corner < 4; ++corner) {
      const bool right = corner % 2 == 1, low = corner >= 2;
      const double x = window.place.x + (right ? window.place.width : 0), y = window.place.y + (low ? window.place.height : 0);
      fill(drawing, {right ? x + t.gap : x - t.gap - t.length, y - t.width / 2, t.length, t.width}, ink);
      fill(drawing, {x - t.width / 2, low ? y + t.gap : y - t.gap - t.length, t.width, t.length}, ink);
    }
  for (const MatRect& words : {layout.areas.title, layout.areas.notes, layout.areas.caution, layout.areas.pictograms})
    for (int row = 0; row < 3; ++row)  // something like lines of text
      for (double x = words.x; x + 2 < words.x + words.width && x + 2 < layout.width; x += 3)
        fill(drawing, {x, words.y + words.height * (0.2 + 0.25 * row), 1.6, words.height * 0.1}, ink);
  for (std::size_t i = 0; i < std::min(contents.size(), layout.windows.size()); ++i) {
    if (!contents[i]) continue;
    const MatRect& w = layout.windows[i].place;
    const double s = contents[i]->smaller;
    const MatRect place{w.x + s, w.y + s, w.width - 2 * s, w.height - 2 * s};
    fill(drawing, place, opaque(contents[i]->colour));
    if (contents[i]->speckle <= 0) continue;
    cv::Mat part = drawing(cv::Rect(static_cast<int>(place.x * kDrawn), static_cast<int>(place.y * kDrawn), static_cast<int>(place.width * kDrawn),
                                    static_cast<int>(place.height * kDrawn)));
    cv::Mat sparkle(part.size(), CV_32FC1);
    rng.fill(sparkle, cv::RNG::NORMAL, 1.0, contents[i]->speckle * 4);  // a pixel of the drawing is far smaller than one of the photo
    for (int y = 0; y < part.rows; ++y)
      for (int x = 0; x < part.cols; ++x) {
        auto& pixel = part.at<cv::Vec4f>(y, x);
        const float by = std::max(0.0F, sparkle.at<float>(y, x));
        pixel = {pixel[0] * by, pixel[1] * by, pixel[2] * by, 1};
      }
  }
  return drawing;
}

cv::Mat clutter(Size size, std::uint64_t seed) {
  cv::RNG rng(seed * 7919 + 17);
  cv::Mat bench(size.height, size.width, CV_32FC3, cv::Scalar(rng.uniform(0.05, 0.5), rng.uniform(0.05, 0.5), rng.uniform(0.05, 0.5)));
  for (int coarse : {5, 23, 97, 450}) {
    cv::Mat noise(std::max(2, size.height / coarse), std::max(2, size.width / coarse * (coarse == 5 ? 1 : 2)), CV_32FC3), large;
    rng.fill(noise, cv::RNG::NORMAL, 0, 0.05);
    cv::resize(noise, large, bench.size(), 0, 0, cv::INTER_LINEAR);
    bench += large;
  }
  for (int i = 0; i < 40; ++i) {  // tools, boxes, other papers
    const cv::RotatedRect box(cv::Point2f(rng.uniform(0.0F, float(size.width)), rng.uniform(0.0F, float(size.height))),
                              cv::Size2f(rng.uniform(10.0F, 160.0F), rng.uniform(10.0F, 160.0F)), rng.uniform(0.0F, 180.0F));
    std::array<cv::Point2f, 4> corners;
    box.points(corners.data());
    std::array<cv::Point, 4> whole;
    std::ranges::transform(corners, whole.begin(), [](const cv::Point2f& p) { return cv::Point(static_cast<int>(p.x), static_cast<int>(p.y)); });
    const double grey = rng.uniform(0.02, 0.8);
    cv::fillConvexPoly(bench, whole.data(), 4, cv::Scalar(grey * rng.uniform(0.6, 1.0), grey * rng.uniform(0.6, 1.0), grey * rng.uniform(0.6, 1.0)), cv::LINE_AA);
  }
  return cv::max(bench, 0.01);
}

cv::Mat view(Size size, const std::vector<float>& light) {
  return {size.height, size.width, CV_32FC3, const_cast<float*>(light.data())};
}

}  // namespace

double uniform(std::mt19937_64& random) { return static_cast<double>(random() >> 11) * 0x1p-53; }

MatPose randomPose(std::mt19937_64& random, double least_tilt, double most_tilt) {
  MatPose pose;
  pose.turn = 360 * uniform(random);
  pose.tilt = least_tilt + (most_tilt - least_tilt) * uniform(random);
  pose.towards = 360 * uniform(random);
  pose.fill = 0.6 + 0.36 * uniform(random);
  const double room = 0.5 * (1 - pose.fill) - 0.005;
  pose.middle = {0.5 + room * (2 * uniform(random) - 1), 0.5 + room * (2 * uniform(random) - 1)};
  return pose;
}

Mat3 matHomography(const MatLayout& layout, const MatPose& pose, Size picture) {
  const double longer = std::max(picture.width, picture.height), focal = kFocal * longer;
  const Mat3 rotation = turned(pose.towards) * fallenBack(pose.tilt) * turned(pose.turn - pose.towards);
  // The distance at which the sheet's bounding box takes up the share asked for.
  const auto at = [&](double distance) {
    Mat3 h;
    for (std::size_t r = 0; r < 3; ++r) {
      h(r, 0) = rotation(r, 0);
      h(r, 1) = rotation(r, 1);
      h(r, 2) = -rotation(r, 0) * layout.width / 2 - rotation(r, 1) * layout.height / 2 + (r == 2 ? distance : 0);
    }
    return Mat3::diagonal({focal, focal, 1}) * h;
  };
  const auto box = [&](const Mat3& h) {
    std::array<double, 4> sides{1e9, 1e9, -1e9, -1e9};
    for (const Point& mm : {Point{0, 0}, Point{layout.width, 0}, Point{layout.width, layout.height}, Point{0, layout.height}}) {
      const Point p = through(h, mm);
      sides = {std::min(sides[0], p.x), std::min(sides[1], p.y), std::max(sides[2], p.x), std::max(sides[3], p.y)};
    }
    return sides;
  };
  double near = 0.55 * std::hypot(layout.width, layout.height), far = 100 * near;
  for (int i = 0; i < 80; ++i) {
    const double middle = 0.5 * (near + far);
    const auto b = box(at(middle));
    const double filled = std::max((b[2] - b[0]) / picture.width, (b[3] - b[1]) / picture.height);
    (filled > pose.fill ? near : far) = middle;
  }
  const Mat3 h = at(far);
  const auto b = box(h);
  const Mat3 shift{{{{1, 0, pose.middle.x * picture.width - 0.5 * (b[0] + b[2])}, {0, 1, pose.middle.y * picture.height - 0.5 * (b[1] + b[3])}, {0, 0, 1}}}};
  return shift * h;
}

Contents colourful(const MatLayout& layout, std::size_t from) {
  constexpr std::array<Light, 5> kColours{{{0.02, 0.25, 0.30}, {0.03, 0.30, 0.36}, {0.45, 0.06, 0.05}, {0.18, 0.18, 0.18}, {0.30, 0.42, 0.10}}};
  Contents contents(layout.windows.size());
  for (std::size_t i = 0; i < std::min(from, contents.size()); ++i) contents[i] = Filled{kColours[i % kColours.size()], i % 2 == 0 ? 0.1 : 0};
  return contents;
}

MatPicture::MatPicture(Size size, std::uint64_t seed) : size_(size), seed_(seed), light_(3 * static_cast<std::size_t>(size.width) * static_cast<std::size_t>(size.height)) {
  // A few benches serve all, mirrored and turned by the seed; the noise differs.
  static std::map<std::tuple<int, int, std::uint64_t>, cv::Mat> benches;
  cv::Mat& bench = benches[{size.width, size.height, seed % 4}];
  if (bench.empty()) bench = clutter(size, seed % 4);
  cv::Mat turned_round = view(size_, light_);
  cv::flip(bench, turned_round, static_cast<int>(seed / 4 % 3) - 1);
}

MatPicture::MatPicture(Size size, Light colour) : size_(size), light_(3 * static_cast<std::size_t>(size.width) * static_cast<std::size_t>(size.height)) {
  view(size_, light_).setTo(cv::Scalar(colour[0], colour[1], colour[2]));
}

void MatPicture::lay(const MatLayout& layout, const Mat3& homography, const Contents& contents) {
  cv::RNG rng(seed_ + 5);
  cv::Mat drawing = drawn(layout, contents, rng);
  // Smoothed so far that sampling it at the photo's pixels loses nothing.
  const Point a = through(homography, {0, layout.height / 2}), b = through(homography, {layout.width, layout.height / 2});
  const double drawn_a_pixel = layout.width * kDrawn / std::hypot(a.x - b.x, a.y - b.y);
  if (drawn_a_pixel > 1) cv::GaussianBlur(drawing, drawing, {}, 0.4 * drawn_a_pixel);
  // Only the part of the picture in which the sheet lies.
  double left = 1e9, top = 1e9, right = -1e9, bottom = -1e9;
  for (const Point& mm : {Point{0, 0}, Point{layout.width, 0}, Point{layout.width, layout.height}, Point{0, layout.height}}) {
    const Point p = through(homography, mm);
    left = std::min(left, p.x), top = std::min(top, p.y), right = std::max(right, p.x), bottom = std::max(bottom, p.y);
  }
  const cv::Rect box = cv::Rect(static_cast<int>(left) - 2, static_cast<int>(top) - 2, static_cast<int>(right - left) + 5, static_cast<int>(bottom - top) + 5) &
                       cv::Rect(0, 0, size_.width, size_.height);
  if (box.empty()) return;
  // Pixel i's centre is at i + 0.5, in the drawing as in the photo; warpPerspective counts centres as i.
  const Mat3 shift_in{{{{1 / kDrawn, 0, 0.5 / kDrawn}, {0, 1 / kDrawn, 0.5 / kDrawn}, {0, 0, 1}}}}, shift_out{{{{1, 0, -0.5 - box.x}, {0, 1, -0.5 - box.y}, {0, 0, 1}}}};
  const Mat3 h = shift_out * homography * shift_in;
  cv::Matx33d warp;
  for (std::size_t r = 0; r < 3; ++r)
    for (std::size_t c = 0; c < 3; ++c) warp(static_cast<int>(r), static_cast<int>(c)) = h(r, c);
  cv::Mat laid;
  cv::warpPerspective(drawing, laid, warp, box.size(), cv::INTER_LINEAR, cv::BORDER_CONSTANT, cv::Scalar::all(0));
  for (int y = 0; y < box.height; ++y) {
    const auto* over = laid.ptr<cv::Vec4f>(y);  // colour times its cover: the outside is all zero
    float* under = &light_[3 * (static_cast<std::size_t>(box.y + y) * static_cast<std::size_t>(size_.width) + static_cast<std::size_t>(box.x))];
    for (int x = 0; x < box.width; ++x)
      for (int c = 0; c < 3; ++c) under[3 * x + c] = over[x][c] + (1 - over[x][3]) * under[3 * x + c];
  }
}

void MatPicture::cover(const Quad& quad, Light colour) {
  std::array<cv::Point, 4> corners;
  std::ranges::transform(quad.corners, corners.begin(), [](Point p) { return cv::Point(static_cast<int>(p.x), static_cast<int>(p.y)); });
  cv::Mat light = view(size_, light_);
  cv::fillConvexPoly(light, corners.data(), 4, cv::Scalar(colour[0], colour[1], colour[2]));
}

void MatPicture::fallOff(double by, double direction) {
  const double dx = std::cos(radians(direction)), dy = std::sin(radians(direction));
  const double reach = std::abs(dx) * size_.width + std::abs(dy) * size_.height;
  for (int y = 0; y < size_.height; ++y)
    for (int x = 0; x < size_.width; ++x) {
      const auto gain = static_cast<float>(1 - by * (0.5 + (dx * (x - 0.5 * size_.width) + dy * (y - 0.5 * size_.height)) / reach));
      float* pixel = &light_[3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(size_.width) + static_cast<std::size_t>(x))];
      for (int c = 0; c < 3; ++c) pixel[c] *= gain;
    }
}

void MatPicture::shade(Point from, Point to, double left) {
  const double length = std::hypot(to.x - from.x, to.y - from.y);
  for (int y = 0; y < size_.height; ++y)
    for (int x = 0; x < size_.width; ++x) {
      const double beyond = ((to.x - from.x) * (y + 0.5 - from.y) - (to.y - from.y) * (x + 0.5 - from.x)) / length;  // pixels to the right
      const auto gain = static_cast<float>(1 - (1 - left) * std::clamp(0.5 + beyond / 6, 0.0, 1.0));
      float* pixel = &light_[3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(size_.width) + static_cast<std::size_t>(x))];
      for (int c = 0; c < 3; ++c) pixel[c] *= gain;
    }
}

void MatPicture::mirror() {
  cv::Mat light = view(size_, light_);
  cv::Mat flipped;
  cv::flip(light, flipped, 1);
  flipped.copyTo(light);
}

Preview MatPicture::take(double blur, double noise, double scale) const {
  cv::Mat seen = view(size_, light_);
  if (blur > 0) {
    cv::Mat blurred;
    cv::GaussianBlur(seen, blurred, {}, blur);
    seen = blurred;
  }
  // sRGB (IEC 61966-2-1), written down here anew, as a table of 4096 lights.
  static const std::vector<float> kCodes = [] {
    std::vector<float> codes(4096);
    for (std::size_t i = 0; i < codes.size(); ++i) {
      const double light = static_cast<double>(i) / 4095;
      codes[i] = static_cast<float>(255 * (light <= 0.0031308 ? 12.92 * light : 1.055 * std::pow(light, 1 / 2.4) - 0.055));
    }
    return codes;
  }();
  static const cv::Mat kNoise = [] {
    cv::Mat tile(1, 1 << 20, CV_32F);
    cv::RNG rng(4711);
    rng.fill(tile, cv::RNG::NORMAL, 0, 1);
    return tile;
  }();
  Preview preview{size_, scale, std::vector<std::uint8_t>(light_.size())};
  const float *light = seen.ptr<float>(), *codes = kCodes.data(), *noises = kNoise.ptr<float>();
  const auto strength = static_cast<float>(noise);
  std::size_t at = (seed_ * 104729) & 0xfffff;
  for (std::size_t i = 0; i < light_.size(); ++i, at = (at + 1) & 0xfffff) {
    const int step = std::clamp(static_cast<int>(light[i] * 4095 + 0.5F), 0, 4095);
    preview.rgb[i] = static_cast<std::uint8_t>(std::clamp(static_cast<int>(codes[step] + strength * noises[at] + 0.5F), 0, 255));
  }
  return preview;
}

}  // namespace huewright::fixtures
