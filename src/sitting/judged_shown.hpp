// A verdict in words and display colours.
#pragma once

#include <array>
#include <cstdint>
#include <memory>
#include <string>
#include <vector>

#include "session/session.hpp"

namespace huewright {

/// A colour as a screen can show it: 8-bit sRGB.
struct Swatch {
  std::array<std::uint8_t, 3> rgb{};
  bool outside = false;              ///< sRGB cannot show it; this is the nearest
  std::string lab;                   ///< "L* 48.3  a* -24.1  b* -7.1"
};

struct BudgetRow {
  std::string cause;                 ///< "light"
  std::string part;                  ///< what it is, in words; empty: the cause's sum
  double sd = 0;                     ///< ΔE00
};

struct PanelShown {
  std::string name;                  ///< "panel", "panel B", "3 coats"
  Swatch swatch;
  Band band{};
  std::string headline;              ///< a few words, for across the room: "Not there: a little too deep"
  std::string sentence;              ///< the whole sentence
  std::string line;                  ///< "ΔE00 3.4 (2.9 to 3.9), wanted at most 1.0"
  double de00 = 0, low = 0, high = 0;
  std::vector<std::string> actions;  ///< what to do next, best first
  std::vector<BudgetRow> budget;
};

/// What was judged, in words.
struct JudgedShown {
  std::vector<PanelShown> panels;    ///< in the order given; of a stepped panel its strips
  std::size_t main = 0;              ///< the nearest to the card
  Swatch card;
  double tolerance = 1;
  std::string ranking;               ///< which is nearer; empty with one panel
  std::vector<std::string> cautions; ///< weightiest first
  std::string trust;                 ///< "The photo can be trusted fairly: …"
  std::vector<std::string> better;   ///< what would make it better
  std::vector<std::string> looks;    ///< what tags tell, and what other photos showed: repeats, changed over, other light, tilted
  std::shared_ptr<const JudgeReport> report;  ///< the numbers behind it
};

}  // namespace huewright
