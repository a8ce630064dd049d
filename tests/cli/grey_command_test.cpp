#include "cli/grey_command.hpp"

#include <cstdlib>
#include <fstream>
#include <gtest/gtest.h>

#include "cli/holds.hpp"
#include "cli/run.hpp"
#include "support/temp_dir.hpp"

namespace huewright {
namespace {

Arguments parsed(std::vector<std::string> words) {
  words.insert(words.begin(), "grey");
  return parseArguments(words).value();
}

KeptGrey example() { return {{{49.6, 0.12, -1.2}, {0.25, 0.21, 0.2}}, "Maker One", "2024-05-17", "24-patch chart, published values", "grey.jpg", {}}; }

TEST(GreyRequestOf, ReadsEveryValue) {
  const auto r = greyRequest(parsed({"a.dng", "--grey", "10,20,30,40", "--chart", "1,1,90,60", "--chart-data", "mine.txt", "--encoding", "linear", "--out", "g.json"}));
  ASSERT_TRUE(r);
  EXPECT_EQ(r->photo, "a.dng");
  EXPECT_EQ(*r->grey, toQuad({10, 20, 30, 40}));
  EXPECT_EQ(r->chart_use, ChartUse::Here);
  EXPECT_EQ(*r->chart, toQuad({1, 1, 90, 60}));
  EXPECT_EQ(*r->chart_data, "mine.txt");
  EXPECT_EQ(r->encoding, Encoding::Linear);
  EXPECT_EQ(r->out, "g.json");
}

TEST(GreyRequestOf, LeavesOutWhatWasNotSaidAndRefusesWhatItCannotRead) {
  const auto r = greyRequest(parsed({"a.dng"}));
  ASSERT_TRUE(r);
  EXPECT_TRUE(!r->grey && r->out.empty() && !r->chart && !r->chart_data);
  EXPECT_EQ(greyRequest(parsed({"a.dng", "b.dng"})).error().code, Code::BadChoice);
  EXPECT_EQ(greyRequest(parsed({"a.dng", "--grey", "1,2"})).error().code, Code::BadRegion);
  EXPECT_EQ(greyRequest(parsed({"a.dng", "--chart", "1,2"})).error().code, Code::BadRegion);
  EXPECT_FALSE(greyRequest(parsed({"a.dng", "--encoding", "log"})));
}

TEST(GreyWishOf, IsOneThingAtATime) {
  EXPECT_EQ(greyWish(parsed({"a.dng"})), GreyWish::Measure);
  EXPECT_EQ(greyWish(parsed({"--show"})), GreyWish::Show);
  EXPECT_EQ(greyWish(parsed({"--forget"})), GreyWish::Forget);
  for (const auto& words : {std::vector<std::string>{"--show", "--forget"}, {"a.dng", "--show"}, {"--forget", "--grey", "1,1,9,9"}})
    EXPECT_EQ(greyWish(parsed(words)).error().code, Code::BadChoice);
}

TEST(GreyFromOf, IsTheKeptOneUnlessSaidOtherwise) {
  const fixtures::TempDir folder;
  const auto there = folder.path() / "grey.json";
  std::ofstream(there) << "x";
  EXPECT_EQ(greyFrom(parsed({}), there), there);
  EXPECT_FALSE(greyFrom(parsed({}), folder.path() / "none.json"));
  EXPECT_FALSE(greyFrom(parsed({}), fail(Code::NoUserFolder)));
  Arguments said;
  said.options["--grey-from"] = {"mine.json"};
  EXPECT_EQ(greyFrom(said, there), "mine.json");
  said.options["--grey-from"] = {"none"};
  EXPECT_FALSE(greyFrom(said, there));
}

TEST(GreyText, SaysWhatWasMeasuredAndWhereItIs) {
  GreyRequest request;
  request.out = "g.json";
  GreyReport report;
  report.sentences = {"The grey patch has L* 50.", "It is fit for use as a grey."};
  report.cautions = {{CautionCode::TooFewPixels, "the grey patch"}};
  const std::string text = greyText(request, report, false);
  EXPECT_TRUE(holds(text, "judge and map take every grey")) << text;
  EXPECT_TRUE(holds(greyText(request, report, true), "--grey-from")) << text;
  EXPECT_TRUE(text.starts_with("The grey patch has L* 50.\nIt is fit for use as a grey.\nIt is kept in g.json")) << text;
  EXPECT_TRUE(holds(text, "Take with care")) << text;
  const std::string shown = keptGreyText(example(), "g.json");
  for (const char* part : {"L* 49.6", "grey.jpg", "2024-05-17", "Maker One", "24-patch chart", "g.json"}) EXPECT_TRUE(holds(shown, part)) << shown;
}

TEST(GreyCommand, ShowsAndForgetsWhatIsKept) {
  const fixtures::TempDir folder;
  ::setenv("XDG_DATA_HOME", folder.path().c_str(), 1);
  EXPECT_TRUE(run({"grey", "--show"}, false).out.starts_with("No grey patch is kept."));
  EXPECT_TRUE(run({"grey", "--forget"}, false).out.starts_with("No grey patch is kept."));
  const auto path = folder.path() / "huewright/grey.json";
  ASSERT_TRUE(keepGrey(example(), path));
  const Outcome shown = run({"grey", "--show"}, false);
  EXPECT_EQ(shown.exit, 0);
  EXPECT_TRUE(holds(shown.out, "slightly bluish")) << shown.out;
  EXPECT_TRUE(holds(shown.out, path.string())) << shown.out;
  EXPECT_EQ(run({"grey", "--forget"}, false).out, "The kept grey patch is forgotten.\n");
  EXPECT_FALSE(std::filesystem::exists(path));
  std::ofstream(path) << "{}";
  const Outcome damaged = run({"grey", "--show"}, false);
  EXPECT_EQ(damaged.exit, 3);
  EXPECT_EQ(damaged.out, "");
  ::setenv("XDG_DATA_HOME", HUEWRIGHT_BINARY_DIR "/nobody", 1);
}

TEST(GreyCommand, WrongUseIsSeenBeforeTheFileIsOpened) {
  ::setenv("HUEWRIGHT_DATA", HUEWRIGHT_SOURCE_DIR "/calib", 1);
  for (const auto& words : {std::vector<std::string>{"grey"}, {"grey", "/no/such.jpg"}, {"grey", "/no/such.jpg", "--grey", "1,2"}, {"grey", "/no/such.jpg", "--grey", "1,1,9,9", "--chart", "none"},
                            {"grey", "/no/such.jpg", "--grey", "1,1,9,9", "--out", "a.txt"}, {"grey", "/no/such.jpg", "--show"},
                            {"grey", "/no/such.jpg", "--grey", "1,1,9,9", "--grey", "1,1,9,9"}, {"judge", "/no/such.jpg", "--grey-y", "0.2", "--grey-from", "g.json"}}) {
    const Outcome outcome = run(words, false);
    EXPECT_EQ(outcome.exit, 2) << outcome.err;
    EXPECT_FALSE(holds(outcome.err, "no/such")) << outcome.err;
  }
  EXPECT_EQ(run({"grey", "/no/such.jpg", "--grey", "1,1,9,9"}, false).exit, 3);
  ::unsetenv("HUEWRIGHT_DATA");
}

}  // namespace
}  // namespace huewright
