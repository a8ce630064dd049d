#include "mix/reach.hpp"

#include <gtest/gtest.h>

#include "mix/mix_scene.hpp"

namespace huewright {
namespace {

using namespace mixing;

const Lab<D50> kReachGraphite{38, 0, -1};

TEST(ReachTest, AMixOfTheTintsIsReachable) {
  const Reach reach = reachOf(knowingAim(madeColour(0.37, 3.4)), {}, {});
  EXPECT_TRUE(reach.reachable);
  EXPECT_FALSE(reach.other_pigment);
}

TEST(ReachTest, MoreCoatsThanAllowedWouldDo) {
  MixLimits limits;
  limits.coats_high = 3;
  const Reach reach = reachOf(knowingAim(madeColour(1, 8)), limits, {});
  EXPECT_FALSE(reach.reachable);
  ASSERT_TRUE(reach.coats);
  EXPECT_EQ(*reach.coats, 8);
  EXPECT_EQ(reach.stays.substr(0, 7), "lighter");
  EXPECT_FALSE(reach.other_pigment);
}

TEST(ReachTest, AnotherKnownGroundWouldDo) {
  const Lab<D50> target = madeColour(0.3, 2, kReachGraphite);
  const Reach without = reachOf(knowingAim(target), {}, {});
  EXPECT_FALSE(without.reachable);
  const std::vector<NamedGround> grounds{{"pearl white", {90, 0, 3}}, {"graphite", kReachGraphite}};
  const Reach with = reachOf(knowingAim(target), {}, grounds);
  EXPECT_FALSE(with.reachable);
  ASSERT_TRUE(with.ground);
  EXPECT_EQ(*with.ground, "graphite");
}

TEST(ReachTest, ARedCannotComeFromTeal) {
  const Reach reach = reachOf(knowingAim({50, 40, 20}), {}, {{"graphite", kReachGraphite}});
  EXPECT_FALSE(reach.reachable);
  EXPECT_TRUE(reach.other_pigment);
  EXPECT_NE(reach.stays.find("greener"), std::string::npos);
  EXPECT_FALSE(reach.ground);
  EXPECT_FALSE(reach.coats);
}

}  // namespace
}  // namespace huewright
