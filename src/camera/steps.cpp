#include "camera/steps.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>
#include <string>
#include <utility>

#include "camera/robust.hpp"
#include "colour/matrix.hpp"

namespace huewright {
namespace {

// Panel coordinates: u runs along the longer side, v across it, both 0..1. Values are ln Y, ln X − ln Y and ln Z − ln Y, in which a change of
// the light's strength is a shift of the first alone.

// Tuned on simulated panels (tests/camera/steps_test.cpp).
constexpr std::size_t kBins = 240, kRows = 12;       // cells along and across
constexpr std::size_t kPool = 2;                     // fine bins in one of the search's
constexpr double kAcross = 0.10;                     // of the width, left out of the profile at either side
constexpr double kDark = 0.01;                       // of a channel's bright end, added before the logarithm: below it is noise
constexpr Vec3 kStepSlopeSd{0.15, 0.05, 0.05};       // prior of a strip's slope, over the whole panel
constexpr double kStepBendSd = 0.5;                  // prior of the light's curvature (of u², over the whole panel)
constexpr Vec3 kStripFloor{0.0025, 0.0015, 0.0015};  // nothing is measured better than this, whatever the noise
constexpr double kCap = 9;                           // what one bin can cost at most: lines and glints count no more
constexpr double kWidthSd = 0.35;                    // prior of ln(strip's width ÷ mean width): tape laid by hand
constexpr double kLeanSd = 0.026, kLeanMost = 0.08;  // an edge's slant, as the tangent of its angle: usual, and at most
constexpr double kLeastPixels = 8;                   // narrower strips cannot be read

/// A step counts when it stands this many standard errors clear and is this large, in some channel; a strip, when its undisturbed part is this
/// share of the mean width.
struct Bar {
  double errors, step, body;
};
constexpr Bar kAsked{4, 0.01, 0}, kUnasked{6, 0.015, 0.45};  // strips that were asked for, and more of them than were

/// The unit square to a quad: (0,0), (1,0), (1,1), (0,1) go to its corners. Source: Heckbert, Fundamentals of Texture Mapping (1989), 2.2.3.
Mat3 fromUnitSquare(const Quad& q) {
  const auto& c = q.corners;
  const double sx = c[0].x - c[1].x + c[2].x - c[3].x, sy = c[0].y - c[1].y + c[2].y - c[3].y;
  const double ax = c[1].x - c[2].x, bx = c[3].x - c[2].x, ay = c[1].y - c[2].y, by = c[3].y - c[2].y;
  const double det = ax * by - bx * ay;
  const double g = (sx * by - bx * sy) / det, h = (ax * sy - sx * ay) / det;
  return {{{{c[1].x - c[0].x + g * c[1].x, c[3].x - c[0].x + h * c[3].x, c[0].x},
            {c[1].y - c[0].y + g * c[1].y, c[3].y - c[0].y + h * c[3].y, c[0].y},
            {g, h, 1}}}};
}

Point mapped(const Mat3& m, double x, double y) {
  const Vec3 p = m * Vec3{x, y, 1};
  return {p[0] / p[2], p[1] / p[2]};
}

/// The quad turned so that its first side is a longer one, running to the right, or downward if it is steep.
Quad alongFirst(Quad q) {
  auto& c = q.corners;
  const auto side = [&](std::size_t i) { return std::hypot(c[(i + 1) % 4].x - c[i].x, c[(i + 1) % 4].y - c[i].y); };
  if (side(0) + side(2) < side(1) + side(3)) std::ranges::rotate(c, c.begin() + 1);
  const double dx = c[1].x - c[0].x + c[2].x - c[3].x, dy = c[1].y - c[0].y + c[2].y - c[3].y;
  if (std::abs(dx) >= std::abs(dy) ? dx < 0 : dy < 0) std::ranges::rotate(c, c.begin() + 2);
  return q;
}

/// The panel as cells: `rows` across, `bins` along.
struct Cells {
  std::size_t bins = 0, rows = 0;
  std::vector<Vec3> value;  // row by row
  Vec3 sd{};                // of one cell about its bin's usual value
  Vec3 reach{};             // over how many bins a deviation lasts: neighbours are not independent where there is mottle
  double vOf(std::size_t row) const { return kAcross + (1 - 2 * kAcross) * (static_cast<double>(row) + 0.5) / static_cast<double>(rows); }
  double uOf(double bin) const { return (bin + 0.5) / static_cast<double>(bins); }
  const Vec3& at(std::size_t row, std::size_t bin) const { return value[row * bins + bin]; }
  Vec3& at(std::size_t row, std::size_t bin) { return value[row * bins + bin]; }
};

/// Mean of the middle half: nearly as quiet as the mean, nearly as stubborn as the median.
double middleMean(std::vector<double> v) {
  std::ranges::sort(v);
  const std::size_t cut = v.size() / 4;
  double sum = 0;
  for (std::size_t i = cut; i < v.size() - cut; ++i) sum += v[i];
  return sum / static_cast<double>(v.size() - 2 * cut);
}

/// Means of the pixels in linear light, cell by cell; empty where there is none.
std::vector<std::optional<Vec3>> cellMeans(const Raster& raster, const Mat3& toPanel, std::size_t bins, std::size_t rows) {
  std::vector<Vec3> sum(bins * rows);
  std::vector<int> n(bins * rows);
  for (int y = 0; y < raster.rect.height; ++y)
    for (int x = 0; x < raster.rect.width; ++x) {
      const Point p = mapped(toPanel, raster.rect.x + x + 0.5, raster.rect.y + y + 0.5);
      const double across = (p.y - kAcross) / (1 - 2 * kAcross);
      if (!(p.x >= 0 && p.x < 1 && across >= 0 && across < 1)) continue;
      const auto part = [](double of, std::size_t whole) { return std::min(whole - 1, static_cast<std::size_t>(of * static_cast<double>(whole))); };
      const std::size_t cell = part(across, rows) * bins + part(p.x, bins);
      const auto at = 3 * (static_cast<std::size_t>(y) * static_cast<std::size_t>(raster.rect.width) + static_cast<std::size_t>(x));
      for (std::size_t k = 0; k < 3; ++k) sum[cell][k] += static_cast<double>(raster.xyz[at + k]);
      ++n[cell];
    }
  std::vector<std::optional<Vec3>> means(bins * rows);
  for (std::size_t i = 0; i < n.size(); ++i)
    if (n[i] > 0) means[i] = (1.0 / n[i]) * sum[i];
  return means;
}

/// The usual value of each bin: the middle mean over the rows.
std::vector<Vec3> profileAcross(const Cells& cells) {
  std::vector<Vec3> profile(cells.bins);
  std::vector<double> column(cells.rows);
  for (std::size_t i = 0; i < cells.bins; ++i)
    for (std::size_t k = 0; k < 3; ++k) {
      for (std::size_t r = 0; r < cells.rows; ++r) column[r] = cells.at(r, i)[k];
      profile[i][k] = middleMean(column);
    }
  return profile;
}

/// Sets the cells' scatter about the profile, and how far along u a deviation lasts: 1 + 2 Σ autocorrelation, up to where it fades.
void setNoise(Cells& cells) {
  const auto profile = profileAcross(cells);
  for (std::size_t k = 0; k < 3; ++k) {
    std::vector<double> off(cells.bins * cells.rows), sizes(cells.bins * cells.rows);
    for (std::size_t r = 0; r < cells.rows; ++r)
      for (std::size_t i = 0; i < cells.bins; ++i) off[r * cells.bins + i] = cells.at(r, i)[k] - profile[i][k];
    std::ranges::transform(off, sizes.begin(), [](double v) { return std::abs(v); });
    // The profile follows its own few rows, which makes the scatter about it too small by their share.
    const double sd = medianOf(sizes) / 0.6745 / std::sqrt(1 - 1 / static_cast<double>(cells.rows));
    cells.sd[k] = std::max(sd, kStripFloor[k]);
    for (double& v : off) v = std::clamp(v, -3 * cells.sd[k], 3 * cells.sd[k]);
    double power = 0;
    for (const double v : off) power += v * v;
    cells.reach[k] = 1;
    for (std::size_t lag = 1; lag < cells.bins / 8; ++lag) {
      double sum = 0;
      for (std::size_t r = 0; r < cells.rows; ++r)
        for (std::size_t i = 0; i + lag < cells.bins; ++i) sum += off[r * cells.bins + i] * off[r * cells.bins + i + lag];
      const double alike = power > 0 ? sum / power : 0;
      if (alike < 0.1) break;
      cells.reach[k] += 2 * alike;
    }
  }
}

Cells readCells(const Raster& raster, const Mat3& toPanel, double longer, double shorter) {
  Cells cells;
  cells.bins = std::min(kBins, static_cast<std::size_t>(0.8 * longer)) / kPool * kPool;
  cells.rows = std::clamp(static_cast<std::size_t>(0.4 * shorter), std::size_t{4}, kRows);
  const auto means = cellMeans(raster, toPanel, cells.bins, cells.rows);
  Vec3 bright{};
  for (std::size_t k = 0; k < 3; ++k) {
    std::vector<double> values;
    for (const auto& m : means)
      if (m) values.push_back((*m)[k]);
    if (values.empty()) return {};
    std::ranges::sort(values);
    bright[k] = values[values.size() * 9 / 10];
  }
  cells.value.resize(means.size());
  for (std::size_t r = 0; r < cells.rows; ++r) {
    std::optional<std::size_t> last;
    for (std::size_t i = 0; i < cells.bins; ++i) {
      const auto& m = means[r * cells.bins + i];
      if (!m) continue;
      Vec3 ln;
      for (std::size_t k = 0; k < 3; ++k) ln[k] = std::log(std::max((*m)[k], 0.0) + std::max(kDark * bright[k], 1e-6));
      cells.at(r, i) = {ln[1], ln[0] - ln[1], ln[2] - ln[1]};
      for (std::size_t j = last ? *last + 1 : 0; j < i; ++j) cells.at(r, j) = cells.at(r, i);  // no pixel's centre fell in there
      last = i;
    }
    if (!last) return {};
    for (std::size_t j = *last + 1; j < cells.bins; ++j) cells.at(r, j) = cells.at(r, *last);
  }
  // A fall-off across the panel is no scatter: every row is brought to the same level.
  const auto profile = profileAcross(cells);
  for (std::size_t r = 0; r < cells.rows; ++r)
    for (std::size_t k = 0; k < 3; ++k) {
      std::vector<double> off(cells.bins);
      for (std::size_t i = 0; i < cells.bins; ++i) off[i] = cells.at(r, i)[k] - profile[i][k];
      const double shift = middleMean(std::move(off));
      for (std::size_t i = 0; i < cells.bins; ++i) cells.at(r, i)[k] -= shift;
    }
  setNoise(cells);
  return cells;
}

/// A strip's course: value ≈ at + along·(u − u0).
struct StripCourse {
  double u0 = 0;
  Vec3 at{}, along{};
  Vec3 operator()(double u) const { return at + (u - u0) * along; }
};

/// How the search sees the panel: one row of pooled bins with their standard deviations, correlation counted in.
struct StripRow {
  std::vector<double> u;
  std::vector<Vec3> value;
  Vec3 sd{};
};

StripRow searchRow(const Cells& cells) {
  const auto profile = profileAcross(cells);
  StripRow row;
  for (std::size_t i = 0; i < cells.bins; i += kPool) {
    Vec3 sum{};
    for (std::size_t j = i; j < i + kPool; ++j) sum = sum + profile[j];
    row.value.push_back((1.0 / kPool) * sum);
    row.u.push_back(cells.uOf(static_cast<double>(i) + 0.5 * (kPool - 1)));
  }
  // Each pooled bin is the mean of `rows` looks; a deviation that lasts over several bins must not count in each of them.
  for (std::size_t k = 0; k < 3; ++k)
    row.sd[k] = std::max(kStripFloor[k], 1.1 * cells.sd[k] * std::sqrt(cells.reach[k] / static_cast<double>(cells.rows * kPool)));
  return row;
}

/// Fits bins [from, to) by a robust line in each channel; returns it with what it costs. Geman and McClure's ρ = χ²/(1 + χ²/c), with c lowered
/// round by round from plain least squares (graduated non-convexity; Blake and Zisserman, Visual Reconstruction, 1987).
std::pair<StripCourse, double> fitCourse(const StripRow& row, std::size_t from, std::size_t to) {
  StripCourse c;
  c.u0 = 0.5 * (row.u[from] + row.u[to - 1]);
  const auto apart = [&](std::size_t i) {
    const Vec3 off = row.value[i] - c(row.u[i]);
    double sum = 0;
    for (std::size_t k = 0; k < 3; ++k) sum += off[k] * off[k] / (row.sd[k] * row.sd[k]);
    return sum;
  };
  for (const double cap : {1e12, 16 * kCap, 4 * kCap, kCap}) {
    double w = 0, wu = 0, wuu = 0;
    Vec3 wy{}, wuy{};
    for (std::size_t i = from; i < to; ++i) {
      const double t = cap < 1e11 ? 1 / (1 + apart(i) / cap) : 1, weight = t * t, u = row.u[i] - c.u0;
      w += weight;
      wu += weight * u;
      wuu += weight * u * u;
      wy = wy + weight * row.value[i];
      wuy = wuy + (weight * u) * row.value[i];
    }
    for (std::size_t k = 0; k < 3; ++k) {
      const double ridge = row.sd[k] * row.sd[k] / (kStepSlopeSd[k] * kStepSlopeSd[k]);
      c.along[k] = (w * wuy[k] - wu * wy[k]) / (w * (wuu + ridge) - wu * wu);
      c.at[k] = (wy[k] - wu * c.along[k]) / w;
    }
  }
  double cost = 0;
  for (std::size_t i = from; i < to; ++i) {
    const double chi = apart(i);
    cost += chi / (1 + chi / kCap);
  }
  for (std::size_t k = 0; k < 3; ++k) cost += c.along[k] * c.along[k] / (kStepSlopeSd[k] * kStepSlopeSd[k]);
  return {c, cost};
}

/// Every run of bins with its cost, filled when first asked for.
class Runs {
 public:
  explicit Runs(const StripRow& row) : row_(row), n_(row.u.size()), cost_((n_ + 1) * (n_ + 1), -1) {}
  double cost(std::size_t from, std::size_t to) {
    double& c = cost_[from * (n_ + 1) + to];
    if (c < 0) c = fitCourse(row_, from, to).second;
    return c;
  }

  /// The cheapest cut into `count` runs: their ends, 0 and the number of bins included. Empty when there are too few bins.
  std::vector<std::size_t> cut(std::size_t count) {
    const std::size_t least = std::max<std::size_t>(2, n_ / (3 * count));
    if (least * count > n_) return {};
    const double mean = static_cast<double>(n_) / static_cast<double>(count);
    std::vector<std::vector<double>> best(count + 1, std::vector<double>(n_ + 1, 1e300));
    std::vector<std::vector<std::size_t>> from(count + 1, std::vector<std::size_t>(n_ + 1));
    best[0][0] = 0;
    for (std::size_t s = 1; s <= count; ++s)
      for (std::size_t to = s * least; to + (count - s) * least <= n_; ++to)
        for (std::size_t at = (s - 1) * least; at + least <= to; ++at) {
          if (best[s - 1][at] > 1e299) continue;
          const double width = static_cast<double>(to - at), z = std::log(width / mean) / kWidthSd;
          const double c = best[s - 1][at] + cost(at, to) + z * z;
          if (c < best[s][to]) {
            best[s][to] = c;
            from[s][to] = at;
          }
        }
    std::vector<std::size_t> ends{n_};
    for (std::size_t s = count; s > 0; --s) ends.insert(ends.begin(), from[s][ends.front()]);
    return ends;
  }

 private:
  const StripRow& row_;
  std::size_t n_;
  std::vector<double> cost_;
};

/// An edge between two strips: the line u = at + lean·(v − ½), and how far the disturbance reaches to either side, in u.
struct Edge {
  double at = 0, lean = 0, before = 0, after = 0;
  double u(double v) const { return at + lean * (v - 0.5); }
};

double apart(const Cells& cells, const Vec3& off) {
  double sum = 0;
  for (std::size_t k = 0; k < 3; ++k) sum += off[k] * off[k] / (cells.sd[k] * cells.sd[k]);
  return sum;
}

/// Lays a line between two strips so that what lies on either side fits that side's course best; a tape's line fits neither and does not count.
void layLine(const Cells& cells, const StripCourse& left, const StripCourse& right, double reach, double slant, Edge& edge) {
  const auto n = static_cast<double>(cells.bins);
  const auto low = static_cast<std::size_t>(std::max(0.0, (edge.at - reach) * n));
  const auto high = std::min(cells.bins, static_cast<std::size_t>((edge.at + reach) * n) + 1);
  const std::size_t wide = high - low + 1;
  std::vector<double> sums(cells.rows * wide);  // [row][i]: cost when bins low .. low+i-1 belong to the left strip
  for (std::size_t r = 0; r < cells.rows; ++r) {
    double sum = 0;
    for (std::size_t i = low; i < high; ++i) {
      const double u = cells.uOf(static_cast<double>(i));
      const double a = apart(cells, cells.at(r, i) - left(u)), b = apart(cells, cells.at(r, i) - right(u));
      sum += a / (1 + a / kCap) - b / (1 + b / kCap);
      sums[r * wide + i - low + 1] = sum;
    }
  }
  constexpr int kLeans = 24;  // tried to either side
  constexpr double kTie = 3;  // costs so close are one place: inside a tape's line, say
  double best = 1e300;
  std::array<double, 3> places{};  // sum, number, lean of the places as good as the best
  for (int lean = -kLeans; lean <= kLeans; ++lean) {
    const double tangent = kLeanMost * lean / kLeans, b = tangent * slant, z = tangent / kLeanSd;
    for (std::size_t i = 0; i < wide; ++i) {
      const double at = static_cast<double>(low + i) / n;
      double cost = z * z;
      for (std::size_t r = 0; r < cells.rows; ++r) {
        const double bin = std::clamp(std::round((at + b * (cells.vOf(r) - 0.5)) * n) - static_cast<double>(low), 0.0, static_cast<double>(wide - 1));
        cost += sums[r * wide + static_cast<std::size_t>(bin)];
      }
      if (cost < best - kTie) places = {at, 1, b};
      else if (cost < best + kTie && b == places[2]) places = {places[0] + at, places[1] + 1, b};
      else if (cost < best) places = {at, 1, b};
      best = std::min(best, cost);
    }
  }
  edge.at = places[0] / places[1];
  edge.lean = places[2];
}

/// How far from the line, on one side of it (−1 or +1), the cells keep off that side's course: a tape's line, blur, a wavy edge. In u.
double disturbed(const Cells& cells, const StripCourse& course, const Edge& edge, const Vec3& step, int side, double most) {
  const auto n = static_cast<double>(cells.bins);
  const auto reach = static_cast<int>(most * n);
  constexpr int kClean = 3;  // so many clean bins in a row end it
  int last = 0;
  for (int d = 0; d < reach && d - last < kClean; ++d) {
    std::array<std::vector<double>, 3> off;
    std::size_t wild = 0, seen = 0;
    for (std::size_t r = 0; r < cells.rows; ++r) {
      const double bin = std::floor(edge.u(cells.vOf(r)) * n) + side * d;
      if (bin < 0 || bin >= n) continue;
      const Vec3 here = cells.at(r, static_cast<std::size_t>(bin)) - course(cells.uOf(bin));
      double along = 0, whole = 0;  // the way towards the other strip, in it
      for (std::size_t k = 0; k < 3; ++k) {
        off[k].push_back(here[k]);
        along += here[k] * step[k] / (cells.sd[k] * cells.sd[k]);
        whole += step[k] * step[k] / (cells.sd[k] * cells.sd[k]);
      }
      ++seen;
      wild += apart(cells, here) > 20 || (whole > 16 && along > 0.5 * whole);
    }
    if (seen == 0) break;
    bool off_course = 6 * wild >= seen && wild >= 2;
    for (std::size_t k = 0; k < 3; ++k) {
      const double noise = cells.sd[k] * std::sqrt(cells.reach[k] / static_cast<double>(seen));
      off_course = off_course || std::abs(middleMean(off[k])) > std::max({4 * noise, 0.06 * std::abs(step[k]), 2 * kStripFloor[k]});
    }
    if (off_course) last = d + 1;
  }
  return last / n;
}

/// The step at an edge, row by row with one parabola for the light on both sides, as a trimmed mean over the rows with its standard error
/// (Yuen 1974). Mottle and texture differ from row to row and widen the error; a smooth fall-off goes into the parabola. Bins `from` to `to`, in u.
std::pair<Vec3, Vec3> stepAt(const Cells& cells, const Edge& edge, double from, double to) {
  struct Side {
    double n = 0, t = 0, tt = 0, ttt = 0, tttt = 0;
    Vec3 y{}, ty{}, tty{};
  };
  const auto n = static_cast<double>(cells.bins);
  const auto first = static_cast<std::size_t>(std::max(0.0, std::ceil(from * n)));
  const auto last = std::min(cells.bins, static_cast<std::size_t>(std::max(0.0, to * n)));
  std::array<std::vector<double>, 3> steps;
  for (std::size_t r = 0; r < cells.rows; ++r) {
    std::array<Side, 2> sides{};
    for (std::size_t i = first; i < last; ++i) {
      const double t = cells.uOf(static_cast<double>(i)) - edge.u(cells.vOf(r));
      if (t > -edge.before && t < edge.after) continue;
      Side& s = sides[t > 0];
      const Vec3& y = cells.at(r, i);
      s.n += 1;
      s.t += t;
      s.tt += t * t;
      s.ttt += t * t * t;
      s.tttt += t * t * t * t;
      s.y = s.y + y;
      s.ty = s.ty + t * y;
      s.tty = s.tty + (t * t) * y;
    }
    const auto& [a, b] = sides;
    if (a.n < 2 || b.n < 2) continue;
    double tt = 0, tq = 0, qq = 0;  // within the sides: t with t, t with t², t² with t²
    Vec3 ty{}, qy{};
    for (const Side& s : sides) {
      tt += s.tt - s.t * s.t / s.n;
      tq += s.ttt - s.t * s.tt / s.n;
      qq += s.tttt - s.tt * s.tt / s.n;
      ty = ty + s.ty - (s.t / s.n) * s.y;
      qy = qy + s.tty - (s.tt / s.n) * s.y;
    }
    for (std::size_t k = 0; k < 3; ++k) {
      const double ridge = cells.sd[k] * cells.sd[k] / (kStepBendSd * kStepBendSd);
      const double det = tt * (qq + ridge) - tq * tq;
      const double slope = det > 0 ? ((qq + ridge) * ty[k] - tq * qy[k]) / det : 0, bend = det > 0 ? (tt * qy[k] - tq * ty[k]) / det : 0;
      steps[k].push_back(b.y[k] / b.n - a.y[k] / a.n - slope * (b.t / b.n - a.t / a.n) - bend * (b.tt / b.n - a.tt / a.n));
    }
  }
  Vec3 mean{}, error{1e9, 1e9, 1e9};
  for (std::size_t k = 0; k < 3; ++k) {
    if (steps[k].size() < 4) continue;
    const auto [middle, deviation] = trimmedMean(std::move(steps[k]));
    mean[k] = middle;
    error[k] = std::hypot(deviation, 0.5 * kStripFloor[k]);
  }
  return {mean, error};
}

bool clears(const std::pair<Vec3, Vec3>& step, const Bar& bar) {
  for (std::size_t k = 0; k < 3; ++k)
    if (std::abs(step.first[k]) >= std::max(bar.step, bar.errors * step.second[k])) return true;
  return false;
}

/// A panel cut into strips: the edges between them, and how many of those stand clear.
struct Cut {
  std::vector<Edge> edges;
  std::size_t clear = 0;
  bool whole() const { return clear == edges.size() && !edges.empty(); }
};

Cut cutInto(const Cells& cells, const StripRow& row, Runs& runs, std::size_t count, double slant, const Bar& bar) {
  Cut cut;
  const auto ends = runs.cut(count);
  if (ends.empty()) return cut;
  const double bin = 1 / static_cast<double>(row.u.size());
  std::vector<StripCourse> courses;
  for (std::size_t s = 0; s < count; ++s) courses.push_back(fitCourse(row, ends[s], ends[s + 1]).first);
  const auto widthOf = [&](std::size_t s) { return static_cast<double>(ends[s + 1] - ends[s]) * bin; };
  std::vector<double> zones;
  for (std::size_t s = 0; s + 1 < count; ++s) {
    Edge e;
    e.at = static_cast<double>(ends[s + 1]) * bin;
    const double narrow = std::min(widthOf(s), widthOf(s + 1));
    layLine(cells, courses[s], courses[s + 1], 0.4 * narrow, slant, e);
    const Vec3 step = courses[s + 1](e.at) - courses[s](e.at);
    e.before = disturbed(cells, courses[s], e, step, -1, 0.35 * widthOf(s));
    e.after = disturbed(cells, courses[s + 1], e, -1.0 * step, 1, 0.35 * widthOf(s + 1));
    zones.push_back(0.5 * (e.before + e.after));
    cut.edges.push_back(e);
  }
  // All edges come from one hand and one tape: what a weak one hides, the others show.
  const double usual = medianOf(zones);
  for (std::size_t s = 0; s + 1 < count; ++s) {
    Edge& e = cut.edges[s];
    const double margin = 0.5 * bin;
    e.before = std::max(e.before, std::min(usual, 0.15 * widthOf(s))) + margin + 0.02 * widthOf(s);
    e.after = std::max(e.after, std::min(usual, 0.15 * widthOf(s + 1))) + margin + 0.02 * widthOf(s + 1);
  }
  for (std::size_t s = 0; s + 1 < count; ++s) {
    const Edge& e = cut.edges[s];
    // Up to the neighbours' disturbed zones, or to the panel's rim.
    const double from = s > 0 ? cut.edges[s - 1].at + cut.edges[s - 1].after : 0.1 * widthOf(0);
    const double to = s + 2 < count ? cut.edges[s + 1].at - cut.edges[s + 1].before : 1 - 0.1 * widthOf(count - 1);
    const double least = bar.body / static_cast<double>(count);
    const double before = e.at - e.before - (s > 0 ? cut.edges[s - 1].at + cut.edges[s - 1].after : 0);
    const double after = (s + 2 < count ? cut.edges[s + 1].at - cut.edges[s + 1].before : 1) - e.at - e.after;
    cut.clear += before > least && after > least && clears(stepAt(cells, e, from, to), bar);
  }
  return cut;
}

/// Clockwise from the corner nearest to the top left.
Quad fromTopLeft(Quad q) {
  q = clockwise(q);
  const auto first = std::ranges::min_element(q.corners, {}, [](Point p) { return p.x + p.y; });
  std::ranges::rotate(q.corners, first);
  return q;
}

}  // namespace

Result<std::vector<Quad>> findSteps(const Raster& raster, const Quad& panel, std::size_t count) {
  const auto number = [](std::size_t n) { return std::to_string(n); };
  const Quad quad = alongFirst(panel);
  const auto& c = quad.corners;
  const auto side = [&](std::size_t i) { return std::hypot(c[(i + 1) % 4].x - c[i].x, c[(i + 1) % 4].y - c[i].y); };
  const double longer = 0.5 * (side(0) + side(2)), shorter = 0.5 * (side(1) + side(3));
  const double wide = longer / static_cast<double>(count);
  if (wide < kLeastPixels || shorter < kLeastPixels)
    return fail(Code::StepsNotFound, number(count) + " strips on this panel would be " + number(static_cast<std::size_t>(wide)) + " by " +
                                         number(static_cast<std::size_t>(shorter)) + " pixels, too narrow to be read");
  const Mat3 fromPanel = fromUnitSquare(quad);
  const Cells cells = readCells(raster, inverse(fromPanel), longer, shorter);
  const auto few = [&](std::size_t seen) {
    if (seen < 2) return fail(Code::StepsNotFound, "No strips could be told apart on the panel, and " + number(count) + " were asked for");
    return fail(Code::StepsNotFound, "Only " + number(seen) + " of the " + number(count) + " strips asked for could be told apart on the panel");
  };
  if (cells.value.empty()) return few(0);

  const StripRow row = searchRow(cells);
  Runs runs(row);
  const double slant = shorter / longer;
  for (std::size_t more = count + 3; more > count; --more)
    if (cutInto(cells, row, runs, more, slant, kUnasked).whole())
      return fail(Code::StepsNotFound, "The panel shows " + number(more) + " strips, and " + number(count) + " were asked for");
  const Cut cut = cutInto(cells, row, runs, count, slant, kAsked);
  if (!cut.whole()) {
    for (std::size_t fewer = count - 1; fewer >= 2; --fewer)
      if (cutInto(cells, row, runs, fewer, slant, kAsked).whole()) return few(fewer);
    return few(0);
  }

  // The panel's ends lose what its sides lose by the usual inset of a region, but not much of a narrow strip.
  const double rim = std::min(0.06 * slant, 0.08 / static_cast<double>(count));
  std::vector<Quad> strips;
  for (std::size_t s = 0; s < count; ++s) {
    std::array<double, 4> u{};  // where the strip begins and ends, at v = 0 and at v = 1
    for (std::size_t v = 0; v < 2; ++v) {
      u[v] = s > 0 ? cut.edges[s - 1].u(static_cast<double>(v)) + cut.edges[s - 1].after : rim;
      u[2 + v] = s + 1 < count ? cut.edges[s].u(static_cast<double>(v)) - cut.edges[s].before : 1 - rim;
    }
    if (std::min(u[2] - u[0], u[3] - u[1]) * longer < 0.4 * kLeastPixels)
      return fail(Code::StepsNotFound, "Strip " + number(s + 1) + " of " + number(count) + " is too narrow beside the lines at its edges");
    const auto place = [&](std::size_t i, double v) { return mapped(fromPanel, u[i], v); };
    strips.push_back(fromTopLeft({{{place(0, 0), place(2, 0), place(3, 1), place(1, 1)}}}));
  }
  return strips;
}

}  // namespace huewright
