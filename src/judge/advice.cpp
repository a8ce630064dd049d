#include "judge/advice.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <fmt/format.h>

#include "colour/rgb.hpp"

namespace huewright {
namespace {

constexpr double kClear = 2.0;       // standard deviations before a direction is named
constexpr double kFairPart = 0.4;    // of the whole difference: below it depth is not what is wrong
constexpr std::array<double, 2> kGrounds{0.35, 0.9};  // luminance factors of a dark and a light neutral ground (invented bounds)
constexpr double kOffWay = 0.85;     // of the whole difference: above it neither tint share nor coats lead to the card
constexpr double kCoatMore = 0.75, kCoatFewer = 0.5;  // coats wanting before a whole one is proposed: overshoot weighs more
constexpr double kRangeLost = 0.02;  // share of clipped pixels from which a colour is no longer known

/// The way in u that a film one part deeper takes, over a neutral ground of that luminance.
Vec3 deeper(const Xyz<D50>& panel, const Mat3& by_panel, double ground) {
  Vec3 rgb = kXyzD50ToSrgb * toVec(panel);
  for (double& v : rgb) {
    const double lit = std::max(v, 0.003);
    const double depth = std::max(0.0, -std::log(lit / ground));
    v = -depth * lit;
  }
  return by_panel * (labByXyz(panel) * (kSrgbToXyzD50 * rgb));
}

struct Projection {
  double depth = 0, sd = 0, part = 0;  // relative depth still wanted; its deviation; share of |u| that lies along the way
};

/// u is panel minus card: going deeper by t adds t·way to the panel, so the depth still wanted is −u·way ÷ |way|².
Projection project(const Vec3& u, const Mat3& covariance, const Vec3& way) {
  const double square = dot(way, way), size = length(u);
  if (square < 1e-9 || size < 1e-9) return {};
  const double depth = -dot(u, way) / square;
  return {depth, std::sqrt(dot(way, covariance * way)) / square, std::abs(depth) * std::sqrt(square) / size};
}

std::string mixText(const std::optional<Mix>& mix) { return mix ? fmt::format(" than {:g}:{:g}", mix->strong, mix->weak) : std::string{}; }

Step shareStep(bool more, const std::optional<Mix>& mix) {
  if (more)
    return {"strong_share", Way::Increase,
            fmt::format("More of the strong tint{}, the coats kept. Go part of the way: a transparent coat can be deepened, never lightened.",
                        mixText(mix))};
  return {"strong_share", Way::Decrease, fmt::format("Less of the strong tint{}, the coats kept; spray it on a new panel.", mixText(mix))};
}

std::string lower(std::string text) {
  text[0] = static_cast<char>(std::tolower(static_cast<unsigned char>(text[0])));
  return text;
}

std::string coatsText(double coats) {
  const double halves = std::round(2 * coats) / 2;
  if (halves <= 0.5) return "half a coat";
  if (halves == 1) return "one coat";
  return fmt::format("{:g} coats", halves);
}

Step coatStep(bool more, double missing, const std::optional<double>& coats) {
  if (!coats)
    return {"coats", more ? Way::Increase : Way::Decrease,
                more ? "Or another coat of the same mix, if that does not overshoot: try it on the panel first."
                     : "Or one coat fewer of the same mix on a new panel."};
  if (missing < (more ? kCoatMore : kCoatFewer)) {
    return {"coats", Way::Keep,
                more ? "Another whole coat would overshoot: keep the coats." : "A whole coat fewer would fall short: keep the coats."};
  }
  if (!more && *coats - 1 < 1) return {"coats", Way::Keep, "There is no coat to leave out: keep the one there is."};
  return {"coats", more ? Way::Increase : Way::Decrease,
              more ? fmt::format("Or another coat of the same mix: the panel is about {} short.", coatsText(missing))
                   : fmt::format("Or one coat fewer of the same mix on a new panel: this one is about {} too deep.", coatsText(missing))};
}

}  // namespace

std::string_view wayName(Way way) {
  constexpr std::array<std::string_view, 4> kNames{"increase", "decrease", "keep", "unknown"};
  return kNames[static_cast<std::size_t>(way)];
}

OnePanelAdvice adviseOnePanel(const Reading& reading, std::size_t panel, const Verdict& verdict, const std::optional<Mix>& mix,
                      const std::optional<double>& coats) {
  OnePanelAdvice advice;
  if (verdict.band == Band::There || verdict.there_if_same_paint) {
    advice.strong_share = Way::Keep;
    advice.actions = {{"strong_share", Way::Keep, "Keep the mix and the coats."}};
    advice.sentence = advice.actions.front().sentence;
    return advice;
  }

  if (reading.panels[panel].clipped > kRangeLost || reading.card.clipped > kRangeLost) {
    advice.sentence = "Can't say what to change: the photo ran out of range, so the colours are not known. Photograph again with another exposure.";
    advice.actions = {{"strong_share", Way::Unknown, advice.sentence}};
    return advice;
  }

  std::array<Projection, kGrounds.size()> seen;
  double floor = 0;
  for (std::size_t i = 0; i < kGrounds.size(); ++i) {
    const Vec3 way = deeper(reading.panels[panel].xyz, verdict.delta.by_panel, kGrounds[i]);
    seen[i] = project(verdict.delta.u, verdict.covariance, way);
    floor += kFilmBuild * length(way) / static_cast<double>(kGrounds.size());
  }
  const auto clear = [](const Projection& p) { return std::abs(p.depth) > kClear * p.sd && p.part > kFairPart; };
  const bool speaks = std::ranges::all_of(seen, clear) && (seen[0].depth > 0) == (seen[1].depth > 0);
  advice.depth = 0.5 * (seen[0].depth + seen[1].depth);
  advice.depth_sd = std::max({seen[0].sd, seen[1].sd, 0.5 * std::abs(seen[0].depth - seen[1].depth)});

  const double off_way = std::sqrt(std::max(0.0, 1 - std::pow(std::max(seen[0].part, seen[1].part), 2)));
  const bool elsewhere = verdict.low > verdict.tolerance && off_way > kOffWay;
  if (speaks || elsewhere) advice.spray_floor = floor;
  if (speaks) {
    const bool more = advice.depth > 0;
    // Where one tint is used alone, its share has no room in one direction.
    const bool room = !mix || (more ? mix->weak > 0 : mix->strong > 0);
    if (room) {
      advice.strong_share = more ? Way::Increase : Way::Decrease;
      advice.actions.push_back(shareStep(more, mix));
    }
    const double missing = coats ? std::abs(advice.depth) * *coats : 0;
    advice.actions.push_back(coatStep(more, missing, coats));
    if (verdict.band == Band::CantSay) advice.actions.front().sentence = "If anything: " + lower(advice.actions.front().sentence);
    if (!room) advice.sentence = more ? "The mix is all strong tint already. " : "The mix holds no strong tint. ";
    advice.sentence += advice.actions.front().sentence;
    return advice;
  }
  if (elsewhere) {
    advice.actions.push_back({"ground", Way::Unknown,
                              "Neither the strong tint's share nor the coats lead to the card: try another ground, or other tints."});
    advice.sentence = advice.actions.front().sentence;
    return advice;
  }
  advice.sentence = verdict.band == Band::CantSay
                        ? "Can't say what to change: the difference is within what this photo can tell. Photograph again with more even "
                          "light, or judge a second panel."
                        : "Can't say whether the strong tint or the coats are at fault: the difference does not lie clearly along either. "
                          "Spray a second panel with another share and judge both.";
  advice.actions.push_back({"strong_share", Way::Unknown, advice.sentence});
  return advice;
}

}  // namespace huewright
