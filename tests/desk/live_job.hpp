// A camera that runs and photos that came into a folder, invented: what the live page and the page across the room show.
#pragma once

#include "judged_job.hpp"

namespace huewright::fixtures {

inline constexpr std::array<std::uint8_t, 3> kLivePanel{70, 120, 110}, kLiveCard{50, 110, 115}, kCamePanel{90, 130, 100};

inline void addLive(SittingState& state, Size size = {1280, 720}) {
  LiveShown& live = state.live;
  live.running = true;
  live.source = "0";
  live.cameras = {"0", "2"};
  live.stills = "/pictures/stills";
  LiveNow& now = live.now;
  auto frame = std::make_shared<Frame>();
  frame->size = size;
  now.frame = frame;
  now.picture = patternPicture(size);
  const auto box = [](double x, double y, double w, double h) { return Quad{{{{x, y}, {x + w, y}, {x + w, y + h}, {x, y + h}}}}; };
  now.regions = {{box(200, 150, 200, 300)}, box(600, 150, 200, 200), {box(600, 450, 150, 100)}, {}};
  now.state = LiveState::Steady;
  now.state_words = "Steady: 42 frames are averaged.";
  now.noise_words = "Their noise moves the distance by \u0394E00 0.02; that of one frame alone by 0.12.";
  now.held = "Exposure and focus are held; this camera does not let its white balance be held, so keep the light as it is.";
  now.places = "Panel and card are looked for on the mat.";
  now.frames = 42;
  JudgedShown judged;
  judged.panels = {{"panel", {kLivePanel, false, "L* 47.0  a* -20.0  b* -3.0"}, Band::Nearly, "Nearly: a little too light", "The panel is a little lighter than the card.", "\u0394E00 1.4 (1.0 to 1.8), near enough is 1.0", 1.4, 1.0, 1.8, {"One coat more."}, {}}};
  judged.card = {kLiveCard, false, "L* 43.0  a* -20.0  b* -9.0"};
  now.judged = judged;
}

inline void addArrivals(SittingState& state) {
  state.followed.running = state.followed.came_last = true;
  state.followed.folder = "/photos/in";
  Arrival good, bad;
  good.id = 2;
  good.file = "/photos/in/IMG_2.jpg";
  good.name = "IMG_2.jpg";
  good.headline = "There";
  good.sentence = "The panel matches the card.";
  good.band = Band::There;
  good.panel = {kCamePanel, false, "L* 50.0  a* -18.0  b* 12.0"};
  good.card = {{60, 130, 131}, false, "L* 50.0  a* -23.0  b* -6.0"};
  bad.id = 1;
  bad.file = "/photos/in/IMG_1.jpg";
  bad.name = "IMG_1.jpg";
  bad.sentence = "No mat was found in it.";
  bad.problem = true;
  state.arrivals = {good, bad};
}

}  // namespace huewright::fixtures
