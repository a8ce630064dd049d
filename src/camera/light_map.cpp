#include "camera/light_map.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <random>

#include "camera/robust.hpp"

namespace huewright {
namespace {

constexpr std::size_t kSurfaceTerms = 6;
using SurfaceTerms = std::array<double, kSurfaceTerms>;
using Matrix = std::array<SurfaceTerms, kSurfaceTerms>;

constexpr std::size_t kFewestSpots = 12;  // spots
constexpr double kTrimmedTo = 0.55;       // share of the spots that the start goes through
constexpr int kStarts = 300;              // with 35 % bad spots 15 of them are clean
constexpr std::size_t kBest = 8;          // of these are followed to their end
constexpr double kBiweight = 4.685;       // Tukey's usual constant
constexpr double kKept = 0.68;            // of the biweight's reach: 3.2 standard deviations, beyond which no spot is kept
constexpr double kFewSpots = 12;          // the least of all subsets' squares are far too small when spots are few; tuned on simulated spots
constexpr double kFewKept = 6;            // likewise for what is cut off: few spots tell their own deviation badly
constexpr double kWorst = 0.08;           // relative scatter about the surface above which it is no paper: common sense, no source
constexpr double kPaper = 0.002;          // relative; spots read better than this still differ by so much on real paper: common sense, no source
constexpr double kSmooth = 0.005;         // relative: a picture's tone curve bends the light so far from a quadratic near white; shadows begin at 6 %. Tuned
constexpr double kThin = 0.03;            // spots' spread across to that along, below which they count as being in a line
constexpr double kStraightFrom = 1.5;     // of half the box: where the surface becomes straight

/// Solves a symmetric positive definite system by Cholesky's method, or says that it is all but singular.
std::optional<Matrix> inverted(const Matrix& m) {
  constexpr double kSingular = 1e-9;  // of the diagonal
  Matrix l{};
  for (std::size_t i = 0; i < kSurfaceTerms; ++i)
    for (std::size_t j = 0; j <= i; ++j) {
      double sum = m[i][j];
      for (std::size_t k = 0; k < j; ++k) sum -= l[i][k] * l[j][k];
      if (i != j) {
        l[i][j] = sum / l[j][j];
        continue;
      }
      if (!(sum > kSingular * m[i][i])) return std::nullopt;
      l[i][i] = std::sqrt(sum);
    }
  Matrix low{};  // the inverse of l
  for (std::size_t i = 0; i < kSurfaceTerms; ++i) {
    low[i][i] = 1 / l[i][i];
    for (std::size_t j = 0; j < i; ++j) {
      double sum = 0;
      for (std::size_t k = j; k < i; ++k) sum -= l[i][k] * low[k][j];
      low[i][j] = sum / l[i][i];
    }
  }
  Matrix out{};
  for (std::size_t i = 0; i < kSurfaceTerms; ++i)
    for (std::size_t j = 0; j < kSurfaceTerms; ++j)
      for (std::size_t k = std::max(i, j); k < kSurfaceTerms; ++k) out[i][j] += low[k][i] * low[k][j];
  return out;
}

double dotOf(const SurfaceTerms& a, const SurfaceTerms& b) { return std::inner_product(a.begin(), a.end(), b.begin(), 0.0); }

double form(const Matrix& m, const SurfaceTerms& a) {
  double sum = 0;
  for (std::size_t i = 0; i < kSurfaceTerms; ++i) sum += a[i] * dotOf(m[i], a);
  return sum;
}

struct Fit {
  SurfaceTerms coefficients{};
  Matrix covariance{};  // of the coefficients, for unit variance
};

/// Weighted least squares.
std::optional<Fit> fittedSurface(const std::vector<SurfaceTerms>& terms, const std::vector<double>& values, const std::vector<double>& weights) {
  Matrix normal{};
  SurfaceTerms right{};
  for (std::size_t s = 0; s < terms.size(); ++s) {
    if (weights[s] <= 0) continue;
    for (std::size_t i = 0; i < kSurfaceTerms; ++i) {
      right[i] += weights[s] * terms[s][i] * values[s];
      for (std::size_t j = 0; j <= i; ++j) normal[i][j] += weights[s] * terms[s][i] * terms[s][j];
    }
  }
  for (std::size_t i = 0; i < kSurfaceTerms; ++i)
    for (std::size_t j = i + 1; j < kSurfaceTerms; ++j) normal[i][j] = normal[j][i];
  const auto covariance = inverted(normal);
  if (!covariance) return std::nullopt;
  Fit fit{{}, *covariance};
  for (std::size_t i = 0; i < kSurfaceTerms; ++i) fit.coefficients[i] = dotOf(fit.covariance[i], right);
  return fit;
}

/// Departures over each spot's own deviation, up to one common factor.
std::vector<double> departuresOf(const std::vector<SurfaceTerms>& terms, const std::vector<double>& values, const std::vector<double>& base,
                                 const SurfaceTerms& c) {
  std::vector<double> out(terms.size());
  for (std::size_t s = 0; s < terms.size(); ++s) out[s] = (values[s] - dotOf(c, terms[s])) * std::sqrt(base[s]);
  return out;
}

/// A least trimmed squares start: through the share of the spots that lie closest to a surface.
struct Start {
  SurfaceTerms coefficients{};
  std::vector<double> weights;  // of the spots that it goes through; else zero
  double squares = INFINITY;
};

std::optional<Start> concentrated(const std::vector<SurfaceTerms>& terms, const std::vector<double>& values, const std::vector<double>& base, Start from,
                                  std::size_t hold, int steps) {
  std::vector<std::size_t> order(terms.size());
  for (int step = 0; step < steps; ++step) {
    const auto off = departuresOf(terms, values, base, from.coefficients);
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::ranges::nth_element(order, order.begin() + static_cast<std::ptrdiff_t>(hold), {}, [&](std::size_t i) { return std::abs(off[i]); });
    Start next{{}, std::vector<double>(terms.size()), 0};
    for (std::size_t k = 0; k < hold; ++k) next.weights[order[k]] = base[order[k]];
    const auto fit = fittedSurface(terms, values, next.weights);
    if (!fit) return std::nullopt;
    next.coefficients = fit->coefficients;
    const auto left = departuresOf(terms, values, base, next.coefficients);
    for (std::size_t k = 0; k < hold; ++k) next.squares += left[order[k]] * left[order[k]];
    const bool still = next.squares >= from.squares * (1 - 1e-9);
    from = std::move(next);
    if (still) break;
  }
  return from;
}

std::optional<Start> trimmedStart(const std::vector<SurfaceTerms>& terms, const std::vector<double>& values, const std::vector<double>& base) {
  const std::size_t n = terms.size();
  const std::size_t hold = std::min(n - 1, std::max((n + kSurfaceTerms + 1) / 2, static_cast<std::size_t>(std::ceil(kTrimmedTo * static_cast<double>(n)))));
  std::mt19937_64 random(20231);  // always the same: twice the same photo gives twice the same surface
  std::vector<Start> starts;
  for (int i = 0; i < kStarts; ++i) {
    std::vector<double> weights(n);
    for (std::size_t picked = 0; picked < kSurfaceTerms + 1;) {  // one more than needed: six spots alone are often all but in one conic
      const std::size_t s = random() % n;
      if (weights[s] > 0) continue;
      weights[s] = base[s];
      ++picked;
    }
    const auto fit = fittedSurface(terms, values, weights);
    if (!fit) continue;
    if (auto start = concentrated(terms, values, base, {fit->coefficients, {}, INFINITY}, hold, 2)) starts.push_back(std::move(*start));
  }
  std::ranges::sort(starts, {}, &Start::squares);
  std::optional<Start> best;
  for (std::size_t i = 0; i < std::min(kBest, starts.size()); ++i) {
    auto end = concentrated(terms, values, base, starts[i], hold, 30);
    if (end && (!best || end->squares < best->squares)) best = std::move(end);
  }
  return best;
}

/// The departures' standard deviation from the median of their size, on the large side where they are few.
double spreadOf(const std::vector<double>& off, const std::vector<double>& weights) {
  std::vector<double> sizes;
  for (std::size_t i = 0; i < off.size(); ++i)
    if (weights[i] > 0) sizes.push_back(std::abs(off[i]));
  const auto n = static_cast<double>(sizes.size());
  const double freedom = std::max(1.0, n - static_cast<double>(kSurfaceTerms));
  return 1.4826 * medianOf(std::move(sizes)) * std::sqrt(n / freedom) * (1 + kFewKept / freedom);
}

/// Each spot's weight, 0 to 1, about a surface that goes through the spots that agree.
std::optional<std::vector<double>> agreement(const std::vector<SurfaceTerms>& terms, const std::vector<double>& values, const std::vector<double>& base) {
  const auto start = trimmedStart(terms, values, base);
  if (!start) return std::nullopt;
  const std::size_t n = terms.size();
  const auto held = static_cast<double>(std::ranges::count_if(start->weights, [](double w) { return w > 0; }));
  // The least departures of a normal distribution: their root mean square, to the standard deviation (by its quantile for the share held).
  const double share = held / static_cast<double>(n);
  const double quantile = share >= 0.75 ? 1.15 : 0.755 + 1.975 * (share - 0.55);  // of |normal|: 0.755 at 0.55, 1.15 at 0.75
  const double mean_square = share > 0 ? 1 - 2 * quantile * std::exp(-quantile * quantile / 2) / std::sqrt(2 * std::numbers::pi) / share : 1;
  double spread = std::sqrt(start->squares / std::max(1.0, held - static_cast<double>(kSurfaceTerms)) / mean_square);
  spread *= 1 + kFewSpots / static_cast<double>(n - kSurfaceTerms);
  spread = std::max(spread, kSmooth);

  // First grown: a spot outside is held against what is known of the surface there.
  std::vector<double> inside = start->weights;
  for (int round = 0; round < 12; ++round) {
    const auto fit = fittedSurface(terms, values, inside);
    if (!fit) return std::nullopt;
    const auto off = departuresOf(terms, values, base, fit->coefficients);
    if (round > 0) spread = std::max({kSmooth, spread * 0.5, spreadOf(off, inside)});
    std::vector<double> next(n);
    for (std::size_t i = 0; i < n; ++i) {
      const double unsure = inside[i] > 0 ? 0 : std::min(3.0, base[i] * form(fit->covariance, terms[i]));
      next[i] = std::abs(off[i]) < kKept * kBiweight * spread * std::sqrt(1 + unsure) ? base[i] : 0;
    }
    if (next == inside) break;
    inside = std::move(next);
  }
  std::vector<double> weights(n);
  for (std::size_t i = 0; i < n; ++i) weights[i] = inside[i] > 0 ? 1 : 0;
  for (int round = 0; round < 8; ++round) {
    std::vector<double> of(n);
    for (std::size_t i = 0; i < n; ++i) of[i] = weights[i] * base[i];
    const auto fit = fittedSurface(terms, values, of);
    if (!fit) return std::nullopt;
    const auto off = departuresOf(terms, values, base, fit->coefficients);
    spread = std::max({kSmooth, spread * 0.5, spreadOf(off, weights)});
    for (std::size_t i = 0; i < n; ++i) {
      const double t = off[i] / (kBiweight * spread);
      weights[i] = std::abs(t) < 1 ? (1 - t * t) * (1 - t * t) : 0;
    }
  }
  return weights;
}

constexpr double keptWeight() { return (1 - kKept * kKept) * (1 - kKept * kKept); }

}  // namespace

Result<LightMap> LightMap::fit(std::span<const PaperSpot> spots) {
  const std::size_t n = spots.size();
  if (n < kFewestSpots) return fail(Code::SheetUnusable, "too little blank paper is to be seen");
  for (const PaperSpot& spot : spots)
    if (!(*std::ranges::min_element(spot.sharp) > 0) || !std::isfinite(spot.at.x + spot.at.y + spot.sharp[0] + spot.sharp[1] + spot.sharp[2]))
      return fail(Code::SheetUnusable, "part of it is black");

  // A box along the spots' longest spread, so that a narrow strip that lies askew is as well settled as an upright one.
  LightMap map;
  Point mean;
  for (const PaperSpot& spot : spots) mean = {mean.x + spot.at.x / static_cast<double>(n), mean.y + spot.at.y / static_cast<double>(n)};
  double xx = 0, xy = 0, yy = 0;
  for (const PaperSpot& spot : spots) {
    xx += (spot.at.x - mean.x) * (spot.at.x - mean.x);
    xy += (spot.at.x - mean.x) * (spot.at.y - mean.y);
    yy += (spot.at.y - mean.y) * (spot.at.y - mean.y);
  }
  const double turn = 0.5 * std::atan2(2 * xy, xx - yy);
  map.axis_ = {std::cos(turn), std::sin(turn)};
  std::array<double, 2> low{INFINITY, INFINITY}, high{-INFINITY, -INFINITY};
  for (const PaperSpot& spot : spots) {
    const double dx = spot.at.x - mean.x, dy = spot.at.y - mean.y;
    const std::array<double, 2> along{dx * map.axis_.x + dy * map.axis_.y, dy * map.axis_.x - dx * map.axis_.y};
    for (std::size_t k = 0; k < 2; ++k) {
      low[k] = std::min(low[k], along[k]);
      high[k] = std::max(high[k], along[k]);
    }
  }
  for (std::size_t k = 0; k < 2; ++k) map.half_[k] = 0.5 * (high[k] - low[k]);
  constexpr std::string_view kInLine = "the blank paper that can be used lies in a line";
  if (!(map.half_[0] > 0 && map.half_[1] > kThin * map.half_[0])) return fail(Code::SheetUnusable, std::string(kInLine));
  const double u = 0.5 * (low[0] + high[0]), v = 0.5 * (low[1] + high[1]);
  map.centre_ = {mean.x + u * map.axis_.x - v * map.axis_.y, mean.y + u * map.axis_.y + v * map.axis_.x};

  std::vector<SurfaceTerms> terms;
  std::vector<Vec3> logs;
  std::vector<double> base;
  for (const PaperSpot& spot : spots) {
    terms.push_back(map.termsAt(spot.at));
    logs.push_back({std::log(spot.sharp[0]), std::log(spot.sharp[1]), std::log(spot.sharp[2])});
    const double scatter = std::isfinite(spot.scatter) ? spot.scatter : 1;
    base.push_back(1 / (kPaper * kPaper + scatter * scatter));
  }
  const double usual = medianOf(base);
  for (double& weight : base) weight = std::min(weight / usual, 4.0);  // no spot counts for many others

  // What departs in brightness, or in either of two colour differences, is not kept in any channel.
  const std::array<Vec3, 3> views{{{1.0 / 3, 1.0 / 3, 1.0 / 3}, {1, -1, 0}, {0, -1, 1}}};
  std::vector<bool> kept(n, true);
  for (const Vec3& view : views) {
    std::vector<double> values;
    for (const Vec3& log : logs) values.push_back(dot(view, log));
    const auto weights = agreement(terms, values, base);
    if (!weights) return fail(Code::SheetUnusable, std::string(kInLine));
    for (std::size_t i = 0; i < n; ++i) kept[i] = kept[i] && (*weights)[i] >= keptWeight();
  }
  const auto count = static_cast<std::size_t>(std::ranges::count(kept, true));
  constexpr std::size_t kFewestKept = 9;  // three more than the surface has terms
  if (2 * count < n || count < kFewestKept) return fail(Code::SheetUnusable, "too much of it lies in shadow or under things");

  std::vector<double> weights(n);
  for (std::size_t i = 0; i < n; ++i) weights[i] = kept[i] ? base[i] : 0;
  const auto freedom = static_cast<double>(count - kSurfaceTerms);
  for (std::size_t c = 0; c < 3; ++c) {
    std::vector<double> values;
    for (const Vec3& log : logs) values.push_back(log[c]);
    const auto fit = fittedSurface(terms, values, weights);
    if (!fit) return fail(Code::SheetUnusable, std::string(kInLine));
    map.coefficients_[c] = fit->coefficients;
    map.covariance_ = fit->covariance;
    double squares = 0;
    std::vector<double> sizes;
    for (std::size_t i = 0; i < n; ++i) {
      if (!kept[i]) continue;
      const double off = values[i] - dotOf(fit->coefficients, terms[i]);
      squares += weights[i] * off * off;
      sizes.push_back(std::abs(off));
    }
    // Few spots tell their own deviation badly: Student's t has the variance ν / (ν − 2). The rest: what was cut off looked worse. Tuned.
    map.unit_variance_[c] = squares / (freedom - 2) * (1 + 3 / freedom);
    map.residual_ += 1.4826 * medianOf(std::move(sizes)) * std::sqrt(static_cast<double>(count) / freedom) / 3;
  }
  if (map.residual_ > kWorst) return fail(Code::SheetUnusable, "its paper is not plain, or too much lies on it");
  for (std::size_t i = 0; i < n; ++i) {
    double off = 0;
    for (std::size_t c = 0; c < 3; ++c) off += (logs[i][c] - dotOf(map.coefficients_[c], terms[i])) / 3;
    map.departures_.push_back({spots[i].at, off, kept[i]});
  }
  return map;
}

LightMap::Terms LightMap::termsAt(Point place) const {
  const double dx = place.x - centre_.x, dy = place.y - centre_.y;
  const double u = (dx * axis_.x + dy * axis_.y) / half_[0], v = (dy * axis_.x - dx * axis_.y) / half_[1];
  const double a = std::clamp(u, -kStraightFrom, kStraightFrom), b = std::clamp(v, -kStraightFrom, kStraightFrom), over_a = u - a, over_b = v - b;
  // The value at the edge of the larger box and the slope there.
  return {1, u, v, a * a + 2 * a * over_a, a * b + b * over_a + a * over_b, b * b + 2 * b * over_b};
}

Vec3 LightMap::logLight(Point place) const {
  const SurfaceTerms terms = termsAt(place);
  return {dotOf(coefficients_[0], terms), dotOf(coefficients_[1], terms), dotOf(coefficients_[2], terms)};
}

std::array<double, 2> LightMap::slope(Point place) const {
  // The terms are quadratic between here and a pixel on, so that central differences are exact.
  const auto mean = [&](Point p) {
    const Vec3 log = logLight(p);
    return (log[0] + log[1] + log[2]) / 3;
  };
  return {0.5 * (mean({place.x + 1, place.y}) - mean({place.x - 1, place.y})), 0.5 * (mean({place.x, place.y + 1}) - mean({place.x, place.y - 1}))};
}

Vec3 LightMap::variance(Point a, Point b) const {
  const SurfaceTerms at_a = termsAt(a), at_b = termsAt(b);
  SurfaceTerms apart{};
  for (std::size_t i = 0; i < kSurfaceTerms; ++i) apart[i] = at_a[i] - at_b[i];
  return std::max(0.0, form(covariance_, apart)) * unit_variance_;
}

double LightMap::residual() const { return residual_; }

}  // namespace huewright
