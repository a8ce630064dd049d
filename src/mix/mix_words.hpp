// Distances and leans in a painter's words.
#pragma once

#include <string>

#include "mix/aim.hpp"

namespace huewright {

/// How a colour leans from another: "greener and deeper", the larger first, at most two; "" when no part reaches 0.3 ΔE00. Parts: lightness, and the larger of the steps in a* (red,
/// green) and b* (yellow, blue), as they weigh in CIEDE2000.
std::string leanWords(const Lab<D50>& colour, const Lab<D50>& from);

/// "about half a coat too deep", "about 2 coats too light"; "" when coats make up less than half of the distance, or less than a quarter of a coat.
std::string stepWords(const MixChoice& choice);

/// "1:4 at 4 coats".
std::string mixWords(const MixChoice& choice);

/// "0.4 (0.0 to 1.0)".
std::string distanceWords(const MixChoice& choice);

/// "a quarter of a coat", "half a coat", "one coat", "2.5 coats": to quarters up to one, to halves beyond.
std::string coatStepWords(double coats);

}  // namespace huewright
