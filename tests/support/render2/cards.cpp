#include "render2/cards.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numeric>
#include <utility>
#include <vector>

#include "colour/delta_e.hpp"

namespace huewright::render2 {
namespace {

double logistic(double x) { return 1 / (1 + std::exp(-x)); }
double logit(double p) { return std::log(p / (1 - p)); }

constexpr double kLeastShade = 0.001;

// A paint as three numbers without bounds: share, coats, black.
Vec3 numbersOf(const Paint& p) {
  return {logit(std::clamp(p.share, 0.01, 0.99)), std::log(std::max(p.coats, 0.05)), std::log(p.shade + kLeastShade)};
}

Paint withNumbers(Paint p, const Vec3& x) {
  p.share = logistic(x[0]);
  p.coats = std::exp(std::clamp(x[1], -4.0, 3.5));
  p.shade = std::exp(std::clamp(x[2], -7.0, 2.0)) - kLeastShade;
  p.shade = std::max(p.shade, 0.0);
  return p;
}

// Pigments of another maker for opaque paint, the white first, the black last. Invented.
struct Opaque {
  Spectrum k, s;
};
const std::vector<Opaque>& opaques() {
  static const std::vector<Opaque> all{
      {even(0.004) + 0.6 * hump(380, 10, 18), even(1)},
      {2.6 * (even(1) + (-1) * rise(492, 14)) + even(0.01), even(0.35)},
      {3.2 * (even(1) + (-1) * rise(612, 11)) + even(0.02), even(0.25)},
      {4.2 * hump(542, 30, 24) + 1.2 * hump(506, 16, 14) + 0.5 * hump(395, 20, 30) + even(0.03), even(0.12)},
      {3.6 * hump(570, 36, 30) + 2.0 * hump(618, 22, 18) + even(0.05), even(0.10)},
      {5.0 * hump(622, 26, 26) + 2.4 * hump(676, 26, 46) + even(0.03), even(0.08)},
      {3.4 * hump(652, 34, 40) + 2.4 * hump(432, 34, 26) + even(0.03), even(0.12)},
      {even(5) + 0.8 * hump(390, 30, 90), even(0.05)}};
  return all;
}

std::vector<std::size_t> shuffled(std::size_t count, Random& random) {
  std::vector<std::size_t> order(count);
  std::iota(order.begin(), order.end(), std::size_t{0});
  for (std::size_t i = count; i > 1; --i) std::swap(order[i - 1], order[static_cast<std::size_t>(random.below(static_cast<int>(i)))]);
  return order;
}

}  // namespace

Fit fitLook(const std::function<Lab<D50>(const Vec3&)>& look, const Lab<D50>& wanted, const Vec3& start) {
  const auto missing = [&](const Vec3& x) { return toVec(look(x)) - toVec(wanted); };
  Vec3 x = start, e = missing(x);
  double damping = 0.1;
  for (int i = 0; i < 60 && dot(e, e) > 1e-10; ++i) {
    Mat3 columns;
    for (std::size_t c = 0; c < 3; ++c) {
      Vec3 moved = x;
      moved[c] += 1e-4;
      columns.row[c] = 1e4 * (missing(moved) - e);
    }
    Mat3 normal = columns * transpose(columns);
    for (std::size_t c = 0; c < 3; ++c) normal(c, c) += damping * (normal(c, c) + 1e-3);
    Vec3 step = -1.0 * (inverse(normal) * (columns * e));
    const double length = std::sqrt(dot(step, step));
    if (length > 1.5) step = (1.5 / length) * step;
    const Vec3 next = x + step, left = missing(next);
    if (dot(left, left) < dot(e, e)) {
      x = next;
      e = left;
      damping = std::max(0.2 * damping, 1e-9);
    } else {
      damping *= 6;
    }
  }
  return {x, std::sqrt(dot(e, e))};
}

std::optional<Spectrum> otherPigments(const Lab<D50>& wanted, Random& random) {
  std::vector<std::array<std::size_t, 3>> triples;
  for (std::size_t a = 1; a < opaques().size(); ++a)
    for (std::size_t b = a + 1; b < opaques().size(); ++b)
      for (std::size_t c = b + 1; c < opaques().size(); ++c) triples.push_back({a, b, c});
  for (const std::size_t at : shuffled(triples.size(), random)) {
    const auto mix = [&](const Vec3& x) {
      Spectrum out;
      for (std::size_t i = 0; i < kBands; ++i) {
        double k = opaques()[0].k[i], s = opaques()[0].s[i];
        for (std::size_t n = 0; n < 3; ++n) {
          const double amount = std::exp(std::clamp(x[n], -12.0, 8.0));
          k += amount * opaques()[triples[at][n]].k[i];
          s += amount * opaques()[triples[at][n]].s[i];
        }
        out[i] = throughSurface(thickLimit(k, s), standardGeometry());
      }
      return out;
    };
    const Fit fit = fitLook([&](const Vec3& x) { return labD50(mix(x)); }, wanted, {-1.5, -1.5, -1.5});
    if (fit.left < 0.02) return mix(fit.at);
  }
  return {};
}

std::optional<Spectrum> printed(const Lab<D50>& wanted, Random& random) {
  static const Spectrum paper = 0.85 * rise(402, 12) + 0.03 * hump(450, 20, 40);
  static const std::array<Spectrum, 4> inks{
      spectrumOf([](double) { return 0.0; }) + 1.25 * hump(640, 62, 70) + 0.16 * hump(540, 40, 30) + even(0.03),
      1.20 * hump(548, 38, 26) + 0.30 * hump(430, 50, 50) + even(0.025),
      1.15 * (even(1) + (-1) * rise(500, 18)) + even(0.012), even(1.5)};
  constexpr double kYuleNielsen = 1.8;
  for (const std::size_t step : shuffled(6, random)) {
    const double black = 0.15 * static_cast<double>(step);
    const auto print = [&](const Vec3& x) {
      const std::array<double, 4> dots{logistic(x[0]), logistic(x[1]), logistic(x[2]), black};
      Spectrum sum;
      for (unsigned primary = 0; primary < 16; ++primary) {
        double area = 1;
        Spectrum density;
        for (unsigned ink = 0; ink < 4; ++ink) {
          const bool on = (primary >> ink & 1U) != 0;
          area *= on ? dots[ink] : 1 - dots[ink];
          if (on) density = density + inks[ink];
        }
        if (area <= 0) continue;
        for (std::size_t i = 0; i < kBands; ++i) sum[i] += area * std::pow(paper[i] * std::exp(-2 * density[i]), 1 / kYuleNielsen);
      }
      for (double& v : sum.v) v = std::pow(v, kYuleNielsen);
      return sum;
    };
    const Fit fit = fitLook([&](const Vec3& x) { return labD50(print(x)); }, wanted, {0, 0, 0});
    if (fit.left < 0.02) return print(fit.at);
  }
  return {};
}

std::optional<Paint> matched(const Paint& start, const Lab<D50>& wanted) {
  const Fit fit = fitLook([&](const Vec3& x) { return labOf(withNumbers(start, x)); }, wanted, numbersOf(start));
  if (fit.left > 0.003) return {};
  const Paint found = withNumbers(start, fit.at);
  if (found.coats < 0.7 || found.coats > 15 || found.share < 0.03 || found.share > 0.97) return {};
  return found;
}

std::optional<CardBody> makeCard(CardKind kind, const Paint& paint, Random& random) {
  CardBody card{kind, {}, {}};
  const Lab<D50> look = labOf(paint);
  switch (kind) {
    case CardKind::Same: card.paint = paint; break;
    case CardKind::Similar: {
      Paint other = paint;
      if (random.chance(0.5)) {
        while (other.ground == paint.ground) other.ground = kGrounds[random.below(static_cast<int>(std::size(kGrounds)))];
      } else {
        other.shift_nm += (random.chance(0.5) ? 1 : -1) * random.uniform(4, 9);
      }
      const Fit fit = fitLook([&](const Vec3& x) { return labOf(withNumbers(other, x)); }, look, numbersOf(other));
      if (fit.left > 2) return {};
      card.paint = withNumbers(other, fit.at);
      break;
    }
    case CardKind::Printed:
    case CardKind::Other: {
      const auto body = kind == CardKind::Printed ? printed(look, random) : otherPigments(look, random);
      if (!body) return {};
      card.reflectance = *body;
      return card;
    }
  }
  card.reflectance = reflectance(*card.paint);
  return card;
}

std::optional<Paint> movedAway(const Paint& match, const Lab<D50>& card, double de00, bool by_share, bool up) {
  if (de00 <= 0) return match;
  const Vec3 from = numbersOf(match);
  const auto at = [&](double way) {
    Vec3 x = from;
    x[by_share ? 0 : 1] += up ? way : -way;
    return withNumbers(match, x);
  };
  double low = 0, high = 0.02;
  while (deltaE2000(labOf(at(high)), card) < de00) {
    low = high;
    high *= 1.5;
    if (high > 3.5) return {};
  }
  for (int i = 0; i < 50; ++i) {
    const double middle = 0.5 * (low + high);
    (deltaE2000(labOf(at(middle)), card) < de00 ? low : high) = middle;
  }
  return at(0.5 * (low + high));
}

double bestShare(const Paint& paint, const Lab<D50>& card) {
  const auto apart = [&](double share) {
    Paint p = paint;
    p.share = share;
    return deltaE2000(labOf(p), card);
  };
  constexpr int kPlaces = 40;
  double best = 0, least = apart(0);
  for (int i = 1; i <= kPlaces; ++i)
    if (const double share = static_cast<double>(i) / kPlaces, d = apart(share); d < least) {
      least = d;
      best = share;
    }
  double low = std::max(best - 1.0 / kPlaces, 0.0), high = std::min(best + 1.0 / kPlaces, 1.0);
  for (int i = 0; i < 40; ++i) {
    const double a = low + (high - low) / 3, b = high - (high - low) / 3;
    if (apart(a) < apart(b)) high = b;
    else low = a;
  }
  return 0.5 * (low + high);
}

}  // namespace huewright::render2
