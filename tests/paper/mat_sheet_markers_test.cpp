// The markers as OpenCV sees them: the one check against a library that knows nothing of ours.
#include <algorithm>
#include <array>
#include <gtest/gtest.h>
#include <map>
#include <opencv2/aruco.hpp>
#include <vector>

#include "paper/mat_support.hpp"

namespace huewright {
namespace {

using namespace mat_test;

cv::Ptr<cv::aruco::Dictionary> dictionary() { return cv::aruco::getPredefinedDictionary(cv::aruco::DICT_4X4_1000); }

TEST(MatMarkers, PatternsAreThoseOfTheDictionary) {
  for (const MatLayout& layout : layouts()) {
    EXPECT_EQ(layout.dictionary, "DICT_4X4_1000");
    for (const MatMarker& marker : layout.markers) {
      cv::Mat drawn;  // one pixel a cell
      cv::aruco::drawMarker(dictionary(), marker.id, kMatMarkerCells, drawn, 1);
      for (int y = 0; y < 4; ++y)
        for (int x = 0; x < 4; ++x)
          EXPECT_EQ(marker.white[static_cast<std::size_t>(y)][static_cast<std::size_t>(x)], drawn.at<unsigned char>(y + 1, x + 1) > 127)
              << marker.id << " row " << y << " cell " << x;
    }
  }
}

using Cells = std::array<std::array<bool, 4>, 4>;

Cells turned(const Cells& cells, int turns) {
  Cells out = cells;
  for (int i = 0; i < turns; ++i) {
    const Cells before = out;
    for (std::size_t y = 0; y < 4; ++y)
      for (std::size_t x = 0; x < 4; ++x) out[x][3 - y] = before[y][x];
  }
  return out;
}

Cells mirrored(Cells cells) {
  for (auto& row : cells) std::ranges::reverse(row);
  return cells;
}

int different(const Cells& a, const Cells& b) {
  int count = 0;
  for (std::size_t y = 0; y < 4; ++y)
    for (std::size_t x = 0; x < 4; ++x) count += a[y][x] != b[y][x] ? 1 : 0;
  return count;
}

Cells ofDictionary(int id) {
  cv::Mat drawn;
  cv::aruco::drawMarker(dictionary(), id, kMatMarkerCells, drawn, 1);
  Cells cells{};
  for (int y = 0; y < 4; ++y)
    for (int x = 0; x < 4; ++x) cells[static_cast<std::size_t>(y)][static_cast<std::size_t>(x)] = drawn.at<unsigned char>(y + 1, x + 1) > 127;
  return cells;
}

// In cells out of 16, in any turn: from each other, from themselves turned, from all in a mirror, and from the first ids, which are everywhere.
TEST(MatMarkers, AreHardToMistake) {
  std::map<int, Cells> all;
  for (const MatLayout& layout : layouts())
    for (const MatMarker& marker : layout.markers) all[marker.id] = marker.white;
  ASSERT_EQ(all.size(), 14U);
  EXPECT_GE(all.begin()->first, 100);
  for (const auto& [id, white] : all)
    for (int turn = 0; turn < 4; ++turn) {
      for (const auto& [other_id, other] : all) {
        if (id != other_id) {
          EXPECT_GE(different(white, turned(other, turn)), 5) << id << " " << other_id << " " << turn;
        } else if (turn > 0) {
          EXPECT_GE(different(white, turned(other, turn)), 6) << id << " " << turn;
        }
        EXPECT_GE(different(white, turned(mirrored(other), turn)), 4) << id << " " << other_id << " " << turn;
      }
      for (int common = 0; common < 50; ++common) EXPECT_GE(different(white, turned(ofDictionary(common), turn)), 3) << id << " " << common;
    }
}

TEST(MatMarkers, AreFoundWhereTheLayoutSays) {
  for (const MatLayout& layout : layouts()) {
    const auto picture = matPicture(layout, kDpi);
    ASSERT_TRUE(picture);
    cv::Mat grey(picture->size.height, picture->size.width, CV_8U);
    for (int y = 0; y < grey.rows; ++y)
      for (int x = 0; x < grey.cols; ++x) grey.at<unsigned char>(y, x) = static_cast<unsigned char>(green(*picture, x, y));
    auto parameters = cv::aruco::DetectorParameters::create();
    parameters->cornerRefinementMethod = cv::aruco::CORNER_REFINE_SUBPIX;
    std::vector<std::vector<cv::Point2f>> corners;
    std::vector<int> ids;
    cv::aruco::detectMarkers(grey, dictionary(), corners, ids, parameters);
    ASSERT_EQ(ids.size(), layout.markers.size()) << layout.name;
    for (const MatMarker& marker : layout.markers) {
      const auto at = std::ranges::find(ids, marker.id);
      ASSERT_NE(at, ids.end()) << layout.name << " " << marker.id;
      const auto& found = corners[static_cast<std::size_t>(at - ids.begin())];
      const double s = marker.side;
      const std::array<Point, 4> wanted{{{marker.x, marker.y}, {marker.x + s, marker.y}, {marker.x + s, marker.y + s}, {marker.x, marker.y + s}}};
      for (std::size_t i = 0; i < 4; ++i) {  // the library counts from the middle of the first pixel
        const double x = (found[i].x + 0.5) * 25.4 / kDpi - layout.left, y = (found[i].y + 0.5) * 25.4 / kDpi - layout.top;
        EXPECT_LT(std::hypot(x - wanted[i].x, y - wanted[i].y), 0.2) << layout.name << " " << marker.id << " corner " << i;
      }
    }
  }
}

}  // namespace
}  // namespace huewright
