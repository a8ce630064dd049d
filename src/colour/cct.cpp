#include "colour/cct.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <utility>

namespace huewright {
namespace {

constexpr double kC2 = 0.014388;                        // m·K; CIE 15:2018 (ITS-90)
constexpr double kFirst = 25, kLast = 1000, kStep = 5;  // reciprocal megakelvins of the table: beyond both ends, to know them apart from far
constexpr double kWarmest = 1500, kCoolest = 25000;     // kelvin
constexpr double kFarthest = 0.05;
constexpr double kEnd = 1e-6;  // relative; an end of the range itself counts as inside

double square(Uv a, Uv b) { return (a.u - b.u) * (a.u - b.u) + (a.v - b.v) * (a.v - b.v); }

}  // namespace

PlanckianLocus::PlanckianLocus(Observer observer) : observer_(std::move(observer)) {
  for (double mired = kFirst; mired <= kLast; mired += kStep) table_.push_back(point(mired).uv);
}

PlanckianLocus::Point PlanckianLocus::point(double mired) const {
  Vec3 xyz{}, slope{};
  for (std::size_t i = 0; i < observer_.nm.size(); ++i) {
    // Planck's law, λ^-5 / (e^q − 1), with q = c2 / (λ T); λ in units of 560 nm keeps the numbers near one.
    const double inverse = 560.0 / observer_.nm[i];
    const double by_mired = kC2 * 1e3 / observer_.nm[i];
    const double q = by_mired * mired, below = std::expm1(q);
    const double power = inverse * inverse * inverse * inverse * inverse / below;
    const Vec3 bar{observer_.x[i], observer_.y[i], observer_.z[i]};
    xyz = xyz + power * bar;
    slope = slope + (-power * by_mired * (below + 1) / below) * bar;
  }
  const Vec3 kSum{1, 15, 3};
  const double s = dot(kSum, xyz), ds = dot(kSum, slope);
  return {{4 * xyz[0] / s, 6 * xyz[1] / s}, {4 * (slope[0] * s - xyz[0] * ds) / (s * s), 6 * (slope[1] * s - xyz[1] * ds) / (s * s)}};
}

Uv PlanckianLocus::at(double kelvin) const { return point(1e6 / kelvin).uv; }

std::expected<Cct, CctProblem> PlanckianLocus::find(Chromaticity c) const {
  // Written so that NaN fails too. Below 0.001 no light that can be seen has its y.
  if (!(c.x >= 0 && c.y >= 0.001 && c.x + c.y <= 1)) return std::unexpected(CctProblem::NoChromaticity);
  const Uv want = toUv(c);
  const auto nearest = std::ranges::min_element(table_, {}, [&](const Uv& uv) { return square(uv, want); });
  const double middle = kFirst + kStep * static_cast<double>(nearest - table_.begin());

  // How far the wanted point still lies ahead, along the locus: positive before the foot of the perpendicular, negative behind it.
  const auto ahead = [&](const Point& at) { return (want.u - at.uv.u) * at.slope.u + (want.v - at.uv.v) * at.slope.v; };
  double low = std::max(kFirst, middle - kStep), high = std::min(kLast, middle + kStep);
  if (ahead(point(low)) < 0) high = low;
  else if (ahead(point(high)) > 0) low = high;
  for (int i = 0; i < 40 && low < high; ++i) {
    const double m = 0.5 * (low + high);
    (ahead(point(m)) > 0 ? low : high) = m;
  }
  const double mired = 0.5 * (low + high), kelvin = 1e6 / mired;
  const Uv foot = point(mired).uv;
  const double distance = std::sqrt(square(foot, want));
  if (distance > kFarthest) return std::unexpected(CctProblem::TooFar);
  if (kelvin < kWarmest * (1 - kEnd)) return std::unexpected(CctProblem::TooWarm);
  if (kelvin > kCoolest * (1 + kEnd)) return std::unexpected(CctProblem::TooCool);
  return Cct{kelvin, std::copysign(distance, want.v - foot.v)};
}

}  // namespace huewright
