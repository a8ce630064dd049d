#include "colour/delta_e.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

namespace huewright {
namespace {

struct Dual;
Dual chain(const Dual& x, double value, double slope);
Dual chain(const Dual& x, const Dual& y, double value, double by_x, double by_y);

/// A value with its derivatives by the six inputs (L, a, b of the panel, then of the card).
struct Dual {
  double v = 0;
  std::array<double, 6> d{};
  Dual() = default;
  Dual(double value) : v(value) {}  // NOLINT: a plain number is a constant

  // Friends, so that they do not hide the operators of vectors.
  friend Dual operator+(const Dual& x, const Dual& y) { return chain(x, y, x.v + y.v, 1, 1); }
  friend Dual operator-(const Dual& x, const Dual& y) { return chain(x, y, x.v - y.v, 1, -1); }
  friend Dual operator*(const Dual& x, const Dual& y) { return chain(x, y, x.v * y.v, y.v, x.v); }
  friend Dual operator/(const Dual& x, const Dual& y) { return chain(x, y, x.v / y.v, 1 / y.v, -x.v / (y.v * y.v)); }
};

Dual chain(const Dual& x, double value, double slope) {
  Dual r(value);
  for (std::size_t i = 0; i < 6; ++i) r.d[i] = slope * x.d[i];
  return r;
}
Dual chain(const Dual& x, const Dual& y, double value, double by_x, double by_y) {
  Dual r(value);
  for (std::size_t i = 0; i < 6; ++i) r.d[i] = by_x * x.d[i] + by_y * y.d[i];
  return r;
}
Dual cos(const Dual& x) { return chain(x, std::cos(x.v), -std::sin(x.v)); }
Dual sin(const Dual& x) { return chain(x, std::sin(x.v), std::cos(x.v)); }
Dual exp(const Dual& x) { return chain(x, std::exp(x.v), std::exp(x.v)); }
Dual sqrt(const Dual& x) {
  const double root = std::sqrt(x.v);
  return chain(x, root, root > 0 ? 0.5 / root : 0.0);
}
Dual atan2(const Dual& y, const Dual& x) {
  const double square = x.v * x.v + y.v * y.v;
  const double s = square > 0 ? 1 / square : 0.0;
  return chain(y, x, std::atan2(y.v, x.v), x.v * s, -y.v * s);
}

double value(double x) { return x; }
double value(const Dual& x) { return x.v; }

constexpr double kPi = std::numbers::pi;
constexpr double radians(double degrees) { return degrees * kPi / 180.0; }

template <class T>
struct LabOf {
  T L, a, b;
};

template <class T>
T seventh(const T& x) {
  const T x2 = x * x;
  return x2 * x2 * x2 * x;
}

constexpr double k25to7 = 6103515625.0;

/// 1 + G, by which a* is stretched; in: the mean C*ab. Equations 4 and 5.
template <class T>
T stretch(const T& mean_c) {
  using std::sqrt;
  const T c7 = seventh(mean_c);
  return T(1.5) - T(0.5) * sqrt(c7 / (c7 + T(k25to7)));
}

// C*ab below which the parts of u run along a* and b*. Chosen so that the curvature of the other frame is still mild.
constexpr double kNearNeutral = 2.0;

/// Chroma and hue differences have no derivative where a chroma is zero, though ΔE00 has: dH grows with the square root of the smaller
/// chroma. Near neutral the last two parts of u are therefore laid along Δa' and Δb, with the length that the formula gives them.
void layAlongAxes(const std::array<Dual, 6>& in, std::array<Dual, 3>& u) {
  const auto chromaOf = [](const Dual& a, const Dual& b) { return sqrt(a * a + b * b); };
  const Dual mean_c = (chromaOf(in[1], in[2]) + chromaOf(in[4], in[5])) * Dual(0.5), by = stretch(mean_c);
  const Dual da = by * in[1] - by * in[4], db = in[2] - in[5];
  const double plain = std::hypot(da.v, db.v);
  // Without a difference there is no scale to take over: between those of chroma (1 + 0.045 C) and hue (1 + 0.015 C).
  const Dual scale(plain > 1e-9 ? std::hypot(u[1].v, u[2].v) / plain : 1 / (1 + 0.03 * mean_c.v));
  u[1] = scale * da;
  u[2] = scale * db;
}

/// Sharma, Wu, Dalal (2005), equations 2 to 22, with kL = kC = kH = 1. Equation numbers stand beside the lines.
template <class T>
std::array<T, 3> components(const LabOf<T>& one, const LabOf<T>& two) {
  using std::atan2, std::cos, std::exp, std::sin, std::sqrt;
  const auto hypotenuse = [](const T& x, const T& y) { return sqrt(x * x + y * y); };
  const T mean_c = (hypotenuse(one.a, one.b) + hypotenuse(two.a, two.b)) * T(0.5);              // 2, 3
  const T by = stretch(mean_c);                                                                 // 4
  const T a1 = by * one.a, a2 = by * two.a;                                                     // 5
  const T c1 = hypotenuse(a1, one.b), c2 = hypotenuse(a2, two.b);                               // 6
  const bool grey = value(c1) * value(c2) == 0;
  T h1 = value(c1) == 0 ? T(0.0) : T(atan2(one.b, a1));                                         // 7
  T h2 = value(c2) == 0 ? T(0.0) : T(atan2(two.b, a2));
  if (value(h1) < 0) h1 = h1 + T(2 * kPi);
  if (value(h2) < 0) h2 = h2 + T(2 * kPi);

  // 10, 14: the shorter way round; a tie at 180° within rounding takes the plain mean, as the published pairs do.
  constexpr double kTie = 1e-9;
  T dh = h1 - h2, mean_h = (h1 + h2) * T(0.5);
  if (grey) {
    dh = T(0.0);
    mean_h = h1 + h2;
  } else if (std::abs(value(dh)) > kPi + kTie) {
    dh = dh + T(value(dh) > 0 ? -2 * kPi : 2 * kPi);
    mean_h = mean_h + T(value(mean_h) < kPi ? kPi : -kPi);
  }

  const T dl = one.L - two.L, dc = c1 - c2;                                                     // 8, 9
  const T dH = T(2.0) * sqrt(c1 * c2) * sin(dh * T(0.5));                                       // 11
  const T mean_l = (one.L + two.L) * T(0.5), mean_c1 = (c1 + c2) * T(0.5);                      // 12, 13

  const T t = T(1.0) - T(0.17) * cos(mean_h - T(radians(30))) + T(0.24) * cos(T(2.0) * mean_h) +
              T(0.32) * cos(T(3.0) * mean_h + T(radians(6))) - T(0.20) * cos(T(4.0) * mean_h - T(radians(63)));  // 15
  const T lean = (mean_h - T(radians(275))) / T(radians(25));
  const T theta = T(radians(30)) * exp(T(0.0) - lean * lean);                                   // 16
  const T cc7 = seventh(mean_c1);
  const T rc = T(2.0) * sqrt(cc7 / (cc7 + T(k25to7)));                                          // 17
  const T l50 = (mean_l - T(50.0)) * (mean_l - T(50.0));
  const T sl = T(1.0) + T(0.015) * l50 / sqrt(T(20.0) + l50);                                   // 18
  const T sc = T(1.0) + T(0.045) * mean_c1;                                                     // 19
  const T sh = T(1.0) + T(0.015) * mean_c1 * t;                                                 // 20
  const T rt = T(0.0) - sin(T(2.0) * theta) * rc;                                               // 21

  // 22, with the cross term RT folded in by a symmetric square root.
  const T plus = sqrt(T(1.0) + rt * T(0.5)), minus = sqrt(T(1.0) - rt * T(0.5));
  const T same = (plus + minus) * T(0.5), cross = (plus - minus) * T(0.5);
  const T x = dc / sc, y = dH / sh;
  return {dl / sl, same * x + cross * y, cross * x + same * y};
}

}  // namespace

double deltaE2000(const Lab<D50>& a, const Lab<D50>& b) {
  return length(components<double>({a.L, a.a, a.b}, {b.L, b.a, b.b}));
}

DeltaVector deltaVector(const Lab<D50>& panel, const Lab<D50>& card) {
  std::array<Dual, 6> in{Dual(panel.L), Dual(panel.a), Dual(panel.b), Dual(card.L), Dual(card.a), Dual(card.b)};
  for (std::size_t i = 0; i < 6; ++i) in[i].d[i] = 1;
  auto u = components<Dual>({in[0], in[1], in[2]}, {in[3], in[4], in[5]});
  if (std::min(chroma(toVec(panel)), chroma(toVec(card))) < kNearNeutral) layAlongAxes(in, u);
  DeltaVector out;
  for (std::size_t r = 0; r < 3; ++r) {
    out.u[r] = u[r].v;
    for (std::size_t c = 0; c < 3; ++c) {
      out.by_panel(r, c) = u[r].d[c];
      out.by_card(r, c) = u[r].d[c + 3];
    }
  }
  return out;
}

LabDifference labDifference(const Lab<D50>& panel, const Lab<D50>& card) {
  const Vec3 p = toVec(panel), c = toVec(card);
  LabDifference d{p[0] - c[0], p[1] - c[1], p[2] - c[2], chroma(p) - chroma(c), 0};
  // ΔH*ab = 2 √(C1 C2) sin(Δh/2); the sign is that of the cross product.
  const double cross = c[1] * p[2] - c[2] * p[1];
  const double product = chroma(p) * chroma(c), cosine = p[1] * c[1] + p[2] * c[2];
  d.dH = std::copysign(std::sqrt(std::max(0.0, 2.0 * (product - cosine))), cross);
  return d;
}

}  // namespace huewright
