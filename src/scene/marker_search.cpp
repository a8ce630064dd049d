#include "scene/marker_search.hpp"

#include <algorithm>
#include <cmath>
#include <opencv2/aruco.hpp>
#include <opencv2/imgproc.hpp>
#include <optional>

#include "scene/edge_corners.hpp"
#include "scene/homography.hpp"
#include "scene/middle_value.hpp"

namespace huewright {
namespace {

constexpr double kContrast = 25;       // grey levels between a marker's white and black, at the least
constexpr double kOfContrast = 0.35;   // of the marker's usual contrast, that each pair of neighbours must show
constexpr double kFailures = 0.10;     // share of the pairs that may fail
constexpr double kCellCore = 0.25;     // of a cell's side, round its centre, that is sampled
constexpr double kSameMarker = 0.5;    // of a side: nearer centres are one marker seen twice

using Cells = std::array<std::array<bool, 4>, 4>;

Cells inMirror(Cells cells) {
  for (auto& row : cells) std::ranges::reverse(row);
  return cells;
}

Cells quarterTurned(const Cells& cells) {
  Cells out;
  for (std::size_t y = 0; y < 4; ++y)
    for (std::size_t x = 0; x < 4; ++x) out[x][3 - y] = cells[y][x];
  return out;
}

bool sameInSomeTurn(const Cells& a, Cells b) {
  for (int turns = 0; turns < 4; ++turns, b = quarterTurned(b))
    if (a == b) return true;
  return false;
}

/// What one row of the dictionary stands for.
struct Meaning {
  std::size_t marker;
  bool mirrored;
};

struct Book {
  cv::Ptr<cv::aruco::Dictionary> dictionary;
  std::vector<Meaning> meanings;
};

/// The wanted markers and their mirror images; a mirror image that is itself a wanted marker is left out.
Book bookOf(std::span<const MatMarker> wanted) {
  Book book;
  cv::Mat bytes;
  const auto add = [&](const Cells& cells, Meaning meaning) {
    cv::Mat bits(4, 4, CV_8U);
    for (int y = 0; y < 4; ++y)
      for (int x = 0; x < 4; ++x) bits.at<std::uint8_t>(y, x) = cells[static_cast<std::size_t>(y)][static_cast<std::size_t>(x)] ? 1 : 0;
    bytes.push_back(cv::aruco::Dictionary::getByteListFromBits(bits));
    book.meanings.push_back(meaning);
  };
  for (std::size_t i = 0; i < wanted.size(); ++i) add(wanted[i].white, {i, false});
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    const Cells mirror = inMirror(wanted[i].white);
    if (std::ranges::none_of(wanted, [&](const MatMarker& other) { return sameInSomeTurn(mirror, other.white); })) add(mirror, {i, true});
  }
  book.dictionary = cv::makePtr<cv::aruco::Dictionary>(bytes, 4, 0);
  return book;
}

cv::Ptr<cv::aruco::DetectorParameters> parameters(SearchEffort effort) {
  auto p = cv::aruco::DetectorParameters::create();
  const bool thorough = effort == SearchEffort::Thorough;
  p->adaptiveThreshWinSizeMin = thorough ? 7 : 13;
  p->adaptiveThreshWinSizeMax = thorough ? 55 : 33;
  p->adaptiveThreshWinSizeStep = thorough ? 12 : 20;
  p->adaptiveThreshConstant = thorough ? 4 : 7;
  p->minMarkerPerimeterRate = thorough ? 0.04 : 0.06;
  p->polygonalApproxAccuracyRate = thorough ? 0.05 : 0.04;
  p->maxErroneousBitsInBorderRate = 0.15;
  p->errorCorrectionRate = 0;
  p->perspectiveRemovePixelPerCell = 8;
  p->perspectiveRemoveIgnoredMarginPerCell = 0.25;  // blur reaches into a cell from its neighbours
  return p;
}

Point centreOf(const std::array<Point, 4>& corners) { return centre(Quad{corners}); }

double shortestMarkerSide(const std::array<Point, 4>& corners) {
  double shortest = INFINITY;
  for (std::size_t i = 0; i < 4; ++i) {
    const Point a = corners[i], b = corners[(i + 1) % 4];
    shortest = std::min(shortest, std::hypot(a.x - b.x, a.y - b.y));
  }
  return shortest;
}

}  // namespace

bool marksAgree(const GreyView& picture, const SeenMarker& seen, const MatMarker& marker) {
  constexpr int kCells = kMatMarkerCells;
  const std::array<Point, 4> square{{{0, 0}, {kCells, 0}, {kCells, kCells}, {0, kCells}}};
  const auto fit = fitHomography(square, seen.corners);
  if (!fit) return false;

  // The border's cells, those inside it and one of paper all round: -1 … 6.
  constexpr std::size_t kAcross = kCells + 2;
  std::array<std::array<bool, kAcross>, kAcross> white{};
  std::array<std::array<std::optional<double>, kAcross>, kAcross> level{};
  for (std::size_t y = 0; y < kAcross; ++y)
    for (std::size_t x = 0; x < kAcross; ++x) {
      const bool paper = x == 0 || y == 0 || x == kAcross - 1 || y == kAcross - 1;
      const bool border = !paper && (x == 1 || y == 1 || x == kAcross - 2 || y == kAcross - 2);
      white[y][x] = paper || (!border && marker.white[y - 2][x - 2]);
      double sum = 0;
      int samples = 0;
      for (double dy : {-kCellCore, 0.0, kCellCore})
        for (double dx : {-kCellCore, 0.0, kCellCore})
          if (const auto one = levelAt(picture, mapped(fit->matrix, {static_cast<double>(x) - 0.5 + dx, static_cast<double>(y) - 0.5 + dy}))) {
            sum += *one;
            ++samples;
          }
      if (samples > 0) level[y][x] = sum / samples;
    }

  std::vector<double> contrasts;
  const auto compare = [&](std::size_t x, std::size_t y, std::size_t x2, std::size_t y2) {
    if (white[y][x] == white[y2][x2] || !level[y][x] || !level[y2][x2]) return;
    contrasts.push_back(white[y][x] ? *level[y][x] - *level[y2][x2] : *level[y2][x2] - *level[y][x]);
  };
  for (std::size_t y = 0; y < kAcross; ++y)
    for (std::size_t x = 0; x < kAcross; ++x) {
      if (x + 1 < kAcross) compare(x, y, x + 1, y);
      if (y + 1 < kAcross) compare(x, y, x, y + 1);
    }
  if (contrasts.size() < 24) return false;
  const double usual = middleValue(contrasts);
  const auto failed = std::ranges::count_if(contrasts, [&](double contrast) { return contrast < kOfContrast * usual; });
  return usual >= kContrast && static_cast<double>(failed) <= kFailures * static_cast<double>(contrasts.size());
}

std::vector<SeenMarker> searchMarkers(const GreyView& picture, std::span<const MatMarker> wanted, SearchEffort effort) {
  if (wanted.empty()) return {};
  const cv::Mat grey(picture.size.height, picture.size.width, CV_8U, const_cast<std::uint8_t*>(picture.levels.data()));  // is only read
  const Book book = bookOf(wanted);
  std::vector<std::vector<cv::Point2f>> corners;
  std::vector<int> rows;
  cv::aruco::detectMarkers(grey, book.dictionary, corners, rows, parameters(effort));

  std::vector<SeenMarker> found;
  for (std::size_t i = 0; i < rows.size(); ++i) {
    const Meaning meaning = book.meanings.at(static_cast<std::size_t>(rows[i]));
    const auto asSeen = [&] {
      SeenMarker seen{wanted[meaning.marker].id, {}, meaning.mirrored, true};
      for (std::size_t c = 0; c < 4; ++c) seen.corners[c] = {corners[i][c].x + 0.5, corners[i][c].y + 0.5};
      if (meaning.mirrored) {  // the dictionary's row has left and right exchanged, and so have the corners
        std::swap(seen.corners[0], seen.corners[1]);
        std::swap(seen.corners[2], seen.corners[3]);
      }
      return seen;
    };
    // The window stays short of the cells inside the border, and of what may stand outside the white ring.
    const int half = std::clamp(static_cast<int>(std::lround(0.7 * shortestMarkerSide(asSeen().corners) / kMatMarkerCells)), 2, 8);
    cv::cornerSubPix(grey, corners[i], {half, half}, {-1, -1}, cv::TermCriteria(cv::TermCriteria::COUNT + cv::TermCriteria::EPS, 50, 0.005));
    SeenMarker seen = asSeen();
    if (const auto better = cornersByEdges(picture, Quad{seen.corners}, shortestMarkerSide(seen.corners) / kMatMarkerCells)) {
      seen.corners = better->corners;
      seen.rough = false;
    }
    if (!marksAgree(picture, seen, wanted[meaning.marker])) continue;
    const bool twice = std::ranges::any_of(found, [&](const SeenMarker& other) {
      const Point a = centreOf(seen.corners), b = centreOf(other.corners);
      return other.id == seen.id && std::hypot(a.x - b.x, a.y - b.y) < kSameMarker * shortestMarkerSide(other.corners);
    });
    if (!twice) found.push_back(seen);
  }
  const auto rank = [&](const SeenMarker& seen) {
    const Point at = centreOf(seen.corners);
    return std::tuple(std::ranges::find(wanted, seen.id, &MatMarker::id) - wanted.begin(), at.y, at.x);
  };
  std::ranges::sort(found, {}, rank);
  return found;
}

}  // namespace huewright
