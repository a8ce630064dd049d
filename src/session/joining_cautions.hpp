// What is to be said when readings join a series, in a file or in a window.
#pragma once

#include <cstddef>
#include <optional>

#include "base/caution.hpp"
#include "colour/lab.hpp"

namespace huewright {

/// SeriesFull when there is no room for so many more panels beside those that are there (kMostSeriesPanels).
std::optional<Caution> noRoomCaution(std::size_t there, std::size_t more);

/// OtherCard when a photo's card lies farther than ΔE00 2 from the wanted colour of the series: beyond what two readings of one card differ by; a choice. Nothing where either is not known.
std::optional<Caution> otherCardCaution(const std::optional<Lab<D50>>& wanted, const std::optional<Lab<D50>>& card);

}  // namespace huewright
