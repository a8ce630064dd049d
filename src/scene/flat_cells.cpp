#include "scene/flat_cells.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <opencv2/imgproc.hpp>

namespace huewright {
namespace {

// Tuned on the photographs of charts that the tests name.
constexpr std::array kEdges{12.0, 26.0};             // 8-bit codes within 3 × 3 pixels
constexpr std::array kEdgesHalved{7.0, 13.0, 26.0};  // the same in the picture at half its size, for blurred edges and noise
constexpr double kLeastArea = 36;              // square pixels
constexpr double kMostArea = 1.0 / 36;         // of the picture
constexpr double kLeastShape = 0.89, kMostShape = 1.085;
constexpr double kMostStretch = 2.5;           // longer over shorter side
constexpr double kSameCentre = 0.3;            // of a side
constexpr std::size_t kMostCells = 3000;       // a texture has many more, all small

/// The largest change of any channel within 3 × 3 pixels.
cv::Mat roughness(const cv::Mat& rgb) {
  cv::Mat soft, high, low, range;
  cv::GaussianBlur(rgb, soft, {3, 3}, 0.8);
  const cv::Mat square = cv::getStructuringElement(cv::MORPH_RECT, {3, 3});
  cv::dilate(soft, high, square);
  cv::erode(soft, low, square);
  cv::subtract(high, low, range);
  std::array<cv::Mat, 3> channels;
  cv::split(range, channels.data());
  cv::Mat most;
  cv::max(channels[0], channels[1], most);
  cv::max(most, channels[2], most);
  return most;
}

/// The moments of one label inside its bounding box; nothing when the shape is not that of a patch.
bool measure(const cv::Mat1i& labels, int label, const cv::Rect& box, double area, FlatCell& cell) {
  double x = 0, y = 0, xx = 0, xy = 0, yy = 0;
  for (int row = box.y; row < box.y + box.height; ++row) {
    const int* line = labels[row];
    // Run by run: within a row, sums over a run of pixels are those of a span.
    for (int from = box.x; from < box.x + box.width; ++from) {
      if (line[from] != label) continue;
      int to = from;
      while (to < box.x + box.width && line[to] == label) ++to;
      const double n = to - from, middle = 0.5 * (from + to) - box.x, v = row + 0.5 - box.y;
      x += n * middle;
      y += n * v;
      xx += n * (middle * middle + n * n / 12);
      xy += n * middle * v;
      yy += n * (v * v + 1.0 / 12);
      from = to;
    }
  }
  x /= area;
  y /= area;
  cell.centre = {box.x + x, box.y + y};
  cell.area = area;
  cell.xx = xx / area - x * x;
  cell.xy = xy / area - x * y;
  cell.yy = yy / area - y * y;
  // A parallelogram's area is 12 times the root of the moments' determinant; a disc has 1.05 of that, a triangle 0.87, ragged shapes less.
  const double det = cell.xx * cell.yy - cell.xy * cell.xy;
  if (!(det > 0)) return false;
  const double shape = area / (12 * std::sqrt(det));
  if (shape < kLeastShape || shape > kMostShape) return false;
  const double mean = 0.5 * (cell.xx + cell.yy), apart = std::sqrt(std::max(0.0, mean * mean - det));
  return mean + apart <= kMostStretch * kMostStretch * (mean - apart);
}

double unlikeness(const FlatCell& cell) {
  return std::abs(cell.area / (12 * std::sqrt(cell.xx * cell.yy - cell.xy * cell.xy)) - 1);
}

/// Keeps the squarest of what several thresholds found in one place.
std::vector<FlatCell> withoutRepeats(std::vector<FlatCell> cells) {
  std::ranges::sort(cells, {}, [](const FlatCell& c) { return c.centre.x; });
  std::vector<char> gone(cells.size());
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const double reach = kSameCentre * std::sqrt(cells[i].area);
    for (std::size_t j = i + 1; j < cells.size() && !gone[i] && cells[j].centre.x - cells[i].centre.x <= reach; ++j) {
      if (gone[j] || std::abs(cells[j].centre.y - cells[i].centre.y) > reach) continue;
      if (cells[j].area > 2.5 * cells[i].area || cells[i].area > 2.5 * cells[j].area) continue;
      (unlikeness(cells[j]) < unlikeness(cells[i]) ? gone[i] : gone[j]) = 1;
    }
  }
  std::vector<FlatCell> kept;
  for (std::size_t i = 0; i < cells.size(); ++i)
    if (!gone[i]) kept.push_back(cells[i]);
  return kept;
}

/// The flat areas between edges of more than so many codes.
void addCells(const cv::Mat& rough, double edge, double least, double most, double scale, std::vector<FlatCell>& cells) {
  cv::Mat flat;
  cv::Mat1i labels, stats;
  cv::Mat1d centroids;
  cv::threshold(rough, flat, edge, 255, cv::THRESH_BINARY_INV);
  const int count = cv::connectedComponentsWithStats(flat, labels, stats, centroids, 4, CV_32S);
  for (int label = 1; label < count; ++label) {
    const double area = stats(label, cv::CC_STAT_AREA);
    const cv::Rect box(stats(label, cv::CC_STAT_LEFT), stats(label, cv::CC_STAT_TOP), stats(label, cv::CC_STAT_WIDTH), stats(label, cv::CC_STAT_HEIGHT));
    // A square on its corner fills half of its box; one that is tilted as well, somewhat less.
    if (area < least || area > most || area < 0.38 * box.area() || box.width > 4 * box.height || box.height > 4 * box.width) continue;
    FlatCell cell;
    if (!measure(labels, label, box, area, cell)) continue;
    const double square = scale * scale;
    cells.push_back({{scale * cell.centre.x, scale * cell.centre.y}, square * cell.area, square * cell.xx, square * cell.xy, square * cell.yy});
  }
}

}  // namespace

std::vector<FlatCell> flatCells(const Preview& preview) {
  const cv::Mat rgb(preview.size.height, preview.size.width, CV_8UC3, const_cast<std::uint8_t*>(preview.rgb.data()));  // is only read
  const double most = kMostArea * preview.size.width * preview.size.height;
  std::vector<FlatCell> cells;
  const cv::Mat rough = roughness(rgb);
  for (const double edge : kEdges) addCells(rough, edge, kLeastArea, most, 1, cells);
  cv::Mat half;
  cv::resize(rgb(cv::Rect(0, 0, rgb.cols / 2 * 2, rgb.rows / 2 * 2)), half, {rgb.cols / 2, rgb.rows / 2}, 0, 0, cv::INTER_AREA);
  const cv::Mat rough_half = roughness(half);
  for (const double edge : kEdgesHalved) addCells(rough_half, edge, kLeastArea, most / 4, 2, cells);
  cells = withoutRepeats(std::move(cells));
  if (cells.size() > kMostCells) {
    std::ranges::nth_element(cells, cells.begin() + kMostCells, std::ranges::greater{}, &FlatCell::area);
    cells.resize(kMostCells);
  }
  return cells;
}

}  // namespace huewright
