#include "session/report_json.hpp"

#include <gtest/gtest.h>
#include <limits>
#include <nlohmann/json.hpp>

namespace huewright {
namespace {

JudgeReport smallReport() {
  JudgeReport r;
  r.photo.path = "photo.jpg";
  r.photo.size = {600, 400};
  r.photo.encoding = "sRGB";
  r.regions = {{toQuad({1, 2, 30, 40})}, toQuad({50, 2, 30, 40}), {}};
  r.reading.panels = {{{45.123456, -30, -12}, {0.1, 0.2, 0.3}, {}, 900, 0.01, 0.02}};
  r.reading.card = {{46, -29, -12}, {0.1, 0.2, 0.3}, {}, 800, 0, 0};
  Verdict v;
  v.de00 = 1.23456789;
  v.low = 0.9;
  v.high = 1.6;
  v.band = Band::CantSay;
  v.sentence = "Can't say.";
  r.verdicts = {v};
  r.names = {"panel"};
  r.coats = {{}};
  r.mixes = {{}};
  r.advice.sentence = "Wait.";
  r.cautions = {{CautionCode::CardKindUnknown, {}}};
  return r;
}

TEST(Json, HasTheDocumentedKeys) {
  const auto j = nlohmann::json::parse(toJson(smallReport(), true));
  for (const char* key : {"format", "photo", "profile", "light", "grey", "regions", "panel", "panels", "swapped", "card", "difference", "verdict", "advice", "ranking", "budget", "trust", "cautions"})
    EXPECT_TRUE(j.contains(key)) << key;
  EXPECT_EQ(j["format"], 1);
  EXPECT_EQ(j["verdict"]["band"], "cant-say");
  EXPECT_EQ(j["difference"]["de00"], 1.2346);
  EXPECT_EQ(j["panel"]["lab"][0], 45.1235);
  EXPECT_EQ(j["regions"]["panel"], nlohmann::json::parse("[[1,2],[31,2],[31,42],[1,42]]"));
  EXPECT_EQ(j["cautions"][0]["code"], "card-kind-unknown");
  EXPECT_TRUE(j["budget"].contains("texture"));
}

TEST(Json, TellsWhichGreyWasTaken) {
  JudgeReport r = smallReport();
  EXPECT_EQ(nlohmann::json::parse(toJson(r, false))["grey"], nlohmann::json::parse(R"({"from": "nothing", "lab": null, "lab_sd": null})"));
  r.reading.grey = {GreyFrom::Kept, KnownGrey{{49.6, 0.1, -1.2}, {0.2, 0.3, 0.4}}};
  EXPECT_EQ(nlohmann::json::parse(toJson(r, false))["grey"], nlohmann::json::parse(R"({"from": "kept", "lab": [49.6, 0.1, -1.2], "lab_sd": [0.2, 0.3, 0.4]})"));
}

TEST(Json, TellsHowFarThePhotoCanBeTrusted) {
  JudgeReport r = smallReport();
  r.trust = {Grade::Fair, "The photo can be trusted fairly: it is small.", {{TrustCode::Small, "It is small."}}, {"Ask."}};
  EXPECT_EQ(nlohmann::json::parse(toJson(r, false))["trust"],
            nlohmann::json::parse(R"({"grade": "fair", "sentence": "The photo can be trusted fairly: it is small.",
                                      "reasons": [{"code": "small", "sentence": "It is small."}], "better": ["Ask."]})"));
  EXPECT_TRUE(nlohmann::json::parse(toJson(smallReport(), false))["trust"]["reasons"].is_array());
}

TEST(Json, WhatIsAbsentIsNull) {
  JudgeReport r = smallReport();
  r.reading.card_in_photo = false;
  r.regions.card.reset();
  const auto j = nlohmann::json::parse(toJson(r, false));
  EXPECT_TRUE(j["profile"]["loo_de00"].is_null());
  EXPECT_TRUE(j["regions"]["card"].is_null());
  EXPECT_TRUE(j["card"]["pixels"].is_null());
  EXPECT_TRUE(j["ranking"].is_null());
  EXPECT_TRUE(j["budget"].is_null());
}

TEST(Json, NeverNan) {
  JudgeReport r = smallReport();
  r.verdicts[0].de00 = std::numeric_limits<double>::quiet_NaN();
  r.verdicts[0].high = std::numeric_limits<double>::infinity();
  const auto j = nlohmann::json::parse(toJson(r, false));
  EXPECT_TRUE(j["difference"]["de00"].is_null());
  EXPECT_TRUE(j["difference"]["high"].is_null());
}

TEST(Json, ABrokenFileNameDoesNotBreakIt) {
  JudgeReport r = smallReport();
  r.photo.path = "bad\xff\xfename.jpg";
  EXPECT_TRUE(nlohmann::json::accept(toJson(r, false)));
}

TEST(Json, InOneLineItIsTheSame) {
  const std::string line = toJsonLine(smallReport(), true);
  EXPECT_EQ(line.find('\n'), line.size() - 1);
  EXPECT_EQ(nlohmann::ordered_json::parse(line), nlohmann::ordered_json::parse(toJson(smallReport(), true)));
}

TEST(Json, OfAPhotoThatCannotBeUsed) {
  const std::string line = problemJson("in/a.jpg", {Code::FileEmpty, "in/a.jpg"});
  EXPECT_EQ(line.find('\n'), line.size() - 1);
  const auto j = nlohmann::json::parse(line);
  EXPECT_EQ(j["format"], 1);
  EXPECT_EQ(j["photo"]["file"], "in/a.jpg");
  EXPECT_EQ(j["problem"]["code"], "file-empty");
  EXPECT_EQ(j["problem"]["sentence"], sentence({Code::FileEmpty, "in/a.jpg"}));
}

}  // namespace
}  // namespace huewright
