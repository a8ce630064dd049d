#include "cli/advise_command.hpp"

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <gtest/gtest.h>

#include "cli/run.hpp"
#include "support/temp_dir.hpp"

namespace huewright {
namespace {

using Words = std::vector<std::string>;

const std::string kTeal = HUEWRIGHT_SOURCE_DIR "/sample-images/teal-series.json";

void expectRefusal(const Words& words, int exit, const std::string& says) {
  const Outcome outcome = run(words, false);
  EXPECT_EQ(outcome.exit, exit) << outcome.err;
  EXPECT_EQ(outcome.out, "");
  EXPECT_EQ(std::ranges::count(outcome.err, '\n'), 1) << outcome.err;
  EXPECT_NE(outcome.err.find(says), std::string::npos) << outcome.err;
}

TEST(AdviseCommand, SaysTheNextMixAndOtherWays) {
  const Outcome outcome = run({"advise", kTeal}, false);
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_TRUE(outcome.out.starts_with("Next spray 2:3 at 4 coats")) << outcome.out;
  for (const char* says : {"Other ways\n", "Take with care\n", "expected Lab", "wanted   Lab 48.0, -23.7, -7.2"}) EXPECT_NE(outcome.out.find(says), std::string::npos) << says;
  EXPECT_EQ(outcome.out.find('\x1b'), std::string::npos);
  EXPECT_NE(run({"advise", kTeal}, true).out.find("\x1b[48;2;"), std::string::npos);
  EXPECT_TRUE(run({"advise", kTeal, "--json"}, false).out.starts_with("{\n  \"format\": 1,"));
}

TEST(AdviseCommand, OnThePart) {
  const Outcome outcome = run({"advise", kTeal, "--part", "9 coats so far"}, false);
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_NE(outcome.out.find("do not add"), std::string::npos) << outcome.out;
  EXPECT_EQ(outcome.out.find("Other ways"), std::string::npos);
}

TEST(AdviseCommand, CoatsOnThePart) {
  EXPECT_EQ(partCoats("3 coats so far"), 3);
  EXPECT_EQ(partCoats("1 coat"), 1);
  EXPECT_EQ(partCoats("2.5"), 2.5);
  for (const char* text : {"", "three", "3 litres", "-1", "0 coats", "61", "3 coats so far and more"}) EXPECT_FALSE(partCoats(text)) << text;
}

TEST(AdviseCommand, Grounds) {
  const Outcome outcome = run({"grounds", kTeal}, false);
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_TRUE(outcome.out.starts_with("The mix advised next, 2:3, 4 coats:\n")) << outcome.out;
  for (const char* says : {"bright silver", "pearl white", "pale gold", "graphite", "deeper"}) EXPECT_NE(outcome.out.find(says), std::string::npos) << says;
  EXPECT_TRUE(run({"grounds", kTeal, "--json"}, false).out.starts_with("{\n  \"format\": 1,"));
}

TEST(AdviseCommand, KeepsAndUsesTints) {
  const fixtures::TempDir folder;
  const std::string tints = (folder.path() / "tints.json").string();
  const Outcome kept = run({"advise", kTeal, "--save-tints", tints}, false);
  EXPECT_EQ(kept.exit, 0) << kept.err;
  EXPECT_NE(kept.out.find("The tints are kept in "), std::string::npos);
  EXPECT_EQ(run({"advise", kTeal, "--tints", tints}, false).exit, 0);
  EXPECT_NE(run({"advise", kTeal, "--shelf", tints}, false).out.find("Nearest off the shelf: "), std::string::npos);
  expectRefusal({"advise", kTeal, "--save-tints", tints}, 2, "is there already");
}

TEST(AdviseCommand, Draws) {
  const fixtures::TempDir folder;
  const std::string plot = (folder.path() / "plot.svg").string(), grounds = (folder.path() / "grounds.svg").string(), nowhere = (folder.path() / "none" / "plot.svg").string();
  EXPECT_NE(run({"advise", kTeal, "--plot", plot}, false).out.find("The drawing is in " + plot), std::string::npos);
  EXPECT_NE(run({"grounds", kTeal, "--plot", grounds}, false).out.find("The drawing is in " + grounds), std::string::npos);
  for (const std::string& path : {plot, grounds}) EXPECT_TRUE(std::filesystem::exists(path)) << path;
  for (const char* command : {"advise", "grounds"}) {
    expectRefusal({command, kTeal, "--plot", nowhere}, 5, "could not be written");
    expectRefusal({command, kTeal, "--plot", "plot.png"}, 2, "end in .svg");
    expectRefusal({command, "no-such.json", "--plot", "plot.png"}, 2, "end in .svg");  // seen before any file is opened
  }
  expectRefusal({"advise", kTeal, "--plot", plot, "--shelf", "a.json"}, 2, "--shelf stands alone");
}

TEST(AdviseCommand, MistakesAreOneSentence) {
  const fixtures::TempDir folder;
  const auto file = [&](const std::string& text) {
    const auto path = folder.path() / "series.json";
    std::ofstream(path) << text;
    return path.string();
  };
  expectRefusal({"advise"}, 2, "No series was given");
  expectRefusal({"advise", kTeal, kTeal}, 2, "takes one series");
  expectRefusal({"advise", kTeal, "--part", "soon"}, 2, "--part takes the coats");
  expectRefusal({"advise", kTeal, "--shelf", "a.json", "--tints", "b.json"}, 2, "--shelf stands alone");
  expectRefusal({"grounds"}, 2, "No series was given");
  expectRefusal({"advise", "no-such.json"}, 3, "there is no file");
  expectRefusal({"advise", kTeal, "--tints", "no-such.json"}, 3, "The tint file cannot be used");
  expectRefusal({"advise", file(R"({"carrier_per_tint": 5, "target": {"lab": [50, 0, 0]}, "panels": [{"strong": 1, "weak": 1, "coats": 2, "lab": [50, 0, 0]}]})")}, 3, "has no ground");
  expectRefusal({"advise", file(R"({"carrier_per_tint": 5, "ground": {"lab": [50, 0, 0]}, "target": {"lab": [NaN, 0, 0]}, "panels": []})")}, 3, "it is not JSON");
  expectRefusal({"advise", file(R"({"carrier_per_tint": 5, "ground": {"lab": [50, 0, 0]}, "panels": []})")}, 3, "it has no target");
}

}  // namespace
}  // namespace huewright
