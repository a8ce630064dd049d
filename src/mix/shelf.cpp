#include "mix/shelf.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

#include "mix/next_mix.hpp"

namespace huewright {
namespace {

/// What the quick search keeps of a choice of tints.
struct QuickFind {
  std::vector<std::size_t> tints;
  std::vector<int> parts;
  double coats = 0;
  double square = 1e18;                // distance by the metric at the target, squared, and simplicity
};

/// One pass over parts and coats for some tints. Distances are by the metric at the target: exact near it, where it matters.
class QuickSearch {
 public:
  QuickSearch(const std::vector<KnownTint>& shelf, const ShelfWish& wish)
      : wish_(wish), ground_(sharpened(wish.ground)), metric_(deltaVector(wish.target, wish.target).by_panel), coats_(coatsWithin(wish.limits)) {
    for (const KnownTint& tint : shelf) tints_.push_back(tint.fitted.mean);
    for (std::size_t n = 1; n <= 3; ++n) {
      parts_.push_back(wholeParts(n, wish.limits.max_total_parts, false));
      std::erase_if(parts_.back(), [](const std::vector<int>& p) { return std::ranges::min(p) == 0; });
    }
  }

  QuickFind best(std::vector<std::size_t> of) const {
    QuickFind found;
    const double amount = tintPart(wish_.carrier_per_tint);
    for (const std::vector<int>& parts : parts_[of.size() - 1]) {
      const double whole = std::accumulate(parts.begin(), parts.end(), 0);
      Vec3 depth{}, bend{};            // of one coat
      for (std::size_t i = 0; i < of.size(); ++i)
        for (std::size_t c = 0; c < 3; ++c) {
          const double a = amount * parts[i] / whole * tints_[of[i]].k[c];
          depth[c] += a;
          bend[c] += a * tints_[of[i]].beta[c];
        }
      for (const double n : coats_) {
        Vec3 linear{};
        for (std::size_t c = 0; c < 3; ++c) linear[c] = kFilmFloor + (ground_[c] - kFilmFloor) * std::exp(-n * depth[c] / (1 + n * bend[c]));
        const Vec3 u = metric_ * (toVec(labOfSharpened(linear)) - toVec(wish_.target));
        if (const double square = dot(u, u); square < found.square) {
          found.square = square;
          found.parts = parts;
          found.coats = n;
        }
      }
    }
    const double further = std::sqrt(found.square) + kSimpler * static_cast<double>(of.size() - 1);
    found.square = further * further;
    found.tints = std::move(of);
    return found;
  }

 private:
  ShelfWish wish_;
  Vec3 ground_;
  Mat3 metric_;
  std::vector<double> coats_;
  std::vector<Tint> tints_;
  std::vector<std::vector<std::vector<int>>> parts_;
};

/// The same with the tints' uncertainty, at that mix and its neighbours in coats.
ShelfMix looked(const TintFile& shelf, const ShelfWish& wish, const QuickFind& find) {
  TintFit fit;
  for (const std::size_t tint : find.tints) fit.tints.push_back(shelf.tints[tint].fitted.mean);
  fit.covariance = jointPrior(shelf, find.tints, strangeGround(shelf, wish.ground));
  const Predictor predictor(std::move(fit), {});
  const Aim aim(predictor, wish.target, wish.ground, tintPart(wish.carrier_per_tint));
  MixChoice best = aim.at(find.parts, find.coats);
  for (const double n : coatsWithin(wish.limits))
    if (std::abs(n - find.coats) == 1)
      if (const MixChoice other = aim.at(find.parts, n); other.de00 < best.de00) best = other;
  best = aim.withRange(best);
  best.score = best.de00 + kSimpler * static_cast<double>(find.tints.size() - 1);
  return {find.tints, best};
}

}  // namespace

Result<std::vector<ShelfMix>> fromShelf(const TintFile& shelf, const ShelfWish& wish) {
  const std::size_t count = shelf.tints.size();
  if (count == 0) return fail(Code::TintFileUnusable, "there is no tint in it");
  if (count > kMostOnShelf) return fail(Code::TintFileUnusable, fmt::format("it holds {} tints, and a shelf may have {}", count, kMostOnShelf));
  const QuickSearch search(shelf.tints, wish);
  std::vector<QuickFind> found;
  for (std::size_t a = 0; a < count; ++a) {
    found.push_back(search.best({a}));
    for (std::size_t b = a + 1; b < count && wish.most_tints >= 2; ++b) {
      found.push_back(search.best({a, b}));
      for (std::size_t c = b + 1; c < count && wish.most_tints >= 3; ++c) found.push_back(search.best({a, b, c}));
    }
  }
  const std::size_t looks = std::min<std::size_t>(found.size(), 20 * wish.keep);
  std::ranges::partial_sort(found, found.begin() + static_cast<std::ptrdiff_t>(looks), {}, &QuickFind::square);
  std::vector<ShelfMix> mixes;
  for (std::size_t i = 0; i < looks; ++i) mixes.push_back(looked(shelf, wish, found[i]));
  std::ranges::stable_sort(mixes, {}, [](const ShelfMix& m) { return m.choice.score; });
  if (mixes.size() > wish.keep) mixes.resize(wish.keep);
  return mixes;
}

}  // namespace huewright
