#include "session/series_file.hpp"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "session/series_files.hpp"
#include "mix/series.hpp"
#include "support/temp_dir.hpp"

namespace huewright {
namespace {

using series_files::textOf;
using Lab50 = Lab<D50>;

/// One panel of four coats, of a photo of that name.
JudgeReport onePanel(const std::string& photo, const Lab50& lab, const Lab50& card = {45, -30, -12}) {
  JudgeReport r;
  r.photo.path = "in/" + photo;
  r.names = {"panel"};
  r.reading.panels.resize(1);
  r.reading.panels[0].lab = lab;
  r.reading.card.lab = card;
  r.coats = {4.0};
  r.mixes = {Mix{1, 3}};
  r.verdicts.resize(1);
  r.verdicts[0].covariance = 0.01 * Mat3::identity();
  return r;
}

/// Bare ground and two strips.
JudgeReport threeStrips(const std::string& photo, double lightness) {
  JudgeReport r = onePanel(photo, {80, -1, 2});
  r.stepped = true;
  r.names = {"bare ground", "1 coat", "2 coats"};
  r.reading.panels.resize(3);
  r.reading.panels[1].lab = {lightness, -20, -8};
  r.reading.panels[2].lab = {lightness - 10, -25, -10};
  r.coats = {0.0, 1.0, 2.0};
  r.mixes = {{}, Mix{1, 3}, Mix{1, 3}};
  r.verdicts.resize(3, r.verdicts[0]);
  return r;
}

Series seriesAt(const std::filesystem::path& path) {
  auto series = readSeries(textOf(path));
  if (!series) throw std::runtime_error(sentence(series.error()));
  return std::move(*series);
}

TEST(SeriesFile, BeginsAndGrows) {
  const fixtures::TempDir folder;
  const auto path = folder.path() / "s.json";
  auto file = SeriesFile::open(path);
  ASSERT_TRUE(file);
  EXPECT_FALSE(std::filesystem::exists(path));
  ASSERT_TRUE(file->add(threeStrips("steps.jpg", 60), 5));
  ASSERT_TRUE(file->add(onePanel("b.jpg", {50, -28, -10}), 5));
  ASSERT_TRUE(file->add(onePanel("c.jpg", {48, -28, -10}), 6));
  const Series series = seriesAt(path);
  ASSERT_EQ(series.panels.size(), 4U);
  EXPECT_EQ(series.ground->lab, (Lab50{80, -1, 2}));
  EXPECT_EQ(*series.target, (Lab50{45, -30, -12}));
  EXPECT_EQ(series.panels[0].piece, "steps");
  EXPECT_EQ(series.panels[2].name, "b");
  EXPECT_EQ(series.panels[2].piece, "");
  EXPECT_FALSE(series.panels[2].carrier_per_tint);
  EXPECT_EQ(series.panels[3].carrier_per_tint, 6);
}

TEST(SeriesFile, NamesStayUniqueAndNothingIsAddedTwice) {
  const fixtures::TempDir folder;
  const auto path = folder.path() / "s.json";
  for (int run = 0; run < 2; ++run) {  // the second finds all of it there
    auto file = SeriesFile::open(path);
    ASSERT_TRUE(file) << sentence(file.error());
    ASSERT_TRUE(file->add(threeStrips("img.jpg", 60), 5));
    ASSERT_TRUE(file->add(threeStrips("img.jpg", 58), 5));  // another panel in a photo of that name
    ASSERT_TRUE(file->add(onePanel("img.png", {50, -28, -10}), 5));
    ASSERT_TRUE(file->add(onePanel("img.png", {51, -28, -10}), 5));
    ASSERT_TRUE(file->add(onePanel("img.png", {52, -28, -10}), 5));
    const Series series = seriesAt(path);
    ASSERT_EQ(series.panels.size(), 7U) << run;
    EXPECT_EQ(series.panels[1].piece, "img");
    EXPECT_EQ(series.panels[3].piece, "img 2");
    EXPECT_EQ(series.panels[4].name, "img");
    EXPECT_EQ(series.panels[5].name, "img 2");
    EXPECT_EQ(series.panels[6].name, "img 3");
  }
}

TEST(SeriesFile, PhotosOfATaggedPanelAreOnePiece) {
  const fixtures::TempDir folder;
  auto file = SeriesFile::open(folder.path() / "s.json");
  ASSERT_TRUE(file->add(threeStrips("steps.jpg", 60), 5));
  JudgeReport r = onePanel("a.jpg", {50, -28, -10});
  r.panel_tags = {"frame 3"};
  r.carriers = {6.0};
  ASSERT_TRUE(file->add(r, 6));
  r.photo.path = "in/b.jpg";
  r.reading.panels[0].lab = {51, -28, -10};
  ASSERT_TRUE(file->add(r, 6));
  ASSERT_TRUE(file->add(r, 6));  // the same reading once more
  r.mixes = {Mix{1, 4}};  // the tag lies by another panel now
  ASSERT_TRUE(file->add(r, 6));
  const Series series = seriesAt(folder.path() / "s.json");
  ASSERT_EQ(series.panels.size(), 5U);
  const char* const kNames[] = {"frame 3", "frame 3 2", "frame 3 3"};
  const char* const kPieces[] = {"frame 3", "frame 3", "frame 3 2"};
  for (std::size_t i = 0; i < 3; ++i) {
    EXPECT_EQ(series.panels[2 + i].name, kNames[i]);
    EXPECT_EQ(series.panels[2 + i].piece, kPieces[i]);
    EXPECT_EQ(series.panels[2 + i].carrier_per_tint, 6);
  }
  EXPECT_EQ(pieceName(series, 3), "panel \"frame 3\" (1:3)");
}

TEST(SeriesFile, WhatWasFilledInByHandStays) {
  const fixtures::TempDir folder;
  const auto path = folder.path() / "teal.json";
  auto json = nlohmann::ordered_json::parse(textOf(series_files::kTealSeries));
  json["note"] = "for the touring bicycle";
  std::ofstream(path) << json.dump();
  const Series before = seriesAt(path);
  auto file = SeriesFile::open(path);
  ASSERT_TRUE(file);
  ASSERT_TRUE(file->add(onePanel("a.jpg", {50, -28, -10}), before.carrier_per_tint));
  json = nlohmann::ordered_json::parse(textOf(path));
  EXPECT_EQ(json["note"], "for the touring bicycle");
  json["note"] = "and its fork";
  std::ofstream(path) << json.dump();
  ASSERT_TRUE(file->add(onePanel("b.jpg", {51, -28, -10}), before.carrier_per_tint));
  EXPECT_EQ(nlohmann::ordered_json::parse(textOf(path))["note"], "and its fork");
  const Series after = seriesAt(path);
  EXPECT_EQ(after.panels.size(), before.panels.size() + 2);
  EXPECT_EQ(after.ground->lab, before.ground->lab);
  EXPECT_EQ(*after.target, *before.target);
  EXPECT_EQ(after.sigma, before.sigma);
}

TEST(SeriesFile, AnotherCardIsSaid) {
  const fixtures::TempDir folder;
  auto file = SeriesFile::open(folder.path() / "s.json");
  ASSERT_TRUE(file);
  const auto first = file->add(threeStrips("a.jpg", 60), 5), same = file->add(onePanel("b.jpg", {50, -28, -10}, {45.5, -30, -12}), 5),
             other = file->add(onePanel("c.jpg", {50, -28, -10}, {60, -10, 30}), 5);
  ASSERT_TRUE(first && same && other);
  EXPECT_FALSE(*first || *same);
  ASSERT_TRUE(*other);
  EXPECT_EQ((*other)->code, CautionCode::OtherCard);
}

TEST(SeriesFile, WithoutAGroundItGrowsAsLongAsNobodyElseWritesIt) {
  const fixtures::TempDir folder;
  const auto path = folder.path() / "s.json";
  auto file = SeriesFile::open(path);
  ASSERT_TRUE(file->add(onePanel("a.jpg", {50, -28, -10}), 5));
  ASSERT_TRUE(file->add(onePanel("b.jpg", {51, -28, -10}), 5));
  EXPECT_EQ(nlohmann::json::parse(textOf(path))["panels"].size(), 2U);
  EXPECT_EQ(SeriesFile::open(path).error().code, Code::SeriesUnusable);
  ASSERT_TRUE(file->add(threeStrips("c.jpg", 60), 5));  // brings the ground
  EXPECT_EQ(seriesAt(path).panels.size(), 4U);
}

TEST(SeriesFile, AMistakeInItIsNamedAndItStaysAsItIs) {
  const fixtures::TempDir folder;
  const auto path = folder.path() / "s.json";
  auto file = SeriesFile::open(path);
  ASSERT_TRUE(file->add(threeStrips("a.jpg", 60), 5));
  for (const char* text : {"", "{", "{\"panels\": []}"}) {
    std::ofstream(path, std::ios::trunc) << text;
    const auto opened = SeriesFile::open(path);
    ASSERT_FALSE(opened) << text;
    EXPECT_EQ(opened.error().code, Code::SeriesUnusable) << text;
    EXPECT_EQ(file->add(onePanel("b.jpg", {50, -28, -10}), 5).error().code, Code::SeriesUnusable) << text;
    EXPECT_EQ(textOf(path), text);
  }
}

TEST(SeriesFile, WhenItIsFullThatIsSaidAndItStaysAsItIs) {
  for (const bool ground : {true, false}) {
    const fixtures::TempDir folder;
    const auto path = folder.path() / "s.json";
    auto file = SeriesFile::open(path);
    ASSERT_TRUE(file);
    if (ground) {
      ASSERT_TRUE(file->add(threeStrips("steps.jpg", 60), 5));
    }
    for (std::size_t there = ground ? 2 : 0; there < kMostSeriesPanels; ++there) {
      const auto added = file->add(onePanel("p" + std::to_string(there) + ".jpg", {50 + 0.1 * static_cast<double>(there), -28, -10}), 5);
      ASSERT_TRUE(added);
      EXPECT_FALSE(*added) << there;
    }
    const std::string full = textOf(path);
    const auto more = file->add(onePanel("more.jpg", {50, -28, -10}), 5);
    ASSERT_TRUE(more);
    ASSERT_TRUE(*more) << ground;
    EXPECT_EQ((*more)->code, CautionCode::SeriesFull);
    EXPECT_EQ(textOf(path), full);
    EXPECT_FALSE(*file->add(onePanel("p9.jpg", {50.9, -28, -10}), 5));  // it is there already
  }
}

TEST(SeriesFile, ARequestMustTellHowThePanelWasSprayed) {
  JudgeRequest request;
  EXPECT_TRUE(fitForSeries(request));  // on the mat a tag may tell it
  request.regions.panels.resize(1);
  EXPECT_TRUE(fitForSeries(request));  // tags are looked for where a chart is
  request.chart_use = ChartUse::None;
  EXPECT_FALSE(fitForSeries(request));
  request.mixes = {Mix{1, 3}};
  request.carrier = 5;
  EXPECT_FALSE(fitForSeries(request));
  request.coats = 4;
  EXPECT_TRUE(fitForSeries(request));
  request.coats.reset();
  request.steps = {0, 1};
  EXPECT_TRUE(fitForSeries(request));
  request.carrier.reset();
  EXPECT_FALSE(fitForSeries(request));
}

}  // namespace
}  // namespace huewright
