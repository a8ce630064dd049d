// Small things that every room does with text.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace huewright {

/// The text with its first letter, if it is one of a to z, as a capital.
std::string capitalised(std::string_view text);

/// Letters from a to z as capitals, whatever the locale; all else as it is.
constexpr char upperCase(char c) { return c >= 'a' && c <= 'z' ? static_cast<char>(c - 'a' + 'A') : c; }
std::string upperCase(std::string_view text);

/// Whether it is one of 0 to 9.
constexpr bool isDigit(char c) { return c >= '0' && c <= '9'; }

/// A sentence: the pattern with the detail in place of its first {}, beginning with a capital. The detail may come from outside (a
/// file's name, an option's text), so control characters in it become ?, and of a very long one the middle is left out.
std::string filled(std::string_view pattern, std::string_view detail);

/// The whole text as one finite number, with a point whatever the locale; spaces around it and a leading + are allowed.
/// Nothing for other text.
std::optional<double> numberOf(std::string_view text);

/// Whether the text is well-formed UTF-8 (RFC 3629, from memory) without control characters: fit to be printed.
bool isPlainUtf8(std::string_view text);

/// The text with every byte above 7 bits and every control character as ?, to be shown where it is not plain UTF-8.
std::string asPlainUtf8(std::string_view text);

}  // namespace huewright
