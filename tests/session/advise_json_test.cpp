#include "session/advise_json.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace huewright {
namespace {

AdviseRequest tealRequest() {
  AdviseRequest request;
  request.series = HUEWRIGHT_SOURCE_DIR "/sample-images/teal-series.json";
  return request;
}

TEST(AdviseJson, SaysWhatTheReportHolds) {
  const auto report = adviseOn(tealRequest());
  ASSERT_TRUE(report);
  const auto json = nlohmann::json::parse(adviseJson(*report));
  EXPECT_EQ(json["format"], 1);
  EXPECT_EQ(json["next"]["strong"], 2);
  EXPECT_EQ(json["next"]["weak"], 3);
  EXPECT_NEAR(json["next"]["share"].get<double>(), 0.4, 1e-9);
  EXPECT_NEAR(json["next"]["high"].get<double>(), report->advice.next->choice.high, 1e-4);
  EXPECT_LT(json["next"]["share_low"], json["next"]["share_high"]);
  EXPECT_EQ(json["direction"], "decrease");
  EXPECT_EQ(json["reachable"], true);
  EXPECT_EQ(json["alternatives"].size(), report->advice.alternatives.size());
  EXPECT_TRUE(json["part"].is_null());
  EXPECT_TRUE(json["learn"].is_null());
  EXPECT_EQ(json["panels_used"], 4);
  EXPECT_EQ(json["sentence"], report->advice.sentence);
  EXPECT_EQ(json["cautions"].size(), report->advice.cautions.size());
}

TEST(AdviseJson, WhatIsAbsentIsNullAndNeverNan) {
  AdviseReport report;
  report.advice.fit.film_sd = std::nan("");
  const auto json = nlohmann::json::parse(adviseJson(report));
  EXPECT_TRUE(json["next"].is_null());
  EXPECT_TRUE(json["reachable"].is_null());
  EXPECT_TRUE(json["shelf"].is_null());
  EXPECT_TRUE(json["film"]["sd"].is_null());
  EXPECT_EQ(json["direction"], "unknown");
}

TEST(AdviseJson, ThePartAndTheGrounds) {
  AdviseRequest request = tealRequest();
  request.part_coats = 3;
  const auto report = adviseOn(request);
  ASSERT_TRUE(report);
  EXPECT_TRUE(nlohmann::json::parse(adviseJson(*report))["part"]["step"].is_string());
  const auto grounds = groundsOf({request.series, {}, {}});
  ASSERT_TRUE(grounds);
  const auto json = nlohmann::json::parse(groundsJson(*grounds));
  EXPECT_EQ(json["mix"]["accepted"], false);
  EXPECT_EQ(json["grounds"].size(), 4U);
  EXPECT_EQ(json["grounds"][0]["name"], "bright silver");
  EXPECT_TRUE(json["grounds"][0]["lean"].is_null());
}

}  // namespace
}  // namespace huewright
