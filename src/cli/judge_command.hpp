// The words of `huewright judge` turned into a request, and the report turned into text.
#pragma once

#include <string>

#include "cli/arguments.hpp"
#include "session/report_text.hpp"
#include "session/session.hpp"

namespace huewright {

/// Reads every value that was given. Touches no file. Errors: Bad*, ZeroRegion, NoPhoto.
Result<JudgeRequest> judgeRequest(const Arguments& arguments, const Standards& standards);

/// The report for people: the sentence, the two colours, what to do, what to take care of. `blocks`: show colour blocks (24-bit escapes).
std::string judgeText(const JudgeReport& report, bool explain, bool blocks);

/// --chart and --chart-data: "auto", "none" or a place, and a file. Errors: BadRegion, ZeroRegion.
struct ChartWords {
  ChartUse use = ChartUse::Auto;
  std::optional<Quad> place;
  std::optional<std::filesystem::path> data;
};
Result<ChartWords> chartWords(const Arguments& arguments);

/// --encoding; Auto without it. Errors: BadChoice.
Result<Encoding> encodingOf(const Arguments& arguments);

/// Puts all of these into a request of any command that has them. Nothing, or what is wrong.
template <class Request>
std::optional<Problem> takeChartAndEncoding(const Arguments& arguments, Request& request) {
  auto chart = chartWords(arguments);
  if (!chart) return chart.error();
  request.chart_use = chart->use;
  request.chart = chart->place;
  request.chart_data = std::move(chart->data);
  const auto encoding = encodingOf(arguments);
  if (!encoding) return encoding.error();
  request.encoding = *encoding;
  return {};
}

}  // namespace huewright
