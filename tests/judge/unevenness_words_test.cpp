#include "judge/unevenness_words.hpp"

#include <gtest/gtest.h>

namespace huewright {
namespace {

Unevenness even() {
  Unevenness u;
  u.mottle_known = u.edge_known = true;
  u.mottle = 0.2;
  u.mottle_sd = 0.05;
  u.centre = {45, -28, -10};
  u.edge = {45.1, -28, -10};
  u.edge_de00 = 0.1;
  u.edge_sd = 0.1;
  u.edge_covariance = 0.01 * Mat3::identity();
  u.slope = 0.3;
  u.slope_sd = 0.1;
  u.blocks = 432;
  return u;
}

Unevenness withEdge(const Lab<D50>& edge, double sd) {
  Unevenness u = even();
  u.edge = edge;
  u.edge_de00 = 1.27;  // only printed and compared with its deviation; the words come from the colours
  u.edge_minus_centre = labDifference(u.edge, u.centre);
  u.edge_sd = sd;
  u.edge_covariance = sd * sd * Mat3::identity();
  return u;
}

TEST(UnevennessSentence, Even) {
  EXPECT_EQ(unevennessSentence(even()), "The panel is even: its parts differ by no more than the eye sees.");
  EXPECT_EQ(unevennessSentence(even(), "panel 2"), "Panel 2 is even: its parts differ by no more than the eye sees.");
}

TEST(UnevennessSentence, Mottled) {
  Unevenness u = even();
  u.mottle = 0.83;
  EXPECT_EQ(unevennessSentence(u), "The panel is mottled: places differ by about ±0.8. Its edges are like its middle.");
}

TEST(UnevennessSentence, Edges) {
  const Unevenness u = withEdge({43.9, -27.5, -11.2}, 0.15);
  EXPECT_EQ(unevennessSentence(u), "The panel is not mottled. Its edges are deeper and bluer than its middle by about 1.3.");
  Unevenness both = u;
  both.mottle = 1.26;
  EXPECT_EQ(unevennessSentence(both),
            "The panel is mottled: places differ by about ±1.3. Its edges are deeper and bluer than its middle by about 1.3.");
}

TEST(UnevennessSentence, AnEdgeWithoutASureDirectionStillHasASize) {
  Unevenness u = withEdge({44.2, -27.5, -11.0}, 0.15);
  u.edge_covariance = Mat3::identity();
  EXPECT_NE(unevennessSentence(u).find("Its edges differ from its middle by about 1."), std::string::npos) << unevennessSentence(u);
}

TEST(UnevennessSentence, TooUnsureToSay) {
  Unevenness mottle = even();
  mottle.mottle = 0.9;
  mottle.mottle_sd = 0.5;
  EXPECT_EQ(unevennessSentence(mottle), "Can't say whether the panel is mottled. Its edges are like its middle.");
  mottle.mottle = 0.1;  // it may well be more than the eye sees
  EXPECT_EQ(unevennessSentence(mottle), "Can't say whether the panel is mottled. Its edges are like its middle.");
  const Unevenness edge = withEdge({43.9, -27.5, -11.2}, 0.8);
  EXPECT_EQ(unevennessSentence(edge), "The panel is not mottled. Can't say whether its edges differ from its middle.");
}

TEST(UnevennessSentence, NothingKnown) {
  Unevenness u = even();
  u.mottle_known = u.edge_known = false;
  EXPECT_EQ(unevennessSentence(u), "Can't say how even the panel is: too little of it shows clearly enough.");
  u.mottle_known = true;
  EXPECT_EQ(unevennessSentence(u), "The panel is not mottled. Can't say whether its edges differ from its middle.");
}

TEST(UnevennessSentence, ASlopeIsNotCalledEven) {
  Unevenness u = even();
  u.slope = 2.14;
  EXPECT_EQ(unevennessSentence(u), "The panel has no mottle, and its edges are like its middle. From one end to the other it changes by about 2.1: "
                                   "film or light, the photo cannot tell.");
  u.slope_sd = 1;
  EXPECT_EQ(unevennessSentence(u), "The panel is even: its parts differ by no more than the eye sees.");
}

}  // namespace
}  // namespace huewright
