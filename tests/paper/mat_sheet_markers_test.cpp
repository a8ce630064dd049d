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

cv::Ptr<cv::aruco::Dictionary> dictionary() { return cv::aruco::getPredefinedDictionary(cv::aruco::DICT_4X4_50); }

TEST(MatMarkers, PatternsAreThoseOfTheDictionary) {
  for (const MatLayout& layout : layouts()) {
    EXPECT_EQ(layout.dictionary, "DICT_4X4_50");
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

// The dictionary's own least distance is 4; two of ours, in any turn, differ in 5 cells at least, and each from itself turned too.
TEST(MatMarkers, AreHardToMistakeForEachOther) {
  std::map<int, std::array<std::array<bool, 4>, 4>> all;
  for (const MatLayout& layout : layouts())
    for (const MatMarker& marker : layout.markers) all[marker.id] = marker.white;
  for (const auto& [id, white] : all)
    for (const auto& [other_id, other] : all)
      for (int turn = 0; turn < 4; ++turn) {
        if (id == other_id && turn == 0) continue;
        int different = 0;
        for (std::size_t y = 0; y < 4; ++y)
          for (std::size_t x = 0; x < 4; ++x) {
            std::size_t tx = x, ty = y;
            for (int i = 0; i < turn; ++i) {
              const std::size_t old = tx;
              tx = 3 - ty;
              ty = old;
            }
            different += white[y][x] != other[ty][tx] ? 1 : 0;
          }
        EXPECT_GE(different, 5) << id << " " << other_id << " " << turn;
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
