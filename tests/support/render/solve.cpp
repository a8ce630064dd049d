#include "render/solve.hpp"

#include <algorithm>
#include <cmath>

#include "colour/delta_e.hpp"

namespace huewright::render {
namespace {

constexpr double kMostCoats = 16;

// One quantity of a paint, and how far the paint is from the card as it changes.
struct Handle {
  Paint paint;
  double Paint::*what;
  double most;
  Lab<D50> card;

  double at(double value) const {
    Paint p = paint;
    p.*what = value;
    return deltaE2000(labOf(p), card);
  }

  // Coarse scan, then golden section around the best place.
  Best best() const {
    constexpr int kSteps = 48;
    int lowest = 0;
    double low = at(0);
    for (int i = 1; i <= kSteps; ++i) {
      const double d = at(most * i / kSteps);
      if (d < low) {
        low = d;
        lowest = i;
      }
    }
    double a = most * std::max(lowest - 1, 0) / kSteps, b = most * std::min(lowest + 1, kSteps) / kSteps;
    const double ratio = (std::sqrt(5.0) - 1) / 2;
    double x = b - ratio * (b - a), y = a + ratio * (b - a), fx = at(x), fy = at(y);
    for (int i = 0; i < 34; ++i) {
      if (fx < fy) {
        b = y;
        y = x;
        fy = fx;
        x = b - ratio * (b - a);
        fx = at(x);
      } else {
        a = x;
        x = y;
        fx = fy;
        y = a + ratio * (b - a);
        fy = at(y);
      }
    }
    const double middle = 0.5 * (a + b);
    const Best found{middle, at(middle)};
    if (at(0) < found.de00) return {0, at(0)};
    if (at(most) < found.de00) return {most, at(most)};
    return found;
  }

  std::optional<double> reach(double de00, Side side) const {
    const Best start = best();
    if (de00 < start.de00) {
      if (start.de00 < de00 + 0.01) return start.value;
      return std::nullopt;
    }
    const double end = side == Side::Stronger ? most : 0;
    constexpr int kSteps = 64;
    double near = start.value;
    for (int i = 1; i <= kSteps; ++i) {
      // Small steps first: the distance grows fastest near the match of a thin coat.
      const double part = static_cast<double>(i) / kSteps;
      double far = start.value + (end - start.value) * part * part;
      if (at(far) < de00) {
        near = far;
        continue;
      }
      for (int k = 0; k < 60; ++k) {
        const double middle = 0.5 * (near + far);
        (at(middle) < de00 ? near : far) = middle;
      }
      return 0.5 * (near + far);
    }
    return std::nullopt;
  }
};

Handle shareOf(const Paint& paint, const Lab<D50>& card) { return {paint, &Paint::share, 1.0, card}; }
Handle coatsOf(const Paint& paint, const Lab<D50>& card) { return {paint, &Paint::coats, kMostCoats, card}; }

}  // namespace

std::optional<double> shareForDistance(const Paint& paint, const Lab<D50>& card, double de00, Side side) {
  return shareOf(paint, card).reach(de00, side);
}

std::optional<double> coatsForDistance(const Paint& paint, const Lab<D50>& card, double de00, Side side) {
  return coatsOf(paint, card).reach(de00, side);
}

Best bestShare(const Paint& paint, const Lab<D50>& card) { return shareOf(paint, card).best(); }
Best bestCoats(const Paint& paint, const Lab<D50>& card) { return coatsOf(paint, card).best(); }

}  // namespace huewright::render
