#include "judge/advice.hpp"

#include <algorithm>
#include <cmath>

#include "colour/delta_e.hpp"
#include "colour/rgb.hpp"
#include "judge/judge_support.hpp"

namespace huewright {
namespace {

const Lab<D50> kAdviceCard{45, -30, -12};
const Lab<D50> kDeeper{41.5, -30.5, -13.5}, kLighter{48.5, -29, -10.5};

OnePanelAdvice adviseOn(const Lab<D50>& panel, double sd, std::optional<Mix> mix = {}, std::optional<double> coats = {}) {
  const Reading r = handReading({panel}, kAdviceCard, sd);
  return adviseOnePanel(r, 0, compare(r, 0, "the panel", standards(), {1.0, CardKind::Same}), mix, coats);
}

TEST(Advise, ALighterPanelWantsMoreADeeperOneLess) {
  EXPECT_EQ(adviseOn(kLighter, 0.1).strong_share, Way::Increase);
  EXPECT_EQ(adviseOn(kDeeper, 0.1).strong_share, Way::Decrease);
}

TEST(Advise, AMatchIsKept) {
  const auto a = adviseOn(kAdviceCard, 0.1);
  EXPECT_EQ(a.strong_share, Way::Keep);
  ASSERT_EQ(a.actions.size(), 1u);
}

TEST(Advise, SaysWhatTheFilmBuildAloneDoes) {
  const Lab<D50> kInside{41, -20, -9};  // all of its channels above zero
  const auto a = adviseOn(kInside, 0.1);
  ASSERT_TRUE(a.spray_floor) << a.sentence;
  double mean = 0;
  for (const double ground : {0.35, 0.9}) {  // Beer-Lambert by itself: a film that is deeper by the spread
    Vec3 rgb = kXyzD50ToSrgb * toVec(toXyz(kInside)), more{};
    for (std::size_t k = 0; k < 3; ++k) more[k] = rgb[k] < ground ? ground * std::pow(rgb[k] / ground, 1 + kFilmBuild) : rgb[k];
    const Vec3 xyz = kSrgbToXyzD50 * more;
    mean += 0.5 * deltaE2000(kInside, toLab(Xyz<D50>{xyz[0], xyz[1], xyz[2]}));
  }
  EXPECT_NEAR(*a.spray_floor, mean, 0.05 * mean);
  EXPECT_FALSE(adviseOn(kAdviceCard, 0.1).spray_floor);
}

TEST(Advise, NoiseSilencesIt) {
  const auto a = adviseOn({46.2, -29.8, -11.8}, 0.8);
  EXPECT_EQ(a.strong_share, Way::Unknown);
  EXPECT_NE(a.sentence.find("Can't say"), std::string::npos) << a.sentence;
}

TEST(Advise, AMixWithoutRoomPointsToTheCoats) {
  const auto a = adviseOn({52, -28, -9}, 0.1, Mix{1, 0}, 4.0);
  EXPECT_EQ(a.strong_share, Way::Unknown);
  ASSERT_FALSE(a.actions.empty());
  EXPECT_EQ(a.actions[0].what, "coats");
  EXPECT_EQ(a.actions[0].way, Way::Increase);
}

TEST(Advise, AWholeCoatTooManyIsNotProposed) {
  const auto a = adviseOn({46.4, -29.8, -11.6}, 0.05, Mix{1, 3}, 2.0);
  ASSERT_EQ(a.strong_share, Way::Increase);
  for (const Step& s : a.actions) {
    if (s.what == "coats") {
      EXPECT_EQ(s.way, Way::Keep) << s.sentence;
    }
  }
}

TEST(Advise, TheOnlyCoatIsNotTakenAway) {
  const auto a = adviseOn({30, -25, -20}, 0.1, Mix{1, 3}, 1.0);
  for (const Step& s : a.actions) {
    if (s.what == "coats") {
      EXPECT_EQ(s.way, Way::Keep) << s.sentence;
    }
  }
}

TEST(Advise, AHueThatNeitherMendsPointsToTheGround) {
  const auto a = adviseOn({45, -24, -21}, 0.1);
  EXPECT_EQ(a.strong_share, Way::Unknown);
  ASSERT_FALSE(a.actions.empty());
  EXPECT_EQ(a.actions[0].what, "ground");
}

TEST(Advise, ClippedColoursGiveNone) {
  Reading r = handReading({kLighter}, kAdviceCard, 0.1);
  r.panels[0].clipped = 0.3;
  const auto a = adviseOnePanel(r, 0, compare(r, 0, "the panel", standards(), {1.0, CardKind::Same}), {}, {});
  EXPECT_EQ(a.strong_share, Way::Unknown);
  EXPECT_NE(a.sentence.find("out of range"), std::string::npos);
}

}  // namespace
}  // namespace huewright
