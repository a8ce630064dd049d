#include "base/text.hpp"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace huewright {
namespace {

constexpr std::size_t kLongest = 400;  // bytes of a detail that are shown; a file's name has at most 255

bool insideCharacter(char byte) { return (static_cast<unsigned char>(byte) & 0xC0) == 0x80; }  // UTF-8

std::string tidy(std::string_view detail) {
  std::string text(detail);
  if (text.size() > kLongest) {
    std::size_t head = kLongest / 2, tail = text.size() - kLongest / 2;
    for (int i = 0; i < 3 && insideCharacter(text[head]); ++i) --head;
    for (int i = 0; i < 3 && insideCharacter(text[tail]); ++i) ++tail;
    text = text.substr(0, head) + "…" + text.substr(tail);
  }
  std::ranges::replace_if(text, [](char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7F; }, '?');
  return text;
}

}  // namespace

std::string capitalised(std::string_view text) {
  std::string out(text);
  if (!out.empty()) out[0] = upperCase(out[0]);
  return out;
}

std::string upperCase(std::string_view text) {
  std::string out(text);
  for (char& c : out) c = upperCase(c);
  return out;
}

std::string filled(std::string_view pattern, std::string_view detail) {
  std::string text(pattern);
  if (const auto gap = text.find("{}"); gap != std::string::npos) text.replace(gap, 2, tidy(detail));
  return capitalised(text);
}

std::optional<double> numberOf(std::string_view text) {
  const auto first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  text = text.substr(first, text.find_last_not_of(" \t") - first + 1);
  if (text.size() > 1 && text[0] == '+' && text[1] != '-') text.remove_prefix(1);
  double value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !std::isfinite(value)) return {};
  return value;
}

bool isPlainUtf8(std::string_view text) {
  for (std::size_t i = 0; i < text.size();) {
    const auto first = static_cast<unsigned char>(text[i]);
    const std::size_t length = first < 0x80 ? 1 : first >= 0xC2 && first < 0xE0 ? 2 : first >= 0xE0 && first < 0xF0 ? 3 : first >= 0xF0 && first < 0xF5 ? 4 : 0;
    if (length == 0 || i + length > text.size() || first < 0x20 || first == 0x7F) return false;
    for (std::size_t k = 1; k < length; ++k)
      if (!insideCharacter(text[i + k])) return false;
    const auto second = length > 1 ? static_cast<unsigned char>(text[i + 1]) : 0U;
    const bool too_long = (first == 0xE0 && second < 0xA0) || (first == 0xF0 && second < 0x90);  // fewer bytes would have done
    const bool no_character = (first == 0xED && second >= 0xA0) || (first == 0xF4 && second >= 0x90) || (first == 0xC2 && second < 0xA0);
    if (too_long || no_character) return false;
    i += length;
  }
  return true;
}

std::string asPlainUtf8(std::string_view text) {
  std::string out(text);
  std::ranges::replace_if(out, [](char c) { return static_cast<unsigned char>(c) < 0x20 || static_cast<unsigned char>(c) >= 0x7F; }, '?');
  return out;
}

}  // namespace huewright
