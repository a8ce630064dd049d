#include "camera/profile_health.hpp"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>

#include "profile_sim.hpp"

namespace huewright {
namespace {

const FitOptions kRaw{DeviceKind::CameraRgb};

render::Sensor sensor(char camera = 'a', const std::string& light = "D65") { return {camera, render::illuminant(light)}; }

ProfileHealth healthOf(const std::vector<FitPatch>& patches, const FitOptions& options = kRaw, const HealthContext& context = {}) {
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
  auto veiled = sim::chartPatches(sensor());
  for (FitPatch& p : veiled) p.device = p.device + Vec3{0.02, 0.02, 0.02};
  EXPECT_TRUE(says(healthOf(veiled), "A veil of 3."));
}

TEST(ProfileHealth, TheLightsTemperatureIsToldOnlyWhereItCanBe) {
  const PlanckianLocus locus(*readObserver(render::calibFolder()));
  EXPECT_TRUE(says(healthOf(sim::chartPatches(sensor()), {}, {&locus}), "cannot be known from it"));
  EXPECT_TRUE(says(healthOf(sim::chartPatches(sensor()), kRaw, {&locus}), "a light that is known"));
  struct Row {
    const char* made_under;
    const char* light;
    double kelvin, worst;  // CIE 15: D50 5003, D65 6504, A 2856; the share that is allowed
  };
  for (const char camera : {'a', 'b', 'c'})
    for (const Row& r : {Row{"D65", "D65", 6504, 0.02}, Row{"D65", "D50", 5003, 0.08}, Row{"D50", "D65", 6504, 0.08}, Row{"D50", "A", 2856, 0.08}}) {
      const auto known = fitProfile(sim::Photos{sim::chartPatches(sensor(camera, r.made_under))}, kRaw);
      const HealthContext context{&locus, nativeMatrix(*known->profile.map, render::whiteOf(render::illuminant(r.made_under)))};
      const ProfileHealth h = healthOf(sim::chartPatches(sensor(camera, r.light), 0.3), kRaw, context);
      ASSERT_TRUE(h.light) << camera << r.light;
      EXPECT_NEAR(h.light->kelvin / r.kelvin, 1, r.worst) << camera << r.made_under << r.light;
      EXPECT_TRUE(says(h, "colour temperature of about"));
    }
}

}  // namespace
}  // namespace huewright
