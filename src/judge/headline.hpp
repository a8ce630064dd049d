// A verdict in a few words, to be read from across the room.
#pragma once

#include <cstddef>
#include <string>

#include "judge/verdict.hpp"

namespace huewright {

/// No headline is longer, letters and spaces.
inline constexpr std::size_t kHeadlineLongest = 42;

/// "There", "Nearly: a touch too deep", "Not there: deeper and bluer", "Can't say yet: photograph again". The band comes first, then as many of describe's
/// words as there is room for, the largest part first. In: the verdict, and the two colours that it compares. Out: one line of plain ASCII.
std::string headline(const Verdict& verdict, const Lab<D50>& panel, const Lab<D50>& card);

}  // namespace huewright
