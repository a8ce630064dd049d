// Readings made by hand for the tests of this room.
#pragma once

#include <algorithm>
#include <gtest/gtest.h>

#include "judge/reading.hpp"
#include "judge/standards.hpp"

namespace huewright {

inline Standards standards() { return readStandards(HUEWRIGHT_SOURCE_DIR "/calib").value(); }

inline bool says(const std::vector<Caution>& all, CautionCode code) {
  return std::ranges::any_of(all, [&](const Caution& c) { return c.code == code; });
}
inline bool says(const Reading& r, CautionCode code) { return says(r.cautions, code); }

/// Panels and card with independent normal errors of `sd` on each axis of each colour.
inline Reading handReading(const std::vector<Lab<D50>>& panels, const Lab<D50>& card, double sd) {
  Reading r;
  for (const auto& lab : panels) r.panels.push_back({lab, {sd, sd, sd}, toXyz(lab), 1000, 0, 0});
  r.card = {card, {sd, sd, sd}, toXyz(card), 1000, 0, 0};
  for (std::size_t i = 0; i <= panels.size(); ++i)
    for (std::size_t k = 0; k < 3; ++k) {
      Influence influence{Part::Texture, std::vector<Vec3>(panels.size() + 1)};
      influence.on_lab[i][k] = sd;
      r.influences.push_back(influence);
    }
  return r;
}

}  // namespace huewright
