#include "session/tagged.hpp"

#include <fstream>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "mix/series.hpp"
#include "session/report_json.hpp"
#include "shots.hpp"
#include "support/temp_dir.hpp"
#include "tagged_photo.hpp"

namespace huewright {
namespace {

Quad boxAt(int x, int y, int w, int h) { return toQuad({x, y, w, h}); }
SeenTag seenTag(const TagText& text, int x, int y) { return {text, boxAt(x, y, 40, 40), 0}; }

/// Two panels side by side.
Scene twoPanels() {
  Scene scene;
  scene.regions.panels = {boxAt(100, 100, 100, 200), boxAt(300, 100, 100, 200)};
  return scene;
}

bool tells(const Filed& filed, CautionCode code, const std::string& words) {
  return std::ranges::any_of(filed.cautions, [&](const Caution& c) { return c.code == code && sentence(c).find(words) != std::string::npos; });
}

TEST(FileTags, EachGoesToTheNearestPanel) {
  const TagSearch found{{seenTag({"right", TagParts{1, 3}, 2, 4}, 330, 320), seenTag({"left", TagParts{1, 2}, 3, 5}, 130, 320)}, {}};
  const Filed filed = fileTags(found, twoPanels(), {});
  ASSERT_EQ(filed.panels.size(), 2U);
  EXPECT_EQ(filed.panels[0].tag, "left");
  EXPECT_EQ(filed.panels[1].tag, "right");
  EXPECT_EQ(filed.panels[1].mix->weak, 3);
  EXPECT_EQ(filed.panels[1].coats, 2);
  EXPECT_EQ(filed.panels[0].carrier, 5);
  EXPECT_EQ(filed.tags[0].panel, 1U);
  EXPECT_EQ(filed.tags[1].panel, 0U);
  EXPECT_TRUE(filed.cautions.empty());
  EXPECT_EQ(untold(filed.panels), "");
}

TEST(FileTags, WithoutTagsAllIsAsTold) {
  JudgeRequest request;
  request.mixes = {{1, 2}, {1, 3}};
  request.coats = 4;
  const Filed filed = fileTags({}, twoPanels(), request);
  EXPECT_EQ(filed.panels[1].mix->weak, 3);
  EXPECT_EQ(filed.panels[1].coats, 4);
  EXPECT_FALSE(filed.panels[1].carrier);
  EXPECT_EQ(untold(filed.panels), "the carrier (--carrier)");
  EXPECT_EQ(untold(fileTags({}, twoPanels(), {}).panels), "the mix (--mix), the coats (--coats or --steps) and the carrier (--carrier)");
}

TEST(FileTags, WhatIsToldComesFirstAndAContradictionIsSaid) {
  JudgeRequest request;
  request.mixes = {{1, 3}};
  request.coats = 2;
  request.carrier = 4;
  const TagSearch found{{seenTag({"left", TagParts{1, 4}, 3, 5}, 130, 320), seenTag({"right", TagParts{2, 6}, 2, 4}, 330, 320)}, {}};
  const Filed filed = fileTags(found, twoPanels(), request);
  EXPECT_EQ(filed.panels[0].mix->weak, 3);
  EXPECT_EQ(filed.panels[0].coats, 2);
  EXPECT_EQ(filed.panels[0].carrier, 4);
  EXPECT_EQ(filed.panels[0].tag, "left");
  EXPECT_EQ(filed.cautions.size(), 3U);  // 2:6 is 1:3
  EXPECT_TRUE(tells(filed, CautionCode::TagContradicts, "Of panel A was told the mix 1:3, and its tag \"left\" says 1:4; what was told was used."));
  EXPECT_TRUE(tells(filed, CautionCode::TagContradicts, "2 coats, and its tag \"left\" says 3 coats"));
  EXPECT_TRUE(tells(filed, CautionCode::TagContradicts, "carrier 4, and its tag \"left\" says 5"));
}

TEST(FileTags, OfTwoForOnePanelTheNearerIsUsed) {
  const TagSearch found{{seenTag({"far", TagParts{1, 9}, 9, 9}, 130, 420), seenTag({"near", {}, 3, {}}, 130, 310)}, {}};
  const Filed filed = fileTags(found, twoPanels(), {});
  EXPECT_EQ(filed.panels[0].tag, "near");
  EXPECT_FALSE(filed.panels[0].mix);
  EXPECT_EQ(filed.panels[1].tag, "");
  EXPECT_FALSE(filed.tags[0].panel);
  EXPECT_EQ(filed.tags[1].panel, 0U);
  EXPECT_TRUE(tells(filed, CautionCode::TwoTags, "\"near\" was used, and \"far\""));
}

TEST(FileTags, AnUnreadOneIsSaid) {
  const Filed one = fileTags({{}, {boxAt(0, 0, 9, 9)}}, twoPanels(), {}), two = fileTags({{}, {boxAt(0, 0, 9, 9), boxAt(20, 0, 9, 9)}}, twoPanels(), {});
  EXPECT_TRUE(tells(one, CautionCode::TagUnread, "cannot be read"));
  EXPECT_TRUE(tells(two, CautionCode::TagUnread, "2 tags"));
}

TEST(FileTags, OfASteppedPanelAllStripsAreOne) {
  JudgeRequest request;
  request.steps = {0, 1, 2};
  Scene scene;
  for (int i = 0; i < 3; ++i) scene.regions.panels.push_back(boxAt(100 + 50 * i, 100, 50, 200));
  const Filed filed = fileTags({{seenTag({"steps", TagParts{1, 4}, 2, 5}, 210, 310)}, {}}, scene, request);
  EXPECT_FALSE(filed.panels[0].mix);  // bare ground
  for (const std::size_t i : {1U, 2U}) {
    EXPECT_EQ(filed.panels[i].mix->weak, 4);
    EXPECT_EQ(filed.panels[i].coats, static_cast<double>(i));
    EXPECT_EQ(filed.panels[i].tag, "steps");
  }
  EXPECT_EQ(filed.tags[0].panel, 0U);
  EXPECT_TRUE(filed.cautions.empty());
  EXPECT_EQ(untold(filed.panels), "");
  EXPECT_TRUE(tells(fileTags({{seenTag({"steps", {}, 3, {}}, 210, 310)}, {}}, scene, request), CautionCode::TagContradicts, "steps of up to 2 coats"));
}

/// What a report says of panels that have these tags, or none.
JudgeReport reportOf(const std::vector<std::optional<TagText>>& tags) {
  JudgeReport report;
  for (std::size_t i = 0; i < tags.size(); ++i) {
    report.panel_tags.push_back(tags[i] ? tags[i]->name : "");
    report.coats.emplace_back(3);
    if (tags[i]) report.tags.push_back({*tags[i], {}, i});
  }
  return report;
}

TEST(ToldByTags, NeedsMixAndCoatsOfEveryPanelAndNothingAgainstThem) {
  const TagText whole{"a", TagParts{1, 4}, 3, 5}, other{"b", TagParts{1, 3}, 4, {}}, no_coats{"c", TagParts{1, 3}, {}, 5}, no_mix{"d", {}, 3, 5};
  EXPECT_TRUE(toldByTags(reportOf({whole, other})));
  EXPECT_FALSE(toldByTags(reportOf({whole, std::nullopt})));
  EXPECT_FALSE(toldByTags(reportOf({whole, no_coats})));
  EXPECT_FALSE(toldByTags(reportOf({no_mix})));
  for (const CautionCode against : {CautionCode::TagContradicts, CautionCode::TwoTags, CautionCode::TagUnread}) {
    JudgeReport report = reportOf({whole});
    report.cautions.push_back({against, "x"});
    EXPECT_FALSE(toldByTags(report));
  }
  JudgeReport bare = reportOf({std::nullopt, whole});
  bare.coats[0] = 0;
  EXPECT_TRUE(toldByTags(bare));
  JudgeReport stepped = reportOf({no_coats});
  EXPECT_FALSE(toldByTags(stepped));
  stepped.stepped = true;
  EXPECT_TRUE(toldByTags(stepped));
}

TEST(TaggedPhoto, IsFiledWithMixCoatsAndCarrier) {
  const fixtures::TempDir folder;
  JudgeRequest request;
  request.photo = fixtures::shootTagged(folder.path() / "tagged.png", {{"frame 1", TagParts{1, 4}, 3, 5}, {"frame 2", TagParts{1, 3}, 4, 6}});
  request.grey_y = 0.19;
  request.card_kind = CardKind::Same;
  request.series = folder.path() / "series.json";
  const auto report = judged(request);
  ASSERT_TRUE(report) << sentence(report.error());
  ASSERT_EQ(report->tags.size(), 2U);
  EXPECT_EQ(report->panel_tags, (std::vector<std::string>{"frame 1", "frame 2"}));
  EXPECT_EQ(report->mixes[0]->weak, 4);
  EXPECT_EQ(report->coats[1], 4);
  for (const CautionCode code : {CautionCode::TagContradicts, CautionCode::TwoTags, CautionCode::TagUnread, CautionCode::ToneLocal}) EXPECT_FALSE(says(*report, code));

  const auto json = nlohmann::json::parse(toJson(*report, false));
  ASSERT_EQ(json["tags"].size(), 2U);
  for (const auto& tag : json["tags"]) {
    const bool first = tag["name"] == "frame 1";
    EXPECT_EQ(tag["panel"], first ? 0 : 1);
    EXPECT_EQ(tag["mix"]["weak"], first ? 4 : 3);
    EXPECT_EQ(tag["coats"], first ? 3 : 4);
    EXPECT_EQ(tag["carrier"], first ? 5 : 6);
    EXPECT_EQ(tag["place"].size(), 4U);
  }
  std::ifstream file(*request.series);
  const auto series = readSeries(std::string(std::istreambuf_iterator<char>(file), {}));
  // The series has no ground yet, which readSeries asks for; the text itself is looked at.
  EXPECT_FALSE(series);
  std::ifstream again(*request.series);
  const auto written = nlohmann::json::parse(again);
  EXPECT_EQ(written["carrier_per_tint"], 5);
  EXPECT_EQ(written["panels"][0]["name"], "frame 1");
  EXPECT_FALSE(written["panels"][0].contains("carrier_per_tint"));
  EXPECT_EQ(written["panels"][1]["name"], "frame 2");
  EXPECT_EQ(written["panels"][1]["carrier_per_tint"], 6);
  EXPECT_EQ(written["panels"][1]["weak"], 3);
}

TEST(TaggedPhoto, ASeriesWithoutEnoughIsRefusedInWordsAndNotWritten) {
  const fixtures::TempDir folder;
  JudgeRequest request;
  request.photo = fixtures::shootTagged(folder.path() / "tagged.png", {{"frame 1", TagParts{1, 4}, {}, 5}});
  request.series = folder.path() / "series.json";
  const auto report = judged(request);
  ASSERT_FALSE(report);
  EXPECT_EQ(codeName(report.error().code), codeName(Code::SeriesUntold));
  EXPECT_NE(sentence(report.error()).find("the mix (--mix), the coats (--coats or --steps) and the carrier (--carrier)"), std::string::npos) << sentence(report.error());
  EXPECT_FALSE(std::filesystem::exists(*request.series));
}

TEST(TaggedPhoto, IsReadWithPlacesGivenToo) {
  const fixtures::TempDir folder;
  JudgeRequest request;
  request.photo = fixtures::shootTagged(folder.path() / "tagged.png", {{"frame 1", TagParts{1, 4}, 3, 5}});
  const auto by_mat = judged(request);
  ASSERT_TRUE(by_mat);
  request.regions = by_mat->regions;
  const auto by_hand = judged(request);
  ASSERT_TRUE(by_hand) << sentence(by_hand.error());
  ASSERT_EQ(by_hand->tags.size(), 1U);
  EXPECT_EQ(by_hand->tags[0].text.name, "frame 1");
  request.chart_use = ChartUse::None;  // then no preview is made, and no tag looked for
  EXPECT_TRUE(judged(request)->tags.empty());
}

}  // namespace
}  // namespace huewright
