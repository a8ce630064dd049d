// How far a panel is off the card, how sure that is, and in which words.
#pragma once

#include <array>
#include <string>

#include "colour/delta_e.hpp"
#include "judge/interval.hpp"
#include "judge/reading.hpp"
#include "judge/standards.hpp"

namespace huewright {

/// From the 95 % interval [low, high] of the true difference and the tolerance.
enum class Band {
  There,    ///< high <= tolerance
  CantSay,  ///< low <= tolerance < high
  Nearly,   ///< tolerance < low <= 2 × tolerance
  NotThere, ///< low > 2 × tolerance
};

Band bandOf(const Interval& interval, double tolerance);

/// "there", "cant-say", "nearly", "not-there".
std::string_view bandName(Band band);

struct CompareOptions {
  double tolerance = 1.0;  ///< ΔE00, above 0
  CardKind card_kind = CardKind::Unknown;
};

struct Verdict {
  Band band = Band::CantSay;
  bool there_if_same_paint = false;  ///< only the kind of card keeps it from `there`
  bool range_lost = false;           ///< much of a colour is clipped: `there` cannot be said, whatever the numbers
  double tolerance = 1.0;
  double de00 = 0;                   ///< measured ΔE00, panel against card
  double low = 0, high = 0;          ///< 95 % interval of the true ΔE00
  LabDifference difference;          ///< panel minus card
  DeltaVector delta;
  Mat3 covariance{};                 ///< of delta.u, all causes
  std::array<double, kPartCount> budget{};   ///< standard deviation of ΔE00 along the measured direction that each part adds
  std::string sentence;
};

/// What all parts of one cause add together.
double ofCause(const std::array<double, kPartCount>& budget, Cause cause);

/// Judges one panel of the reading. `name` stands in the sentence, such as "the panel" or "panel B".
Verdict compare(const Reading& reading, std::size_t panel, const std::string& name, const Standards& standards,
                const CompareOptions& options);

}  // namespace huewright
