#include "paper/mat_sheet.hpp"

#include <algorithm>
#include <cstdlib>
#include <gtest/gtest.h>
#include <sstream>
#include <zlib.h>

#include "paper/mat_support.hpp"

namespace huewright {
namespace {

using namespace mat_test;

constexpr double kPoints = 72 / 25.4;  // in a millimetre

bool holds(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

/// What stands in the first compressed stream of a PDF: the strokes of its page.
std::string pageStrokes(const std::string& pdf) {
  const auto start = pdf.find("stream\n");
  if (start == std::string::npos) return {};
  std::string out(1 << 20, '\0');
  uLongf length = out.size();
  const auto* bytes = reinterpret_cast<const Bytef*>(pdf.data() + start + 7);
  const auto end = pdf.find("endstream", start);
  const int done = uncompress(reinterpret_cast<Bytef*>(out.data()), &length, bytes, static_cast<uLong>(end - start - 7));
  EXPECT_EQ(done, Z_OK);
  out.resize(length);
  return out;
}

TEST(MatSheet, PdfHasThePapersSizeAndOnlyVectors) {
  for (const MatLayout& layout : layouts()) {
    const auto pdf = matPdf(layout);
    ASSERT_TRUE(pdf) << layout.name;
    const auto box = pdf->find("/MediaBox [");
    ASSERT_NE(box, std::string::npos);
    std::istringstream numbers(pdf->substr(box + 11));
    double left = 1, top = 1, width = 0, height = 0;
    numbers >> left >> top >> width >> height;
    EXPECT_EQ(left, 0);
    EXPECT_EQ(top, 0);
    EXPECT_NEAR(width, layout.page_width * kPoints, 1e-3) << layout.name;
    EXPECT_NEAR(height, layout.page_height * kPoints, 1e-3) << layout.name;
    EXPECT_FALSE(holds(*pdf, "/Subtype /Image")) << layout.name;
    EXPECT_FALSE(holds(pageStrokes(*pdf), "BI\n")) << layout.name;  // nor a picture inside the page's own strokes
    EXPECT_TRUE(holds(*pdf, "/Count 1")) << layout.name;
  }
}

TEST(MatSheet, SameBytesTwice) {
  for (const MatLayout& layout : layouts()) EXPECT_EQ(*matPdf(layout), *matPdf(layout)) << layout.name;
}

// The line is drawn as a box; among the page's boxes one is 100 mm = 283.4646 points wide, and thin.
TEST(MatSheet, RulerIsAHundredMillimetres) {
  constexpr double kStep = 1.0 / 256;  // points; the steps in which the library keeps places: 0.0014 mm
  for (const MatLayout& layout : layouts()) {
    std::istringstream words(pageStrokes(*matPdf(layout)));
    std::vector<double> numbers;
    int rulers = 0;
    for (std::string word; words >> word;) {
      if (word == "re" && numbers.size() >= 4 && std::abs(numbers.end()[-2] - 100 * kPoints) < 2 && std::abs(numbers.end()[-1]) < 2) {
        EXPECT_NEAR(numbers.end()[-2], 100 * kPoints, kStep) << layout.name;
        EXPECT_NEAR(numbers.end()[-4], (layout.left + layout.ruler.x) * kPoints, kStep) << layout.name;
        ++rulers;
      }
      char* end = nullptr;
      const double value = std::strtod(word.c_str(), &end);
      if (*end == '\0') numbers.push_back(value);
      else numbers.clear();
    }
    EXPECT_EQ(rulers, 1) << layout.name;
  }
}

TEST(MatSheet, RulerOfThePictureIsAsLong) {
  constexpr double kFine = 600;
  for (const MatLayout& layout : layouts()) {
    if (layout.paper != "a4") continue;
    const auto picture = matPicture(layout, kFine);
    ASSERT_TRUE(picture);
    const int row = static_cast<int>(py(layout, layout.ruler.y + 0.15, kFine));
    int first = -1, last = -1;
    const int from = static_cast<int>(px(layout, layout.ruler.x - 3, kFine)), to = static_cast<int>(px(layout, layout.ruler.x + 103, kFine));
    for (int x = from; x < to; ++x)
      if (green(*picture, x, row) < 128) {
        if (first < 0) first = x;
        last = x;
      }
    EXPECT_NEAR((last + 1 - first) * 25.4 / kFine, 100, 2 * 25.4 / kFine) << layout.name;
  }
}

TEST(MatSheet, WindowsAreBlankInsideAndCloseRound) {
  for (const MatLayout& layout : layouts()) {
    const auto picture = matPicture(layout, kDpi);
    ASSERT_TRUE(picture);
    std::vector<MatRect> places;
    for (const MatWindow& window : layout.windows) places.push_back(window.place);
    if (layout.aperture) places.push_back(*layout.aperture);
    for (const MatRect& place : places) {
      const double rim = layout.ticks.gap - 0.3;  // the ticks begin beyond
      for (int y = static_cast<int>(py(layout, place.y - rim)); y < py(layout, place.y + place.height + rim); ++y)
        for (int x = static_cast<int>(px(layout, place.x - rim)); x < px(layout, place.x + place.width + rim); ++x)
          ASSERT_EQ(green(*picture, x, y), 255) << layout.name << " " << place.x << " at " << x << "," << y;
    }
  }
}

TEST(MatSheet, MarkersStandInWhite) {
  for (const MatLayout& layout : layouts()) {
    const auto picture = matPicture(layout, kDpi);
    ASSERT_TRUE(picture);
    for (const MatMarker& marker : layout.markers) {
      const double cell = marker.side / kMatMarkerCells;
      for (int y = static_cast<int>(py(layout, marker.y - cell)); y < py(layout, marker.y + marker.side + cell); ++y)
        for (int x = static_cast<int>(px(layout, marker.x - cell)); x < px(layout, marker.x + marker.side + cell); ++x) {
          const bool beside = x < px(layout, marker.x) - 1 || x > px(layout, marker.x + marker.side);
          const bool outside = beside || y < py(layout, marker.y) - 1 || y > py(layout, marker.y + marker.side);
          if (outside) {
            ASSERT_EQ(green(*picture, x, y), 255) << layout.name << " " << marker.id;
          }
        }
    }
  }
}

TEST(MatSheet, DotsAreMidGreyAndIdentical) {
  for (const MatLayout& layout : layouts()) {
    const auto picture = matPicture(layout, kDpi);
    ASSERT_TRUE(picture);
    for (const Point& centre : layout.dots.centres) {
      const int x = static_cast<int>(px(layout, centre.x)), y = static_cast<int>(py(layout, centre.y));
      const int half = static_cast<int>(0.3 * layout.dots.diameter * kDpi / 25.4);
      for (int j = -half; j <= half; ++j)
        for (int i = -half; i <= half; ++i) ASSERT_EQ(green(*picture, x + i, y + j), 128) << layout.name << " " << centre.x << "," << centre.y;
    }
  }
}

TEST(MatSheet, NothingIsPrintedOnTheRim) {
  for (const MatLayout& layout : layouts()) {
    const auto picture = matPicture(layout, kDpi);
    ASSERT_TRUE(picture);
    const int rim = static_cast<int>(layout.printer_margin * kDpi / 25.4);
    for (int y = 0; y < picture->size.height; ++y)
      for (int x = 0; x < picture->size.width; ++x)
        if (x < rim || y < rim || x >= picture->size.width - rim || y >= picture->size.height - rim) {
          ASSERT_EQ(green(*picture, x, y), 255) << layout.name;
        }
  }
}

MatRect boxOf(const Quad& quad) {
  const auto& c = quad.corners;
  return {c[0].x, c[0].y, c[2].x - c[0].x, c[2].y - c[0].y};
}

TEST(MatSheet, NoTypeLiesOnAnything) {
  for (const MatLayout& layout : layouts()) {
    const auto quads = matTypeBoxes(layout);
    EXPECT_GT(quads.size(), 12U) << layout.name;
    std::vector<MatRect> things;
    for (const MatMarker& marker : layout.markers) things.push_back({marker.x - 4, marker.y - 4, marker.side + 8, marker.side + 8});
    for (const MatWindow& window : layout.windows) things.push_back(window.place);
    if (layout.aperture) things.push_back(*layout.aperture);
    for (std::size_t i = 0; i < layout.dots.centres.size(); ++i) things.push_back(placeOfDot(layout.dots, i));
    for (std::size_t i = 0; i < quads.size(); ++i) {
      const MatRect box = boxOf(quads[i]);
      EXPECT_GE(box.x, layout.isCutOut() ? 0 : layout.printer_margin) << layout.name << " " << i;
      EXPECT_LE(box.x + box.width, layout.width - (layout.isCutOut() ? 0 : layout.printer_margin)) << layout.name << " " << i;
      for (const MatRect& thing : things) EXPECT_FALSE(closerThan(box, thing, 0.5)) << layout.name << " type " << i << " at " << box.x << "," << box.y;
      for (std::size_t j = 0; j < i; ++j) EXPECT_FALSE(closerThan(box, boxOf(quads[j]), 0.2)) << layout.name << " types " << i << " and " << j;
    }
  }
}

// At arm's length (70 cm) the eye reads 5 arc minutes: letters of 1 mm; capitals are 0.73 of the size.
TEST(MatSheet, TypeIsLegible) {
  for (const MatLayout& layout : layouts())
    for (const Quad& quad : matTypeBoxes(layout))
      EXPECT_GT(boxOf(quad).height, 1.3) << layout.name << " " << quad.corners[0].x << "," << quad.corners[0].y;
}

TEST(MatSheet, RefusesOddResolutions) {
  const MatLayout layout = layouts().front();
  for (const double dpi : {0.0, -1.0, 5.0, 1e9, std::nan("")}) EXPECT_FALSE(matPicture(layout, dpi)) << dpi;
}

}  // namespace
}  // namespace huewright
