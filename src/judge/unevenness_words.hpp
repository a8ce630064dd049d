// How even a panel is, in plain words.
#pragma once

#include <string>

#include "camera/unevenness.hpp"

namespace huewright {

// ΔE00 from which an eye that looks for it sees mottle (root mean square about the mean; soft blotches), an edge that differs from the
// middle, and a change from one end to the other (judgement; no source).
inline constexpr double kMottleSeen = 0.35, kEdgeSeen = 0.8, kSlopeSeen = 1.0;

/// One to three sentences: "The panel is even: its parts differ by no more than the eye sees." "It is mottled: places differ by about ±0.8."
/// "Its edges are deeper and bluer than its middle by about 1.2." What is at least as large as the eye sees and whose low end (1.96 standard
/// deviations) lies beyond half of that is said; what is smaller, with a high end below one and a half times that, counts as even; for
/// all else the sentence says that it cannot tell. In: name as it stands in a sentence ("the panel", "panel 2").
std::string unevennessSentence(const Unevenness& unevenness, const std::string& name = "the panel");

}  // namespace huewright
