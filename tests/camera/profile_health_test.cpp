#include "camera/profile_health.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>

#include "profile_sim.hpp"

namespace huewright {
namespace {

using sim::sensor;

const FitOptions kRawFit{DeviceKind::CameraRgb};

ProfileHealth healthOf(const std::vector<FitPatch>& patches, const FitOptions& options = kRawFit, const HealthContext& context = {}) {
  return profileHealth(*fitProfile(sim::Photos{patches}, options), context);
}

bool says(const ProfileHealth& h, const std::string& words) {
  return std::ranges::any_of(h.sentences, [&](const std::string& s) { return s.find(words) != std::string::npos; });
}

TEST(ProfileHealth, AGoodChartIsGoodAndNothingElseIsSaid) {
  const ProfileHealth h = healthOf(sim::chartPatches(sensor(), 0.6, 0.002));
  EXPECT_EQ(h.health, Health::Good);
  ASSERT_EQ(h.sentences.size(), 1u);
  EXPECT_TRUE(h.sentences[0].starts_with("The profile is good: colours come out 0.")) << h.sentences[0];
  EXPECT_TRUE(h.worst.empty());
  EXPECT_TRUE(h.left_out.empty());
}

TEST(ProfileHealth, ABadPatchIsNamed) {
  auto patches = sim::chartPatches(sensor());
  patches[5].device = patches[5].device + Vec3{0.1, 0.12, 0.08};  // glare
  const ProfileHealth h = healthOf(patches);
  ASSERT_FALSE(h.worst.empty());
  EXPECT_EQ(h.worst[0], "bluish green");
  EXPECT_TRUE(says(h, "bluish green"));
  EXPECT_NE(h.health, Health::NotUsable);
}

TEST(ProfileHealth, AChartTheWrongWayRoundIsNotUsable) {
  auto patches = sim::chartPatches(sensor());
  for (std::size_t i = 0; i < 9; ++i) std::swap(patches[i].device, patches[17 - i].device);
  const ProfileHealth h = healthOf(patches);
  EXPECT_EQ(h.health, Health::NotUsable);
  EXPECT_TRUE(h.sentences[0].find("right way round") != std::string::npos);
}

TEST(ProfileHealth, ClippingNoiseAndFewPatchesAreSaid) {
  auto burnt = sim::chartPatches(sensor());
  burnt[18].clipped = 0.9;
  const ProfileHealth h = healthOf(burnt);
  EXPECT_EQ(h.health, Health::Usable);
  EXPECT_EQ(h.left_out, std::vector<std::string>{burnt[18].name});
  EXPECT_TRUE(says(h, burnt[18].name));

  const ProfileHealth noisy = healthOf(sim::chartPatches(sensor(), 0.6, 0.02));
  EXPECT_NEAR(noisy.noise, 0.02, 0.002);
  EXPECT_NE(noisy.health, Health::Good);
  EXPECT_TRUE(says(noisy, "lower sensitivity"));

  auto few = sim::chartPatches(sensor());
  few.erase(few.begin(), few.begin() + 8);
  EXPECT_TRUE(says(healthOf(few), "Only 16 patches"));
}

TEST(ProfileHealth, AFallOffOverTheChartIsMeasured) {
  auto patches = sim::chartPatches(sensor());
  for (FitPatch& p : patches) p.device = std::exp(0.16 * p.at.x / 500) * p.device;
  const ProfileHealth h = healthOf(patches);
  EXPECT_NEAR(h.unevenness, 0.16, 0.04);
  EXPECT_TRUE(says(h, "falls off"));
  EXPECT_LT(healthOf(sim::chartPatches(sensor())).unevenness, 0.03);
}

TEST(ProfileHealth, EncodingsAndVeilsAreSaid) {
  auto patches = sim::chartPatches(sensor());
  for (FitPatch& p : patches)
    for (double& v : p.device) v = v * v;
  EXPECT_TRUE(says(healthOf(patches, {}), "--encoding linear"));
  EXPECT_TRUE(says(healthOf(patches), "raw file do not follow"));
  // What was read as it is stored can only have a strange tone curve.
  EXPECT_FALSE(says(healthOf(patches, {}, {nullptr, {}, true}), "--encoding"));
  auto flat = sim::chartPatches(sensor());
  for (FitPatch& p : flat)
    for (double& v : p.device) v = std::pow(v, 0.45);
  EXPECT_FALSE(says(healthOf(flat, {}), "--encoding"));
  EXPECT_TRUE(says(healthOf(flat, {}), "tone curve was straightened"));
  EXPECT_TRUE(says(healthOf(flat, {}, {nullptr, {}, true}), "--encoding srgb"));
  auto veiled = sim::chartPatches(sensor());
  for (FitPatch& p : veiled) p.device = p.device + Vec3{0.02, 0.02, 0.02};
  EXPECT_TRUE(says(healthOf(veiled), "A veil of 3."));
}

TEST(ProfileHealth, TheLightsTemperatureIsToldOnlyWhereItCanBe) {
  const PlanckianLocus locus(*readObserver(render::calibFolder()));
  EXPECT_TRUE(says(healthOf(sim::chartPatches(sensor()), {}, {&locus}), "white balance is already applied"));
  EXPECT_TRUE(says(healthOf(sim::chartPatches(sensor()), kRawFit, {&locus}), "no colour matrix of its camera"));
  const ProfileHealth h = healthOf(sim::chartPatches(sensor('a', "D50")), kRawFit, {&locus, inverse(render::colourMatrix('a'))});
  ASSERT_TRUE(h.light);
  EXPECT_NEAR(h.light->cct.kelvin, 5003, 100);  // CIE 15:2018
  EXPECT_TRUE(says(h, "The light was about 5")) << h.sentences.back();
}

TEST(ProfileHealth, NothingIsSaidOfTheLightWhenTheChartIsNotUsable) {
  const PlanckianLocus locus(*readObserver(render::calibFolder()));
  auto patches = sim::chartPatches(sensor());
  for (std::size_t i = 0; i < 9; ++i) std::swap(patches[i].device, patches[17 - i].device);
  const ProfileHealth h = healthOf(patches, kRawFit, {&locus, inverse(render::colourMatrix('a'))});
  ASSERT_EQ(h.health, Health::NotUsable);
  EXPECT_FALSE(h.light);
  EXPECT_FALSE(says(h, "The light"));
}

}  // namespace
}  // namespace huewright
