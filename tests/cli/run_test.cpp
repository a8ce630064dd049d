#include "cli/run.hpp"

#include <algorithm>
#include <chrono>
#include <cstdlib>
#include <gtest/gtest.h>
#include <random>
#include <sstream>
#include <sys/stat.h>

#include "cli/command_table.hpp"
#include "cli/holds.hpp"
#include "support/fixtures.hpp"

namespace huewright {
namespace {

using Words = std::vector<std::string>;

class Run : public testing::Test {
 protected:
  void SetUp() override {
    ::setenv("HUEWRIGHT_DATA", HUEWRIGHT_SOURCE_DIR "/calib", 1);
    ::setenv("XDG_DATA_HOME", HUEWRIGHT_BINARY_DIR "/nobody", 1);  // whoever runs this may keep a grey
  }
  void TearDown() override { ::unsetenv("HUEWRIGHT_DATA"); }
};

/// One plain sentence (perhaps with what to do behind it) on the error output, nothing on the other.
void expectPlain(const Outcome& outcome, int exit, const std::string& what) {
  EXPECT_EQ(outcome.exit, exit) << what << "\n" << outcome.err;
  EXPECT_EQ(outcome.out, "") << what;
  EXPECT_TRUE(outcome.err.ends_with(".\n")) << what << "\n" << outcome.err;
  EXPECT_EQ(std::ranges::count(outcome.err, '\n'), 1) << what << "\n" << outcome.err;
  EXPECT_TRUE(std::ranges::none_of(outcome.err, [](char c) { return c != '\n' && static_cast<unsigned char>(c) < 0x20; })) << what;
  for (const char* jargon : {"TEXT", "std::", "exception", "Error", "{}", "..", "nullptr"}) EXPECT_FALSE(holds(outcome.err, jargon)) << what << "\n" << outcome.err;
}

std::string joined(const Words& words) {
  std::string all;
  for (const std::string& word : words) all += word + " ";
  return all;
}

// The photo does not exist, and nobody complains about that: wrong use is seen before any file is opened.
constexpr const char* kNowhere = "/no/such/folder/photo-that-is-not-there.jpg";

void expectWrongUse(const Words& words) {
  const Outcome outcome = run(words, true);
  expectPlain(outcome, 2, joined(words));
  EXPECT_FALSE(holds(outcome.err, kNowhere)) << outcome.err;
}

TEST_F(Run, WrongCommandsAndOptions) {
  for (const Words& words : {Words{"juge", kNowhere}, Words{""}, Words{"--"}, Words{"--juge"}, Words{"-x"}, Words{"help"}, Words{"--version", "x"}, Words{"judge"},
                             Words{"judge", ""}, Words{"judge", "--json"}, Words{"JUDGE", kNowhere}})
    expectWrongUse(words);
}

TEST_F(Run, WrongValues) {
  const Words good{"judge", kNowhere, "--panel", "0,0,50,50", "--card", "60,0,50,50"};
  const auto with = [&](const Words& more) {
    Words words = good;
    words.insert(words.end(), more.begin(), more.end());
    return words;
  };
  EXPECT_EQ(run(good, false).exit, 3);  // nothing wrong but the photo
  for (const Words& more :
       {Words{"--bogus"}, Words{"-x"}, Words{"b.jpg", "--swapped", "c.jpg"}, Words{"--flop-card", "0,0,9,9"}, Words{"--grey"}, Words{"--coats"}, Words{"--coats", "--json"}, Words{"--json=maybe"},
        Words{"--grey", "1,2,3"}, Words{"--grey", "a,b,c,d"}, Words{"--grey", "nan,0,10,10"}, Words{"--grey", "0,0,0,10"}, Words{"--grey", ""},
        Words{"--panel", "0,0,9,0,9,9"}, Words{"--panel", "1e999,0,9,9"}, Words{"--panel", "0,0,-9,9"},
        Words{"--mix", "0:0"}, Words{"--mix", "1"}, Words{"--mix", "-1:2"}, Words{"--mix", "1:nan"}, Words{"--mix", "1e308:1e308"}, Words{"--mix", "1:3", "--mix", "1:4"},
        Words{"--tolerance", "0"}, Words{"--tolerance", "-1"}, Words{"--tolerance", "nan"}, Words{"--tolerance", "tight"}, Words{"--tolerance", "1e9"},
        Words{"--coats", "0"}, Words{"--coats", "nan"}, Words{"--coats", "abc"}, Words{"--coats", "-2"}, Words{"--coats", "1000"},
        Words{"--grey-y", "0"}, Words{"--grey-y", "2"}, Words{"--grey-y", "nan"}, Words{"--grey-y", "-0.1"}, Words{"--grey-y", "bright"},
        Words{"--card-lab", "50,0,0"}, Words{"--card", "0,0,5,5"}, Words{"--coats", "3", "--coats", "4"},
        Words{"--encoding", "raw"}, Words{"--card-kind", "metal"}})
    expectWrongUse(with(more));
}

TEST_F(Run, WrongCardsAndPanels) {
  const Words photo{"judge", kNowhere};
  const auto with = [&](const Words& more) {
    Words words = photo;
    words.insert(words.end(), more.begin(), more.end());
    return words;
  };
  for (const char* lab : {"50,0", "50,0,nan", "200,0,0", "-1,0,0", "50,999,0", "50;0;0"}) expectWrongUse(with({"--panel", "0,0,50,50", "--card-lab", lab}));
  expectWrongUse(with({"--card", "60,0,50,50"}));
  expectWrongUse(with({"--panel", "0,0,50,50"}));
  Words many = with({"--card", "60,0,50,50"});
  for (int i = 0; i < 13; ++i) many.insert(many.end(), {"--panel", std::to_string(100 * i) + ",100,50,50"});
  expectWrongUse(many);
  EXPECT_TRUE(holds(run(many, false).err, "13 panels"));
  many.resize(many.size() - 2);
  EXPECT_EQ(run(many, false).exit, 3);  // twelve are allowed
  many.insert(many.end(), {"--mix", "1:2", "--mix", "1:3"});
  expectWrongUse(many);  // neither one mix nor twelve
}

TEST_F(Run, HelpAndVersion) {
  for (const Words& words : {Words{}, Words{"--help"}, Words{"-h"}, Words{"--version"}, Words{"judge", "--help"}, Words{"judge", "-h", kNowhere},
                             Words{"judge", kNowhere, "--help"}}) {
    const Outcome outcome = run(words, false);
    EXPECT_EQ(outcome.exit, 0) << joined(words);
    EXPECT_EQ(outcome.err, "") << joined(words);
    EXPECT_TRUE(holds(outcome.out, "uewright")) << joined(words);
  }
  EXPECT_EQ(run({"--version"}, false).out, "huewright " HUEWRIGHT_VERSION "\n");
  EXPECT_TRUE(holds(run({"judge", "--help"}, false).out, "--card-kind KIND"));
}

TEST_F(Run, InputsThatCannotBeUsed) {
  const fixtures::TempDir folder;
  const auto path = [&](const char* name) { return (folder.path() / name).string(); };
  const auto put = [&](const char* name, std::string_view bytes) { folder.put(name, {reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size()}); };
  put("empty.jpg", "");
  put("text.jpg", "Dear customer,\nthe picture follows.\n");
  put("start.png", "\x89PNG\r\n\x1a\n");
  ASSERT_EQ(::mkfifo(path("pipe.jpg").c_str(), 0600), 0);
  for (const std::string& photo : {path("missing.jpg"), folder.path().string(), path("empty.jpg"), path("text.jpg"), path("start.png"), path("pipe.jpg"),
                                   path("text.jpg/x.jpg"), std::string("/dev/null"), std::string(5000, 'a')}) {
    const auto before = std::chrono::steady_clock::now();
    const Outcome outcome = run({"judge", photo, "--panel", "0,0,50,50", "--card", "60,0,50,50"}, false);
    expectPlain(outcome, 3, photo);
    EXPECT_TRUE(holds(outcome.err, photo.substr(0, 150))) << outcome.err;  // of a very long name the middle is left out
    EXPECT_LT(std::chrono::steady_clock::now() - before, std::chrono::seconds(5)) << photo;  // a pipe nobody writes to must not hang it
  }
}

TEST_F(Run, AFailureStaysOnOneLineWhateverTheFileIsCalled) {
  const Outcome outcome = run({"judge", "a\nb\x1b[31m.jpg", "--panel", "0,0,50,50", "--card", "60,0,50,50"}, false);
  expectPlain(outcome, 3, "control characters");
  EXPECT_TRUE(holds(outcome.err, "\"a?b?[31m.jpg\"")) << outcome.err;
  expectWrongUse({"judge", kNowhere, "--panel", "0,0,50,50\n"});
}

TEST_F(Run, DataThatIsNotThere) {
  ::setenv("HUEWRIGHT_DATA", "/no/such/folder", 1);
  expectPlain(run({"judge", kNowhere, "--panel", "0,0,50,50", "--card", "60,0,50,50"}, false), 5, "no data");
}

/// A bluish-green panel at (20,20), a card like it or somewhat lighter at (180,20) and a grey at (340,20), all 120 pixels wide.
std::string photo(const fixtures::TempDir& folder, int lighter) {
  fixtures::Picture picture = fixtures::flat({480, 160}, {40, 40, 40});
  std::mt19937 rng(7);
  std::uniform_int_distribution<int> noise(-2, 2);
  const auto fill = [&](int left, std::array<int, 3> code) {
    for (int y = 20; y < 140; ++y)
      for (int x = left; x < left + 120; ++x)
        for (std::size_t c = 0; c < 3; ++c) picture.at(x, y)[c] = static_cast<std::uint16_t>(code[c] + noise(rng));
  };
  fill(20, {30, 120, 130});
  fill(180, {30 + lighter, 120 + lighter, 130 + lighter});
  fill(340, {118, 118, 118});
  return folder.put("photo.png", fixtures::png(picture, {.srgb = true})).string();
}

Words judging(const std::string& photo, const Words& more) {
  Words words{"judge", photo, "--panel", "20,20,120,120", "--card", "180,20,120,120", "--grey", "340,20,120,120",
              "--grey-y", "0.18", "--mix", "1:3", "--coats", "4"};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

TEST_F(Run, JudgesAPhoto) {
  const fixtures::TempDir folder;
  const Outcome text = run(judging(photo(folder, 40), {"--card-kind", "same"}), false);
  EXPECT_EQ(text.exit, 0) << text.err;
  EXPECT_EQ(text.err, "");
  EXPECT_TRUE(holds(text.out, "panel")) << text.out;
  EXPECT_FALSE(holds(text.out, "\x1b")) << text.out;
  EXPECT_TRUE(holds(run(judging(photo(folder, 40), {}), true).out, "\x1b[48;2;"));
  EXPECT_TRUE(holds(run(judging(photo(folder, 40), {"--explain"}), false).out, "texture"));
}

TEST_F(Run, JsonAndGate) {
  const fixtures::TempDir folder;
  const Outcome json = run(judging(photo(folder, 40), {"--json"}), true);
  EXPECT_EQ(json.exit, 0) << json.err;
  EXPECT_TRUE(json.out.starts_with("{\n  \"format\": 1,")) << json.out;
  EXPECT_TRUE(holds(json.out, "\"band\": \"not-there\"")) << json.out;
  EXPECT_FALSE(holds(json.out, "\x1b")) << json.out;
  const Outcome gated = run(judging(photo(folder, 40), {"--gate"}), false);
  EXPECT_EQ(gated.exit, 1);
  EXPECT_NE(gated.out, "");
  EXPECT_EQ(gated.err, "");
  const Outcome passed = run(judging(photo(folder, 0), {"--gate", "--card-kind", "same", "--tolerance", "5"}), false);
  EXPECT_EQ(passed.exit, 0) << passed.out << passed.err;
}

TEST_F(Run, RegionsThatDoNotFitThePhoto) {
  const fixtures::TempDir folder;
  const std::string name = photo(folder, 40);
  for (const auto& [panel, card] : {std::pair{"900,20,120,120", "180,20,120,120"}, std::pair{"20,20,3,3", "180,20,120,120"},
                                    std::pair{"20,20,120,120", "100,20,120,120"},
                                    std::pair{"20,20,140,140,140,20,20,140", "180,20,120,120"}, std::pair{"-1e300,0,1e301,9", "180,20,120,120"}})
    expectPlain(run({"judge", name, "--panel", panel, "--card", card}, false), 3, panel);
}

// What --help shows as an example is true of the sample photograph.
TEST_F(Run, ExampleOfTheHelpWorks) {
  for (const CommandRow& command : commandTable()) {
    if (command.name != "judge") continue;  // the others have no photo and no report
    std::istringstream stream{std::string(command.example)};
    Words words;
    for (std::string word; stream >> word;) words.push_back(word);
    words.erase(words.begin());
    words.emplace_back("--json");
    for (std::string& word : words)
      if (word.starts_with("sample-images/")) word = HUEWRIGHT_SOURCE_DIR "/" + word;
    const Outcome outcome = run(words, false);
    EXPECT_EQ(outcome.exit, 0) << outcome.err;
    EXPECT_TRUE(holds(outcome.out, "\"strong_share\": \"decrease\"")) << command.example;
    for (const char* caution : {"region-edge", "\"glare\"", "\"shadow\"", "grey-not-grey"}) EXPECT_FALSE(holds(outcome.out, caution)) << caution;
  }
}

}  // namespace
}  // namespace huewright
