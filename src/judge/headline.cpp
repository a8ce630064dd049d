#include "judge/headline.hpp"

#include <array>
#include <span>
#include <string_view>
#include <utility>
#include <vector>

#include "judge/words.hpp"

namespace huewright {
namespace {

/// What describe calls "deeper" as people say it of a panel alone: "too deep".
std::string tooMuch(const std::string& word) {
  constexpr std::array<std::pair<std::string_view, std::string_view>, 8> kToo{{{"lighter", "too light"},
                                                                              {"deeper", "too deep"},
                                                                              {"stronger in colour", "too strong in colour"},
                                                                              {"weaker in colour", "too weak in colour"},
                                                                              {"redder", "too red"},
                                                                              {"yellower", "too yellow"},
                                                                              {"greener", "too green"},
                                                                              {"bluer", "too blue"}}};
  for (const auto& [more, too] : kToo)
    if (word == more) return std::string(too);
  return word;
}

/// As much of it as there is room for. `touch`: a small difference, which is said while there is room for that as well.
std::string offBy(const std::string& band, std::span<const std::string> words, bool touch) {
  for (std::size_t n = words.size(); n > 0; --n)
    for (const char* little : {"a touch ", ""}) {
      if (*little != '\0' && !touch) continue;
      const std::string text = band + ": " + little + (n == 1 ? tooMuch(words[0]) : listOfWords(words.first(n)));
      if (text.size() <= kHeadlineLongest) return text;
    }
  return band;
}

}  // namespace

std::string headline(const Verdict& v, const Lab<D50>& panel, const Lab<D50>& card) {
  switch (v.band) {
    case Band::There: return "There";
    case Band::CantSay:
      if (v.range_lost) return "Can't say: the photo ran out of range";
      return v.there_if_same_paint ? "There, if the card is the same paint" : "Can't say yet: photograph again";
    case Band::Nearly:
    case Band::NotThere: break;
  }
  const auto words = differenceWords(v.delta, v.covariance, panel, card);
  const bool nearly = v.band == Band::Nearly;
  if (words.empty()) return nearly ? "Nearly there" : "Not there";
  return offBy(nearly ? "Nearly" : "Not there", words, nearly);
}

}  // namespace huewright
