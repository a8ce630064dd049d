#include "judge/repeats.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <random>

#include "colour/delta_e.hpp"
#include "judge/judge_support.hpp"

namespace huewright {
namespace {

const Lab<D50> kRepeatPanel{41, -28, -14}, kRepeatCard{43, -29, -13};

/// One photo of a panel and a card: what the model thinks moves it, and by how much it was moved.
Reading photo(const Vec3& moved, double model_of_photo, double model_of_set_up) {
  Reading r = handReading({{kRepeatPanel.L + moved[0], kRepeatPanel.a + moved[1], kRepeatPanel.b + moved[2]}}, kRepeatCard, 0);
  r.influences.clear();
  for (std::size_t k = 0; k < 3; ++k) {
    for (const auto& [sd, renewal] : {std::pair{model_of_photo, Renewal::Photo}, std::pair{model_of_set_up, Renewal::SetUp}}) {
      Influence influence{renewal == Renewal::Photo ? Part::Texture : Part::LightAngle, {{}, {}}, renewal};
      influence.on_lab[0][k] = sd;
      r.influences.push_back(std::move(influence));
    }
  }
  refreshDeviations(r);
  return r;
}

double differenceVarianceOf(const Reading& r) {
  const DeltaVector u = deltaVector(r.panels[0].lab, r.card.lab);
  return trace(covarianceOfDifference(r, 0, u.by_panel, u.by_card));
}

TEST(Repeats, WhatIsDrawnAnewAveragesOutAndTheSetUpStays) {
  const std::vector<Reading> four(4, photo({}, 0.4, 0.1));
  const auto r = combineRepeats(four);
  ASSERT_TRUE(r);
  EXPECT_EQ(r->used, 4u);
  EXPECT_FALSE(r->left_out);
  EXPECT_LT(deltaE2000(r->reading.panels[0].lab, kRepeatPanel), 1e-9);
  const double one = differenceVarianceOf(four.front()), of_photo = differenceVarianceOf(photo({}, 0.4, 0)), of_set_up = one - of_photo;
  EXPECT_GT(differenceVarianceOf(r->reading), of_set_up);
  EXPECT_LT(differenceVarianceOf(r->reading), of_set_up + of_photo / 4 + 1e-9);
}

TEST(Repeats, ScatterBeyondTheModelWidensTheAnswerAndIsNamed) {
  std::vector<Reading> wide;
  for (const double off : {-0.9, -0.3, 0.3, 0.9}) wide.push_back(photo({off, 0, 0}, 0.05, 0.02));
  const auto r = combineRepeats(wide);
  ASSERT_TRUE(r);
  EXPECT_FALSE(r->left_out);
  EXPECT_TRUE(r->disagree);
  const DeltaVector u = deltaVector(r->reading.panels[0].lab, r->reading.card.lab);
  const double scatter = covarianceOfDifference(r->reading, 0, u.by_panel, u.by_card, Part::Scatter)(0, 0);
  EXPECT_GT(scatter, 0.5 * 0.6 / 4 / 3);  // the sample variance is 0.6, of L*; a third of it left by the prior; of the mean of four
  EXPECT_GT(differenceVarianceOf(r->reading), differenceVarianceOf(wide.front()));
}

TEST(Repeats, OnePhotoThatStandsApartIsNamedAndLeftOut) {
  std::vector<Reading> photos;
  for (const double off : {0.05, -0.05, 0.02}) photos.push_back(photo({off, off, 0}, 0.1, 0.1));
  photos.insert(photos.begin() + 1, photo({2.5, 1, 0}, 0.1, 0.1));
  const auto r = combineRepeats(photos);
  ASSERT_TRUE(r);
  EXPECT_EQ(r->left_out, 1u);
  EXPECT_EQ(r->used, 3u);
  EXPECT_GT(r->left_out_by, 1.5);
  EXPECT_LT(deltaE2000(r->reading.panels[0].lab, kRepeatPanel), 0.1);
}

TEST(Repeats, OfTwoPhotosThatDisagreeNoneIsLeftOut) {
  const std::vector<Reading> two{photo({-1.5, 0, 0}, 0.05, 0.05), photo({1.5, 0, 0}, 0.05, 0.05)};
  const auto r = combineRepeats(two);
  ASSERT_TRUE(r);
  EXPECT_FALSE(r->left_out);
  EXPECT_TRUE(r->disagree);
}

TEST(Repeats, OtherThingsAreRefused) {
  const std::vector<Reading> other{photo({}, 0.1, 0.1), handReading({kRepeatPanel, kRepeatPanel}, kRepeatCard, 0.1)};
  EXPECT_EQ(combineRepeats(other).error().code, Code::RepeatsUnusable);
  std::vector<Reading> numbers(2, photo({}, 0.1, 0.1));
  numbers[1].card_in_photo = false;
  EXPECT_EQ(combineRepeats(numbers).error().code, Code::RepeatsUnusable);
  EXPECT_EQ(combineRepeats({}).error().code, Code::RepeatsUnusable);
}

struct World {
  const char* name;
  double model;    // modelled over true standard deviation of one photo
  double set_up;   // true standard deviation of the set-up, known to the model
  std::size_t photos;
};

class Simulated : public testing::TestWithParam<World> {};

// Normal errors with known spreads. The stated covariance must hold the truth: the squared length in its units has χ² with three degrees of freedom.
TEST_P(Simulated, TheStatedSpreadHoldsTheTruth) {
  const World& w = GetParam();
  constexpr double kPhoto = 0.2, kChi95 = 7.815;  // NIST/SEMATECH e-Handbook of Statistical Methods, table 1.3.6.7.4
  constexpr int kTrials = 1500;
  std::mt19937_64 generator(20261125);
  std::normal_distribution<double> normal;
  const auto draw = [&](double sd) { return sd * Vec3{normal(generator), normal(generator), normal(generator)}; };
  const Vec3 truth = deltaVector(kRepeatPanel, kRepeatCard).u;
  int held = 0, named = 0;
  for (int t = 0; t < kTrials; ++t) {
    const Vec3 shared = draw(w.set_up);
    std::vector<Reading> photos;
    for (std::size_t i = 0; i < w.photos; ++i) photos.push_back(photo(shared + draw(kPhoto), w.model * kPhoto, w.set_up));
    const auto r = combineRepeats(photos);
    ASSERT_TRUE(r);
    named += r->left_out.has_value();
    const DeltaVector u = deltaVector(r->reading.panels[0].lab, r->reading.card.lab);
    const Vec3 off = u.u - truth;
    held += dot(off, inverse(covarianceOfDifference(r->reading, 0, u.by_panel, u.by_card)) * off) < kChi95;
  }
  EXPECT_GE(held, 0.90 * kTrials) << w.name;
  EXPECT_LE(named, 0.02 * kTrials) << w.name;
}

INSTANTIATE_TEST_SUITE_P(Worlds, Simulated,
                         testing::Values(World{"two, model right", 1, 0.1, 2}, World{"four, model right", 1, 0.1, 4}, World{"ten, model right", 1, 0.1, 10},
                                         World{"four, model too small by a third", 0.67, 0.1, 4}, World{"ten, model half as large", 0.5, 0.1, 10},
                                         World{"four, model twice as large", 2, 0.1, 4}),
                         [](const testing::TestParamInfo<World>& world) {
                           std::string name = world.param.name;
                           for (char& c : name)
                             if (!std::isalnum(static_cast<unsigned char>(c))) c = '_';
                           return name;
                         });

}  // namespace
}  // namespace huewright
