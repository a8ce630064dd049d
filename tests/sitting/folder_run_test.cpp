#include "sitting/folder_run.hpp"

#include <fstream>
#include <gtest/gtest.h>
#include <sstream>

#include "live_case.hpp"
#include "session/report_text.hpp"
#include "temp_dir.hpp"

namespace huewright {
namespace {

namespace fs = std::filesystem;
using fixtures::comes;
using std::chrono::milliseconds;

const fs::path kComing = HUEWRIGHT_SOURCE_DIR "/sample-images";
constexpr WatchTimes kQuickTimes{milliseconds(20), milliseconds(40), milliseconds(50)};

class FollowedRun : public testing::Test {
 protected:
  void SetUp() override { fs::create_directory(photos); }
  std::string textIn(const std::string& name) const {
    std::ostringstream text;
    text << std::ifstream(photos / name, std::ios::binary).rdbuf();
    return text.str();
  }
  static JudgeRequest onTheMat() {
    JudgeRequest request;
    request.grey_y = 0.19;
    return request;
  }

  const Session session = Session::open(HUEWRIGHT_SOURCE_DIR "/calib").value();
  const fixtures::TempDir dir;
  const fs::path photos = dir.path() / "photos";
};

TEST_F(FollowedRun, EachPhotoIsToldOnceWithTheFilesOfTheCommand) {
  fs::copy_file(kComing / "on-the-mat.jpg", photos / "a.jpg");
  std::vector<Arrival> came;
  {
    FolderRun run(session, photos, onTheMat(), kQuickTimes, {});
    const auto has = [&](std::size_t count) {
      return comes([&] {
        if (auto said = run.take()) came.insert(came.end(), said->arrivals.begin(), said->arrivals.end());
        return came.size() >= count;
      });
    };
    ASSERT_TRUE(has(1));
    fs::copy_file(kComing / "on-the-mat.jpg", photos / "same.jpg");
    std::ofstream(photos / "broken.jpg") << "no picture";
    ASSERT_TRUE(has(2));
  }
  ASSERT_EQ(came.size(), 2u);
  EXPECT_EQ(came[0].name, "a.jpg");
  EXPECT_EQ(came[0].file, photos / "a.jpg");
  EXPECT_FALSE(came[0].problem);
  ASSERT_TRUE(came[0].band);
  EXPECT_EQ(came[1].name, "broken.jpg");
  EXPECT_TRUE(came[1].problem);
  EXPECT_FALSE(came[1].band);
  EXPECT_NE(came[1].sentence, "");

  JudgeRequest one = onTheMat();
  one.photo = photos / "a.jpg";
  const auto judged = session.judge(one);
  ASSERT_TRUE(judged);
  EXPECT_EQ(came[0].sentence, verdictSentences(*judged));
  EXPECT_TRUE(textIn("a.jpg.huewright.txt").starts_with(reportText(*judged, false) + "\nSHA-256 of the photo: "));
  EXPECT_TRUE(fs::exists(photos / JudgedList::kFileName));
}

TEST_F(FollowedRun, OtherChoicesHoldForWhatComesThen) {
  FolderRun run(session, photos, onTheMat(), kQuickTimes, {});
  JudgeRequest other = onTheMat();
  other.tolerance = 50;
  run.judgeBy(other);
  fs::copy_file(kComing / "on-the-mat.jpg", photos / "a.jpg");
  std::optional<Band> band;
  ASSERT_TRUE(comes([&] {
    if (const auto said = run.take(); said && !said->arrivals.empty()) band = said->arrivals[0].band;
    return band.has_value();
  }));
  EXPECT_EQ(*band, Band::There);
}

TEST_F(FollowedRun, AFolderThatIsNotThereIsSaidAndOneThatGoesIsWaitedFor) {
  FolderRun none(session, dir.path() / "none", onTheMat(), kQuickTimes, {});
  std::string trouble;
  ASSERT_TRUE(comes([&] {
    const auto said = none.take();
    if (said) trouble = said->trouble;
    return said && said->over;
  }));
  EXPECT_NE(trouble.find("cannot be watched"), std::string::npos) << trouble;

  FolderRun run(session, photos, onTheMat(), kQuickTimes, {});
  std::string now;
  const auto until = [&](bool away) {
    return comes([&] {
      if (const auto said = run.take()) now = said->trouble;
      return (now.find("is away") != std::string::npos) == away;
    });
  };
  std::this_thread::sleep_for(milliseconds(60));
  fs::remove_all(photos);
  EXPECT_TRUE(until(true)) << now;
  fs::create_directory(photos);
  EXPECT_TRUE(until(false)) << now;
}

}  // namespace
}  // namespace huewright
