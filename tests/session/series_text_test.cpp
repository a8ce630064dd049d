#include "session/series_text.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "photo/file_bytes.hpp"

namespace huewright {
namespace {

/// Numbers that have no short decimal form.
Series everyFieldSet() {
  Series s;
  s.carrier_per_tint = 16.0 / 3;
  s.ground = NamedGround{"bright \"silver\"", {78.9 + 1.0 / 7, 0.1, 2.0}};
  s.target = Lab<D50>{48, -23.7 - 1e-9, -7.2};
  s.sigma = 1.0 / 3;
  s.limits = {12, 1.5, 7, true, 2.5};
  s.grounds = {{"pearl white", {89.6, -0.8, 3.9}}, {"graphite — größer", {38.4, -1.3, -2.4}}};
  s.strong_name = "teal, strong";
  s.weak_name = "aqua, weak";
  SeriesPanel plain;
  plain.strong = 1;
  plain.weak = 2.0 / 3;
  plain.coats = 0.1;
  plain.lab = {58.6, -17.8, -4.9};
  SeriesPanel full = plain;
  full.weak = 0;
  full.ground = Lab<D50>{80.0 / 7, 1, 2};
  full.carrier_per_tint = 0;
  full.stage = "flashed";
  full.uncleared = Lab<D50>{60, -18, -5.0 / 3};
  full.name = "line\nfeed";
  full.piece = "a piece";
  s.panels = {plain, full};
  s.accepted = SeriesPanel{};
  s.accepted->strong = 2;
  s.accepted->weak = 3;
  s.accepted->coats = 4;
  s.accepted->carrier_per_tint = 4.9;
  return s;
}

void expectSame(const SeriesPanel& a, const SeriesPanel& b) {
  EXPECT_EQ(a.strong, b.strong);
  EXPECT_EQ(a.weak, b.weak);
  EXPECT_EQ(a.coats, b.coats);
  EXPECT_EQ(a.lab, b.lab);
  EXPECT_EQ(a.ground, b.ground);
  EXPECT_EQ(a.carrier_per_tint, b.carrier_per_tint);
  EXPECT_EQ(a.stage, b.stage);
  EXPECT_EQ(a.uncleared, b.uncleared);
  EXPECT_EQ(a.name, b.name);
  EXPECT_EQ(a.piece, b.piece);
}
void expectSame(const NamedGround& a, const NamedGround& b) {
  EXPECT_EQ(a.name, b.name);
  EXPECT_EQ(a.lab, b.lab);
}
void expectSame(const Series& a, const Series& b) {
  EXPECT_EQ(a.carrier_per_tint, b.carrier_per_tint);
  ASSERT_EQ(a.ground.has_value(), b.ground.has_value());
  if (a.ground) expectSame(*a.ground, *b.ground);
  EXPECT_EQ(a.target, b.target);
  EXPECT_EQ(a.sigma, b.sigma);
  ASSERT_EQ(a.panels.size(), b.panels.size());
  for (std::size_t i = 0; i < a.panels.size(); ++i) expectSame(a.panels[i], b.panels[i]);
  EXPECT_EQ(a.limits.max_total_parts, b.limits.max_total_parts);
  EXPECT_EQ(a.limits.coats_low, b.limits.coats_low);
  EXPECT_EQ(a.limits.coats_high, b.limits.coats_high);
  EXPECT_EQ(a.limits.lines_only, b.limits.lines_only);
  EXPECT_EQ(a.limits.even_coats, b.limits.even_coats);
  ASSERT_EQ(a.grounds.size(), b.grounds.size());
  for (std::size_t i = 0; i < a.grounds.size(); ++i) expectSame(a.grounds[i], b.grounds[i]);
  EXPECT_EQ(a.strong_name, b.strong_name);
  EXPECT_EQ(a.weak_name, b.weak_name);
  ASSERT_EQ(a.accepted.has_value(), b.accepted.has_value());
  if (a.accepted) expectSame(*a.accepted, *b.accepted);
}

Series readAgain(const Series& series) {
  auto read = readSeries(seriesText(series));
  if (!read) throw std::runtime_error(sentence(read.error()));
  return std::move(*read);
}

TEST(SeriesText, EveryFieldIsReadBackToTheLastBit) {
  const Series s = everyFieldSet();
  expectSame(readAgain(s), s);
  EXPECT_EQ(seriesText(readAgain(s)), seriesText(s));
}

TEST(SeriesText, EachLimitComesBackAlone) {
  for (int i = 0; i < 5; ++i) {
    Series s;
    s.carrier_per_tint = 5;
    if (i == 0) s.limits.max_total_parts = 3;
    if (i == 1) s.limits.coats_low = 2;
    if (i == 2) s.limits.coats_high = 9;
    if (i == 3) s.limits.lines_only = true;
    if (i == 4) s.limits.even_coats = 0;
    expectSame(readAgain(s), s);
  }
}

TEST(SeriesText, WhatIsAbsentStaysAbsent) {
  Series s;
  s.carrier_per_tint = 5;
  const auto json = nlohmann::json::parse(seriesText(s));
  std::vector<std::string> fields;
  for (const auto& [key, value] : json.items()) fields.push_back(key);
  EXPECT_EQ(fields, (std::vector<std::string>{"carrier_per_tint", "format", "panels", "sigma"}));  // in the order of the letters
  EXPECT_TRUE(json["panels"].is_array());
  expectSame(readAgain(s), s);
  s.ground = NamedGround{{}, {80, 0, 0}};
  s.panels.push_back(everyFieldSet().panels[0]);
  s.accepted = s.panels[0];
  s.accepted->lab = {};  // it is not used
  EXPECT_EQ(nlohmann::json::parse(seriesText(s))["panels"][0].size(), 4u);
  EXPECT_EQ(nlohmann::json::parse(seriesText(s))["accepted"].size(), 3u);
  EXPECT_FALSE(nlohmann::json::parse(seriesText(s))["ground"].contains("name"));
  expectSame(readAgain(s), s);
}

TEST(SeriesText, TheSampleSeriesComesBack) {
  const auto bytes = FileBytes::read(HUEWRIGHT_SOURCE_DIR "/sample-images/teal-series.json", {});
  ASSERT_TRUE(bytes);
  const auto sample = readSeries({reinterpret_cast<const char*>(bytes->bytes().data()), bytes->bytes().size()});
  ASSERT_TRUE(sample);
  expectSame(readAgain(*sample), *sample);
}

TEST(SeriesText, FieldsKeepTheirOrder) {
  const std::string text = seriesText(everyFieldSet());
  std::size_t at = 0;
  for (const char* field : {"\"format\": 1", "\n  \"carrier_per_tint\"", "\n  \"ground\"", "\n  \"target\"", "\n  \"sigma\"", "\n  \"panels\"", "\"strong\"", "\"weak\"", "\"coats\"",
                            "\"lab\"", "\"stage\"", "\"uncleared\"", "\"name\"", "\n  \"limits\"", "\n  \"grounds\"", "\n  \"tints\"", "\n  \"accepted\""}) {
    const std::size_t next = text.find(field, at);
    ASSERT_NE(next, std::string::npos) << field;
    at = next;
  }
  EXPECT_EQ(text.back(), '\n');
}

TEST(SeriesText, BrokenTextGetsASignInItsPlace) {
  Series s = everyFieldSet();
  s.weak_name = "a\xff";
  EXPECT_EQ(readAgain(s).weak_name, "a\xEF\xBF\xBD");
}

}  // namespace
}  // namespace huewright
