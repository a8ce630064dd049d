#include "session/watched_photo.hpp"

#include <gtest/gtest.h>

#include "session/report_text.hpp"

namespace huewright {
namespace {

TEST(WatchedPhoto, IsJudgedAsAnyPhotoAndTellsTheSame) {
  const Session session = Session::open(HUEWRIGHT_SOURCE_DIR "/calib").value();
  JudgeRequest all;
  all.photo = "a folder";
  all.grey_y = 0.19;
  const std::filesystem::path photo = HUEWRIGHT_SOURCE_DIR "/sample-images/on-the-mat.jpg";
  const auto watched = judgeWatched(session, all, photo, false, nullptr, {});
  ASSERT_TRUE(watched) << sentence(watched.error());
  JudgeRequest one = all;
  one.photo = photo;
  const auto judged = session.judge(one);
  ASSERT_TRUE(judged);
  EXPECT_EQ(watched->beside, reportText(*judged, false));
  EXPECT_EQ(watched->there, judged->verdicts[judged->main].band == Band::There);
  EXPECT_EQ(watched->report->verdicts.front().de00, judged->verdicts.front().de00);
  EXPECT_FALSE(watched->keep);
  EXPECT_FALSE(judgeWatched(session, all, HUEWRIGHT_SOURCE_DIR "/README.md", false, nullptr, {}));
}

}  // namespace
}  // namespace huewright
