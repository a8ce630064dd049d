#include "judge/frame_noise.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <random>

#include "colour/delta_e.hpp"
#include "colour/rgb.hpp"

namespace huewright {
namespace {

/// A panel, a card, a grey beside each other; none of it corrected.
Reading twoColours() {
  Reading reading;
  reading.panels.resize(1);
  reading.panels[0].xyz = {0.10, 0.15, 0.20};
  reading.card.xyz = {0.11, 0.17, 0.21};
  for (ColourReading* c : {&reading.panels[0], &reading.card}) c->lab = toLab(c->xyz);
  return reading;
}

/// Frames whose colours differ by chance; each remembers some of the one before.
std::vector<FrameMeans> frames(std::size_t count, unsigned seed, double noise, double memory = 0, double light = 0) {
  std::mt19937 random(seed);
  std::normal_distribution<double> normal;
  const Reading reading = twoColours();
  std::vector<FrameMeans> all;
  std::array<Vec3, 3> last{};
  for (std::size_t f = 0; f < count; ++f) {
    for (Vec3& of : last)
      for (std::size_t k = 0; k < 3; ++k) of[k] = memory * of[k] + std::sqrt(1 - memory * memory) * normal(random);
    const double factor = 0.5 * (1 + light * normal(random));  // the camera's exposure is no matter
    const auto noisy = [&](const Vec3& xyz, std::size_t which) {
      Vec3 out;
      for (std::size_t k = 0; k < 3; ++k) out[k] = factor * xyz[k] * (1 + noise * last[which][k]);
      return out;
    };
    all.push_back({{noisy(toVec(reading.panels[0].xyz), 0), noisy(toVec(reading.card.xyz), 1)}, noisy({0.18, 0.19, 0.16}, 2)});
  }
  return all;
}

FrameNoise noiseOf(const std::vector<FrameMeans>& all) {
  FrameNoise noise;
  for (const FrameMeans& frame : all) noise.add(frame);
  return noise;
}

/// The standard deviation of the difference from frame to frame, computed from the frames as readings.
double scatterOf(const std::vector<FrameMeans>& all, std::size_t together) {
  const Reading reading = twoColours();
  const DeltaVector u = deltaVector(reading.panels[0].lab, reading.card.lab);
  std::vector<Vec3> deltas;
  for (std::size_t f = 0; f + together <= all.size(); f += together) {
    Vec3 panel{}, card{};
    for (std::size_t i = f; i < f + together; ++i)
      for (std::size_t k = 0; k < 3; ++k) {
        const double grey = (*all[i].grey)[k] / Vec3{0.18, 0.19, 0.16}[k];
        panel[k] += all[i].colours[0][k] / grey / static_cast<double>(together);
        card[k] += all[i].colours[1][k] / grey / static_cast<double>(together);
      }
    const Vec3 p = toVec(toLab(Xyz<D50>{panel[0], panel[1], panel[2]})) - toVec(reading.panels[0].lab), c = toVec(toLab(Xyz<D50>{card[0], card[1], card[2]})) - toVec(reading.card.lab);
    deltas.push_back(u.by_panel * p + u.by_card * c);
  }
  Vec3 mean{};
  for (const Vec3& d : deltas) mean = mean + (1.0 / static_cast<double>(deltas.size())) * d;
  double square = 0;
  for (const Vec3& d : deltas) square += dot(d - mean, d - mean) / static_cast<double>(deltas.size() - 1);
  return std::sqrt(square);
}

double noisePart(const FrameNoise& noise, double averaged) {
  Reading reading = twoColours();
  noise.put(reading, averaged);
  const DeltaVector u = deltaVector(reading.panels[0].lab, reading.card.lab);
  return std::sqrt(trace(covarianceOfDifference(reading, 0, u.by_panel, u.by_card, Part::Scatter)));
}

TEST(FrameNoise, TellsTheScatterOfOneFrame) {
  const auto all = frames(24, 4, 0.01);
  EXPECT_NEAR(*noiseOf(all).ofOneFrame(twoColours(), 0) / scatterOf(all, 1), 1, 0.03);
}

TEST(FrameNoise, TheLightIsTakenOutByTheGrey) {
  const auto steady = frames(24, 4, 0.01), flickering = frames(24, 4, 0.01, 0, 0.05);
  EXPECT_NEAR(*noiseOf(flickering).ofOneFrame(twoColours(), 0) / *noiseOf(steady).ofOneFrame(twoColours(), 0), 1, 0.3);
  auto without = flickering;
  for (FrameMeans& frame : without) frame.grey.reset();
  EXPECT_LT(*noiseOf(without).ofOneFrame(twoColours(), 0), 2 * *noiseOf(steady).ofOneFrame(twoColours(), 0));  // cancels in the difference
}

TEST(FrameNoise, WhatAnAverageKeepsIsWhatAveragesScatterBy) {
  double stated = 0;
  for (unsigned seed = 1; seed <= 20; ++seed) stated += noisePart(noiseOf(frames(24, seed, 0.01)), 16) / 20;
  EXPECT_NEAR(stated / scatterOf(frames(16 * 400, 7, 0.01), 16), 1, 0.1);
}

TEST(FrameNoise, FramesThatResembleEachOtherTellLess) {
  // Averages of sixteen frames, of which each remembers six tenths of the one before, scatter about twice as much.
  const double alone = scatterOf(frames(16 * 400, 7, 0.01), 16), alike = scatterOf(frames(16 * 400, 7, 0.01, 0.6), 16);
  EXPECT_NEAR(alike / alone, 1.9, 0.15);
  double stated = 0;
  for (unsigned seed = 1; seed <= 20; ++seed) stated += noisePart(noiseOf(frames(24, seed, 0.01, 0.6)), 16) / 20;
  EXPECT_GT(stated / alike, 0.65);
  EXPECT_LT(stated / alike, 1.3);
}

TEST(FrameNoise, ThreeFramesTellNothing) {
  FrameNoise noise = noiseOf(frames(3, 1, 0.01));
  EXPECT_FALSE(noise.ofOneFrame(twoColours(), 0));
  Reading reading = twoColours();
  noise.put(reading, 3);
  EXPECT_TRUE(reading.influences.empty());
  EXPECT_FALSE(noise.departure(frames(1, 2, 0.01).front()));
  noise.add(frames(1, 5, 0.01).front());
  EXPECT_TRUE(noise.ofOneFrame(twoColours(), 0));
  noise.clear();
  EXPECT_EQ(noise.frames(), 0U);
}

TEST(FrameNoise, AFrameThatDepartsIsSeen) {
  const FrameNoise noise = noiseOf(frames(24, 4, 0.003));
  const auto same = noise.departure(frames(1, 9, 0.003).front());
  ASSERT_TRUE(same);
  EXPECT_LT(same->sds, 6);
  auto other = frames(1, 9, 0.003).front();
  other.colours[0] = 1.05 * other.colours[0];
  const auto departed = noise.departure(other);
  EXPECT_GT(departed->sds, 8);
  EXPECT_NEAR(departed->relative, 0.05, 0.015);
}

TEST(FrameMeans, AreTheMeansOfLightInsideTheRegions) {
  const Size size{40, 20};
  std::vector<std::uint8_t> codes(3 * 40 * 20, 255);
  for (int y = 0; y < 20; ++y)
    for (int x = 0; x < 20; ++x)
      for (std::size_t k = 0; k < 3; ++k) codes[3 * static_cast<std::size_t>(40 * y + x) + k] = (x + y) % 2 == 0 ? 0 : 200;
  Regions regions;
  regions.panels = {toQuad({0, 0, 20, 20})};
  regions.card = toQuad({20, 0, 20, 20});
  regions.greys = {toQuad({20, 0, 20, 20}), toQuad({22, 2, 10, 10})};
  const FrameMeans means = frameMeans(codes, size, regions, Encoding::Auto);
  ASSERT_EQ(means.colours.size(), 2U);
  EXPECT_NEAR(means.colours[0][1], 0.5 * srgbToLinear(200.0 / 255), 0.01);
  EXPECT_NEAR(means.colours[1][1], 1, 1e-9);
  EXPECT_NEAR((*means.grey)[1], 1, 1e-9);
  EXPECT_NEAR(frameMeans(codes, size, regions, Encoding::Linear).colours[0][1], 0.5 * 200.0 / 255, 0.01);
  regions.panels = {toQuad({100, 100, 5, 5})};  // outside
  EXPECT_EQ(frameMeans(codes, size, regions, Encoding::Auto).colours[0][1], 0);
}

}  // namespace
}  // namespace huewright
