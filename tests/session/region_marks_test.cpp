#include "session/region_marks.hpp"

#include <algorithm>
#include <gtest/gtest.h>

#include "camera/patch.hpp"
#include "session/sample_jobs.hpp"

namespace huewright {
namespace {

double markedShare(const RegionMarks& marks, MapPart part) {
  return static_cast<double>(std::ranges::count(marks.parts, part)) / static_cast<double>(marks.parts.size());
}

TEST(RegionMarks, AreWhatTheReadingLeftOut) {
  for (const JudgeRequest& request : {glareJob(), clippedJob(), chartJob()}) {
    const JudgeReport report = sampleReport(request);
    const auto marks = regionMarks(request, report);
    ASSERT_TRUE(marks) << sentence(marks.error());
    ASSERT_EQ(marks->size(), 3u);
    const RegionMarks &panel = marks->at(0), &card = marks->at(1);
    EXPECT_EQ(panel.glare + panel.shadow, report.reading.panels[0].masked) << request.photo;
    EXPECT_EQ(panel.clipped, report.reading.panels[0].clipped) << request.photo;
    EXPECT_EQ(card.glare + card.shadow, report.reading.card.masked) << request.photo;
    EXPECT_EQ(card.clipped, report.reading.card.clipped) << request.photo;
    for (const RegionMarks& m : *marks) {
      EXPECT_LE(std::max(m.size.width, m.size.height), 300) << m.name;
      ASSERT_EQ(m.parts.size(), static_cast<std::size_t>(m.size.width * m.size.height)) << m.name;
      EXPECT_NEAR(markedShare(m, MapPart::Glare), m.glare, 0.03) << m.name;
      EXPECT_NEAR(markedShare(m, MapPart::Shadow), m.shadow, 0.03) << m.name;
      EXPECT_NEAR(markedShare(m, MapPart::Clipped), m.clipped * (1 - m.glare - m.shadow), 0.1) << m.name;
    }
  }
}

TEST(RegionMarks, TheSamplesShowWhatTheyAreFor) {
  const JudgeRequest glare = glareJob(), clipped = clippedJob();
  EXPECT_GT(regionMarks(glare, sampleReport(glare))->at(0).glare, 0.35);
  const auto marks = regionMarks(clipped, sampleReport(clipped)).value();
  EXPECT_GT(marks[0].clipped, 0.5);
  EXPECT_GT(markedShare(marks[0], MapPart::Clipped), 0.5);
  EXPECT_GT(marks[1].clipped, 0.5);
}

TEST(RegionMarks, EveryRegionIsNamedAndLiesInItsOutline) {
  const JudgeRequest request = matJob();
  const JudgeReport report = sampleReport(request);
  const auto marks = regionMarks(request, report);
  ASSERT_TRUE(marks) << sentence(marks.error());
  std::vector<std::string> names;
  for (const RegionMarks& m : *marks) names.push_back(m.name);
  EXPECT_EQ(names, (std::vector<std::string>{"panel A", "panel B", "panel C", "card", "grey patch 1", "grey patch 2", "black chip"}));
  EXPECT_EQ(marks->at(1).quad, inset(report.regions.panels[1], kInset));
  EXPECT_EQ(marks->at(6).quad, inset(*report.regions.black, kInset));
  for (std::size_t i = 0; i < 3; ++i) EXPECT_EQ(marks->at(i).glare + marks->at(i).shadow, report.reading.panels[i].masked);
}

TEST(RegionMarks, StopWhenTold) {
  const JudgeRequest request = glareJob();
  std::stop_source stop;
  stop.request_stop();
  EXPECT_EQ(regionMarks(request, sampleReport(request), stop.get_token()).error().code, Code::Stopped);
}

}  // namespace
}  // namespace huewright
