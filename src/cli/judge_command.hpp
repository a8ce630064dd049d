// The words of `huewright judge` turned into a request, and the report turned into text.
#pragma once

#include <string>

#include "cli/arguments.hpp"
#include "session/session.hpp"

namespace huewright {

/// Reads every value that was given. Touches no file. Errors: Bad*, ZeroRegion, NoPhoto.
Result<JudgeRequest> judgeRequest(const Arguments& arguments, const Standards& standards);

/// The report for people: the sentence, the two colours, what to do, what to take care of. `blocks`: show colour blocks (24-bit escapes).
std::string judgeText(const JudgeReport& report, bool explain, bool blocks);

/// "Take with care": how far the photo can be trusted, where that is not fully or said by a caution already, and the cautions. Empty without any.
std::string careText(const JudgeReport& report);

/// --chart and --chart-data: "auto", "none" or a place, and a file. Errors: BadRegion, ZeroRegion.
struct ChartWords {
  ChartUse use = ChartUse::Auto;
  std::optional<Quad> place;
  std::optional<std::filesystem::path> data;
};
Result<ChartWords> chartWords(const Arguments& arguments);

/// --encoding; Auto without it. Errors: BadChoice.
Result<Encoding> encodingOf(const Arguments& arguments);

}  // namespace huewright
