#include "scene/scene.hpp"

#include <cmath>
#include <gtest/gtest.h>
#include <limits>

namespace huewright {
namespace {

constexpr Size kPicture{400, 300};

Regions good() { return {{toQuad({10, 10, 100, 100})}, toQuad({150, 10, 100, 100}), {toQuad({300, 10, 50, 50})}}; }

TEST(Arrange, AcceptsGoodRegions) {
  const auto scene = arrange(good(), kPicture);
  ASSERT_TRUE(scene);
  EXPECT_EQ(scene->regions.panels.size(), 1u);
}

TEST(Arrange, TurnsCornersClockwise) {
  Regions r = good();
  r.card = Quad{{{{150, 10}, {150, 110}, {250, 110}, {250, 10}}}};  // counter-clockwise
  const auto scene = arrange(r, kPicture);
  ASSERT_TRUE(scene);
  EXPECT_GT(signedArea(*scene->regions.card), 0);
  EXPECT_EQ(scene->regions.card->corners[0], (Point{150, 10}));
}

TEST(Arrange, RefusesWhatCannotBeRead) {
  struct Row {
    const char* what;
    Quad card;
    Code code;
  };
  const double nan = std::numeric_limits<double>::quiet_NaN();
  for (const Row& row : {Row{"outside right", toQuad({350, 100, 100, 50}), Code::RegionOutside},
                         Row{"outside above", Quad{{{{150, -1}, {250, 0}, {250, 100}, {150, 100}}}}, Code::RegionOutside},
                         Row{"too small", toQuad({150, 10, 100, 7}), Code::RegionTooSmall},
                         Row{"crossed", Quad{{{{150, 10}, {250, 110}, {250, 10}, {150, 110}}}}, Code::RegionFolded},
                         Row{"dented", Quad{{{{150, 10}, {250, 10}, {170, 30}, {150, 110}}}}, Code::RegionFolded},
                         Row{"not a number", Quad{{{{nan, 10}, {250, 10}, {250, 110}, {150, 110}}}}, Code::RegionOutside},
                         Row{"so far out that digits are lost", Quad{{{{1e300, 1}, {1e300, 1}, {1e300, 4}, {1e300, 4}}}}, Code::RegionOutside},
                         Row{"three corners in a line", Quad{{{{150, 10}, {250, 10}, {250, 10}, {150, 110}}}}, Code::RegionFolded},
                         Row{"on the panel", toQuad({60, 60, 100, 100}), Code::RegionsOverlap}}) {
    Regions r = good();
    r.card = row.card;
    const auto scene = arrange(r, kPicture);
    ASSERT_FALSE(scene) << row.what;
    EXPECT_EQ(scene.error().code, row.code) << row.what;
  }
}

TEST(Arrange, TouchingRegionsAndTheVeryEdgeAreFine) {
  Regions r = good();
  r.card = toQuad({110, 10, 190, 290});
  EXPECT_TRUE(arrange(r, kPicture));
}

TEST(Arrange, AtMostTwelvePanels) {
  Regions r;
  for (int i = 0; i < 13; ++i) r.panels.push_back(toQuad({i * 20, 10, 15, 15}));
  const auto scene = arrange(r, kPicture);
  ASSERT_FALSE(scene);
  EXPECT_EQ(scene.error().code, Code::TooManyPanels);
}

TEST(Names, ReadLikeSpeech) {
  EXPECT_EQ(panelName(0, 1), "the panel");
  EXPECT_EQ(panelName(2, 4), "panel C");
  EXPECT_EQ(greyName(0, 1), "the grey patch");
  EXPECT_EQ(greyName(1, 2), "grey patch 2");
}

}  // namespace
}  // namespace huewright
