#include "mix/mix_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace huewright {
namespace {

constexpr double kLeanNamed = 0.3;  // ΔE00; below it a lean is not worth a word (common practice, no source)

}  // namespace

std::string leanWords(const Lab<D50>& colour, const Lab<D50>& from) {
  // A step along each axis alone, measured with the metric at the place it leaves from.
  const Mat3 metric = deltaVector(from, from).by_panel;
  const Vec3 step = toVec(colour) - toVec(from);
  struct Part {
    double size;
    const char* word;
  };
  std::array<Part, 3> parts{Part{length(metric * Vec3{step[0], 0, 0}), step[0] > 0 ? "lighter" : "deeper"},
                            Part{length(metric * Vec3{0, step[1], 0}), step[1] > 0 ? "redder" : "greener"},
                            Part{length(metric * Vec3{0, 0, step[2]}), step[2] > 0 ? "yellower" : "bluer"}};
  std::ranges::stable_sort(parts, std::greater{}, &Part::size);
  std::string words;
  int named = 0;
  for (const Part& part : parts)
    if (named < 2 && part.size >= kLeanNamed && part.size >= parts[0].size / 3) {
      words += (named == 0 ? "" : " and ") + std::string(part.word);
      ++named;
    }
  return words;
}

std::string coatStepWords(double coats) {
  const double quarters = std::round(coats * 4);
  if (quarters <= 1) return "a quarter of a coat";
  if (quarters == 2) return "half a coat";
  if (quarters == 3) return "three quarters of a coat";
  if (quarters <= 5) return "one coat";
  return fmt::format("{:g} coats", std::round(coats * 2) / 2);
}

std::string stepWords(const MixChoice& choice) {
  if (std::abs(choice.over) < 0.2 || choice.by_coats < 0.5 * choice.de00) return {};
  return "about " + coatStepWords(std::abs(choice.over)) + (choice.over > 0 ? " too deep" : " too light");
}

std::string mixWords(const MixChoice& choice) { return partsWords(choice.parts) + " at " + coatsWords(choice.coats); }

std::string distanceWords(const MixChoice& choice) { return fmt::format("{:.1f} ({:.1f} to {:.1f})", choice.de00, choice.low, choice.high); }

}  // namespace huewright
