// Bytes with spare ones behind them, from which some that were read wrongly are worked out again.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace huewright {

/// The check bytes for a message: a Reed–Solomon code over GF(256) with x⁸+x⁴+x³+x²+1 and the roots 2⁰ … 2^(checks−1).
/// In: message and checks together at most 255 bytes. Source: Lin and Costello, Error Control Coding, chapter 7 (from memory).
std::vector<std::uint8_t> checkBytes(std::span<const std::uint8_t> message, std::size_t checks);

/// Mends a word (a message with its check bytes behind it) in place and tells how many bytes were wrong. Nothing, and the word is as it was, when
/// more than `most` were: the fewer are allowed below half of the check bytes, the rarer is a word that only happens to look mended.
/// In: most at most checks / 2.
std::optional<std::size_t> mendBytes(std::span<std::uint8_t> word, std::size_t checks, std::size_t most);

}  // namespace huewright
