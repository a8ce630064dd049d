#include "session/pour.hpp"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <gtest/gtest.h>
#include <iterator>
#include <limits>
#include <numeric>

#include "session/pour_support.hpp"
#include "temp_dir.hpp"

namespace huewright {
namespace {

using namespace pour_test;

std::string wholeFile(const std::filesystem::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

bool warned(const PourReport& report, CautionCode code) {
  return std::ranges::any_of(report.cautions, [&](const Caution& caution) { return caution.code == code; });
}

// Worked by hand: 105 mL are 4.375, 13.125 and 87.5 mL; 4.594, 13.256 and 77 g; 94.85 g in all.
TEST(Pour, WorkedExampleByWeight) {
  const auto report = pour(bicyclePour());
  ASSERT_TRUE(report);
  EXPECT_NEAR(report->total_ml, 105, 1e-9);
  EXPECT_NEAR(*report->total_g, 94.85, 1e-9);
  ASSERT_EQ(report->order.size(), 3U);
  EXPECT_EQ(report->gauge.by, PourBy::Scale);
  EXPECT_EQ(report->gauge.step, 0.1);
  EXPECT_NEAR(*report->order[0].g, 4.375 * 1.05, 1e-9);
  EXPECT_NEAR(*report->order[1].to_g, 4.375 * 1.05 + 13.125 * 1.01, 1e-9);
  EXPECT_NEAR(*report->order[2].to_g, *report->total_g, 1e-9);
  EXPECT_NEAR(report->order[2].to_ml, report->total_ml, 1e-9);
  // 0.1 g are 2.177 % of 4.594 g, twice that of 13.256 g 1.509 %.
  EXPECT_NEAR(report->errors.ratio, 0.1 / 4.59375 + 0.2 / 13.25625, 1e-9);
  EXPECT_NEAR(report->smallest_ml, 105 * report->errors.ratio / 0.01, 1e-6);
  ASSERT_TRUE(report->lines);
  EXPECT_EQ(report->lines->each, (std::vector<int>{1, 3, 20}));
  EXPECT_TRUE(warned(*report, CautionCode::PourAssumed));
  EXPECT_TRUE(warned(*report, CautionCode::PourTooSmall));
}

TEST(Pour, WithoutDensitiesGoesByTheCup) {
  const auto report = pour(bicyclePour(false));
  ASSERT_TRUE(report);
  EXPECT_EQ(report->gauge.by, PourBy::Cup);
  EXPECT_EQ(report->gauge.step, 1);
  EXPECT_FALSE(report->total_g);
  EXPECT_FALSE(report->order[0].g);
}

TEST(Pour, WarnsOnlyWhereItMust) {
  PourRequest request = bicyclePour();
  request.need.film_um = 30;
  request.need.loss = 0.4;
  request.need.rest_ml = 10;
  request.gauge = PourGauge{PourBy::Scale, 0.01};
  const auto report = pour(request);
  ASSERT_TRUE(report);
  EXPECT_TRUE(report->cautions.empty());
  request.need.rest_ml.reset();
  EXPECT_EQ(pour(request)->cautions.size(), 1U);
}

TEST(Pour, EqualFillsAreTheWholeTogether) {
  PourRequest request = plainPour(800);
  request.cup_ml = 300;
  const auto report = pour(request);
  ASSERT_TRUE(report);
  EXPECT_EQ(report->fills, 3);
  EXPECT_NEAR(3 * report->order.back().to_ml, 800, 1e-9);
  const auto one = pour(plainPour(800));
  EXPECT_NEAR(report->errors.ratio, 3 * one->errors.ratio, 1e-12);  // a third of the amounts, the same readings
  EXPECT_EQ(one->fills, 1);
}

TEST(Pour, AddsToWhatIsInTheCup) {
  PourRequest request = plainPour(240);
  request.held = PourHeld{120, false, {1, 2}, 5};
  const auto report = pour(request);
  ASSERT_TRUE(report && report->top_up);
  EXPECT_NEAR(report->total_ml, 240, 1e-9);
  EXPECT_NEAR(report->top_up->added_ml, 120, 1e-9);
  EXPECT_NEAR(report->order.front().to_ml, 120 + report->order.front().ml, 1e-9);
  EXPECT_FALSE(report->lines);
  EXPECT_FALSE(warned(*report, CautionCode::CupGrows));
  request.volume_ml = 60;
  EXPECT_TRUE(warned(*pour(request), CautionCode::CupGrows));
  EXPECT_FALSE(warned(*pour(request), CautionCode::FreshIsLess));
  request.volume_ml = 30;
  EXPECT_TRUE(warned(*pour(request), CautionCode::FreshIsLess));
  request.cup_ml = 150;  // the mix grows to 160
  EXPECT_EQ(pour(request).error().code, Code::CupUnusable);
}

// 120 mL of 1 : 2 and five carrier weigh (1.05 + 2 · 1.01 + 15 · 0.88) ÷ 18 · 120 = 108.467 g. Worked by hand.
TEST(Pour, TakesWhatIsInTheCupInGramsToo) {
  PourRequest request = bicyclePour();
  request.held = PourHeld{(1.05 + 2 * 1.01 + 15 * 0.88) / 18 * 120, true, {1, 2}, 5};
  const auto report = pour(request);
  ASSERT_TRUE(report);
  EXPECT_NEAR(std::accumulate(report->in_cup_ml.begin(), report->in_cup_ml.end(), 0.0), 120, 1e-9);
  EXPECT_NEAR(*report->order.front().to_g, *report->order.front().g, 1e-12);  // the scale is set to zero with the cup on it
  request.recipe.carrier_density.reset();
  EXPECT_EQ(pour(request).error().code, Code::BadChoice);
}

TEST(Pour, WritesSheetsWholeAndReplacesThem) {
  const fixtures::TempDir folder;
  PourRequest request = bicyclePour();
  request.out = {folder.path() / "a.PDF", folder.path() / "b.html", folder.path() / "c.HTM"};
  for (int twice = 0; twice < 2; ++twice) ASSERT_TRUE(pour(request));
  EXPECT_TRUE(wholeFile(request.out[0]).starts_with("%PDF-"));
  EXPECT_TRUE(wholeFile(request.out[1]).starts_with("<!DOCTYPE html>"));
  EXPECT_EQ(wholeFile(request.out[1]), wholeFile(request.out[2]));
  EXPECT_EQ(std::distance(std::filesystem::directory_iterator(folder.path()), {}), 3);
  request.out = {folder.path() / "missing" / "a.pdf"};
  EXPECT_EQ(pour(request).error().code, Code::WriteFailed);
}

TEST(Pour, RefusesWrongRequestsBeforeAFileIsWritten) {
  const fixtures::TempDir folder;
  const auto sheet = folder.path() / "a.pdf";
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const auto changed = [&](auto&& change) {
    PourRequest request = bicyclePour();
    request.out = {sheet};
    change(request);
    return request;
  };
  struct Row {
    PourRequest request;
    const char* says;
    int exit;
  };
  for (const Row& row :
       {Row{changed([](PourRequest& r) { r.recipe.tints.clear(); }), "No mix", 2}, Row{changed([](PourRequest& r) { r.recipe.tints[0].parts = -1; }), "-1", 2},
        Row{changed([](PourRequest& r) { r.recipe.tints[0].parts = r.recipe.tints[1].parts = 0; }), "are 0", 2}, Row{changed([&](PourRequest& r) { r.recipe.carrier = nan; }), "carrier", 2},
        Row{changed([](PourRequest& r) { r.recipe.carrier = -1; }), "carrier is -1", 2}, Row{changed([](PourRequest& r) { r.need.areas.clear(); }), "No area", 2},
        Row{changed([](PourRequest& r) { r.volume_ml = 100; }), "--volume and --area", 2}, Row{changed([](PourRequest& r) { r.need.areas.clear(), r.volume_ml = 0; }), "volume is 0", 2},
        Row{changed([&](PourRequest& r) { r.need.areas.clear(), r.volume_ml = nan; }), "volume", 2}, Row{changed([](PourRequest& r) { r.cup_ml = 0; }), "cup takes 0", 2},
        Row{changed([](PourRequest& r) { r.paper = "a3"; }), "a3", 2}, Row{changed([&](PourRequest& r) { r.out.push_back("photo.jpg"); }), "photo.jpg", 2},
        Row{changed([](PourRequest& r) { r.gauge = PourGauge{PourBy::Scale, 0}; }), "step of the scale is 0", 2}, Row{changed([&](PourRequest& r) { r.gauge = PourGauge{PourBy::Cup, nan}; }), "reading error", 2},
        Row{changed([](PourRequest& r) { r.recipe.tints[1].density.reset(), r.gauge = PourGauge{PourBy::Scale, 0.1}; }), "aqua, weak", 2},
        Row{changed([](PourRequest& r) { r.title = std::string(61, 'x'); }), "too long", 2}, Row{changed([](PourRequest& r) { r.title = "a\xFF"; }), "plain letters", 2},
        Row{changed([](PourRequest& r) { r.need.areas[0].name = "a\tb"; }), "plain letters", 2}, Row{changed([](PourRequest& r) { r.held = PourHeld{0, false, {1, 2}, 5}; }), "holds 0", 2},
        Row{changed([](PourRequest& r) { r.held = PourHeld{50, true, {1}, 5}; }), "--have names parts of 1", 2}, Row{changed([](PourRequest& r) { r.held = PourHeld{50, true, {-1, 2}, 5}; }), "in the cup", 2},
        Row{changed([](PourRequest& r) { r.recipe.tints[1].parts = 0, r.held = PourHeld{50, false, {1, 2}, 5}; }), "nothing can be taken out", 3}}) {
    const auto report = pour(row.request);
    ASSERT_FALSE(report) << row.says;
    EXPECT_EQ(exitCode(report.error().code), row.exit) << row.says;
    const std::string words = sentence(report.error());
    EXPECT_NE(words.find(row.says), std::string::npos) << words;
    EXPECT_TRUE(words.ends_with(".")) << words;
    EXPECT_FALSE(std::filesystem::exists(sheet)) << row.says;
  }
}

}  // namespace
}  // namespace huewright
