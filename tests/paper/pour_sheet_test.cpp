#include "paper/pour_sheet.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <gtest/gtest.h>
#include <sstream>

#include "paper/pour_sheet_support.hpp"

namespace huewright {
namespace {

using namespace pour_test;

constexpr double kSheetDpi = 100;

std::array<PourSheet, 3> pourSheets() {
  PourSheet held = bicycleSheet();
  held.layers.insert(held.layers.begin(), {0.5, "in it: 50 mL", {}, true});
  for (PourSheetLayer& layer : held.layers) layer.mark.clear();
  for (PourSheetLine& line : held.lines) line.add_g.clear();
  held.coats = 0;
  return {bicycleSheet(), held, crowdedSheet()};
}

bool dark(const DrawnPicture& picture, double x, double y) {
  const auto at = [](double mm) { return static_cast<std::size_t>(mm * kSheetDpi / 25.4); };
  return picture.rgb[3 * (at(y) * static_cast<std::size_t>(picture.size.width) + at(x))] < 128;
}

TEST(PourSheet, PdfHasThePapersSizeAndIsTheSameTwice) {
  for (const PourSheet& sheet : pourSheets()) {
    const auto pdf = pourSheetPdf(sheet);
    ASSERT_TRUE(pdf);
    const auto box = pdf->find("/MediaBox [");
    ASSERT_NE(box, std::string::npos);
    std::istringstream numbers(pdf->substr(box + 11));
    double left = 1, top = 1, width = 0, height = 0;
    numbers >> left >> top >> width >> height;
    EXPECT_NEAR(width, sheet.paper == "letter" ? 612 : 595.276, 0.01);
    EXPECT_NEAR(height, sheet.paper == "letter" ? 792 : 841.89, 0.01);
    EXPECT_NE(pdf->find("/Count 1"), std::string::npos);
    EXPECT_EQ(pdf->find("/Subtype /Image"), std::string::npos);
    EXPECT_EQ(*pdf, *pourSheetPdf(sheet));
  }
}

TEST(PourSheet, NothingIsPrintedOnTheRim) {
  constexpr double kRim = 9;
  for (const PourSheet& sheet : pourSheets()) {
    const auto picture = pourSheetPicture(sheet, kSheetDpi);
    ASSERT_TRUE(picture);
    const int rim = static_cast<int>(kRim * kSheetDpi / 25.4);
    int wrong = 0;
    for (int y = 0; y < picture->size.height; ++y)
      for (int x = 0; x < picture->size.width; ++x)
        if (x < rim || y < rim || x >= picture->size.width - rim || y >= picture->size.height - rim)
          if (picture->rgb[3 * static_cast<std::size_t>(y * picture->size.width + x)] != 255) ++wrong;
    EXPECT_EQ(wrong, 0) << sheet.title;
  }
}

TEST(PourSheet, NoTypeLiesOnOtherType) {
  for (const PourSheet& sheet : pourSheets()) {
    const auto boxes = pourSheetTypeBoxes(sheet);
    EXPECT_GT(boxes.size(), 20U);
    for (std::size_t i = 0; i < boxes.size(); ++i)
      for (std::size_t j = 0; j < i; ++j) {
        const auto &a = boxes[i].corners, &b = boxes[j].corners;
        const bool apart = a[2].x <= b[0].x || b[2].x <= a[0].x || a[2].y <= b[0].y || b[2].y <= a[0].y;
        EXPECT_TRUE(apart) << sheet.title << ": lines " << j << " and " << i << " at " << a[0].x << "," << a[0].y << " and " << b[0].x << "," << b[0].y;
      }
  }
}

TEST(PourSheet, AnOrdinarySheetIsLegible) {
  for (const Quad& box : pourSheetTypeBoxes(bicycleSheet())) EXPECT_GT(box.corners[2].y - box.corners[0].y, 1.0) << box.corners[0].x << "," << box.corners[0].y;
}

// The walls of the cup stand 62 mm high above its floor; the layers' edges lie in it at their share of that.
TEST(PourSheet, TheCupShowsItsLayersToScale) {
  PourSheet sheet = bicycleSheet();
  sheet.layers = {{0.25, "a", "1", false}, {1, "b", "4", false}};
  const auto picture = pourSheetPicture(sheet, kSheetDpi);
  ASSERT_TRUE(picture);
  const double x = 210 - 14 - 54 + 11 + 10;  // the middle of the cup: margin, column, marks, half a cup
  std::vector<double> edges;
  for (double y = 40; y < 140; y += 0.127)
    if (dark(*picture, x, y) && (edges.empty() || y - edges.back() > 1)) edges.push_back(y);
  ASSERT_EQ(edges.size(), 3U);  // top of each layer, and the floor
  EXPECT_NEAR(edges[2] - edges[0], 62, 0.6);
  EXPECT_NEAR(edges[2] - edges[1], 62 * 0.25, 0.6);
}

TEST(PourSheet, ManyCoatsAreNotAllBoxes) {
  PourSheet twelve = bicycleSheet(), fifty = twelve;
  twelve.coats = 12;
  fifty.coats = 50;
  EXPECT_EQ(pourSheetTypeBoxes(twelve).size(), pourSheetTypeBoxes(fifty).size());
  fifty.coats = 0;
  EXPECT_EQ(pourSheetTypeBoxes(twelve).size(), pourSheetTypeBoxes(fifty).size() + 12);
}

TEST(PourSheet, RefusesOddResolutions) {
  for (const double dpi : {0.0, -1.0, 5.0, 1e9, std::nan("")}) EXPECT_FALSE(pourSheetPicture(bicycleSheet(), dpi)) << dpi;
}

}  // namespace
}  // namespace huewright
