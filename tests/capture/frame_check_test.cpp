#include "capture/frame_check.hpp"

#include <gtest/gtest.h>
#include <string>
#include <vector>

#include "support/fake_frames.hpp"
#include "support/moving_picture.hpp"

namespace huewright {
namespace {

using enum FrameState;
using fixtures::filledBelow;
using fixtures::noisyFrame;
using fixtures::plainFrame;
using fixtures::repeatedBelow;

struct CheckCase {
  std::string what;
  std::vector<Frame> frames;
  std::vector<FrameState> states;
  bool live = true;
};

Frame withBytes(Frame frame, std::size_t bytes) {
  frame.rgb.resize(bytes);
  return frame;
}

/// A plain colour whose three channels differ.
Frame plainColour() {
  Frame frame = plainFrame(10);
  for (std::size_t i = 0; i < frame.rgb.size(); i += 3) frame.rgb[i] = 200;
  return frame;
}

Frame onePixelOff(Frame frame) {
  frame.rgb.back() ^= 1;
  return frame;
}

// At 60 rows a 32nd is less than two, so the fewest rows count, eight. At 640 rows it is twenty.
constexpr Size kTallSize{8, 640};

const std::vector<CheckCase>& checkCases() {
  static const std::vector<CheckCase> kCases{
      {"noise", {noisyFrame(1), noisyFrame(2), noisyFrame(3)}, {Good, Good, Good}},
      {"a black scene with noise", {noisyFrame(1, 1), noisyFrame(2, 1), noisyFrame(3, 1)}, {Good, Good, Good}},
      {"a bright scene with noise", {noisyFrame(1, 254), noisyFrame(2, 254)}, {Good, Good}},
      {"no pixels", {Frame{}, noisyFrame(1), Frame{}}, {Empty, Good, Empty}},
      {"fewer bytes than pixels", {withBytes(noisyFrame(1), 30), noisyFrame(2)}, {Empty, Good}},
      {"all black", {noisyFrame(1), plainFrame(0), noisyFrame(2)}, {Good, Empty, Good}},
      {"all of one colour", {plainColour(), onePixelOff(plainColour())}, {Empty, Good}},
      {"a frame given twice", {noisyFrame(1), noisyFrame(1), noisyFrame(2), noisyFrame(2)}, {Good, Good, Good, Good}},
      {"a frame given thrice and on", {noisyFrame(1), noisyFrame(1), noisyFrame(1), noisyFrame(1), noisyFrame(2)}, {Good, Good, Frozen, Frozen, Good}},
      {"a bit apart", {noisyFrame(1), onePixelOff(noisyFrame(1)), noisyFrame(1), onePixelOff(noisyFrame(1))}, {Good, Good, Good, Good}},
      {"a film may stand still", {noisyFrame(1), noisyFrame(1), noisyFrame(1), noisyFrame(1)}, {Good, Good, Good, Good}, false},
      {"grey below", {noisyFrame(1), filledBelow(noisyFrame(2), 8, 128), noisyFrame(3)}, {Good, Half, Good}},
      {"black below", {noisyFrame(1), filledBelow(noisyFrame(2), 30, 0), noisyFrame(3)}, {Good, Half, Good}},
      {"the last row over and over", {noisyFrame(1), repeatedBelow(noisyFrame(2), 7), repeatedBelow(noisyFrame(3), 40)}, {Good, Half, Half}},
      {"seven rows are too few", {noisyFrame(1), filledBelow(noisyFrame(2), 7, 128), repeatedBelow(noisyFrame(3), 6)}, {Good, Good, Good}},
      {"a 32nd of many rows", {noisyFrame(1, 90, kTallSize), filledBelow(noisyFrame(2, 90, kTallSize), 19, 128), filledBelow(noisyFrame(3, 90, kTallSize), 20, 128)}, {Good, Good, Half}},
      {"burnt-out paper from the start", {filledBelow(noisyFrame(1), 30, 255), filledBelow(noisyFrame(2), 30, 255)}, {Good, Good}},
      {"paper that begins to burn out", {noisyFrame(1), filledBelow(noisyFrame(2), 30, 255)}, {Good, Good}},
      {"a plain lower edge from the start", {filledBelow(noisyFrame(1), 30, 7), filledBelow(noisyFrame(2), 30, 7)}, {Good, Good}},
      {"it ends, and comes back", {filledBelow(noisyFrame(1), 30, 7), noisyFrame(2), filledBelow(noisyFrame(3), 30, 7)}, {Good, Good, Half}},
      {"half frames that are the same", {noisyFrame(1), filledBelow(noisyFrame(2), 8, 9), filledBelow(noisyFrame(2), 8, 9), filledBelow(noisyFrame(2), 8, 9)}, {Good, Half, Half, Frozen}},
      {"another size", {noisyFrame(1), noisyFrame(2, 90, kTallSize), noisyFrame(3, 90, kTallSize), noisyFrame(4)}, {Good, OtherSize, Good, OtherSize}},
      {"an empty frame has no size", {noisyFrame(1), Frame{}, noisyFrame(2)}, {Good, Empty, Good}},
  };
  return kCases;
}

TEST(FrameCheck, EachCase) {
  for (const CheckCase& c : checkCases()) {
    ASSERT_EQ(c.frames.size(), c.states.size()) << c.what;
    FrameCheck check(c.live);
    for (std::size_t i = 0; i < c.frames.size(); ++i) EXPECT_EQ(check.look(c.frames[i]), c.states[i]) << c.what << ", frame " << i;
  }
}

TEST(FrameCheck, StartingAnewKeepsTheSize) {
  FrameCheck check(true);
  EXPECT_EQ(check.look(noisyFrame(1)), Good);
  EXPECT_EQ(check.look(noisyFrame(1)), Good);
  check.restart();
  EXPECT_EQ(check.look(noisyFrame(1)), Good);  // not the third
  check.restart();
  EXPECT_EQ(check.look(filledBelow(noisyFrame(2), 30, 7)), Good);  // there is none before it
  check.restart();
  EXPECT_EQ(check.look(noisyFrame(3, 90, kTallSize)), OtherSize);
}

}  // namespace
}  // namespace huewright
