// A series as the text of its file.
#pragma once

#include <string>

#include "mix/series.hpp"

namespace huewright {

/// Two-space indented JSON with a final newline, format 1 (docs/series.md), fields always in the same order. readSeries reads the same series back from it,
/// to the last bit of every number; what the series does not have, and limits that are as without any, are left out. Text that is no UTF-8 gets a sign in its place.
/// In: finite numbers. What readSeries would refuse, such as a panel without any ground, is written as it is.
std::string seriesText(const Series& series);

}  // namespace huewright
