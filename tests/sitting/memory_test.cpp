#include "sitting/memory.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

Quad quadAt(double x) { return {{{{x, 1.25}, {x + 100, 2}, {x + 99.5, 81}, {x + 1, 80}}}}; }

Memory fullMemory() {
  Memory m;
  m.plan.photos = {{2, "/photos/panel ü.jpg", PhotoRole::First, Regions{{quadAt(10), quadAt(200)}, quadAt(400), {quadAt(600)}, quadAt(800)}},
                   {5, "/photos/again.jpg", PhotoRole::Again, {}},
                   {6, "/photos/lamp.jpg", PhotoRole::OtherLight, Regions{{quadAt(3)}, {}, {}, {}}}};
  Choices& c = m.plan.choices;
  c.mixes = {{1, 3}};
  c.coats = 4.5;
  c.steps = {0, 1, 2.5};
  c.carrier = 5;
  c.stage = "cleared";
  c.card_kind = CardKind::Printed;
  c.card_lab = Lab<D50>{52.25, -20.125, -3};
  c.tolerance = 0.5;
  c.grey_y = 0.19;
  c.kept_grey = false;
  c.encoding = Encoding::Linear;
  c.use_chart = false;
  c.profile = "/profiles/camera.json";
  m.plan.series.emplace();
  m.plan.series->carrier_per_tint = 5;
  m.plan.series->target = Lab<D50>{50, -20, -5};
  m.plan.series->panels.push_back({.strong = 1, .weak = 3, .coats = 4, .lab = {51, -20, -5}, .ground = {}, .carrier_per_tint = {}, .stage = "cleared", .uncleared = {}, .name = "first", .piece = {}});
  m.plan.series_file = "/jobs/teal.json";
  m.plan.series_saved = false;
  m.plan.tints = "/jobs/tints.json";
  m.plan.part_coats = 3;
  m.plan.chart_photos = {"/photos/chart.jpg"};
  m.plan.chart_encoding = Encoding::Srgb;
  m.recent = {"/photos/panel ü.jpg", "/jobs/teal.json"};
  m.window = {{"text", 1.5}, {"width", 1600}};
  m.camera = "/films/f_%03d.png";
  m.stills = "/photos/stills";
  m.followed = "/photos/in";
  m.by_tags = true;
  return m;
}

TEST(Memory, ReadsBackWhatItWrote) {
  const Memory m = fullMemory();
  const std::string text = memoryText(m);
  const auto back = readMemory(text);
  ASSERT_TRUE(back) << sentence(back.error());
  EXPECT_EQ(memoryText(*back), text);  // every field, since the text shows them all
  EXPECT_EQ(back->plan.photos[0].by_hand->panels[1], quadAt(200));
  EXPECT_EQ(back->plan.photos[0].file, m.plan.photos[0].file);
  EXPECT_EQ(back->plan.choices.mixes.at(0).weak, 3);
  EXPECT_EQ(back->plan.choices.steps, m.plan.choices.steps);
  EXPECT_EQ(back->plan.choices.card_kind, CardKind::Printed);
  EXPECT_EQ(back->plan.choices.encoding, Encoding::Linear);
  ASSERT_TRUE(back->plan.series);
  EXPECT_EQ(back->plan.series->panels[0].name, "first");
  EXPECT_FALSE(back->plan.series->ground);  // a series still being filled in has none yet
  EXPECT_EQ(back->window.at("text"), 1.5);
  EXPECT_EQ(back->camera, m.camera);
  EXPECT_EQ(back->stills, m.stills);
  EXPECT_EQ(back->followed, m.followed);
  EXPECT_TRUE(back->by_tags);
}

TEST(Memory, ReadsWhatWasWrittenBeforeThereWereCameras) {
  std::string text = memoryText(fullMemory());
  for (const char* field : {"\n  \"camera\": \"/films/f_%03d.png\",", "\n  \"stills\": \"/photos/stills\","}) {
    ASSERT_NE(text.find(field), std::string::npos) << text;
    text.erase(text.find(field), std::string(field).size());
  }
  const auto back = readMemory(text);
  ASSERT_TRUE(back);
  EXPECT_EQ(back->camera, "");
  EXPECT_EQ(back->stills, "");
  EXPECT_EQ(back->followed, "/photos/in");
}

TEST(Memory, AnEmptyPlanComesBackEmpty) {
  const auto back = readMemory(memoryText({}));
  ASSERT_TRUE(back);
  EXPECT_TRUE(back->plan.photos.empty());
  EXPECT_FALSE(back->plan.series);
  EXPECT_TRUE(back->plan.choices.mixes.empty());
}

TEST(Memory, WhateverIsNotAsItIsWrittenIsRefused) {
  const std::string good = memoryText(fullMemory());
  const auto with = [&](const std::string& from, const std::string& to) {
    std::string text = good;
    const auto at = text.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    return text.replace(at, from.size(), to);
  };
  ASSERT_TRUE(readMemory(good));
  for (const std::string& text : {std::string(), std::string("{}"), good.substr(0, good.size() / 2), with("\"format\": 1", "\"format\": 2"), with("\"role\": \"again\"", "\"role\": \"seventh\""),
                                  with("\"id\": 5", "\"id\": 2"), with("\"coats\": 4.5", "\"coats\": \"4.5\""), with("\"use_chart\": false", "\"use_chart\": 0"), with("\"printed\"", "\"painted\""),
                                  with("\"linear\"", "\"square\""), with("\"kept_grey\"", "\"kept\"")})
    EXPECT_FALSE(readMemory(text)) << text.substr(0, 200);
}

TEST(Memory, KeysTellWhatAVerdictFollowsFrom) {
  const Plan plan = fullMemory().plan;
  Plan other = plan;
  other.choices.stage = "wet";
  other.series->panels[0].coats = 5;
  other.chart_photos.clear();
  EXPECT_EQ(judgeKey(plan), judgeKey(other));
  EXPECT_NE(seriesKey(plan), seriesKey(other));
  EXPECT_NE(cameraKey(plan), cameraKey(other));
  other.photos[0].by_hand->panels[0].corners[0].x += 1;
  EXPECT_NE(judgeKey(plan), judgeKey(other));
  EXPECT_EQ(seriesKey(Plan{}), "");
}

}  // namespace
}  // namespace huewright
