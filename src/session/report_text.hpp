// A report as text for people: what the command prints, and what is written beside a photo of a watched folder.
#pragma once

#include <functional>
#include <string>
#include <vector>

#include "session/session.hpp"

namespace huewright {

/// Shows a colour in the text, where it goes to something that can.
using ColourBlock = std::function<std::string(const Lab<D50>&)>;

/// The sentence, the two colours, what to do, what to take care of, in lines of at most 96 letters. explain: what the uncertainty is made of as well. block: may be empty.
std::string reportText(const JudgeReport& report, bool explain, const ColourBlock& block = {});

/// "Take with care": how far the photo can be trusted, where that is not fully or said by a caution already, and the cautions. Empty without any.
std::string careText(const JudgeReport& report);

/// "The tag "frame 3" names panel B: 1:4, 3 coats, carrier 5." for each that was used.
std::vector<std::string> tagSentences(const JudgeReport& report);

/// All that is said of a report's panels, in one line.
std::string verdictSentences(const JudgeReport& report);

}  // namespace huewright
