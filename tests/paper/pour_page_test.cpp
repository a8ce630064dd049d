#include "paper/pour_page.hpp"

#include <algorithm>
#include <gtest/gtest.h>
#include <string>
#include <vector>

#include "paper/pour_sheet_support.hpp"

namespace huewright {
namespace {

using namespace pour_test;

bool inPage(const std::string& page, const std::string& part) { return page.find(part) != std::string::npos; }

TEST(PourPage, HoldsEverythingOfTheSheet) {
  const PourSheet sheet = bicycleSheet();
  const std::string page = pourSheetHtml(sheet);
  EXPECT_TRUE(page.starts_with("<!DOCTYPE html>"));
  for (const std::string& words : {sheet.title, sheet.mix, sheet.until_head, sheet.cup_caption, sheet.facts[0], sheet.facts[1], sheet.notes[0], sheet.cautions[0], sheet.cautions[1]})
    EXPECT_TRUE(inPage(page, ">" + words + "<")) << words;
  for (const PourSheetLine& line : sheet.lines)
    for (const std::string& words : {line.name, line.add_ml, line.add_g, line.until, line.off}) EXPECT_TRUE(inPage(page, ">" + words + "</td>")) << words;
  for (const PourSheetLayer& layer : sheet.layers)
    for (const std::string& words : {layer.label, layer.mark}) EXPECT_TRUE(inPage(page, ">" + words + "</text>")) << words;
  EXPECT_TRUE(inPage(page, "Coat 4"));
  EXPECT_FALSE(inPage(page, "Coat 5"));
  EXPECT_TRUE(inPage(page, "size:A4"));
}

TEST(PourPage, LeavesOutTheColumnOfWeightsWhereThereAreNone) {
  PourSheet sheet = bicycleSheet();
  for (PourSheetLine& line : sheet.lines) line.add_g.clear();
  sheet.paper = "letter";
  const std::string page = pourSheetHtml(sheet);
  EXPECT_TRUE(inPage(pourSheetHtml(bicycleSheet()), "colspan"));
  EXPECT_FALSE(inPage(page, "colspan"));
  EXPECT_TRUE(inPage(page, "size:letter"));
}

TEST(PourPage, TakesNoWordsForMarkup) {
  PourSheet sheet = bicycleSheet();
  const std::string odd = "<script>alert('x')</script> & \"more\"";
  sheet.title = sheet.mix = sheet.facts[0] = sheet.notes[0] = sheet.cautions[0] = sheet.cup_caption = sheet.until_head = odd;
  sheet.lines[0] = {odd, odd, odd, odd, odd};
  sheet.layers[0].label = sheet.layers[0].mark = odd;
  const std::string page = pourSheetHtml(sheet);
  EXPECT_FALSE(inPage(page, "<script"));
  EXPECT_FALSE(inPage(page, "& \""));
  EXPECT_TRUE(inPage(page, "&lt;script&gt;alert('x')&lt;/script&gt; &amp; &quot;more&quot;"));
}

TEST(PourPage, NeedsNothingFromElsewhere) {
  const std::string page = pourSheetHtml(bicycleSheet());
  for (const char* part : {"http:", "https:", "src=", "href=", "url(", "@import"}) EXPECT_FALSE(inPage(page, part)) << part;
  EXPECT_TRUE(inPage(page, "<span class=\"option\">--film</span>"));
}

// Every element that is opened is closed, in order.
TEST(PourPage, IsWellNested) {
  for (const PourSheet& sheet : {bicycleSheet(), crowdedSheet()}) {
    const std::string page = pourSheetHtml(sheet);
    std::vector<std::string> open;
    for (auto at = page.find('<'); at != std::string::npos; at = page.find('<', at + 1)) {
      const auto end = page.find('>', at);
      ASSERT_NE(end, std::string::npos);
      const std::string tag = page.substr(at + 1, end - at - 1), name = tag.substr(0, tag.find_first_of(" /"));
      if (tag.front() == '!' || tag.back() == '/' || name == "meta") continue;
      if (tag.front() == '/') {
        ASSERT_FALSE(open.empty()) << tag;
        EXPECT_EQ("/" + open.back(), tag);
        open.pop_back();
      } else {
        open.push_back(name);
      }
    }
    EXPECT_TRUE(open.empty());
  }
}

}  // namespace
}  // namespace huewright
