// Cards made of other stuff than the panel: three dyes, fitted to look alike under D50.
#include <algorithm>
#include <array>
#include <cmath>

#include "render/paint.hpp"

namespace huewright::render {
namespace {

struct DyeSet {
  std::array<Spectrum, 3> absorb{};   // red, green and blue light
  Spectrum base{};
  bool clear = true;
};

// All invented. The sets differ in where and how narrowly they absorb.
DyeSet makeSet(int set) {
  switch (set) {
    case 0:
      return {{bump(612, 40) + 0.5 * bump(660, 30) + 0.05 * bump(430, 40), bump(548, 26) + 0.35 * bump(515, 22) + flat(0.02),
               bump(438, 32) + 0.15 * bump(390, 20)},
              0.84 * step(400, 8), true};
    case 1:
      return {{bump(680, 55) + 0.45 * bump(610, 36), bump(525, 34) + 0.25 * bump(570, 16), bump(425, 42) + 0.25 * bump(470, 20)},
              0.88 * step(385, 8) + (-0.03) * bump(480, 50), true};
    case 2:
      return {{bump(640, 28) + 0.7 * bump(598, 20) + 0.4 * bump(690, 30), bump(550, 30) + 0.3 * bump(505, 20), bump(455, 26) + 0.6 * bump(410, 26)},
              0.84 * flat(1) + 0.05 * step(520, 40), true};
    default:   // process inks on paper
      return {{step(560, 12) + (-0.25) * step(690, 14) + 0.12 * bump(410, 30), bump(540, 30) + 0.55 * bump(510, 24) + 0.15 * bump(430, 40),
               flat(1) + (-0.97) * step(498, 10)},
              0.86 * step(402, 7) + 0.03 * bump(440, 20), false};
  }
}

const DyeSet& dyes(int set) {
  static const std::array<DyeSet, 4> all{makeSet(0), makeSet(1), makeSet(2), makeSet(3)};
  return all[static_cast<std::size_t>(std::clamp(set, 0, 3))];
}

Spectrum laidOn(const DyeSet& set, const Vec3& amount) {
  Spectrum s{};
  for (std::size_t i = 0; i < kBands; ++i) {
    const double depth = amount[0] * set.absorb[0][i] + amount[1] * set.absorb[1][i] + amount[2] * set.absorb[2][i];
    const double inside = set.base[i] * std::exp(-depth);
    s[i] = set.clear ? 0.96 * 0.6 * inside / (1 - 0.4 * inside) : inside;
  }
  return s;
}

double miss(const Lab<D50>& a, const Lab<D50>& b) { return std::hypot(a.L - b.L, a.a - b.a, a.b - b.b); }

// Damped Gauss-Newton on Lab over the square roots of the amounts, so that no dye is ever negative.
Spectrum fitted(const DyeSet& set, const Lab<D50>& wanted) {
  const auto spectrumAt = [&](const Vec3& q) { return laidOn(set, {q[0] * q[0], q[1] * q[1], q[2] * q[2]}); };
  Vec3 q{0.9, 0.6, 0.6};
  double damping = 1e-2, error = miss(labUnderD50(spectrumAt(q)), wanted);
  for (int round = 0; round < 80 && error > 1e-7; ++round) {
    const Lab<D50> now = labUnderD50(spectrumAt(q));
    Mat3 slope;
    for (std::size_t c = 0; c < 3; ++c) {
      Vec3 moved = q;
      moved[c] += 1e-5;
      const Lab<D50> there = labUnderD50(spectrumAt(moved));
      slope(0, c) = (there.L - now.L) / 1e-5;
      slope(1, c) = (there.a - now.a) / 1e-5;
      slope(2, c) = (there.b - now.b) / 1e-5;
    }
    const Mat3 normal = transpose(slope) * slope;
    const Vec3 pull = transpose(slope) * (toVec(wanted) - toVec(now));
    const Vec3 next = q + inverse(normal + Mat3::diagonal({damping, damping, damping})) * pull;
    const double found = miss(labUnderD50(spectrumAt(next)), wanted);
    if (found < error) {
      q = next;
      error = found;
      damping = std::max(damping * 0.3, 1e-9);
    } else {
      damping *= 8;
    }
  }
  return spectrumAt(q);
}

}  // namespace

Spectrum otherPigments(const Lab<D50>& wanted, int set) { return fitted(dyes(std::clamp(set, 0, 2)), wanted); }

Spectrum printed(const Lab<D50>& wanted) { return fitted(dyes(3), wanted); }

}  // namespace huewright::render
