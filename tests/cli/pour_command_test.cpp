#include "cli/pour_command.hpp"

#include <algorithm>
#include <gtest/gtest.h>

#include "cli/run.hpp"
#include "support/temp_dir.hpp"

namespace huewright {
namespace {

using PourArguments = std::vector<std::string>;

Arguments pourParsed(PourArguments words) {
  words.insert(words.begin(), "pour");
  return parseArguments(words).value();
}

Outcome pourRun(const PourArguments& more, PourArguments words = {"pour", "--mix", "1:3", "--carrier", "5"}) {
  words.insert(words.end(), more.begin(), more.end());
  return run(words, false);
}

bool pourSays(const std::string& text, const std::string& part) { return text.find(part) != std::string::npos; }

TEST(PourRequestOf, ReadsEveryValue) {
  const auto r = pourRequest(pourParsed({"--tint", "teal, strong=1", "--tint", "a=b=2.5", "--carrier", "5", "--density", "teal, strong=1.05", "--density", "carrier=0.88", "--area", "frame=0.35",
                                         "--area", "0.1", "--coats", "3.5", "--tool", "airbrush", "--film", "20", "--loss", "0.3", "--rest", "4", "--scale", "0.01", "--cup", "250", "--have",
                                         "120@1:2+5", "--out", "a.pdf", "--out", "b.html", "--paper", "letter", "--title", "x"}));
  ASSERT_TRUE(r) << sentence(r.error());
  ASSERT_EQ(r->recipe.tints.size(), 2U);
  EXPECT_EQ(r->recipe.tints[0].name, "teal, strong");
  EXPECT_EQ(r->recipe.tints[0].density, 1.05);
  EXPECT_EQ(r->recipe.tints[1].name, "a=b");
  EXPECT_EQ(r->recipe.tints[1].parts, 2.5);
  EXPECT_FALSE(r->recipe.tints[1].density);
  EXPECT_EQ(r->recipe.carrier, 5);
  EXPECT_EQ(r->recipe.carrier_density, 0.88);
  ASSERT_EQ(r->need.areas.size(), 2U);
  EXPECT_EQ(r->need.areas[0].name, "frame");
  EXPECT_EQ(r->need.areas[1].m2, 0.1);
  EXPECT_EQ(r->need.coats, 3.5);
  EXPECT_EQ(r->need.tool, PourTool::Airbrush);
  EXPECT_EQ(r->need.film_um, 20);
  EXPECT_EQ(r->need.loss, 0.3);
  EXPECT_EQ(r->need.rest_ml, 4);
  EXPECT_EQ(r->gauge->by, PourBy::Scale);
  EXPECT_EQ(r->gauge->step, 0.01);
  EXPECT_EQ(r->cup_ml, 250);
  EXPECT_EQ(r->held->amount, 120);
  EXPECT_EQ(r->held->parts, (std::vector<double>{1, 2}));
  EXPECT_EQ(r->held->carrier, 5);
  EXPECT_EQ(r->out.size(), 2U);
  EXPECT_EQ(r->paper, "letter");
  EXPECT_EQ(r->title, "x");
}

TEST(PourRequestOf, MixIsTwoTintsThatDensitiesCallByOneWord) {
  const auto r = pourRequest(pourParsed({"--mix", "1:3", "--carrier", "0", "--density", "strong=1.1", "--density", "weak tint=1.2", "--coverage", "40", "--cup-error", "0.5"}));
  ASSERT_TRUE(r) << sentence(r.error());
  EXPECT_EQ(r->recipe.tints[0].density, 1.1);
  EXPECT_EQ(r->recipe.tints[1].density, 1.2);
  EXPECT_EQ(r->need.coverage, 40);
  EXPECT_EQ(r->gauge->by, PourBy::Cup);
}

TEST(PourRequestOf, ReadsWhatIsInTheCup) {
  struct Row {
    const char* text;
    double amount;
    bool grams;
  };
  for (const Row& row : {Row{"120@1:2+5", 120, false}, Row{"120ml@1:2+5", 120, false}, Row{"120 mL@1:2+5", 120, false}, Row{"115.5g@1:2+5", 115.5, true}, Row{"115 g@1:2+0", 115, true}}) {
    const auto r = pourRequest(pourParsed({"--mix", "1:3", "--carrier", "5", "--have", row.text}));
    ASSERT_TRUE(r) << row.text;
    EXPECT_EQ(r->held->amount, row.amount) << row.text;
    EXPECT_EQ(r->held->grams, row.grams) << row.text;
  }
  for (const char* text : {"120", "120@1:2", "@1:2+5", "120@+5", "120@1:x+5", "120@1:2+", "kg@1:2+5", "120mlg@1:2+5", "1+2@3", "g@1:2+5"})
    EXPECT_FALSE(pourRequest(pourParsed({"--mix", "1:3", "--carrier", "5", std::string("--have=") + text}))) << text;
}

TEST(PourCommand, TellsOrderAmountsAndCare) {
  const Outcome outcome = pourRun({"--coats", "4", "--area", "frame=0.35", "--area", "fork=0.1", "--density", "strong=1.05", "--density", "weak=1.01", "--density", "carrier=0.88"});
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_EQ(outcome.err, "");
  EXPECT_TRUE(outcome.out.starts_with("strong tint 1 : weak tint 3 + 5 carrier: 105.0 mL (94.8 g)\n")) << outcome.out;
  for (const char* part : {"  pour in this order      add          within  scale shows\n", "  1  strong tint       4.4 mL   4.6 g  ±2.2 %        4.6 g\n", "Take with care"})
    EXPECT_TRUE(pourSays(outcome.out, part)) << part << "\n" << outcome.out;
  const auto first = outcome.out.find("strong tint  "), second = outcome.out.find("weak tint  "), third = outcome.out.find("3  carrier");
  EXPECT_TRUE(first < second && second < third && third != std::string::npos) << outcome.out;
}

TEST(PourCommand, WritesTheSheetsAndSaysWhere) {
  const fixtures::TempDir folder;
  const std::string pdf = (folder.path() / "a.pdf").string(), page = (folder.path() / "a.html").string();
  const Outcome outcome = pourRun({"--volume", "500", "--out", pdf, "--out", page});
  EXPECT_EQ(outcome.exit, 0) << outcome.err;
  EXPECT_TRUE(outcome.out.ends_with("\n\nThe sheet is in " + pdf + ".\nThe sheet is in " + page + ".\n")) << outcome.out;
  EXPECT_GT(std::filesystem::file_size(pdf), 1000U);
  EXPECT_GT(std::filesystem::file_size(page), 1000U);
  EXPECT_EQ(pourRun({"--volume", "500", "--out", (folder.path() / "no/a.pdf").string()}).exit, 5);
}

TEST(PourCommand, PrintsJson) {
  const Outcome outcome = pourRun({"--volume", "500", "--json"});
  EXPECT_EQ(outcome.exit, 0);
  EXPECT_TRUE(outcome.out.starts_with("{\n  \"format\": 1,")) << outcome.out;
}

TEST(PourCommand, WrongUseIsOnePlainLine) {
  const PourArguments none{"pour"};
  struct Row {
    Outcome outcome;
    const char* says;
    int exit;
  };
  const PourArguments ok{"--volume", "100"};
  for (const Row& row :
       {Row{pourRun({}, none), "No mix", 2}, Row{pourRun({}), "No area", 2}, Row{pourRun({"--area", "0.4"}), "No coats", 2}, Row{pourRun(ok, {"pour", "--mix", "1:3"}), "No carrier", 2},
        Row{pourRun(ok, {"pour", "--mix", "1:x", "--carrier", "5"}), "not a mix", 2}, Row{pourRun(ok, {"pour", "--mix", "1:2:3", "--carrier", "5"}), "not a mix", 2},
        Row{pourRun(ok, {"pour", "--mix=-1:3", "--carrier", "5"}), "strong tint are -1", 2}, Row{pourRun(ok, {"pour", "--mix", "0:0", "--carrier", "5"}), "are 0", 2},
        Row{pourRun(ok, {"pour", "--mix", "1:3", "--carrier=-1"}), "carrier is -1", 2}, Row{pourRun(ok, {"pour", "--mix", "1:3", "--carrier", "nan"}), "not a number for --carrier", 2},
        Row{pourRun({"--volume", "100", "--tint", "a=1"}), "Both --mix and --tint", 2}, Row{pourRun(ok, {"pour", "--tint", "teal", "--carrier", "5"}), "NAME=PARTS", 2},
        Row{pourRun({"--volume", "100", "--density", "teal=1"}), "nothing in this mix", 2}, Row{pourRun({"--volume", "100", "--density", "0.9"}), "not a density", 2},
        Row{pourRun({"--area", "big", "--coats", "2"}), "not an area", 2}, Row{pourRun({"--volume", "100", "--coats", "2"}), "--coats says nothing", 2},
        Row{pourRun({"--area", "1", "--coats", "2", "--tool", "roller"}), "\"roller\"", 2}, Row{pourRun({"--volume", "100", "--scale", "0.1", "--cup-error", "1"}), "Both --scale", 2},
        Row{pourRun({"--volume", "100", "--scale", "0.1"}), "Weighing takes", 2}, Row{pourRun({"--volume", "100", "--have", "12"}), "what is in the cup", 2},
        Row{pourRun({"--volume", "100", "--have", "12g@1:2+5"}), "grams", 2}, Row{pourRun({"--volume", "100", "a.jpg"}), "a.jpg", 2}, Row{pourRun({"--volume", "100", "--out", "a.txt"}), "a.txt", 2},
        Row{pourRun({"--volume", "100", "--have", "12@1:2+5"}, {"pour", "--mix", "1:0", "--carrier", "5"}), "nothing can be taken out", 3}}) {
    EXPECT_EQ(row.outcome.exit, row.exit) << row.says << "\n" << row.outcome.err;
    EXPECT_EQ(row.outcome.out, "") << row.says;
    EXPECT_TRUE(pourSays(row.outcome.err, row.says)) << row.says << "\n" << row.outcome.err;
    EXPECT_EQ(std::ranges::count(row.outcome.err, '\n'), 1) << row.outcome.err;
    EXPECT_TRUE(row.outcome.err.ends_with(".\n")) << row.outcome.err;
  }
}

}  // namespace
}  // namespace huewright
