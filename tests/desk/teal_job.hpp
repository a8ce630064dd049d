// A series and what was found out from it, invented: what the mixes page shows.
#pragma once

#include "sitting/state.hpp"

namespace huewright::desk {

inline SeriesPanel tealPanel(double strong, double weak, double coats, const Lab<D50>& lab) {
  SeriesPanel panel;
  panel.strong = strong;
  panel.weak = weak;
  panel.coats = coats;
  panel.lab = lab;
  panel.stage = "cleared";
  return panel;
}

/// Three readings; the last one is left out. The next mix is 2:3 at 4 coats.
inline SittingState tealJob() {
  SittingState state;
  Series series;
  series.carrier_per_tint = 5;
  series.ground = NamedGround{"bright silver", {78.9, 0.1, 2.0}};
  series.target = Lab<D50>{48.0, -23.7, -7.2};
  series.panels = {tealPanel(1, 3, 3, {58.6, -17.8, -4.9}), tealPanel(1, 1, 3, {51.4, -21.7, -6.7}), tealPanel(1, 1, 5, {70, 3, 3})};
  series.grounds = {{"pearl white", {89.6, -0.8, 3.9}}};
  series.strong_name = "teal, strong";
  series.weak_name = "aqua, weak";
  state.plan.series = series;
  SeriesShown& shown = state.series;
  const Swatch teal{{54, 128, 132}, false, "L* 48.0  a* -23.7  b* -7.2"};
  shown.target = shown.next = shown.ground = teal;
  shown.rows = {{teal, "panel 1 (1:3, 3 coats)", "", 9.1}, {teal, "panel 2 (1:1, 3 coats)", "", 3.6}, {teal, "panel 3 (1:1, 5 coats)", "It does not go with the other panels, so the model leaves it out.", 30.0}};
  auto report = std::make_shared<AdviseReport>();
  NextMix next;
  next.choice.parts = {2, 3};
  next.choice.coats = 4;
  next.choice.de00 = 0.4;
  next.choice.high = 1.1;
  report->advice.next = next;
  report->advice.sentence = "Spray 2:3 at 4 coats next: more of the strong tint, and one coat more.";
  shown.advice = report;
  shown.next_words = "2:3 at 4 coats";
  shown.alternatives = {"1:1 at 3 coats, expected 1.2 (0.4 to 2.3): fewer coats, but they may stripe."};
  shown.cautions = {"Every coat's film varies, and that alone moves the next panel by about half a \u0394E00."};
  auto plot = std::make_shared<SeriesPlot>();
  plot->coats = "4 coats";
  for (int i = 0; i <= 20; ++i) plot->curve.push_back({i / 20.0, std::abs(i / 20.0 - 0.4) * 20 + 0.4, std::abs(i / 20.0 - 0.4) * 18, std::abs(i / 20.0 - 0.4) * 22 + 1});
  plot->panels = {{"1:3, 3 coats", 0.25, 9.1, 8.7, 9.5, {}, {}, false, false, 0}, {"1:1, 3 coats", 0.5, 3.6, 3.2, 4.0, {}, {}, false, false, 1}, {"1:1, 5 coats", 0.5, 12.0, 11, 13, {}, {}, false, true, 2}};
  plot->next = {"next: 2:3, 4 coats", {0.4, 0.4, 0, 1.1}, 0.36, 0.44, {}};
  shown.plot = plot;
  shown.grounds_mix = "2:3 at 4 coats, advised next";
  shown.own_ground = true;
  shown.grounds = {{"bright silver", "", "", teal, teal}, {"pearl white", "It looks lighter and greener, \u0394E00 4.1.", "After one coat it looks yellower: do not stop or judge there.", teal, teal}};
  return state;
}

}  // namespace huewright::desk
