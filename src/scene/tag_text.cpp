#include "scene/tag_text.hpp"

#include <algorithm>
#include <cmath>

#include "base/text.hpp"

namespace huewright {
namespace {

constexpr std::uint8_t kTagFormat = 1;
constexpr double kMostTold = 100;
constexpr unsigned kUntold = 1023;      // all ten bits; numbers are tenths, up to 1000
constexpr std::size_t kNumberBits = 10, kNumbersBegin = 1, kNameBegin = 6;
static_assert(kNameBegin + kLongestTagName == kTagMessage);

bool isTenths(double value) { return std::abs(10 * value - std::round(10 * value)) < 1e-9; }
unsigned tenthsOf(const std::optional<double>& value) { return value ? static_cast<unsigned>(std::lround(10 * *value)) : kUntold; }
std::optional<double> fromTenths(unsigned tenths) { return tenths == kUntold ? std::nullopt : std::optional(tenths / 10.0); }

std::string plainNumber(double value) {
  const long tenths = std::lround(10 * value);
  return std::to_string(tenths / 10) + (tenths % 10 == 0 ? "" : "." + std::to_string(tenths % 10));
}

}  // namespace

Result<void> checkTag(const TagText& text) {
  if (text.name.find_first_not_of(' ') == std::string::npos)
    return fail(Code::BadChoice, "A tag needs a name. Give one, such as \"frame 3\"");
  if (!isPlainUtf8(text.name)) return fail(Code::BadChoice, "The name \"" + asPlainUtf8(text.name) + "\" holds characters that cannot be printed. Use letters, figures and signs");
  if (text.name.size() > kLongestTagName)
    return fail(Code::BadChoice, "The name \"" + text.name + "\" is too long for a tag. Use at most " + std::to_string(kLongestTagName) + " letters, or about " +
                                     std::to_string(kLongestTagName / 2) + " with accents or of another alphabet");
  if (text.parts) {
    const auto& [strong, weak] = *text.parts;
    if (!(strong >= 0 && weak >= 0 && strong + weak > 0 && std::isfinite(strong + weak))) return fail(Code::BadMix, std::to_string(strong) + ":" + std::to_string(weak));
    if (strong > kMostTold || weak > kMostTold || !isTenths(strong) || !isTenths(weak))
      return fail(Code::BadNumber, "A tag holds parts from 0 to 100 with one decimal at most. Give the mix in such parts, such as 1:3 or 2.5:1");
  }
  if (text.coats && !(*text.coats > 0 && *text.coats <= kMostTold && isTenths(*text.coats)))
    return fail(Code::BadNumber, "The coats must be a number above 0 and at most 100, with one decimal at most");
  if (text.carrier && !(*text.carrier >= 0 && *text.carrier <= kMostTold && isTenths(*text.carrier)))
    return fail(Code::BadNumber, "The carrier on a tag must be a number of volumes to one of tint, from 0 to 100, with one decimal at most");
  return {};
}

Result<TagMessage> tagMessage(const TagText& text) {
  if (const auto checked = checkTag(text); !checked) return std::unexpected(checked.error());
  TagMessage message{};
  message[0] = kTagFormat;
  const std::array<unsigned, 4> numbers{text.parts ? tenthsOf(text.parts->strong) : kUntold, text.parts ? tenthsOf(text.parts->weak) : kUntold, tenthsOf(text.coats), tenthsOf(text.carrier)};
  for (std::size_t bit = 0; bit < 4 * kNumberBits; ++bit)
    if (numbers[bit / kNumberBits] >> (kNumberBits - 1 - bit % kNumberBits) & 1U)
      message[kNumbersBegin + bit / 8] = static_cast<std::uint8_t>(message[kNumbersBegin + bit / 8] | 0x80U >> bit % 8);
  std::ranges::transform(text.name, message.begin() + kNameBegin, [](char c) { return static_cast<std::uint8_t>(c); });
  return message;
}

std::optional<TagText> readTagMessage(const TagMessage& message) {
  if (message[0] != kTagFormat) return {};
  std::array<unsigned, 4> numbers{};
  for (std::size_t bit = 0; bit < 4 * kNumberBits; ++bit)
    numbers[bit / kNumberBits] = numbers[bit / kNumberBits] << 1 | (message[kNumbersBegin + bit / 8] >> (7 - bit % 8) & 1U);
  TagText text;
  const auto strong = fromTenths(numbers[0]), weak = fromTenths(numbers[1]);
  if (strong.has_value() != weak.has_value()) return {};
  if (strong) text.parts = TagParts{*strong, *weak};
  text.coats = fromTenths(numbers[2]);
  text.carrier = fromTenths(numbers[3]);
  const auto name_end = std::find(message.begin() + kNameBegin, message.end(), std::uint8_t{0});
  if (std::any_of(name_end, message.end(), [](std::uint8_t byte) { return byte != 0; })) return {};
  text.name.assign(message.begin() + kNameBegin, name_end);
  if (!checkTag(text)) return {};
  return text;
}

std::string tagFacts(const TagText& text) {
  std::string out;
  const auto add = [&](const std::string& fact) { out += (out.empty() ? "" : ", ") + fact; };
  if (text.parts) add(plainNumber(text.parts->strong) + ":" + plainNumber(text.parts->weak));
  if (text.coats) add(plainNumber(*text.coats) + (*text.coats == 1 ? " coat" : " coats"));
  if (text.carrier) add("carrier " + plainNumber(*text.carrier));
  return out;
}

}  // namespace huewright
