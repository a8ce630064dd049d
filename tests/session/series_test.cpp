#include "session/series.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace huewright {
namespace {

JudgeReport stepped() {
  JudgeReport r;
  r.stepped = true;
  r.photo.path = "photos/first steps.jpg";
  r.reading.panels.resize(3);
  r.reading.panels[0].lab = {80, -1, 2};
  r.reading.panels[1].lab = {60, -20, -8};
  r.reading.panels[2].lab = {50.123456, -28, -10};
  r.reading.card.lab = {45, -30, -12};
  r.coats = {0.0, 1.0, 2.0};
  r.mixes = {{}, Mix{1, 3}, Mix{1, 3}};
  r.verdicts.resize(3);
  for (Verdict& v : r.verdicts) v.covariance = 0.01 * Mat3::identity();
  r.verdicts[1].covariance = 0.5 * Mat3::identity();  // far from the card
  return r;
}

TEST(Series, BareGroundIsTheGroundAndStripsArePanels) {
  const auto j = nlohmann::json::parse(seriesJson(stepped(), 5).value());
  EXPECT_EQ(j["format"], 1);
  EXPECT_EQ(j["carrier_per_tint"], 5);
  EXPECT_EQ(j["ground"]["lab"], nlohmann::json::parse("[80,-1,2]"));
  EXPECT_EQ(j["target"]["lab"], nlohmann::json::parse("[45,-30,-12]"));
  ASSERT_EQ(j["panels"].size(), 2u);
  EXPECT_EQ(j["panels"][1]["strong"], 1);
  EXPECT_EQ(j["panels"][1]["weak"], 3);
  EXPECT_EQ(j["panels"][1]["coats"], 2);
  for (const auto& strip : j["panels"]) EXPECT_EQ(strip["piece"], "first steps");
  EXPECT_EQ(j["panels"][1]["lab"][0], 50.1235);
  EXPECT_NEAR(j["sigma"].get<double>(), 0.1732, 1e-4);  // root of three times 0.01
}

TEST(Series, PlainPanelsArePiecesOfTheirOwn) {
  JudgeReport r = stepped();
  r.stepped = false;
  const auto j = nlohmann::json::parse(seriesJson(r, 5).value());
  for (const auto& panel : j["panels"]) EXPECT_FALSE(panel.contains("piece"));
}

TEST(Series, TagsNamePanelsAndTellTheirOwnCarrier) {
  JudgeReport r = stepped();
  r.panel_tags = {"frame 3", "frame 3", "frame 3"};
  r.carriers = {5.0, 5.0, 6.0};
  const auto strips = nlohmann::json::parse(seriesJson(r, 5).value());
  EXPECT_EQ(strips["panels"][0]["name"], "frame 3, 1 coat");
  EXPECT_EQ(strips["panels"][1]["name"], "frame 3, 2 coats");
  EXPECT_FALSE(strips["panels"][0].contains("carrier_per_tint"));
  EXPECT_EQ(strips["panels"][1]["carrier_per_tint"], 6);
  r.stepped = false;
  r.panel_tags[2].clear();
  const auto plain = nlohmann::json::parse(seriesJson(r, 5).value());
  EXPECT_EQ(plain["panels"][0]["name"], "frame 3");
  EXPECT_EQ(plain["panels"][0]["piece"], "frame 3");
  EXPECT_FALSE(plain["panels"][1].contains("name"));
}

TEST(Series, WithoutBareGroundNoneIsInvented) {
  JudgeReport r = stepped();
  r.coats[0] = 0.5;
  r.mixes[0] = Mix{1, 3};
  const auto j = nlohmann::json::parse(seriesJson(r, 5).value());
  EXPECT_FALSE(j.contains("ground"));
  EXPECT_EQ(j["panels"].size(), 3u);
}

TEST(Series, WhatIsWrittenAndWhatIsTakenOverAreOne) {
  const JudgeReport r = stepped();
  const Series series = seriesOf(r, 5).value(), read = readSeries(seriesJson(r, 5).value()).value();
  EXPECT_EQ(series.ground->lab, read.ground->lab);
  EXPECT_EQ(series.target, read.target);
  EXPECT_EQ(series.sigma, read.sigma);
  EXPECT_EQ(series.carrier_per_tint, 5);
  ASSERT_EQ(series.panels.size(), 2u);
  for (std::size_t i = 0; i < 2; ++i) {
    EXPECT_EQ(series.panels[i].lab, read.panels[i].lab);
    EXPECT_EQ(series.panels[i].strong, 1);
    EXPECT_EQ(series.panels[i].weak, 3);
    EXPECT_EQ(series.panels[i].coats, read.panels[i].coats);
    EXPECT_FALSE(series.panels[i].ground || series.panels[i].carrier_per_tint);
  }
  EXPECT_EQ(series.panels[1].lab.L, 50.1235);  // as the file has it
}

TEST(Series, APanelWithoutMixOrCoatsIsNoPartOfOne) {
  JudgeReport r = stepped();
  r.mixes[2].reset();
  EXPECT_EQ(seriesOf(r, 5).error().code, Code::BadChoice);
  EXPECT_EQ(seriesJson(r, 5).error().code, Code::BadChoice);
  r = stepped();
  r.coats[1].reset();
  EXPECT_EQ(seriesOf(r, 5).error().code, Code::BadChoice);
}

}  // namespace
}  // namespace huewright
