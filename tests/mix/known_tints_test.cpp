#include "mix/known_tints.hpp"

#include <gtest/gtest.h>

#include "mix/mix_support.hpp"
#include "mix/prediction.hpp"

namespace huewright {
namespace {

using namespace mixing;

const Lab<D50> kSilver{79, 0, 2};

/// The made strong tint from its own panels, by a painter whose hand varies by 9 % at four coats.
TintFit singleTint(std::uint64_t seed) {
  render::Random random(seed);
  std::vector<PanelReading> panels;
  for (int i = 0; i < 12; ++i) {
    const double coats[] = {1.0 + i % 4};
    panels.push_back(made(1, coats[0], render::sprayedFilms(coats, 0.09, 0.5, random).front(), 0.2, random));
  }
  for (PanelReading& panel : panels) panel.shares = {1};
  auto fit = fitTints(panels, std::vector{strongPrior()}, {.sigma = 0.2});
  EXPECT_TRUE(fit);
  return *fit;
}

TEST(KnownTints, FileGoesThereAndBack) {
  const TintFile file = tintFileOf(singleTint(3), {"teal, strong"}, kSilver);
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
    const TintFile file = tintFileOf(singleTint(seed), {"teal, strong"}, kSilver);
    for (std::size_t c = 0; c < 3; ++c, ++all)
      inside += std::abs(std::log(file.tints[0].fitted.mean.k[c] / madeTints()[0].k[c])) < 1.96 * std::sqrt(file.tints[0].fitted.covariance[7 * c]);
  }
  EXPECT_GE(inside, 0.85 * all);
}

TEST(KnownTints, AreLessSureInAnotherSeries) {
  const TintFile file = tintFileOf(singleTint(3), {"teal, strong"}, kSilver);
  const TintPrior prior = priorOf(file.tints[0], 0);
  EXPECT_NEAR(prior.covariance[0] - file.tints[0].fitted.covariance[0], kSeenAgain * kSeenAgain, 1e-12);
  EXPECT_EQ(prior.covariance[1], file.tints[0].fitted.covariance[1]);
}

// Over another ground all absorbances may be higher or lower together: the three channels' variances and covariances grow alike.
TEST(KnownTints, AreLessSureOverAnotherGround) {
  const TintFile file = tintFileOf(singleTint(3), {"teal, strong"}, kSilver);
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

/// Both made tints from a series of two shares at two numbers of coats, so that what one is given the other lacks.
TintFit pairOfTints() {
  render::Random random(8);
  std::vector<PanelReading> panels;
  for (const double share : {0.3, 0.5})
    for (const double coats : {3.0, 5.0}) panels.push_back(made(share, coats, 1, 0.2, random));
  auto fit = fitTints(panels, loosePriors(), {.sigma = 0.2});
  EXPECT_TRUE(fit);
  return *fit;
}

Prediction mixOfBoth(const TintFit& fit) {
  const std::vector<double> shares{0.4, 0.6};
  return Predictor(fit, {}).at({shares, 1 / 7.0, 4}, sharpened(kSilver));
}

/// The pair out of a file, before a panel of the next series.
TintFit outOfFile(const TintFile& file, bool together) {
  const std::vector<TintPrior> priors{priorOf(file.tints[0], 0), priorOf(file.tints[1], 0)};
  FitSettings settings;
  if (together) settings.together = jointPrior(file, std::vector<std::size_t>{0, 1}, 0);
  auto fit = fitTints({}, priors, settings);
  EXPECT_TRUE(fit);
  return *fit;
}

TEST(KnownTints, APairOfAFilePredictsAMixAsTheSeriesDid) {
  const TintFit series = pairOfTints();
  const auto file = readTintFile(tintFileJson(tintFileOf(series, {"teal, strong", "aqua, weak"}, kSilver)));
  ASSERT_TRUE(file) << sentence(file.error());
  const Prediction before = mixOfBoth(series), after = mixOfBoth(outOfFile(*file, true)), apart = mixOfBoth(outOfFile(*file, false));
  EXPECT_LT(deltaE2000(after.lab, before.lab), 1e-3);
  // What is added is kSeenAgain in each ln k and β, and nothing else.
  const std::vector<double> shares{0.4, 0.6};
  const FilmColour colour = filmColour(series.tints, {shares, 1 / 7.0, 4}, sharpened(kSilver));
  double added = 0;
  for (std::size_t i = 0; i < 6; ++i) added += kSeenAgain * kSeenAgain * (dot(colour.by_ln_k[i], colour.by_ln_k[i]) + dot(colour.by_beta[i], colour.by_beta[i]));
  EXPECT_NEAR(std::sqrt(trace(after.covariance) - added) / std::sqrt(trace(before.covariance)), 1, 0.01);
  EXPECT_GT(std::sqrt(trace(apart.covariance) - added) / std::sqrt(trace(before.covariance)), 2);
}

TEST(KnownTints, OneTintOfAPairIsAsBefore) {
  const TintFile file = tintFileOf(pairOfTints(), {"teal, strong", "aqua, weak"}, kSilver);
  TintFile old = file;
  old.together.clear();
  for (const std::size_t t : {0U, 1U}) {
    EXPECT_EQ(jointPrior(file, std::vector<std::size_t>{t}, 0.7), priorOf(old.tints[t], 0.7).covariance);
    EXPECT_EQ(jointPrior(file, std::vector<std::size_t>{t}, 0.7), jointPrior(old, std::vector<std::size_t>{t}, 0.7));
  }
}

// By their places, in whatever order they are asked for; and a strange ground deepens both alike.
TEST(KnownTints, JointPriorHasTheRightBlocks) {
  const TintFit fit = pairOfTints();
  const TintFile file = tintFileOf(fit, {"teal, strong", "aqua, weak"}, kSilver);
  const std::vector<double> there = jointPrior(file, std::vector<std::size_t>{0, 1}, 0), back = jointPrior(file, std::vector<std::size_t>{1, 0}, 0),
                            strange = jointPrior(file, std::vector<std::size_t>{0, 1}, 1);
  for (std::size_t a = 0; a < 6; ++a)
    for (std::size_t b = 0; b < 6; ++b) {
      EXPECT_EQ(there[12 * a + 6 + b], fit.covariance[12 * a + 6 + b]);
      EXPECT_EQ(back[12 * (6 + a) + b], fit.covariance[12 * a + 6 + b]);
      EXPECT_NEAR(strange[12 * a + 6 + b] - there[12 * a + 6 + b], a < 3 && b < 3 ? 0.04 : 0, 1e-12);
    }
}

TEST(KnownTints, OldFilesWithoutAGroupStillRead) {
  TintFile file = tintFileOf(pairOfTints(), {"teal, strong", "aqua, weak"}, kSilver);
  ASSERT_EQ(file.together.size(), 1U);
  file.together.clear();
  const std::string text = tintFileJson(file);
  EXPECT_EQ(text.find("together"), std::string::npos);
  ASSERT_TRUE(readTintFile(text));
  const std::vector<double> joint = jointPrior(*readTintFile(text), std::vector<std::size_t>{0, 1}, 0);
  for (std::size_t a = 0; a < 6; ++a)
    for (std::size_t b = 0; b < 6; ++b) EXPECT_EQ(joint[12 * a + 6 + b], 0);
}

TEST(KnownTints, AGroupThatCannotBeIsRefusedByName) {
  const TintFile good = tintFileOf(pairOfTints(), {"teal, strong", "aqua, weak"}, kSilver);
  const auto said = [](const TintFile& file) {
    const auto read = readTintFile(tintFileJson(file));
    return read ? std::string("accepted") : sentence(read.error());
  };
  const auto changed = [&](auto change) {
    TintFile file = good;
    change(file);
    return said(file);
  };
  EXPECT_EQ(said(good), "accepted");
  const struct {
    std::string got;
    const char* want;
  } kRows[] = {
      {changed([](TintFile& f) { f.together[0].covariance[7] += 0.01; }), "together of \"teal, strong\", \"aqua, weak\" is not symmetric"},
      {changed([](TintFile& f) { f.together[0].covariance[6] = f.together[0].covariance[72] = 2 * std::sqrt(f.together[0].covariance[0] * f.together[0].covariance[78]); }), "is not positive definite"},
      {changed([](TintFile& f) { f.together[0].covariance[0] *= 1.01; }), "does not agree with the covariance of \"teal, strong\" alone"},
      {changed([](TintFile& f) { f.together[0].names[1] = "moss"; }), "names \"moss\", which is none of its tints"},
      {changed([](TintFile& f) { f.together[0].names[1] = "teal, strong"; }), "names \"teal, strong\" twice"},
      {changed([](TintFile& f) { f.together.push_back(f.together[0]); }), "names \"teal, strong\" twice"},
      {changed([](TintFile& f) { f.together[0] = {{"teal, strong"}, f.tints[0].fitted.covariance}; }), "does not name two tints"},
  };
  for (const auto& one : kRows) EXPECT_NE(one.got.find(one.want), std::string::npos) << one.want << ": " << one.got;
  std::string text = tintFileJson(good);
  const auto at = text.rfind("\"covariance\": [") + 15;
  EXPECT_NE(sentence(readTintFile(std::string(text).replace(at, 1, "[1], ")).error()).find("is not 12 rows of 12 numbers"), std::string::npos);
  const auto list = text.find("\"together\": [") + 12;
  EXPECT_NE(sentence(readTintFile(text.substr(0, list) + "3\n}\n").error()).find("is not a list"), std::string::npos);
}

TEST(KnownTints, BadFilesAreRefusedInOneSentence) {
  const std::string good = tintFileJson(tintFileOf(singleTint(3), {"teal, strong"}, kSilver));
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
