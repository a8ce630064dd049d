#include "cli/watch_command.hpp"

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <gtest/gtest.h>
#include <sstream>

#include "cli/holds.hpp"
#include "session/report_json.hpp"
#include "session/tagged_photo.hpp"
#include "support/temp_dir.hpp"

namespace huewright {
namespace {

namespace fs = std::filesystem;
using std::chrono::milliseconds;

const fs::path kSamplePhotos = HUEWRIGHT_SOURCE_DIR "/sample-images";

/// As sample-images/README.md tells of there.jpg.
const std::vector<std::string> kPlaces{"--panel", "149,110,316,400", "--card", "579,126,228,229", "--grey", "614,453,156,89", "--grey-y", "0.19", "--card-kind", "same"};

class Watch : public testing::Test {
 protected:
  void SetUp() override {
    ::setenv("HUEWRIGHT_DATA", HUEWRIGHT_SOURCE_DIR "/calib", 1);
    ::setenv("XDG_DATA_HOME", HUEWRIGHT_BINARY_DIR "/nobody", 1);
    fs::create_directory(photos());
  }
  void TearDown() override { ::unsetenv("HUEWRIGHT_DATA"); }

  fs::path photos() const { return folder_.path() / "photos"; }
  void drop(const char* photo) const { fs::copy_file(kSamplePhotos / photo, photos() / photo); }

  std::vector<std::string> words(const std::vector<std::string>& more, bool places = true) const {
    std::vector<std::string> all{"watch", "--folder", photos().string()};
    if (places) all.insert(all.end(), kPlaces.begin(), kPlaces.end());
    all.insert(all.end(), more.begin(), more.end());
    return all;
  }
  Result<WatchRequest> request(const std::vector<std::string>& more, bool places = true) const { return watchRequest(parseArguments(words(more, places)).value(), session_.standards()); }

  /// With short times; a stop that nobody asks for.
  Outcome watched(const std::vector<std::string>& more, bool places = true) const {
    const auto asked = request(more, places);
    if (!asked) throw std::runtime_error(sentence(asked.error()));
    return watch(*asked, session_, {}, {}, {milliseconds(20), milliseconds(40), milliseconds(50)});
  }

  std::string textIn(const std::string& name) const {
    std::ifstream file(photos() / name, std::ios::binary);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
  }

  fixtures::TempDir folder_;
  Session session_ = Session::open(HUEWRIGHT_SOURCE_DIR "/calib").value();
};

TEST_F(Watch, ReadsEveryValue) {
  const auto r = request({"--count", "3", "--json", "--explain", "--gate", "--mix", "1:2", "--coats", "4", "--carrier", "5", "--series", "s.json", "--tolerance", "0.5"});
  ASSERT_TRUE(r) << sentence(r.error());
  EXPECT_EQ(r->folder, photos());
  EXPECT_EQ(r->count, 3U);
  EXPECT_TRUE(r->json && r->explain && r->gate);
  EXPECT_EQ(r->series, "s.json");
  EXPECT_FALSE(r->judge.series);
  EXPECT_EQ(r->judge.regions.panels.size(), 1U);
  EXPECT_EQ(r->judge.grey_y, 0.19);
  EXPECT_EQ(r->judge.tolerance, 0.5);
  EXPECT_FALSE(request({})->count || request({})->gate);
}

TEST_F(Watch, WrongUseIsSeenBeforeAnyPhoto) {
  using MoreWords = std::vector<std::string>;
  for (const MoreWords& more : {MoreWords{"--count", "0"}, MoreWords{"--count", "-1"}, MoreWords{"--count", "2.5"}, MoreWords{"--count", "all"}, MoreWords{"photo.jpg"}, MoreWords{"--series", "s.json", "--chart", "none"}, MoreWords{"--mix", "0:0"},
                            MoreWords{"--grey-y", "7"}, MoreWords{"--card-lab", "1,2,3"}, MoreWords{"--swapped", "b.jpg"}, MoreWords{"--camera", "0"}}) {
    const Outcome outcome = run(words(more), false);
    EXPECT_EQ(outcome.exit, 2) << more[0] << "\n" << outcome.err;
    EXPECT_EQ(outcome.out, "") << more[0];
    EXPECT_EQ(std::ranges::count(outcome.err, '\n'), 1) << outcome.err;
  }
  const Outcome none = run({"watch", "--count", "1"}, false);
  EXPECT_EQ(none.exit, 2);
  EXPECT_TRUE(holds(none.err, "--folder DIR")) << none.err;
}

TEST_F(Watch, AMissingFolderIsSaid) {
  const Outcome outcome = run({"watch", "--folder", (folder_.path() / "none").string()}, false);
  EXPECT_EQ(outcome.exit, 3);
  EXPECT_TRUE(holds(outcome.err, "cannot be watched")) << outcome.err;
  EXPECT_EQ(std::ranges::count(outcome.err, '\n'), 1) << outcome.err;
  EXPECT_FALSE(fs::exists(folder_.path() / "none"));
}

TEST_F(Watch, APhotoIsJudgedAsJudgeDoes) {
  drop("there.jpg");
  std::vector<std::string> judge{"judge", (photos() / "there.jpg").string()};
  judge.insert(judge.end(), kPlaces.begin(), kPlaces.end());
  const std::string told = run(judge, false).out;
  const Outcome outcome = watched({"--count", "1", "--gate"});
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_TRUE(outcome.out.starts_with("there.jpg: ")) << outcome.out;
  EXPECT_EQ(std::ranges::count(outcome.out, '\n'), 1) << outcome.out;
  EXPECT_TRUE(textIn("there.jpg.huewright.txt").starts_with(told + "\nSHA-256 of the photo: ")) << textIn("there.jpg.huewright.txt");
}

TEST_F(Watch, AsJsonEachPhotoIsALineWithWhatJudgeTells) {
  drop("there.jpg");
  const auto asked = request({"--count", "1", "--json"});
  JudgeRequest one = asked->judge;
  one.photo = photos() / "there.jpg";
  const Outcome outcome = watched({"--count", "1", "--json"});
  EXPECT_EQ(outcome.out, toJsonLine(*session_.judge(one), false));
  EXPECT_EQ(std::ranges::count(outcome.out, '\n'), 1);
}

TEST_F(Watch, AnUnusablePhotoIsToldAndDoesNotCount) {
  std::ofstream(photos() / "a.jpg") << "no picture";
  std::string out;
  const Outlet outlet{[&](std::string_view text) {
    out += text;
    if (std::ranges::count(out, '\n') == 1) drop("there.jpg");
    return true;
  }, {}};
  const Outcome outcome = watch(*request({"--count", "1"}), session_, outlet, {}, {milliseconds(20), milliseconds(40), milliseconds(50)});
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  const std::string said = sentence({Code::FormatUnknown, (photos() / "a.jpg").string()}) + "\n";
  EXPECT_TRUE(out.starts_with("a.jpg: " + said + "there.jpg: ")) << out;
  EXPECT_EQ(textIn("a.jpg.huewright.txt"), said);
}

TEST_F(Watch, TheGateIsForAllPhotos) {
  drop("there.jpg");
  drop("too-strong.jpg");
  EXPECT_EQ(watched({"--count", "2", "--gate"}).exit, 1);
}

TEST_F(Watch, ReadingsGoIntoASeries) {
  drop("there.jpg");
  drop("too-strong.jpg");
  const fs::path series = folder_.path() / "s.json";
  const Outcome outcome = watched({"--count", "2", "--series", series.string(), "--mix", "1:2", "--carrier", "5", "--coats", "4"});
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  std::ostringstream text;
  text << std::ifstream(series).rdbuf();
  EXPECT_TRUE(holds(text.str(), "\"name\": \"there\"")) << text.str();
  EXPECT_TRUE(holds(text.str(), "\"name\": \"too-strong\"")) << text.str();
}

TEST_F(Watch, TagsTellWhatASeriesNeedsAndWhatNobodyTellsIsSaid) {
  fixtures::shootTagged(photos() / "a.png", {{"frame 1", TagParts{1, 4}, 3, 5}, {"frame 2", TagParts{1, 3}, 4, 6}});
  drop("on-the-mat.jpg");
  const fs::path series = folder_.path() / "s.json";
  const Outcome outcome = watched({"--grey-y", "0.19", "--card-kind", "same", "--count", "2", "--series", series.string()}, false);
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  std::ostringstream text;
  text << std::ifstream(series).rdbuf();
  EXPECT_TRUE(holds(text.str(), "\"name\": \"frame 1\"")) << text.str();
  EXPECT_TRUE(holds(text.str(), "\"piece\": \"frame 2\"")) << text.str();
  EXPECT_FALSE(holds(text.str(), "on-the-mat")) << text.str();
  EXPECT_TRUE(holds(outcome.err, "on-the-mat.jpg: The reading is not in the series, because nothing tells the mix")) << outcome.err;
  EXPECT_TRUE(fs::exists(photos() / "on-the-mat.jpg.huewright.txt"));
}

TEST_F(Watch, ASeriesWithAMistakeIsSaidBeforeAnyPhoto) {
  drop("there.jpg");
  const fs::path series = folder_.path() / "s.json";
  std::ofstream(series) << "{";
  const Outcome outcome = watched({"--count", "1", "--series", series.string(), "--mix", "1:2", "--carrier", "5", "--coats", "4"});
  EXPECT_EQ(outcome.exit, 3);
  EXPECT_FALSE(fs::exists(photos() / "there.jpg.huewright.txt"));
}

TEST_F(Watch, LinesGoOutAtOnceAndAReaderThatIsGoneEndsIt) {
  drop("there.jpg");
  std::string out, err;
  const Outlet gone{[&](std::string_view text) { return out += text, false; }, [&](std::string_view text) { return err += text, true; }};
  const Outcome outcome = watch(*request({}), session_, gone, {}, {milliseconds(20), milliseconds(40), milliseconds(50)});
  EXPECT_EQ(outcome.exit, 5);
  EXPECT_EQ(outcome.out, "");
  EXPECT_TRUE(out.starts_with("there.jpg: ")) << out;
  EXPECT_TRUE(holds(err, "Ctrl-C")) << err;
}

TEST_F(Watch, AStopEndsItCleanly) {
  std::stop_source source;
  source.request_stop();
  EXPECT_EQ(watch(*request({}), session_, {}, source.get_token()).exit, 0);
}

TEST(WatchLines, BeginWithTheNameFitToBeShown) {
  JudgeReport report;
  report.verdicts.resize(1);
  report.verdicts[0].sentence = "It is there.";
  EXPECT_EQ(verdictLine("a\nb.jpg", report), "a?b.jpg: It is there.\n");
}

TEST(WatchLines, AProblemIsASentenceOrAnObject) {
  const Problem problem{Code::MatNotFound, {}};
  EXPECT_EQ(problemLine("in/a.jpg", problem, false), "a.jpg: " + sentence(problem) + "\n");
  EXPECT_EQ(problemLine("in/a.jpg", problem, true), problemJson("in/a.jpg", problem));
}

}  // namespace
}  // namespace huewright
