#include "judge/verdict.hpp"

#include <array>
#include <cmath>
#include <fmt/format.h>

#include "base/text.hpp"
#include "judge/words.hpp"

namespace huewright {
namespace {

// Share of clipped pixels of a colour from which it can no longer be said to match: both may be cut off to the same value.
constexpr double kMuchLost = 0.10;

// Part of the measured distance that no named cause explains: local departures of a camera's rendering from any smooth curve.
constexpr double kLocal = 0.05;

/// One decimal, or as many as it has: a tolerance of 0.25 must not read as another one.
std::string toleranceText(double tolerance) {
  const double tenths = 10 * tolerance;
  return std::abs(tenths - std::round(tenths)) < 1e-6 ? fmt::format("{:.1f}", tolerance) : fmt::format("{:.3g}", tolerance);
}

std::string verdictSentence(const Verdict& v, const std::string& name, const std::string& difference, const Standards& standards) {
  const std::string numbers = fmt::format("ΔE00 {:.1f} ({:.1f}–{:.1f})", v.de00, v.low, v.high);
  switch (v.band) {
    case Band::There:
      return fmt::format("{} matches the card: {}, within the tolerance of {}.", capitalised(name), numbers, toleranceText(v.tolerance));
    case Band::CantSay:
      if (v.range_lost)
        return fmt::format("Can't say whether {} matches: the photo ran out of range, so the difference may be larger than the {} it shows.",
                           name, numbers);
      if (v.there_if_same_paint)
        return fmt::format("There, if the card is the same paint: {}; other pigments may part in another light.", numbers);
      return difference.empty()
                 ? fmt::format("Can't say whether {} matches: {}, and the tolerance of {} lies inside that.", name, numbers, toleranceText(v.tolerance))
                 : fmt::format("Can't say whether {} matches: it looks {} than the card, {}, and the tolerance of {} lies inside that.",
                               name, difference, numbers, toleranceText(v.tolerance));
    case Band::Nearly:
    case Band::NotThere: break;
  }
  const std::string& seen = visibilityWords(standards, std::round(10 * v.de00) / 10);  // of the number as it is printed
  return difference.empty() ? fmt::format("{} is off the card: {}, {}.", capitalised(name), numbers, seen)
                            : fmt::format("{} is {} than the card: {}, {}.", capitalised(name), difference, numbers, seen);
}

}  // namespace

Band bandOf(const Interval& interval, double tolerance) {
  if (interval.high <= tolerance) return Band::There;
  if (interval.low <= tolerance) return Band::CantSay;
  return interval.low <= 2 * tolerance ? Band::Nearly : Band::NotThere;
}

std::string_view bandName(Band band) {
  constexpr std::array<std::string_view, 4> kNames{"there", "cant-say", "nearly", "not-there"};
  return kNames[static_cast<std::size_t>(band)];
}

double ofCause(const std::array<double, kPartCount>& budget, Cause cause) {
  double sum = 0;
  for (std::size_t i = 0; i < kPartCount; ++i)
    if (causeOf(static_cast<Part>(i)) == cause) sum += budget[i] * budget[i];
  return std::sqrt(sum);
}

Verdict compare(const Reading& reading, std::size_t panel, const std::string& name, const Standards& standards,
                const CompareOptions& options) {
  Verdict v;
  v.tolerance = options.tolerance;
  const Lab<D50> &p = reading.panels[panel].lab, &c = reading.card.lab;
  v.delta = deltaVector(p, c);
  v.difference = labDifference(p, c);
  v.de00 = length(v.delta.u);

  const double local = kLocal * v.de00;
  const Mat3 same_paint = covarianceOfDifference(reading, panel, v.delta.by_panel, v.delta.by_card) + local * local * Mat3::identity();
  const double kind = cardKindSd(standards, options.card_kind);
  v.covariance = same_paint + kind * kind * Mat3::identity();

  const Interval interval = distanceInterval(v.delta.u, v.covariance);
  v.low = interval.low;
  v.high = interval.high;
  v.band = bandOf(interval, options.tolerance);
  v.range_lost = reading.panels[panel].clipped > kMuchLost || reading.card.clipped > kMuchLost;
  if (v.band == Band::There && v.range_lost) v.band = Band::CantSay;
  else if (v.band == Band::CantSay && kind > 0 && !v.range_lost)
    v.there_if_same_paint = bandOf(distanceInterval(v.delta.u, same_paint), options.tolerance) == Band::There;

  const Vec3 way = v.de00 > 0 ? (1 / v.de00) * v.delta.u : Vec3{1, 0, 0};
  const auto along = [&](const Mat3& covariance) { return std::sqrt(std::max(0.0, dot(way, covariance * way))); };
  for (std::size_t i = 0; i < kPartCount; ++i)
    v.budget[i] = along(covarianceOfDifference(reading, panel, v.delta.by_panel, v.delta.by_card, static_cast<Part>(i)));
  v.budget[static_cast<std::size_t>(Part::Departure)] = local;
  v.budget[static_cast<std::size_t>(Part::CardKind)] = kind;

  v.sentence = verdictSentence(v, name, describe(v.delta, v.covariance, p, c), standards);
  return v;
}

}  // namespace huewright
