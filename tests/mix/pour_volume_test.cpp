#include "mix/pour_volume.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <limits>
#include <numeric>

namespace huewright {
namespace {

PourNeed frameAndFork() {
  PourNeed need;
  need.areas = {{"frame", 0.35}, {"fork", 0.1}};
  need.coats = 4;
  return need;
}

// Worked by hand: 0.45 m² · 4 coats · 25 µm = 45 mL on the part; half is lost, so 90 are sprayed, and 15 stay: 105. With 35 and 65 % loss: 84.23 and 143.57.
TEST(VolumeNeeded, WorkedExample) {
  const auto v = volumeNeeded(frameAndFork());
  ASSERT_TRUE(v);
  EXPECT_NEAR(v->m2, 0.45, 1e-12);
  EXPECT_NEAR(v->on_part_ml, 45, 1e-12);
  EXPECT_NEAR(v->ml, 105, 1e-9);
  EXPECT_NEAR(v->least_ml, 45 / 0.65 + 15, 1e-9);
  EXPECT_NEAR(v->most_ml, 45 / 0.35 + 15, 1e-9);
  ASSERT_EQ(v->each_ml.size(), 2U);
  EXPECT_NEAR(v->each_ml[0], 105 * 0.35 / 0.45, 1e-9);
  EXPECT_NEAR(v->each_ml[0] + v->each_ml[1], v->ml, 1e-9);
}

// A litre that covers 40 m² stands 25 µm high on them. Told losses have no range.
TEST(VolumeNeeded, CoverageIsFilmAndToldLossesAreTakenAsTold) {
  PourNeed need = frameAndFork();
  need.coverage = 40;
  need.loss = 0.25;
  need.rest_ml = 0;
  const auto v = volumeNeeded(need);
  ASSERT_TRUE(v);
  EXPECT_NEAR(v->film_um, 25, 1e-12);
  EXPECT_NEAR(v->ml, 60, 1e-9);
  EXPECT_EQ(v->least_ml, v->ml);
  EXPECT_EQ(v->most_ml, v->ml);
}

TEST(VolumeNeeded, GrowsWithAreaCoatsAndFilmAlike) {
  PourNeed need = frameAndFork();
  need.rest_ml = 0;
  const double once = volumeNeeded(need)->ml;
  need.coats = 8;
  EXPECT_NEAR(volumeNeeded(need)->ml, 2 * once, 1e-9);
  need.film_um = 75;
  EXPECT_NEAR(volumeNeeded(need)->ml, 6 * once, 1e-9);
  for (PourArea& area : need.areas) area.m2 *= 10;
  EXPECT_NEAR(volumeNeeded(need)->ml, 60 * once, 1e-9);
}

TEST(PourToolFacts, AnAirbrushSpraysThinnerAndLosesLess) {
  for (const PourTool tool : {PourTool::Gun, PourTool::Airbrush}) {
    const PourToolFacts& facts = pourToolFacts(tool);
    EXPECT_TRUE(facts.least_loss < facts.loss && facts.loss < facts.most_loss && facts.most_loss < 1);
  }
  EXPECT_LT(pourToolFacts(PourTool::Airbrush).film_um, pourToolFacts(PourTool::Gun).film_um);
  EXPECT_LT(pourToolFacts(PourTool::Airbrush).rest_ml, pourToolFacts(PourTool::Gun).rest_ml);
}

TEST(VolumeNeeded, SaysWhatIsWrong) {
  const double nan = std::numeric_limits<double>::quiet_NaN();
  const auto changed = [](auto&& change) {
    PourNeed need = frameAndFork();
    change(need);
    return need;
  };
  struct Row {
    PourNeed need;
    const char* says;
  };
  for (const Row& row : {Row{changed([](PourNeed& n) { n.areas.clear(); }), "No area"}, Row{changed([](PourNeed& n) { n.areas.assign(25, {"tube", 0.1}); }), "25 areas"},
                         Row{changed([](PourNeed& n) { n.areas[1].m2 = 0; }), "area of fork is 0 m²"},
                         Row{changed([](PourNeed& n) { n.areas[0].m2 = -1; }), "frame"}, Row{changed([&](PourNeed& n) { n.areas[0].m2 = nan; }), "frame"},
                         Row{changed([](PourNeed& n) { n.coats.reset(); }), "No coats"}, Row{changed([](PourNeed& n) { n.coats = 0; }), "coats are 0"},
                         Row{changed([&](PourNeed& n) { n.coats = nan; }), "coats"}, Row{changed([](PourNeed& n) { n.film_um = 0.5; }), "0.5 µm"},
                         Row{changed([](PourNeed& n) { n.coverage = 0; }), "coverage is 0"}, Row{changed([](PourNeed& n) { n.film_um = n.coverage = 20; }), "Both"},
                         Row{changed([](PourNeed& n) { n.loss = 1; }), "loss is 1"}, Row{changed([](PourNeed& n) { n.loss = -0.1; }), "loss"},
                         Row{changed([](PourNeed& n) { n.rest_ml = -1; }), "-1 mL"}}) {
    const auto v = volumeNeeded(row.need);
    ASSERT_FALSE(v) << row.says;
    EXPECT_EQ(exitCode(v.error().code), 2);
    EXPECT_NE(sentence(v.error()).find(row.says), std::string::npos) << sentence(v.error());
  }
}

}  // namespace
}  // namespace huewright
