#include "desk/key_cap.hpp"

#include <array>
#include <gtest/gtest.h>

#include "desk_frames.hpp"

namespace huewright::desk {
namespace {

struct CapFrames {
  explicit CapFrames(float width = 900, float text = 1)
      : frames(Page::Live, [this](DeskState&, Drawing& d) {
          const std::array caps{KeyCap{Do::StartStop, true, "Stop"}, KeyCap{Do::TakeStill, enabled}, KeyCap{Do::BeginAnew}};
          const Do what = keyCaps(caps, 90 * text_, d.look);
          if (what != Do::Count) done.push_back(what);
        }, width, 400, text), text_(text) {
    frames.frames(2);
  }
  bool enabled = true;
  std::vector<Do> done;
  Frames frames;
  float text_;
};

TEST(KeyCaps, KeyAndClickDoTheSame) {
  CapFrames c;
  c.frames.pressed(Do::TakeStill);
  c.frames.clicked(150, 60);
  c.frames.clicked(750, 60);
  EXPECT_EQ(c.done, (std::vector<Do>{Do::TakeStill, Do::StartStop, Do::BeginAnew}));
  c.frames.move(450, 60);
  c.frames.frames(2);
  EXPECT_TRUE(c.frames.tooltip());
}

TEST(KeyCaps, AGreyOneDoesNothing) {
  CapFrames c;
  c.enabled = false;
  c.frames.frames(1);
  c.frames.pressed(Do::TakeStill);
  c.frames.clicked(450, 60);
  EXPECT_TRUE(c.done.empty());
}

TEST(KeyCaps, TheyShareTheWidth) {
  for (const float text : {1.0f, 3.0f})
    for (const float width : {420.0f, 1280.0f}) {
      CapFrames c(width, text);
      EXPECT_LE(c.frames.tooWide(), 1.0f) << width << " " << text;
    }
}

}  // namespace
}  // namespace huewright::desk
