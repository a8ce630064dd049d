#include "camera/profile.hpp"

#include <algorithm>
#include <cmath>

#include "colour/delta_e.hpp"
#include "colour/rgb.hpp"

namespace huewright {
namespace {

constexpr double kRootFloor = 0.002;  // of the length of (r, g, b)
constexpr double kBlack = 1e-9;       // lengths below have no direction
constexpr std::array<std::array<std::size_t, 2>, 3> kPairs{{{0, 1}, {1, 2}, {0, 2}}};

/// A channel held above zero, (x + √(x² + 4f²))/2 with f a share of the length, and its derivatives.
struct Held {
  double value = 0;
  Vec3 by{};
};
Held held(const Vec3& v, std::size_t c, double size) {
  const double f = kRootFloor * size, root = std::sqrt(v[c] * v[c] + 4 * f * f);
  // The other form where the sum would cancel.
  Held h{v[c] >= 0 ? 0.5 * (v[c] + root) : 2 * f * f / (root - v[c]), {}};
  for (std::size_t k = 0; k < 3; ++k) h.by[k] = 2 * kRootFloor * kRootFloor * v[k] / root;
  h.by[c] += h.value / root;
  return h;
}

Vec3 each(const Vec3& a, const Vec3& b) { return {a[0] * b[0], a[1] * b[1], a[2] * b[2]}; }

Vec3 balanced(const ColourMap& m, const Vec3& device, const Vec3& gain) {
  return each(m.balance, each(gain, m.straightened(device)) - m.veil);
}

Vec3 times(const XyzByTerm& m, const Terms& t) {
  Vec3 out{};
  for (std::size_t r = 0; r < 3; ++r)
    for (std::size_t k = 0; k < kTerms; ++k) out[r] += m[r][k] * t[k];
  return out;
}

Xyz<D50> xyzOf(const Vec3& v) { return {v[0], v[1], v[2]}; }

}  // namespace

Terms rootTerms(const Vec3& v) {
  Terms t{v[0], v[1], v[2], 0, 0, 0};
  const double size = length(v);
  if (size < kBlack) return t;
  const Vec3 h{held(v, 0, size).value, held(v, 1, size).value, held(v, 2, size).value};
  for (std::size_t p = 0; p < 3; ++p) {
    const auto [i, j] = kPairs[p];
    t[3 + p] = std::sqrt(h[i] * h[j]) - 0.5 * (v[i] + v[j]);
  }
  return t;
}

std::array<Vec3, kTerms> rootTermsBy(const Vec3& v) {
  std::array<Vec3, kTerms> by{{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}, {}, {}, {}}};
  const double size = length(v);
  if (size < kBlack) return by;
  const std::array<Held, 3> h{held(v, 0, size), held(v, 1, size), held(v, 2, size)};
  for (std::size_t p = 0; p < 3; ++p) {
    const auto [i, j] = kPairs[p];
    const double root = std::sqrt(h[i].value * h[j].value);
    for (std::size_t k = 0; k < 3; ++k) by[3 + p][k] = (h[i].by[k] * h[j].value + h[j].by[k] * h[i].value) / (2 * root);
    by[3 + p][i] -= 0.5;
    by[3 + p][j] -= 0.5;
  }
  return by;
}

Vec3 ColourMap::straightened(const Vec3& d) const { return {curve(d[0]), curve(d[1]), curve(d[2])}; }

Xyz<D50> ColourMap::apply(const Vec3& d, const Vec3& gain) const { return xyzOf(times(terms, rootTerms(balanced(*this, d, gain)))); }

Xyz<D50> ColourMap::applyMatrix(const Vec3& d, const Vec3& gain) const { return xyzOf(matrix * balanced(*this, d, gain)); }

Mat3 ColourMap::derivative(const Vec3& d, const Vec3& gain) const {
  const auto by = rootTermsBy(balanced(*this, d, gain));
  Mat3 out;
  for (std::size_t r = 0; r < 3; ++r)
    for (std::size_t k = 0; k < kTerms; ++k) out.row[r] = out.row[r] + terms[r][k] * by[k];
  const Vec3 slope{curve.derivative(d[0]), curve.derivative(d[1]), curve.derivative(d[2])};
  return out * Mat3::diagonal(each(balance, each(gain, slope)));
}

double ColourMap::extrapolation(const Vec3& d, const Vec3& gain) const {
  const Vec3 v = balanced(*this, d, gain);
  const double size = length(v);
  if (size < kBlack) return 0;
  const Terms t = rootTerms((1 / size) * v);
  double leverage = 0;
  for (std::size_t i = 0; i < kTerms; ++i)
    for (std::size_t j = 0; j < kTerms; ++j) leverage += t[i] * span[i][j] * t[j];
  return std::max(0.0, std::sqrt(std::max(leverage, 0.0) / largest_leverage) - 1);
}

std::vector<Vec3> ColourMap::shifts(const Vec3& d, const Vec3& gain) const {
  const Terms t = rootTerms(balanced(*this, d, gain));
  const Xyz<D50> xyz = xyzOf(times(terms, t));
  const Mat3 to_lab = labByXyz(xyz);
  std::vector<Vec3> out;
  out.reserve(unsure.size() + 18);
  for (const XyzByTerm& shift : unsure) out.push_back(to_lab * times(shift, t));
  // The symmetric root of the inverse metric: a step of `misfit` ΔE00 in three directions that turn as little as possible from colour to colour.
  const Lab<D50> lab = toLab(xyz);
  const Mat3 by = deltaVector(lab, lab).by_panel;
  const Eigen3 metric = eigenSymmetric(transpose(by) * by);
  Vec3 root{};
  for (std::size_t i = 0; i < 3; ++i) root[i] = misfit / std::sqrt(std::max(metric.values[i], 1e-6));
  const Mat3 step = metric.vectors * Mat3::diagonal(root) * transpose(metric.vectors);
  // Waves in CIELAB along each of its axes: their squares sum up to one everywhere, and neighbours go together.
  for (const double along : toVec(lab))
    for (const double wave : {std::cos(along / misfit_reach), std::sin(along / misfit_reach)})
      for (std::size_t c = 0; c < 3; ++c) out.push_back(wave / std::sqrt(3.0) * Vec3{step(0, c), step(1, c), step(2, c)});
  return out;
}

Mat3 ColourMap::covariance(const Vec3& d, const Vec3& gain) const {
  Mat3 sum;
  for (const Vec3& s : shifts(d, gain)) sum = sum + outer(s, s);
  return sum;
}

Vec3 ColourMap::neutral(double y) const { return veil + Vec3{y / balance[0], y / balance[1], y / balance[2]}; }

Vec3 ColourMap::gainFor(const Vec3& grey, double y) const {
  const Vec3 have = straightened(grey), want = neutral(y);
  return {want[0] / have[0], want[1] / have[1], want[2] / have[2]};
}

namespace {

/// Linear sRGB, of which nothing is unsure.
const ColourMap& plainSrgb() {
  static const ColourMap map = [] {
    ColourMap m;
    m.matrix = kSrgbToXyzD50;
    for (std::size_t r = 0; r < 3; ++r)
      for (std::size_t c = 0; c < 3; ++c) m.terms[r][c] = kSrgbToXyzD50(r, c);
    return m;
  }();
  return map;
}

const ColourMap& mapOf(const CameraProfile& p) { return p.map ? *p.map : plainSrgb(); }

}  // namespace

Xyz<D50> CameraProfile::apply(const Vec3& d, const Vec3& gain) const { return mapOf(*this).apply(d, gain); }
Mat3 CameraProfile::derivative(const Vec3& d, const Vec3& gain) const { return mapOf(*this).derivative(d, gain); }
double CameraProfile::extrapolation(const Vec3& d, const Vec3& gain) const { return mapOf(*this).extrapolation(d, gain); }
std::vector<Vec3> CameraProfile::shifts(const Vec3& d, const Vec3& gain) const {
  return map ? map->shifts(d, gain) : std::vector<Vec3>{};
}

}  // namespace huewright
