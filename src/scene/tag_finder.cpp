#include "scene/tag_finder.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <new>
#include <opencv2/imgproc.hpp>
#include <optional>

#include "scene/edge_corners.hpp"
#include "scene/grey_view.hpp"
#include "scene/homography.hpp"
#include "scene/middle_value.hpp"
#include "scene/tag_cells.hpp"

namespace huewright {
namespace {

// Tuned on the drawn tags of the tests.
constexpr int kTagWindow = 25;               // pixels: the surroundings that a pixel must be darker than
constexpr double kTagDarker = 7;             // grey levels, by which
constexpr double kTagShortest = 30;          // pixels: the side of a tilted tag; below it nothing was ever read
constexpr double kTagContrast = 20;          // grey levels between frame and paper
constexpr double kTagOfContrast = 0.3;       // of the frame's usual contrast, that each place of it must show
constexpr double kTagFrameShown = 0.85;      // share of the frame's places that must
constexpr std::size_t kMostOutlines = 400;   // the largest are looked at

using Levels = std::array<std::array<double, kTagAcross>, kTagAcross>;

double sideOf(const Quad& quad, std::size_t i) {
  const Point a = quad.corners[i], b = quad.corners[(i + 1) % 4];
  return std::hypot(a.x - b.x, a.y - b.y);
}
double shortestTagSide(const Quad& quad) { return std::min({sideOf(quad, 0), sideOf(quad, 1), sideOf(quad, 2), sideOf(quad, 3)}); }

/// A point of the tag, in cells from its top left corner.
double cellLevel(const GreyView& picture, const Mat3& lie, double x, double y) { return levelAt(picture, mapped(lie, {x, y})).value_or(-1); }

/// Dark outlines with four corners, pixels; the largest first.
std::vector<Quad> outlines(const cv::Mat& grey) {
  cv::Mat dark;
  cv::adaptiveThreshold(grey, dark, 255, cv::ADAPTIVE_THRESH_MEAN_C, cv::THRESH_BINARY_INV, kTagWindow, kTagDarker);
  std::vector<std::vector<cv::Point>> contours;
  std::vector<cv::Vec4i> kin;
  cv::findContours(dark, contours, kin, cv::RETR_CCOMP, cv::CHAIN_APPROX_SIMPLE);
  std::vector<Quad> found;
  for (std::size_t i = 0; i < contours.size(); ++i) {
    if (kin[i][3] >= 0 || contours[i].size() < 4) continue;  // the inside of something
    const cv::Rect box = cv::boundingRect(contours[i]);
    if (std::min(box.width, box.height) < kTagShortest || box.width > 4 * box.height || box.height > 4 * box.width) continue;
    std::vector<cv::Point> hull, corners;
    cv::convexHull(contours[i], hull);
    for (const double rough : {0.03, 0.05, 0.08}) {
      cv::approxPolyDP(hull, corners, rough * cv::arcLength(hull, true), true);
      if (corners.size() == 4) break;
    }
    if (corners.size() != 4 || cv::contourArea(corners) < 0.85 * cv::contourArea(hull) || cv::contourArea(contours[i]) < 0.8 * cv::contourArea(hull)) continue;
    Quad quad;
    for (std::size_t c = 0; c < 4; ++c) quad.corners[c] = {corners[c].x + 0.5, corners[c].y + 0.5};
    quad = clockwise(quad);
    // The pixels' centres lie half a pixel inside the outline.
    const double grown = 1 / (0.5 * shortestTagSide(quad));
    quad = inset(quad, -0.5 * grown);
    if (isConvex(quad) && shortestTagSide(quad) >= kTagShortest) found.push_back(quad);
  }
  std::ranges::sort(found, std::ranges::greater{}, signedArea);
  if (found.size() > kMostOutlines) found.resize(kMostOutlines);
  return found;
}

/// Where a tag lies if there is one: cells from its top left corner to pixels.
std::optional<Mat3> lieOf(const Quad& quad) {
  constexpr double kAll = kTagAcross;
  const std::array<Point, 4> square{{{0, 0}, {kAll, 0}, {kAll, kAll}, {0, kAll}}};
  const auto fit = fitHomography(square, quad.corners);
  if (!fit) return {};
  return fit->matrix;
}

/// Whether paper, black frame and white frame follow each other all the way round.
bool hasFrames(const GreyView& picture, const Mat3& lie) {
  constexpr double kAll = kTagAcross;
  std::vector<double> contrasts;
  for (double along = 1.5; along < kAll - 1; ++along)
    for (int side = 0; side < 4; ++side) {
      const auto level = [&](double in) {
        const double far = kAll - in;
        return side == 0 ? cellLevel(picture, lie, along, in) : side == 1 ? cellLevel(picture, lie, far, along) : side == 2 ? cellLevel(picture, lie, along, far) : cellLevel(picture, lie, in, along);
      };
      const double paper = level(-0.8), black = level(0.5);
      if (paper < 0 || black < 0) return false;  // reaches out of the picture
      contrasts.push_back(paper - black);
      contrasts.push_back(level(1.5) - black);
    }
  const double usual = middleValue(contrasts);
  if (usual < kTagContrast) return false;
  const auto shown = std::ranges::count_if(contrasts, [&](double c) { return c > kTagOfContrast * usual; });
  return static_cast<double>(shown) >= kTagFrameShown * static_cast<double>(contrasts.size());
}

/// The mean level round each cell's centre.
Levels levelsOf(const GreyView& picture, const Mat3& lie) {
  constexpr double kCore = 0.2;  // of a cell
  Levels levels{};
  for (std::size_t y = 0; y < kTagAcross; ++y)
    for (std::size_t x = 0; x < kTagAcross; ++x) {
      double sum = 0;
      for (const auto& [dx, dy] : {std::pair{0.0, 0.0}, std::pair{-kCore, -kCore}, std::pair{kCore, -kCore}, std::pair{-kCore, kCore}, std::pair{kCore, kCore}})
        sum += cellLevel(picture, lie, static_cast<double>(x) + 0.5 + dx, static_cast<double>(y) + 0.5 + dy);
      levels[y][x] = sum / 5;
    }
  return levels;
}

/// What blur took from each cell is given back from its neighbours.
Levels sharpened(const Levels& levels, double by) {
  Levels out = levels;
  for (std::size_t y = 1; y + 1 < kTagAcross; ++y)
    for (std::size_t x = 1; x + 1 < kTagAcross; ++x)
      out[y][x] += by * (levels[y][x] - 0.25 * (levels[y - 1][x] + levels[y + 1][x] + levels[y][x - 1] + levels[y][x + 1]));
  return out;
}

/// Black where a cell is darker than half-way between the frames at the ends of its row and column, the nearer the more: light may fall off across a tag.
TagCells blackCells(const Levels& levels) {
  constexpr std::size_t kLast = kTagAcross - 1;
  TagCells cells{};
  for (std::size_t y = 2; y < kLast - 1; ++y)
    for (std::size_t x = 2; x < kLast - 1; ++x) {
      const auto half = [](double black, double white) { return 0.5 * (black + white); };
      const double left = half(levels[y][0], levels[y][1]), right = half(levels[y][kLast], levels[y][kLast - 1]);
      const double top = half(levels[0][x], levels[1][x]), bottom = half(levels[kLast][x], levels[kLast - 1][x]);
      const double across = static_cast<double>(x) / kLast, down = static_cast<double>(y) / kLast;
      const double middle = 0.5 * (left + across * (right - left) + top + down * (bottom - top));
      cells[y - 2][x - 2] = levels[y][x] < middle;
    }
  return cells;
}

/// Whether cells are as mixed as those of a tag are: neither mostly of one colour nor in large areas.
bool looksMixed(const TagCells& cells) {
  int black = 0, changes = 0;
  for (std::size_t y = 0; y < kTagData; ++y)
    for (std::size_t x = 0; x < kTagData; ++x) {
      black += cells[y][x];
      if (x + 1 < kTagData) changes += cells[y][x] != cells[y][x + 1];
      if (y + 1 < kTagData) changes += cells[y][x] != cells[y + 1][x];
    }
  constexpr int kCellCount = kTagData * kTagData, kPairCount = 2 * kTagData * (kTagData - 1);
  return 10 * black > 3 * kCellCount && 10 * black < 7 * kCellCount && 10 * changes > 3 * kPairCount && 10 * changes < 7 * kPairCount;
}

Quad fullSize(Quad quad, double scale) {
  for (Point& p : quad.corners) p = {p.x / scale, p.y / scale};
  return quad;
}

bool sameOne(const Quad& a, const Quad& b) {
  const Point p = centre(a), q = centre(b);
  return std::hypot(p.x - q.x, p.y - q.y) < 0.5 * sideOf(b, 0);
}

TagSearch search(const Preview& preview) {
  const cv::Mat rgb(preview.size.height, preview.size.width, CV_8UC3, const_cast<std::uint8_t*>(preview.rgb.data()));  // is only read
  cv::Mat grey;
  cv::cvtColor(rgb, grey, cv::COLOR_RGB2GRAY);
  const GreyView picture{preview.size, {grey.data, grey.total()}};
  TagSearch found;
  for (const Quad& rough : outlines(grey)) {
    const auto better = cornersByEdges(picture, rough, shortestTagSide(rough) / kTagAcross);
    const Quad quad = better.value_or(rough);
    const auto lie = lieOf(quad);
    if (!lie || !hasFrames(picture, *lie)) continue;
    const Quad place = fullSize(quad, preview.scale);
    if (std::ranges::any_of(found.tags, [&](const SeenTag& other) { return sameOne(place, other.place); })) continue;
    const Levels levels = levelsOf(picture, *lie);
    std::optional<ReadCells> read;
    for (const double sharper : {0.0, 0.5, 1.0})
      if (!read) read = readCells(blackCells(sharpened(levels, sharper)));
    if (read) {
      SeenTag tag{std::move(read->text), place, read->mended};
      std::ranges::rotate(tag.place.corners, tag.place.corners.begin() + read->turns);
      found.tags.push_back(std::move(tag));
    } else if (looksMixed(blackCells(levels)) && std::ranges::none_of(found.unread, [&](const Quad& other) { return sameOne(place, other); })) {
      found.unread.push_back(place);
    }
  }
  std::ranges::stable_sort(found.tags, {}, [](const SeenTag& tag) { return centre(tag.place).y; });
  return found;
}

}  // namespace

Result<TagSearch> findTags(const Preview& preview) {
  const auto pixels = static_cast<std::size_t>(std::max(0, preview.size.width)) * static_cast<std::size_t>(std::max(0, preview.size.height));
  if (preview.rgb.size() != 3 * pixels || !(preview.scale > 0)) return fail(Code::Internal, "a preview of the wrong length");
  constexpr int kLeast = 64;
  if (preview.size.width < kLeast || preview.size.height < kLeast) return TagSearch{};
  try {
    return search(preview);
  } catch (const std::bad_alloc&) {
    return fail(Code::OutOfMemory, "finding tags");
  } catch (const cv::Exception& error) {
    if (error.code == cv::Error::StsNoMem) return fail(Code::OutOfMemory, "finding tags");
    return fail(Code::Internal, "finding tags: " + error.err);
  }
}

}  // namespace huewright
