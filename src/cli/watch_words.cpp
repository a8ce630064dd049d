#include "cli/watch_words.hpp"

#include <cmath>
#include <fmt/format.h>

#include "base/text.hpp"

namespace huewright {

Result<WatchWords> watchWords(const Arguments& arguments, std::string_view counted) {
  WatchWords words;
  if (const std::string* text = arguments.value("--count")) {
    const auto n = numberOf(*text);
    constexpr double kMost = 1e9;
    if (!n || *n < 1 || *n > kMost || *n != std::floor(*n))
      return fail(Code::BadNumber, fmt::format("\"{}\" is not a number of {}. Give --count a whole number, 1 or more", *text, counted));
    words.count = static_cast<std::size_t>(*n);
  }
  words.json = arguments.has("--json");
  words.explain = arguments.has("--explain");
  words.gate = arguments.has("--gate");
  return words;
}

}  // namespace huewright
