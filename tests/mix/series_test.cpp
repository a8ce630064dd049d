#include "mix/series.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

// Invented numbers.
constexpr const char* kGoodSeries = R"({"format": 1, "carrier_per_tint": 6, "ground": {"lab": [79, 0, 2], "name": "bright silver"}, "target": {"lab": [50, -23, -7]}, "sigma": 0.4,
  "panels": [{"strong": 1, "weak": 3, "coats": 4, "lab": [52.5, -21, -5], "stage": "cleared"},
             {"strong": 2, "weak": 3, "coats": 3, "lab": [54, -20, -6], "ground": {"lab": [78, 0, 1]}, "carrier_per_tint": 5, "name": "left door"},
             {"strong": 1, "weak": 2, "coats": 1, "lab": [66, -11, -2], "piece": "A"},
             {"strong": 2, "weak": 4, "coats": 2, "lab": [59, -16, -4], "piece": "A"}],
  "limits": {"max_total_parts": 6, "coats": [2, 5], "lines_only": true}, "grounds": [{"name": "graphite", "lab": [38, 0, -1]}],
  "accepted": {"strong": 1, "weak": 4, "coats": 4}})";

TEST(Series, ReadsEveryField) {
  const auto series = readSeries(kGoodSeries);
  ASSERT_TRUE(series) << sentence(series.error());
  EXPECT_EQ(series->carrier_per_tint, 6);
  EXPECT_EQ(series->ground->name, "bright silver");
  EXPECT_EQ(series->target, (Lab<D50>{50, -23, -7}));
  EXPECT_EQ(series->sigma, 0.4);
  ASSERT_EQ(series->panels.size(), 4U);
  EXPECT_EQ(series->panels[0].piece, "");
  EXPECT_EQ(series->panels[3].piece, "A");
  EXPECT_EQ(pieceName(*series, 3), "stepped panel \"A\" (2:4)");
  EXPECT_EQ(series->panels[0].stage, "cleared");
  EXPECT_EQ(series->panels[1].share(), 0.4);
  EXPECT_EQ(series->limits.max_total_parts, 6);
  EXPECT_EQ(series->limits.coats_high, 5);
  EXPECT_TRUE(series->limits.lines_only);
  EXPECT_EQ(series->grounds[0].lab.L, 38);
  EXPECT_EQ(series->accepted->coats, 4);
  EXPECT_EQ(panelName(*series, 0), "panel 1 (1:3, 4 coats)");
  EXPECT_EQ(panelName(*series, 1), "panel \"left door\"");
  const auto readings = panelReadings(*series);
  EXPECT_NEAR(readings[0].tint_part, 1 / 7.0, 1e-12);
  EXPECT_NEAR(readings[1].tint_part, 1 / 6.0, 1e-12);
  EXPECT_EQ(readings[1].ground, sharpened(Lab<D50>{78, 0, 1}));
  EXPECT_EQ(readings[0].ground, sharpened(Lab<D50>{79, 0, 2}));
  EXPECT_EQ(readings[1].piece, kNoPiece);
  EXPECT_NE(readings[2].piece, kNoPiece);
  EXPECT_EQ(readings[2].piece, readings[3].piece);
}

TEST(Series, NothingSprayedYetIsASeries) {
  const auto series = readSeries(R"({"carrier_per_tint": 6, "ground": {"lab": [79, 0, 2]}, "target": {"lab": [50, -23, -7]}, "panels": []})");
  ASSERT_TRUE(series);
  EXPECT_EQ(series->limits.max_total_parts, 8);
  EXPECT_EQ(series->sigma, 0.3);
}

struct BadSeries {
  const char* from;
  const char* to;
  const char* said;      // in the sentence
};
constexpr BadSeries kBadSeries[] = {
    {R"("strong": 1, "weak": 3)", R"("strong": -1, "weak": 3)", "the parts of panel 1 are below zero"},
    {R"("strong": 1, "weak": 3)", R"("strong": 0, "weak": 0)", "panel 1 has no tint in it"},
    {R"("strong": 1, "weak": 3, )", R"("weak": 3, )", "panel 1 lacks its parts"},
    {R"("ground": {"lab": [79, 0, 2], "name": "bright silver"}, )", "", "panel 1 has no ground"},
    {R"("coats": 4, "lab": [52.5)", R"("coats": NaN, "lab": [52.5)", "near line 2 it is not JSON"},
    {R"("coats": 4, "lab": [52.5)", R"("coats": "4", "lab": [52.5)", "coats of panel 1 is text in quotes"},
    {R"("coats": 4, "lab": [52.5)", R"("coats": null, "lab": [52.5)", "coats of panel 1 is not a number"},
    {R"("coats": 4, "lab": [52.5)", R"("coats": 0, "lab": [52.5)", "panel 1 has 0 coats: that is bare ground"},
    {R"("coats": 4, "lab": [52.5)", R"("coats": -2, "lab": [52.5)", "coats of panel 1 is -2"},
    {R"("coats": 4, "lab": [52.5)", R"("coats": 1e999, "lab": [52.5)", "not"},
    {R"("coats": 4, "lab": [52.5)", R"("coat": 4, "lab": [52.5)", "\"coat\" is not a field of panel 1"},
    {R"([52.5, -21, -5])", R"([52.5, -21])", "the lab of panel 1 is not three numbers"},
    {R"([52.5, -21, -5])", R"([-3, -21, -5])", "L of panel 1 is -3"},
    {R"("sigma": 0.4)", R"("sigma": 0)", "sigma is 0"},
    {R"("stage": "cleared")", R"("stage": "nice")", "the stage of panel 1"},
    {R"("format": 1)", R"("format": 2)", "a newer Huewright wrote it"},
    {R"("max_total_parts": 6)", R"("max_total_parts": 2.5)", "max_total_parts is not a whole number"},
    {R"("coats": [2, 5])", R"("coats": [5, 2])", "no whole number of coats"},
    {R"("carrier_per_tint": 6, )", "", "carrier_per_tint is missing"},
    {R"("name": "graphite", )", "", "ground 1 of grounds has no name"},
    {R"("strong": 2, "weak": 4)", R"("strong": 2, "weak": 3)", "panels 3 and 4 are called strips of one piece, \"A\", but have other parts"},
    {R"("lab": [59, -16, -4],)", R"("lab": [59, -16, -4], "carrier_per_tint": 5,)", "but have another carrier"},
    {R"("piece": "A"})", R"("piece": 7})", "the piece of panel 3 is not text in quotes"},
    {R"("piece": "A"})", R"("piece": ""})", "the piece of panel 3 is empty"},
    {R"("panels")", R"("Panels")", "\"Panels\" is not a field of the series"},
};

TEST(Series, EveryMistakeIsOnePlainSentence) {
  for (const BadSeries& bad : kBadSeries) {
    std::string text = kGoodSeries;
    const auto at = text.find(bad.from);
    ASSERT_NE(at, std::string::npos) << bad.from;
    text.replace(at, std::string(bad.from).size(), bad.to);
    const auto series = readSeries(text);
    ASSERT_FALSE(series) << bad.to;
    EXPECT_EQ(series.error().code, Code::SeriesUnusable);
    const std::string said = sentence(series.error());
    EXPECT_NE(said.find(bad.said), std::string::npos) << said;
    EXPECT_EQ(said.find('\n'), std::string::npos);
  }
}

TEST(Series, OtherTextsAreRefused) {
  for (const char* text : {"", "[]", "3", "{", "\xff\xfe", "{\"panels\": 3}"}) EXPECT_FALSE(readSeries(text)) << text;
}

TEST(Series, SaysPartsAndCoats) {
  EXPECT_EQ(partsWords(1, 4), "1:4");
  EXPECT_EQ(partsWords(2.5, 1), "2.5:1");
  EXPECT_EQ(coatsWords(1), "1 coat");
  EXPECT_EQ(coatsWords(2.5), "2.5 coats");
}

}  // namespace
}  // namespace huewright
