// What a printed tag tells of its panel, and the same as a few bytes.
#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <string>

#include "base/problem.hpp"

namespace huewright {

/// Parts by volume of strong and weak tint.
struct TagParts {
  double strong = 0, weak = 0;
  bool operator==(const TagParts&) const = default;
};

/// Numbers have one decimal at most.
struct TagText {
  std::string name;                 ///< plain UTF-8, 1 to kLongestTagName bytes
  std::optional<TagParts> parts;    ///< each 0 to 100, not both 0
  std::optional<double> coats;      ///< above 0, to 100
  std::optional<double> carrier;    ///< volumes to one of tint, 0 to 100
  bool operator==(const TagText&) const = default;
};

inline constexpr std::size_t kLongestTagName = 20;   ///< bytes: as many letters from A to Z, figures and signs; half as many of most other alphabets
inline constexpr std::size_t kTagMessage = 26;       ///< bytes

using TagMessage = std::array<std::uint8_t, kTagMessage>;

/// What is wrong with it, as a sentence without its stop. Errors: BadChoice for the name, BadMix, BadNumber.
Result<void> checkTag(const TagText& text);

/// Errors: those of checkTag.
Result<TagMessage> tagMessage(const TagText& text);

/// Nothing for bytes that tagMessage does not give.
std::optional<TagText> readTagMessage(const TagMessage& message);

/// "1:4, 4 coats, carrier 5"; empty when the tag tells a name alone.
std::string tagFacts(const TagText& text);

}  // namespace huewright
