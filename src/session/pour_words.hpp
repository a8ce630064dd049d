// A pour in words: what is said on the terminal and on the sheet.
#pragma once

#include <string>
#include <vector>

#include "paper/pour_sheet.hpp"
#include "session/pour.hpp"

namespace huewright {

/// "105.2 mL", "4.38 mL": rounded to what can be read.
std::string mlWords(const PourReport& report, double ml);

/// "94.85 g": in the scale's steps; without a scale in tenths.
std::string gramWords(const PourReport& report, double g);

/// "teal, strong 1 : aqua, weak 3 + 5 carrier".
std::string recipeWords(const PourRecipe& recipe);

/// The pourings with every number as it is read: running totals are rounded, and what is added is the difference of two of them, so that it adds up.
std::vector<PourSheetLine> pourLines(const PourRequest& request, const PourReport& report);

/// "scale shows" or "cup shows".
std::string pourUntilHead(const PourReport& report);

/// Why so much, how exactly, which lines of the cup, what to add, strainer and drying. In: a report but for its sentences and cautions.
std::vector<std::string> pourSentences(const PourRequest& request, const PourReport& report);
std::vector<Caution> pourCautions(const PourRequest& request, const PourReport& report);

/// Cautions for people who spray.
const std::vector<std::string>& sprayCautions();

/// The sheet of a finished report.
PourSheet pourSheet(const PourRequest& request, const PourReport& report);

}  // namespace huewright
