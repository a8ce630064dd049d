#include "judge/words.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <string_view>
#include <utility>

namespace huewright {
namespace {

struct Pole {
  double degrees;
  std::string_view word;
};
constexpr std::array<Pole, 4> kPoles{{{25, "redder"}, {92, "yellower"}, {165, "greener"}, {250, "bluer"}}};
constexpr double kNeutral = 6.0;  // C*ab below which a colour has no hue of its own to turn from (common practice, no source)

double around(double degrees) { return degrees < 0 ? degrees + 360 : degrees >= 360 ? degrees - 360 : degrees; }

}  // namespace

std::string hueWord(const Lab<D50>& panel, const Lab<D50>& card) {
  const Vec3 p = toVec(panel), c = toVec(card);
  if (chroma(p) < kNeutral || chroma(c) < kNeutral) {
    const double way = hueDegrees(p - c);
    const auto nearest = std::ranges::min_element(kPoles, {}, [&](const Pole& pole) {
      const double gap = std::abs(way - pole.degrees);
      return std::min(gap, 360 - gap);
    });
    return std::string(nearest->word);
  }
  const double from = hueDegrees(c), turn = labDifference(panel, card).dH;
  // The next pole in the sense of the turn, with a little slack so that a colour on a pole does not turn towards itself.
  constexpr double kSlack = 8;
  const auto next = std::ranges::min_element(kPoles, {}, [&](const Pole& pole) {
    const double gap = around(turn > 0 ? pole.degrees - from : from - pole.degrees);
    return gap < kSlack ? gap + 360 : gap;
  });
  return std::string(next->word);
}

std::vector<std::string> differenceWords(const DeltaVector& delta, const Mat3& covariance, const Lab<D50>& panel, const Lab<D50>& card) {
  const double whole = length(delta.u);
  const auto named = [&](std::size_t k) {
    const double part = std::abs(delta.u[k]);
    return part >= kNamed && part >= whole / 3 && part > 1.96 * std::sqrt(covariance(k, k));
  };
  struct NamedPart {
    double size;
    std::string word;
  };
  std::vector<NamedPart> parts;
  if (named(0)) parts.push_back({std::abs(delta.u[0]), delta.u[0] > 0 ? "lighter" : "deeper"});
  const bool neutral = chroma(toVec(panel)) < kNeutral || chroma(toVec(card)) < kNeutral;
  if (neutral) {
    if (named(1) || named(2)) parts.push_back({std::hypot(delta.u[1], delta.u[2]), hueWord(panel, card)});
  } else {
    if (named(1)) parts.push_back({std::abs(delta.u[1]), delta.u[1] > 0 ? "stronger in colour" : "weaker in colour"});
    if (named(2)) parts.push_back({std::abs(delta.u[2]), hueWord(panel, card)});
  }
  std::ranges::stable_sort(parts, std::greater{}, &NamedPart::size);
  std::vector<std::string> words;
  for (NamedPart& part : parts) words.push_back(std::move(part.word));
  return words;
}

std::string listOfWords(std::span<const std::string> words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i)
    text += (i == 0 ? "" : i + 1 == words.size() ? " and " : ", ") + words[i];
  return text;
}

std::string describe(const DeltaVector& delta, const Mat3& covariance, const Lab<D50>& panel, const Lab<D50>& card) {
  return listOfWords(differenceWords(delta, covariance, panel, card));
}

}  // namespace huewright
