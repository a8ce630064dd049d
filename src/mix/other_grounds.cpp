#include "mix/other_grounds.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "colour/delta_e.hpp"
#include "mix/mix_words.hpp"

namespace huewright {
namespace {

/// Against another colour: at most two words, the stronger first.
std::string groundWords(const Lab<D50>& lab, const Lab<D50>& from) {
  const Mat3 metric = deltaVector(from, from).by_panel;
  const Vec3 step = toVec(lab) - toVec(from);
  const double light = length(metric * Vec3{step[0], 0, 0}), hue = length(metric * Vec3{0, step[1], step[2]});
  constexpr double kSeen = 0.5;        // ΔE00; common practice, no source
  std::string depth = light >= kSeen && light >= hue / 3 ? (step[0] > 0 ? "lighter" : "deeper") : "";
  std::string turn;
  if (hue >= kSeen && hue >= light / 3) {
    // Warm is towards yellow-red, at 65° of the a*, b* plane; half-way between the unique hues of red and yellow (from memory).
    const double way = std::atan2(step[2], step[1]) * 57.29577951308232;
    const double from_warm = std::abs(std::remainder(way - 65, 360));
    if (from_warm < 50) turn = depth == "deeper" ? "browner" : "warmer";
    else if (std::abs(std::remainder(way - 165, 360)) < 50) turn = "greener";
    else if (std::abs(std::remainder(way - 255, 360)) < 40) turn = "cooler";
    else turn = "redder";
  }
  if (depth.empty() && turn.empty()) return "much the same";
  if (depth.empty() || turn.empty()) return depth + turn;
  return light >= hue ? depth + " and " + turn : turn + " and " + depth;
}

/// What few coats look like, where that is another hue.
std::string leanAt(const Predictor& predictor, const std::vector<double>& shares, double tint_part, double coats, const Vec3& ground, const Lab<D50>& finished) {
  constexpr double kHasHue = 4;        // C*ab below which there is no hue to speak of
  for (const double few : {1.0, 2.0}) {
    if (few >= coats) break;
    const Lab<D50> thin = predictor.labAt({shares, tint_part, few}, ground);
    if (chroma(toVec(thin)) < kHasHue || chroma(toVec(finished)) < kHasHue) continue;
    const double turn = std::remainder(hueDegrees(toVec(thin)) - hueDegrees(toVec(finished)), 360);
    if (std::abs(turn) < kLeanDegrees) continue;
    // The word for the hue it leans to, against a colour of the finished hue that is as light and as colourful.
    const double c = chroma(toVec(thin)) / chroma(toVec(finished));
    const std::string lean = leanWords(thin, {thin.L, finished.a * c, finished.b * c});
    if (!lean.empty()) return fmt::format("at {} it leans {} than the finished colour", coatsWords(few), lean);
  }
  return {};
}

}  // namespace

std::vector<GroundLook> overGrounds(const Predictor& predictor, double share, double tint_part, double coats, const std::vector<NamedGround>& grounds) {
  const std::vector<double> shares{share, 1 - share};
  std::vector<GroundLook> looks;
  for (const NamedGround& ground : grounds) {
    const Vec3 rgb = sharpened(ground.lab);
    const Prediction p = predictor.at({shares, tint_part, coats}, rgb);
    const Mat3 metric = deltaVector(p.lab, p.lab).by_panel;
    GroundLook look;
    look.name = ground.name;
    look.ground = ground.lab;
    look.lab = p.lab;
    look.sd = std::sqrt(std::max(trace(metric * p.with_film * transpose(metric)), 0.0));
    if (!looks.empty()) {
      look.de00 = deltaE2000(p.lab, looks.front().lab);
      look.words = groundWords(p.lab, looks.front().lab);
    }
    look.lean = leanAt(predictor, shares, tint_part, coats, rgb, p.lab);
    looks.push_back(std::move(look));
  }
  return looks;
}

}  // namespace huewright
