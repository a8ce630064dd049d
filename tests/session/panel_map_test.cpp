#include "session/panel_map.hpp"

#include <algorithm>
#include <gtest/gtest.h>

#include "session/sample_jobs.hpp"
#include "temp_dir.hpp"

namespace huewright {
namespace {

double shareOf(const std::vector<MapPart>& parts, MapPart part) {
  return static_cast<double>(std::ranges::count(parts, part)) / static_cast<double>(parts.size());
}

TEST(PanelMap, IsWhatTheWrittenMapShows) {
  const fixtures::TempDir folder;
  for (const JudgeRequest& request : {glareJob(), chartJob()}) {
    const auto written = Session::open(fixtures::kCalib)->map({request, folder.path() / "map.png"});
    ASSERT_TRUE(written) << sentence(written.error());
    const auto map = panelMap(request, written->judge);
    ASSERT_TRUE(map) << sentence(map.error());
    EXPECT_EQ(map->sentences, written->sentences);
    EXPECT_EQ(map->median_de00, written->median_de00);
    EXPECT_NEAR(map->median_de00, written->judge.verdicts[0].de00, 0.8);
  }
}

TEST(PanelMap, LayersAreOfOneSizeAndTheLampIsWhereItIs) {
  const JudgeRequest request = glareJob();
  const JudgeReport report = sampleReport(request);
  const auto map = panelMap(request, report);
  ASSERT_TRUE(map);
  const Quad outline = report.regions.panels[0];
  for (std::size_t i = 0; i < 4; ++i) EXPECT_TRUE(contains(outline, map->quad.corners[i]));
  EXPECT_LE(std::max(map->size.width, map->size.height), 700);
  const auto pixels = static_cast<std::size_t>(map->size.width * map->size.height);
  EXPECT_EQ(map->de00.size(), pixels);
  EXPECT_EQ(map->parts.size(), pixels);
  EXPECT_EQ(map->photo.size(), 3 * pixels);
  EXPECT_GT(map->smoothed, 0);
  // More than a third is glare (sample-images/README.md), and there the photo is brighter than elsewhere.
  EXPECT_GT(shareOf(map->parts, MapPart::Glare), 0.35);
  EXPECT_LT(shareOf(map->parts, MapPart::Glare), 0.85);
  std::array<double, 2> sum{}, count{};
  for (std::size_t i = 0; i < pixels; ++i) {
    const std::size_t glare = map->parts[i] == MapPart::Glare;
    sum[glare] += map->photo[3 * i];
    ++count[glare];
  }
  EXPECT_GT(sum[1] / count[1], sum[0] / count[0] + 10);
}

TEST(PanelMap, StopsWhenToldAndSaysWhenThePhotoIsGone) {
  JudgeRequest request = glareJob();
  const JudgeReport report = sampleReport(request);
  std::stop_source stop;
  stop.request_stop();
  EXPECT_EQ(panelMap(request, report, stop.get_token()).error().code, Code::Stopped);
  request.photo = "no-such.jpg";
  EXPECT_EQ(panelMap(request, report).error().code, Code::FileMissing);
}

TEST(MapPartOfAPixel, WhatIsMaskedComesBeforeWhatIsClipped) {
  EXPECT_EQ(mapPart(Kept::Glare, 7), MapPart::Glare);
  EXPECT_EQ(mapPart(Kept::Shadow, 0), MapPart::Shadow);
  EXPECT_EQ(mapPart(Kept::Yes, 32), MapPart::Clipped);
  EXPECT_EQ(mapPart(Kept::Yes, 0), MapPart::Shown);
  EXPECT_EQ(mapPart(Kept::Outside, 0), MapPart::Shown);
}

}  // namespace
}  // namespace huewright
