#include "paper/pen.hpp"

#include <array>
#include <gtest/gtest.h>

#include "support/xml_fault.hpp"

namespace huewright {
namespace {

// 25.4 dots an inch: one pixel is one millimetre.
constexpr double kOneToOne = 25.4;

std::array<int, 3> pixelAt(const DrawnPicture& picture, int x, int y) {
  const std::size_t i = 3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(picture.size.width) + static_cast<std::size_t>(x));
  return {picture.rgb[i], picture.rgb[i + 1], picture.rgb[i + 2]};
}

TEST(Pen, PictureHasTheAskedSizeAndIsWhite) {
  const auto picture = Pen::picture(297, 210, 150).drawn();
  ASSERT_TRUE(picture);
  EXPECT_EQ(picture->size, (Size{1754, 1240}));
  EXPECT_EQ(picture->rgb.size(), 3U * 1754 * 1240);
  EXPECT_EQ(pixelAt(*picture, 0, 0), (std::array{255, 255, 255}));
  EXPECT_EQ(pixelAt(*picture, 1753, 1239), (std::array{255, 255, 255}));
}

TEST(Pen, DrawsInMillimetres) {
  Pen pen = Pen::picture(40, 30, kOneToOne);
  pen.box(2, 3, 4, 5);
  pen.disc({20, 15}, 5, 0.5);
  pen.polygon(std::array{Point{30, 20}, Point{38, 20}, Point{38, 28}, Point{30, 28}}, 0.2);
  pen.line(std::array{Point{2, 20}, Point{12, 20}}, 2);
  pen.push({30, 2}, 2);
  pen.box(0, 0, 1, 1);
  pen.pop();
  const auto picture = pen.drawn();
  ASSERT_TRUE(picture);
  const std::array black{0, 0, 0}, white{255, 255, 255}, middle{128, 128, 128}, dark{51, 51, 51};
  EXPECT_EQ(pixelAt(*picture, 2, 3), black);
  EXPECT_EQ(pixelAt(*picture, 5, 7), black);
  EXPECT_EQ(pixelAt(*picture, 1, 3), white);
  EXPECT_EQ(pixelAt(*picture, 6, 7), white);
  EXPECT_EQ(pixelAt(*picture, 20, 15), middle);
  EXPECT_EQ(pixelAt(*picture, 26, 15), white);
  EXPECT_EQ(pixelAt(*picture, 34, 24), dark);
  EXPECT_EQ(pixelAt(*picture, 7, 19), black);
  EXPECT_EQ(pixelAt(*picture, 7, 22), white);
  EXPECT_EQ(pixelAt(*picture, 31, 3), black);
  EXPECT_EQ(pixelAt(*picture, 32, 3), white);
}

TEST(Pen, DrawsInColour) {
  Pen pen = Pen::picture(60, 30, kOneToOne);
  pen.box(2, 3, 4, 5, {1, 0.2, 0});
  pen.disc({20, 15}, 5, Ink(std::array<std::uint8_t, 3>{10, 200, 30}));
  pen.polygon(std::array{Point{30, 20}, Point{38, 20}, Point{38, 28}, Point{30, 28}}, {0, 0, 1});
  pen.line(std::array{Point{2, 20}, Point{12, 20}}, 2, {0.6, 0, 0.6});
  pen.text({40, 15}, "HHHH", {12, true, Align::Left, 0, {0, 0.4, 0}});
  const auto picture = pen.drawn();
  ASSERT_TRUE(picture);
  EXPECT_EQ(pixelAt(*picture, 3, 4), (std::array{255, 51, 0}));
  EXPECT_EQ(pixelAt(*picture, 20, 15), (std::array{10, 200, 30}));
  EXPECT_EQ(pixelAt(*picture, 34, 24), (std::array{0, 0, 255}));
  EXPECT_EQ(pixelAt(*picture, 7, 19), (std::array{153, 0, 153}));
  bool green = false;  // somewhere in the letters
  for (int x = 40; x < 60; ++x) green = green || pixelAt(*picture, x, 11) == std::array{0, 102, 0};
  EXPECT_TRUE(green);
}

TEST(Pen, AnEnlargedImageKeepsItsPixels) {
  const std::vector<std::uint8_t> rgb{255, 0, 0, 0, 255, 0, 0, 0, 255, 10, 20, 30};
  Pen pen = Pen::picture(40, 30, kOneToOne);
  pen.image(4, 6, 20, 10, {2, 2}, rgb);
  const auto picture = pen.drawn();
  ASSERT_TRUE(picture);
  EXPECT_EQ(pixelAt(*picture, 4, 6), (std::array{255, 0, 0}));
  EXPECT_EQ(pixelAt(*picture, 13, 10), (std::array{255, 0, 0}));
  EXPECT_EQ(pixelAt(*picture, 14, 10), (std::array{0, 255, 0}));
  EXPECT_EQ(pixelAt(*picture, 13, 11), (std::array{0, 0, 255}));
  EXPECT_EQ(pixelAt(*picture, 23, 15), (std::array{10, 20, 30}));
  for (const auto& [x, y] : {std::pair{3, 8}, std::pair{24, 8}, std::pair{8, 5}, std::pair{8, 16}})
    EXPECT_EQ(pixelAt(*picture, x, y), (std::array{255, 255, 255}));
}

TEST(Pen, AnImageMadeSmallerIsAveraged) {
  std::vector<std::uint8_t> rgb;
  for (int i = 0; i < 80 * 80; ++i) rgb.insert(rgb.end(), 3, (i % 80 + i / 80) % 2 ? 200 : 100);
  Pen pen = Pen::picture(40, 40, kOneToOne);
  pen.image(10, 10, 20, 20, {80, 80}, rgb);
  const auto picture = pen.drawn();
  ASSERT_TRUE(picture);
  for (int i = 12; i < 28; ++i) EXPECT_NEAR(pixelAt(*picture, i, i)[0], 150, 6) << i;
}

TEST(Pen, AnImagesRimDoesNotMixWithThePage) {
  const std::vector<std::uint8_t> rgb(std::size_t{3} * 80 * 80, 40);
  Pen pen = Pen::picture(40, 40, kOneToOne);
  pen.image(10, 10, 23, 23, {80, 80}, rgb);
  const auto picture = pen.drawn();
  ASSERT_TRUE(picture);
  for (const auto& [x, y] : {std::pair{10, 10}, std::pair{32, 32}, std::pair{10, 20}, std::pair{20, 32}}) EXPECT_NEAR(pixelAt(*picture, x, y)[0], 40, 2);
}

TEST(Pen, AnImageGoesIntoAPdfWithTheSameBytesEachTime) {
  const auto page = [](std::uint8_t red) {
    Pen pen = Pen::pdf(100, 50, "A page");
    const std::vector<std::uint8_t> rgb{red, 0, 0, 0, 255, 0};
    pen.image(10, 10, 20, 10, {2, 1}, rgb);
    return *pen.pdfBytes();
  };
  EXPECT_NE(page(255).find("/Subtype /Image"), std::string::npos);
  EXPECT_EQ(page(255), page(255));
  EXPECT_NE(page(255), page(254));
}

TEST(Pen, AnImageOfTheWrongLengthIsAnError) {
  const std::vector<std::uint8_t> rgb(11);
  Pen pen = Pen::picture(10, 10, 72);
  pen.image(0, 0, 5, 5, {2, 2}, rgb);
  EXPECT_EQ(pen.drawn().error().code, Code::Internal);
}

TEST(Pen, WordsAreWrapped) {
  Pen pen = Pen::picture(100, 40, 72);
  const Type type{4};
  const std::string text = "Two places differ by about half of what the eye can see";
  const auto lines = pen.wrapped(text, type, 40);
  EXPECT_GT(lines.size(), 2U);
  std::string joined;
  for (const std::string& line : lines) {
    EXPECT_LE(pen.widthOf(line, type), 40);
    joined += (joined.empty() ? "" : " ") + line;
  }
  EXPECT_EQ(joined, text);
  EXPECT_EQ(pen.wrapped("short", type, 40), std::vector<std::string>{"short"});
  EXPECT_EQ(pen.wrapped("a Donaudampfschifffahrtsgesellschaft b", type, 20).size(), 3U);
}

TEST(Pen, TypeIsFittedAndAnchored) {
  Pen pen = Pen::picture(100, 40, 72);
  const Type plain{4};
  EXPECT_GT(pen.widthOf("mmmm", plain), pen.widthOf("iiii", plain));
  EXPECT_NEAR(pen.widthOf("mat", {8}), 2 * pen.widthOf("mat", plain), 0.02 * pen.widthOf("mat", {8}));
  pen.text({50, 10}, "HHHH", {4, false, Align::Centre});
  pen.text({90, 20}, "HHHH", {4, false, Align::Right});
  pen.text({10, 30}, "HHHHHHHHHHHHHHHHHHHHHHHHHHHHHHHHHHHHHHHH", {4, false, Align::Left, 50});
  pen.push({10, 20}, 2);
  pen.text({0, 10}, "H", {4});
  pen.pop();
  const auto& boxes = pen.typeBoxes();
  ASSERT_EQ(boxes.size(), 4U);
  const auto left = [&](std::size_t i) { return boxes[i].corners[0].x; };
  const auto right = [&](std::size_t i) { return boxes[i].corners[2].x; };
  EXPECT_NEAR((left(0) + right(0)) / 2, 50, 0.3);
  EXPECT_NEAR(right(1), 90, 0.6);
  EXPECT_LE(right(2), 60.01);
  EXPECT_GT(right(2), 55);
  EXPECT_NEAR(boxes[0].corners[2].y, 10, 0.1);  // on the base line
  EXPECT_NEAR(boxes[3].corners[2].y, 40, 0.1);
  EXPECT_GE(left(3), 10);
}

TEST(Pen, PdfIsOnePageWithoutADate) {
  const auto page = [] {
    Pen pen = Pen::pdf(100, 50, "A page");
    pen.box(10, 10, 20, 20);
    pen.text({10, 45}, "words", {4});
    return pen.pdfBytes();
  };
  const auto bytes = page();
  ASSERT_TRUE(bytes);
  EXPECT_TRUE(bytes->starts_with("%PDF-1.5"));
  EXPECT_NE(bytes->find("/Count 1"), std::string::npos);
  EXPECT_NE(bytes->find("(20000101000000Z)"), std::string::npos);
  EXPECT_EQ(*bytes, *page());
}

TEST(Pen, SvgIsWellFormedAndTheSameTwice) {
  const auto drawing = [] {
    Pen pen = Pen::svg(100, 50, "Panels < 3 & more");
    pen.box(10, 10, 20, 20, {1, 0, 0});
    pen.line(std::array{Point{1, 1}, Point{99, 49}}, 0.5);
    pen.text({10, 45}, "ΔE00 & <words>", {4});
    return pen.svgText();
  };
  const auto text = drawing();
  ASSERT_TRUE(text);
  EXPECT_EQ(fixtures::xmlFault(*text), "");
  EXPECT_NE(text->find("<title>Panels &lt; 3 &amp; more</title>"), std::string::npos);
  EXPECT_NE(text->find("viewBox=\"0 0 283.46"), std::string::npos) << text->substr(0, 300);  // 100 mm in points
  EXPECT_EQ(text->find("<text"), std::string::npos);                                          // outlines alone
  EXPECT_TRUE(*text == *drawing());
}

TEST(Pen, EachKindGivesItsOwn) {
  EXPECT_EQ(Pen::picture(10, 10, 72).svgText().error().code, Code::Internal);
  EXPECT_EQ(Pen::svg(10, 10, "").pdfBytes().error().code, Code::Internal);
  EXPECT_EQ(Pen::svg(10, 10, "").drawn().error().code, Code::Internal);
  EXPECT_EQ(Pen::picture(10, 10, 72).pdfBytes().error().code, Code::Internal);
  EXPECT_EQ(Pen::pdf(10, 10, "").drawn().error().code, Code::Internal);
  EXPECT_FALSE(Pen::picture(1e5, 1e5, 1200).drawn());  // larger than a picture can be
}

}  // namespace
}  // namespace huewright
