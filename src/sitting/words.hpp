// From reports to what is shown: words and display colours.
#pragma once

#include <memory>
#include <string>

#include "base/problem.hpp"
#include "sitting/state.hpp"

namespace huewright {

/// 8-bit sRGB by cutting off what it cannot show, which is said.
Swatch swatchOf(const Lab<D50>& lab);

/// "ΔE00 3.4 (2.9 to 3.9), near enough is 1.0".
std::string distanceLine(const Verdict& verdict);

/// All of a verdict in words.
JudgedShown judgedShown(std::shared_ptr<const JudgeReport> report);

/// "JPEG, 4032 × 3024, sRGB".
std::string factsWords(const PhotoFacts& facts);

/// The rows of a series; its advice and plot where there are any. In: advice of that very series.
SeriesShown seriesShown(const Series& series, const Result<AdviseReport>& advice, const Result<SeriesPlot>& plot);

/// Puts the looks over its grounds in. In: what seriesShown gave of that series, and groundsOf.
void showGrounds(const GroundsReport& report, const Series& series, SeriesShown& shown);

}  // namespace huewright
