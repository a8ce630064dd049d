#include "mix/prediction.hpp"

#include <gtest/gtest.h>

#include "mix/mix_support.hpp"

namespace huewright {
namespace {

using namespace mixing;

Predictor predictorOf(std::vector<PanelReading> panels, double sigma) {
  auto fit = fitTints(panels, loosePriors(), {.sigma = sigma});
  EXPECT_TRUE(fit);
  return Predictor(std::move(*fit), std::move(panels));
}

Film filmAs(const PanelReading& panel) { return {panel.shares, panel.tint_part, panel.coats}; }

// The mean squared miss in units of the predicted covariance must be 3 (three axes): chi-square by hand, over many series of the renderer.
TEST(Prediction, CovarianceIsOfTheRightSizeOnTheRenderer) {
  render::Random random(3);
  double sum = 0;
  int count = 0, inside = 0;
  for (int trial = 0; trial < 60; ++trial) {
    std::vector<PanelReading> panels;
    render::Paint paint;
    paint.pair = render::kPairs[trial % 3];
    paint.ground = render::kGrounds[trial / 3 % 4];
    for (const double share : {0.25, 0.5})
      for (const double coats : {3.0, 5.0}) {
        paint.share = share;
        paint.coats = coats;
        panels.push_back(rendered(paint, 1 + 0.05 * random.normal(), 0.3, random));
      }
    const Predictor predictor = predictorOf(panels, 0.3);
    paint.share = random.uniform(0.2, 0.6);
    paint.coats = random.uniform(2.5, 5.5);
    const PanelReading next = rendered(paint, 1 + 0.05 * random.normal(), 0, random);
    const Prediction p = predictor.at(filmAs(next), next.ground);
    const Vec3 miss = toVec(next.lab) - toVec(p.lab);
    const double chi2 = dot(miss, inverse(p.with_film) * miss);
    sum += chi2;
    ++count;
    inside += chi2 < 7.815;  // 95 % of chi-square with 3 degrees of freedom; Abramowitz and Stegun, table 26.8 (from memory)
  }
  EXPECT_GT(sum / count, 1.0);
  EXPECT_LT(sum / count, 3.6);
  EXPECT_GE(inside, 0.88 * count);
}

// A colour that the law cannot have is still predicted where it was measured, and only there.
TEST(Prediction, ResidualsCorrectNearbyAndNotFarAway) {
  render::Random random(41);
  std::vector<PanelReading> panels;
  for (const double share : {0.2, 0.5})
    for (const double coats : {2.0, 4.0}) panels.push_back(made(share, coats, 1, 0, random));
  for (int i = 0; i < 4; ++i) {
    PanelReading odd = made(0.35, 3, 1, 0, random);
    odd.lab.b += 1.5;
    panels.push_back(odd);
  }
  const Predictor predictor = predictorOf(panels, 0.1);
  const auto plain = [&](const PanelReading& at) { return deltaE2000(filmLab(predictor.fit().tints, filmAs(at), at.ground), at.lab); };
  const auto corrected = [&](const PanelReading& at) { return deltaE2000(predictor.labAt(filmAs(at), at.ground), at.lab); };
  EXPECT_LT(corrected(panels.back()), 0.5 * plain(panels.back()));
  const PanelReading far = made(1, 9, 1, 0, random);
  EXPECT_NEAR(corrected(far), plain(far), 0.02);
  const Prediction at = predictor.at(filmAs(panels.back()), panels.back().ground);
  EXPECT_LT(deltaE2000(at.lab, predictor.labAt(filmAs(panels.back()), panels.back().ground)), 1e-9);
}

// Fitted over one ground of the renderer, predicted over the others: the stated spread holds the truth.
TEST(Prediction, OverOtherGroundsTheSpreadHolds) {
  render::Random random(19);
  int inside = 0, count = 0;
  double largest = 0;
  for (const render::Pair pair : render::kPairs)
    for (const render::Ground from : render::kGrounds) {
      render::Paint paint;
      paint.pair = pair;
      paint.ground = from;
      std::vector<PanelReading> panels;
      for (const double share : {0.25, 0.5})
        for (const double coats : {2.0, 4.0}) {
          paint.share = share;
          paint.coats = coats;
          panels.push_back(rendered(paint, 1, 0.2, random));
        }
      const Predictor predictor = predictorOf(panels, 0.2);
      for (const render::Ground to : render::kGrounds) {
        if (to == from) continue;
        paint.ground = to;
        paint.share = 0.4;
        paint.coats = 3;
        const PanelReading there = rendered(paint, 1, 0, random);
        const Prediction p = predictor.at(filmAs(there), there.ground);
        const Mat3 metric = deltaVector(p.lab, p.lab).by_panel;
        const double off = deltaE2000(p.lab, there.lab);
        inside += off < 2 * std::sqrt(trace(metric * p.covariance * transpose(metric)));
        largest = std::max(largest, off);
        ++count;
      }
    }
  EXPECT_GE(inside, 0.85 * count);
  EXPECT_GT(largest, 2);  // the spread is needed
}

TEST(Prediction, WithoutPanelsTheHomeGroundIsKnownBest) {
  auto fit = fitTints({}, loosePriors(), {});
  ASSERT_TRUE(fit);
  const Lab<D50> silver{79, 0, 2}, white{90, 0, 3};
  const Predictor homed(*fit, {}, silver), homeless(*fit, {});
  const std::vector<double> shares{0.3, 0.7};
  const Film film{shares, 1 / 7.0, 3};
  EXPECT_EQ(trace(homed.at(film, sharpened(silver)).covariance), trace(homeless.at(film, sharpened(silver)).covariance));
  EXPECT_GT(trace(homed.at(film, sharpened(white)).covariance), trace(homeless.at(film, sharpened(white)).covariance) + 0.1);
}

TEST(Prediction, IsLessSureAwayFromThePanels) {
  render::Random random(43);
  std::vector<PanelReading> panels;
  for (const double share : {0.2, 0.4})
    for (const double coats : {3.0, 5.0}) panels.push_back(made(share, coats, 1, 0.3, random));
  const Predictor predictor = predictorOf(panels, 0.3);
  const PanelReading near = made(0.3, 4, 1, 0, random), far = made(0.9, 4, 1, 0, random);
  EXPECT_LT(3 * trace(predictor.at(filmAs(near), near.ground).covariance), trace(predictor.at(filmAs(far), far.ground).covariance));
  EXPECT_GT(trace(predictor.at(filmAs(near), near.ground).with_film), trace(predictor.at(filmAs(near), near.ground).covariance));
}

}  // namespace
}  // namespace huewright
