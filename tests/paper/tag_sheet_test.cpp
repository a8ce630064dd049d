#include "paper/tag_sheet.hpp"

#include <algorithm>
#include <gtest/gtest.h>

#include "scene/tag_finder.hpp"

namespace huewright {
namespace {

std::vector<TagText> someTags(std::size_t count) {
  std::vector<TagText> tags;
  for (std::size_t i = 0; i < count; ++i) tags.push_back({"panel " + std::to_string(i + 1), TagParts{1, static_cast<double>(i + 1)}, 1.0 + static_cast<double>(i % 4), 5});
  return tags;
}

TEST(TagSheet, EveryPrintedTagIsReadWhereItShouldLie) {
  for (const TagPaper& paper : {kTagA4, kTagLetter})
    for (const double side : {kSmallestTagSide, kTagSide, kLargestTagSide}) {
      const std::size_t most = tagsOnPage(paper, side);
      ASSERT_GE(most, 1U) << side;
      const auto tags = someTags(most);
      const double dpi = side < 20 ? 200 : 120;
      const auto picture = tagPicture(tags, paper, side, dpi);
      ASSERT_TRUE(picture) << side;
      const auto found = findTags({picture->size, 1, picture->rgb});
      ASSERT_TRUE(found);
      EXPECT_TRUE(found->unread.empty());
      EXPECT_EQ(found->tags.size(), most) << side;
      for (const SeenTag& tag : found->tags) {
        const auto at = std::ranges::find(tags, tag.text);
        ASSERT_NE(at, tags.end()) << tag.text.name;
        const Quad place = tagPlace(paper, side, static_cast<std::size_t>(at - tags.begin()));
        for (std::size_t c = 0; c < 4; ++c) {
          EXPECT_NEAR(tag.place.corners[c].x * 25.4 / dpi, place.corners[c].x, 0.15);
          EXPECT_NEAR(tag.place.corners[c].y * 25.4 / dpi, place.corners[c].y, 0.15);
        }
      }
    }
}

TEST(TagSheet, TagsStandApartAndClearOfTheEdge) {
  for (const TagPaper& paper : {kTagA4, kTagLetter})
    for (double side = kSmallestTagSide; side <= kLargestTagSide; side += 4)
      for (std::size_t i = 0; i < tagsOnPage(paper, side); ++i) {
        const Quad a = tagPlace(paper, side, i);
        const double white = 2.2 * side / 22;  // over two cells
        EXPECT_GE(a.corners[0].x, 4 + white);  // printers leave 4 mm blank
        EXPECT_LE(a.corners[2].x + white, paper.width - 4);
        EXPECT_LE(a.corners[2].y + white, paper.height - 4);
        for (std::size_t j = 0; j < i; ++j) EXPECT_FALSE(overlap(inset(a, -0.17), tagPlace(paper, side, j)));
      }
  EXPECT_EQ(tagsOnPage(kTagA4, kTagSide), 20U);
  EXPECT_EQ(tagsOnPage(kTagA4, 11.9), 0U);
  EXPECT_EQ(tagsOnPage(kTagA4, 61), 0U);
}

TEST(TagSheet, TheSameBytesTwiceAndAProblemForWhatDoesNotFit) {
  const auto tags = someTags(3);
  const auto pdf = tagPdf(tags, kTagA4, kTagSide);
  ASSERT_TRUE(pdf);
  EXPECT_TRUE(pdf->starts_with("%PDF-"));
  EXPECT_EQ(pdf->find("/Subtype /Image"), std::string::npos);
  EXPECT_EQ(*pdf, *tagPdf(tags, kTagA4, kTagSide));
  EXPECT_NE(*pdf, *tagPdf(someTags(2), kTagA4, kTagSide));
  EXPECT_EQ(tagPdf({}, kTagA4, kTagSide).error().code, Code::Internal);
  EXPECT_EQ(tagPdf(someTags(21), kTagA4, kTagSide).error().code, Code::Internal);
  EXPECT_EQ(tagPdf(std::vector<TagText>{{"", {}, {}, {}}}, kTagA4, kTagSide).error().code, Code::BadChoice);
  EXPECT_EQ(tagPicture(tags, kTagA4, kTagSide, 10).error().code, Code::Internal);
}

}  // namespace
}  // namespace huewright
