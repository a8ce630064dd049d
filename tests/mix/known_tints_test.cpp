#include "mix/known_tints.hpp"

#include <gtest/gtest.h>

#include "mix/mix_support.hpp"

namespace huewright {
namespace {

using namespace mixing;

const Lab<D50> kSilver{79, 0, 2};

/// The made strong tint from its own panels, by a painter whose hand varies by 9 %.
TintFit singleTint(std::uint64_t seed) {
  render::Random random(seed);
  std::vector<PanelReading> panels;
  for (int i = 0; i < 12; ++i) panels.push_back(made(1, 1 + i % 4, std::exp(0.09 * random.normal()), 0.2, random));
  for (PanelReading& panel : panels) panel.shares = {1};
  auto fit = fitTints(panels, std::vector{strongPrior()}, {.sigma = 0.2});
  EXPECT_TRUE(fit);
  return *fit;
}

TEST(KnownTints, FileGoesThereAndBack) {
  const TintFile file = tintFileOf(singleTint(3), {"teal, strong"}, 12, kSilver);
  EXPECT_EQ(file.film_weight, 22);
  const auto back = readTintFile(tintFileJson(file));
  ASSERT_TRUE(back) << sentence(back.error());
  ASSERT_EQ(back->tints.size(), 1U);
  EXPECT_EQ(back->tints[0].name, "teal, strong");
  for (std::size_t c = 0; c < 3; ++c) {
    EXPECT_NEAR(back->tints[0].fitted.mean.k[c] / file.tints[0].fitted.mean.k[c], 1, 1e-8);
    EXPECT_NEAR(back->tints[0].fitted.mean.beta[c], file.tints[0].fitted.mean.beta[c], 1e-8);
  }
  for (std::size_t i = 0; i < 36; ++i) EXPECT_NEAR(back->tints[0].fitted.covariance[i], file.tints[0].fitted.covariance[i], 1e-8);
  EXPECT_NEAR(back->film_sd, file.film_sd, 1e-9);
  EXPECT_GT(back->film_sd, 0.055);
}

TEST(KnownTints, TruthLiesWithinWhatIsKept) {
  int inside = 0, all = 0;
  for (std::uint64_t seed = 1; seed <= 12; ++seed) {
    const TintFile file = tintFileOf(singleTint(seed), {"teal, strong"}, 12, kSilver);
    for (std::size_t c = 0; c < 3; ++c, ++all)
      inside += std::abs(std::log(file.tints[0].fitted.mean.k[c] / madeTints()[0].k[c])) < 1.96 * std::sqrt(file.tints[0].fitted.covariance[7 * c]);
  }
  EXPECT_GE(inside, 0.85 * all);
}

TEST(KnownTints, AreLessSureInAnotherSeries) {
  const TintFile file = tintFileOf(singleTint(3), {"teal, strong"}, 12, kSilver);
  const TintPrior prior = priorOf(file.tints[0], 0);
  EXPECT_NEAR(prior.covariance[0] - file.tints[0].fitted.covariance[0], kSeenAgain * kSeenAgain, 1e-12);
  EXPECT_EQ(prior.covariance[1], file.tints[0].fitted.covariance[1]);
}

// Over another ground all absorbances may be higher or lower together: the three channels' variances and covariances grow alike.
TEST(KnownTints, AreLessSureOverAnotherGround) {
  const TintFile file = tintFileOf(singleTint(3), {"teal, strong"}, 12, kSilver);
  EXPECT_EQ(strangeGround(file, kSilver), 0);
  EXPECT_LT(strangeGround(file, {79.4, 0.2, 2}), 0.05);
  EXPECT_GT(strangeGround(file, {90, 0, 3}), 0.9);
  const TintPrior here = priorOf(file.tints[0], 0), there = priorOf(file.tints[0], 1);
  for (std::size_t a = 0; a < 6; ++a)
    for (std::size_t b = 0; b < 6; ++b) EXPECT_NEAR(there.covariance[6 * a + b] - here.covariance[6 * a + b], a < 3 && b < 3 ? 0.04 : 0, 1e-12) << a << b;
  TintFile unknown = file;
  unknown.ground.reset();
  EXPECT_EQ(strangeGround(unknown, {90, 0, 3}), 0);
  EXPECT_EQ(readTintFile(tintFileJson(file))->ground, kSilver);
  EXPECT_FALSE(readTintFile(tintFileJson(unknown))->ground);
}

TEST(KnownTints, BadFilesAreRefusedInOneSentence) {
  const std::string good = tintFileJson(tintFileOf(singleTint(3), {"teal, strong"}, 12, kSilver));
  const auto with = [&](const std::string& from, const std::string& to) {
    std::string text = good;
    const auto at = text.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    return text.replace(at, from.size(), to);
  };
  for (const std::string& text : {std::string(), std::string("[]"), std::string("{}"), with("\"format\": 1", "\"format\": 7"), with("\"name\"", "\"nome\""), with("\"k\"", "\"q\""),
                                  with("\"k\": [", "\"k\": [-"), with("\"film_sd\": ", "\"film_sd\": -"), with("\"covariance\": [", "\"covariance\": [[1],")}) {
    const auto file = readTintFile(text);
    ASSERT_FALSE(file) << text.substr(0, 80);
    EXPECT_EQ(file.error().code, Code::TintFileUnusable);
    EXPECT_EQ(sentence(file.error()).find('\n'), std::string::npos);
  }
}

}  // namespace
}  // namespace huewright
