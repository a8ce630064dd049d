// Colour differences in a painter's words.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "colour/delta_e.hpp"

namespace huewright {

/// "deeper and bluer", "lighter, weaker in colour and greener" …: the parts of a difference that are surely there and large enough to
/// name, the largest first. Empty when none is.
///
/// Lighter and deeper go by L*, stronger and weaker by chroma, and the hue words by the side towards which the hue moved. A part is
/// named when it is at least `kNamed` in ΔE00 units, at least a third of the whole, and beyond 1.96 of its standard deviation
/// (common practice, no source).
std::string describe(const DeltaVector& delta, const Mat3& covariance, const Lab<D50>& panel, const Lab<D50>& card);

/// The same parts one by one: at most three words or phrases, the largest part first.
std::vector<std::string> differenceWords(const DeltaVector& delta, const Mat3& covariance, const Lab<D50>& panel, const Lab<D50>& card);

/// "deeper, weaker in colour and bluer"; empty for none.
std::string listOfWords(std::span<const std::string> words);

/// The hue word for a step from one colour to another, such as "bluer". Near neutral it follows the direction of (Δa*, Δb*), else the
/// sense of the turn from the card's hue. The four poles stand at CIELAB hue angles 25° red, 92° yellow, 165° green, 250° blue (from memory).
std::string hueWord(const Lab<D50>& panel, const Lab<D50>& card);

inline constexpr double kNamed = 0.3;

}  // namespace huewright
