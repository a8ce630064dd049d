#include "session/advise.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>
#include <sstream>

#include "colour/delta_e.hpp"
#include "render/paint.hpp"
#include "session/series_files.hpp"
#include "support/temp_dir.hpp"

namespace huewright {
namespace {

namespace fs = std::filesystem;

using namespace series_files;

fs::path written(const fixtures::TempDir& folder, const std::string& name, const std::string& text) {
  std::ofstream(folder.path() / name, std::ios::binary) << text;
  return folder.path() / name;
}

// The sample says of itself that its card is 2:3 at 4 coats; the renderer painted it.
TEST(AdviseSession, TheSampleSeriesGivesItsCardsMix) {
  AdviseRequest request;
  request.series = kTealSeries;
  const auto report = adviseOn(request);
  ASSERT_TRUE(report) << sentence(report.error());
  ASSERT_TRUE(report->advice.next);
  EXPECT_EQ(report->advice.next->choice.parts, (std::vector{2, 3}));
  EXPECT_EQ(report->advice.next->choice.coats, 4);
}

TEST(AdviseSession, ASeriesInMemoryMayStillLackItsGround) {
  AdviseRequest request;
  request.series = kTealSeries;
  auto report = adviseOn(request);
  ASSERT_TRUE(report) << sentence(report.error());
  Series series = report->series;
  const Lab<D50> ground = series.ground->lab;
  series.ground.reset();
  const auto none = adviseOn(series, {}, {});
  ASSERT_FALSE(none);
  EXPECT_EQ(none.error().code, Code::SeriesUnusable);
  EXPECT_NE(sentence(none.error()).find("panel 1"), std::string::npos) << sentence(none.error());
  EXPECT_FALSE(groundsOf(series, {}));
  series.panels.back().ground = ground;  // one of them is not enough
  EXPECT_FALSE(adviseOn(series, {}, {}));
  for (SeriesPanel& panel : series.panels) panel.ground = ground;
  EXPECT_TRUE(adviseOn(series, {}, {}));
}

TEST(AdviseSession, KeptTintsGiveAFirstMixInAnotherSeries) {
  const fixtures::TempDir folder;
  AdviseRequest request;
  request.series = kTealSeries;
  request.save_tints = folder.path() / "tints.json";
  ASSERT_TRUE(adviseOn(request));
  EXPECT_EQ(adviseOn(request).error().code, Code::FileThere);
  const auto file = readTintFile(textOf(*request.save_tints));
  ASSERT_TRUE(file);
  EXPECT_EQ(file->tints[0].name, "teal, strong");

  render::Paint card;
  card.share = 0.35;
  card.coats = 4;
  const Lab<D50> lab = render::labOf(card);
  std::ostringstream text;
  text << R"({"carrier_per_tint": 5, "ground": {"lab": [78.9, 0.1, 1.9]}, "panels": [], "tints": {"strong": "teal, strong", "weak": "aqua, weak"}, "target": {"lab": [)" << lab.L << "," << lab.a
       << "," << lab.b << "]}}";
  AdviseRequest next;
  next.series = written(folder, "new.json", text.str());
  const auto unknown = adviseOn(next);
  ASSERT_TRUE(unknown);
  EXPECT_FALSE(unknown->advice.next);
  next.tints = request.save_tints;
  const auto known = adviseOn(next);
  ASSERT_TRUE(known) << sentence(known.error());
  ASSERT_TRUE(known->advice.next);
  render::Paint first = card;
  first.share = known->advice.next->choice.share();
  first.coats = known->advice.next->choice.coats;
  EXPECT_LT(deltaE2000(render::labOf(first), lab), 2.5);

  next.save_tints = folder.path() / "nothing.json";
  EXPECT_EQ(adviseOn(next).error().code, Code::BadChoice);
  EXPECT_FALSE(fs::exists(*next.save_tints));
}

TEST(AdviseSession, AShelfIsSearched) {
  const fixtures::TempDir folder;
  AdviseRequest request;
  request.series = kTealSeries;
  request.save_tints = folder.path() / "tints.json";
  ASSERT_TRUE(adviseOn(request));
  AdviseRequest shelf;
  shelf.series = kTealSeries;
  shelf.shelf = request.save_tints;
  const auto report = adviseOn(shelf);
  ASSERT_TRUE(report);
  ASSERT_FALSE(report->shelf_mixes.empty());
  EXPECT_EQ(report->shelf_names.size(), 2U);
  EXPECT_EQ(report->shelf_mixes[0].choice.parts, (std::vector{2, 3}));
  EXPECT_NE(report->advice.sentence.find("2 parts of \"teal, strong\" and 3 parts of \"aqua, weak\", 4 coats"), std::string::npos) << report->advice.sentence;
}

TEST(AdviseSession, BadFilesAreNamedAndNothingIsWritten) {
  const fixtures::TempDir folder;
  AdviseRequest request;
  request.series = folder.path() / "none.json";
  request.save_tints = folder.path() / "tints.json";
  EXPECT_EQ(adviseOn(request).error().code, Code::SeriesUnusable);
  request.series = kTealSeries;
  request.tints = written(folder, "broken.json", "{");
  EXPECT_EQ(adviseOn(request).error().code, Code::TintFileUnusable);
  EXPECT_FALSE(fs::exists(*request.save_tints));
}

TEST(GroundsSession, TheMixOverEachGround) {
  GroundsRequest request;
  request.series = kTealSeries;
  const auto report = groundsOf(request);
  ASSERT_TRUE(report);
  EXPECT_EQ(report->next_parts, (std::vector{2, 3}));
  ASSERT_EQ(report->looks.size(), 4U);
  EXPECT_EQ(report->looks[0].name, "bright silver");
  // The renderer's own colours over those grounds: a fit over silver alone cannot know how often light crosses the film over another, and says so.
  render::Paint paint;
  paint.share = 0.4;
  paint.coats = 4;
  const render::Ground grounds[] = {render::Ground::BrightSilver, render::Ground::PearlWhite, render::Ground::PaleGold, render::Ground::Graphite};
  for (std::size_t i = 0; i < 4; ++i) {
    paint.ground = grounds[i];
    const double off = deltaE2000(report->looks[i].lab, render::labOf(paint));
    EXPECT_LT(off, 2.5 * report->looks[i].sd) << report->looks[i].name;
    EXPECT_LT(off, 7) << report->looks[i].name;
  }
  EXPECT_LT(report->looks[0].sd, 2);
  EXPECT_GT(report->looks[1].sd, 2);
}

TEST(GroundsSession, TheAcceptedMixComesFirst) {
  const fixtures::TempDir folder;
  std::string text = textOf(kTealSeries);
  text.insert(text.find("\"limits\""), R"("accepted": {"strong": 1, "weak": 3, "coats": 5}, )");
  GroundsRequest request;
  request.series = written(folder, "accepted.json", text);
  const auto report = groundsOf(request);
  ASSERT_TRUE(report) << sentence(report.error());
  EXPECT_TRUE(report->next_parts.empty());
  EXPECT_EQ(report->coats, 5);
}

TEST(GroundsSession, WithoutOtherGroundsIsRefused) {
  const fixtures::TempDir folder;
  GroundsRequest request;
  request.series = written(folder, "s.json", R"({"carrier_per_tint": 5, "ground": {"lab": [79, 0, 2]}, "target": {"lab": [50, -20, -5]}, "panels": []})");
  EXPECT_EQ(groundsOf(request).error().code, Code::SeriesUnusable);
  request.series = written(folder, "t.json", R"({"carrier_per_tint": 5, "ground": {"lab": [79, 0, 2]}, "target": {"lab": [50, -20, -5]}, "panels": [],
    "grounds": [{"name": "graphite", "lab": [38, 0, 0]}], "accepted": {"strong": 1, "weak": 1, "coats": 3}})");
  EXPECT_EQ(groundsOf(request).error().code, Code::SeriesUnusable);
}

}  // namespace
}  // namespace huewright
