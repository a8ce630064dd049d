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
  const auto j = nlohmann::json::parse(seriesJson(stepped(), 5));
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
  const auto j = nlohmann::json::parse(seriesJson(r, 5));
  for (const auto& panel : j["panels"]) EXPECT_FALSE(panel.contains("piece"));
}

TEST(Series, WithoutBareGroundNoneIsInvented) {
  JudgeReport r = stepped();
  r.coats[0] = 0.5;
  r.mixes[0] = Mix{1, 3};
  const auto j = nlohmann::json::parse(seriesJson(r, 5));
  EXPECT_FALSE(j.contains("ground"));
  EXPECT_EQ(j["panels"].size(), 3u);
}

}  // namespace
}  // namespace huewright
