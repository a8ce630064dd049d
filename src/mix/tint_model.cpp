#include "mix/tint_model.hpp"

#include <cmath>

#include "colour/adapt.hpp"

namespace huewright {
namespace {

constexpr Vec3 kSharpenedWhite = kBradford * kWhite<D50>;
constexpr Mat3 kToSharpened = Mat3::diagonal({1 / kSharpenedWhite[0], 1 / kSharpenedWhite[1], 1 / kSharpenedWhite[2]}) * kBradford;
constexpr Mat3 kFromSharpened = inverse(kToSharpened);

Xyz<D50> xyzOfSharpened(const Vec3& rgb) {
  const Vec3 v = kFromSharpened * rgb;
  return {v[0], v[1], v[2]};
}

}  // namespace

Vec3 sharpened(const Lab<D50>& lab) { return kToSharpened * toVec(toXyz(lab)); }

Lab<D50> labOfSharpened(const Vec3& rgb) { return toLab(xyzOfSharpened(rgb)); }

Lab<D50> filmLab(std::span<const Tint> tints, const Film& film, const Vec3& ground) {
  const double amount = film.tint_part * film.coats;
  Vec3 linear{};
  for (std::size_t c = 0; c < 3; ++c) {
    double depth = 0, saturation = 1;
    for (std::size_t t = 0; t < tints.size(); ++t) {
      const double a = amount * film.shares[t] * tints[t].k[c];
      depth += a;
      saturation += tints[t].beta[c] * a;
    }
    linear[c] = kFilmFloor + (ground[c] - kFilmFloor) * std::exp(-depth / saturation);
  }
  return labOfSharpened(linear);
}

FilmColour filmColour(std::span<const Tint> tints, const Film& film, const Vec3& ground) {
  const std::size_t count = tints.size();
  const double amount = film.tint_part * film.coats;
  Vec3 linear{}, through{}, depth{}, saturation{1, 1, 1};
  for (std::size_t c = 0; c < 3; ++c) {
    for (std::size_t t = 0; t < count; ++t) {
      const double a = amount * film.shares[t] * tints[t].k[c];
      depth[c] += a;
      saturation[c] += tints[t].beta[c] * a;
    }
    through[c] = std::exp(-depth[c] / saturation[c]);
    linear[c] = kFilmFloor + (ground[c] - kFilmFloor) * through[c];
  }
  const Xyz<D50> xyz = xyzOfSharpened(linear);
  const Mat3 by_linear = labByXyz(xyz) * kFromSharpened;
  const auto column = [&](std::size_t c) { return Vec3{by_linear(0, c), by_linear(1, c), by_linear(2, c)}; };

  FilmColour out;
  out.lab = toLab(xyz);
  out.by_ground = by_linear * Mat3::diagonal(through);
  out.by_ln_k.resize(3 * count);
  out.by_beta.resize(3 * count);
  out.by_share.resize(count);
  for (std::size_t c = 0; c < 3; ++c) {
    const Vec3 by_e = -(ground[c] - kFilmFloor) * through[c] * column(c);  // ∂Lab/∂E
    const double s = saturation[c], s2 = s * s;
    out.by_ln_coats = out.by_ln_coats + (depth[c] / s2) * by_e;
    for (std::size_t t = 0; t < count; ++t) {
      const double per_share = amount * tints[t].k[c], a = per_share * film.shares[t];
      const double by_a = 1 / s - depth[c] * tints[t].beta[c] / s2;           // ∂E/∂a_t
      out.by_ln_k[3 * t + c] = (by_a * a) * by_e;
      out.by_beta[3 * t + c] = (-depth[c] * a / s2) * by_e;
      out.by_share[t] = out.by_share[t] + (by_a * per_share) * by_e;
    }
  }
  return out;
}

}  // namespace huewright
