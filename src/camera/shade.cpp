#include "camera/shade.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <numbers>
#include <utility>

#include "camera/robust.hpp"
#include "colour/rgb.hpp"

namespace huewright {
namespace {

// Tuned on simulated regions (tests/camera/patch_test.cpp).
constexpr double kLeastShade = 0.0583;                      // ln 1.06
constexpr double kLeastPart = 0.05;                         // of the region, on either side of the edge
constexpr double kClear = 5;                                // standard errors
constexpr double kBlur = 1.5;                               // blocks to either side of the edge that count for neither part
constexpr double kBend = 0.05;                              // the same as a share of the extent across the edge, where there is room
constexpr double kNear = 0.22;                              // of the region's extent across the edge: how far a look close to it reaches
constexpr double kHolds = 0.6;                              // of the step, seen that close
constexpr double kHoldsNeutral = 0.8;                       // the same where the colour cannot tell glare, whose edge is soft
constexpr double kUnevenShade = 0.25, kUnevenLeast = 0.03;  // scatter of the step along the edge, as a share of the step, and what noise may add
constexpr double kUnlike = 0.03, kTint = 0.08;              // how far channels may differ in their steps: at least, and as a share of the step
constexpr double kTowardsGlare = 0.3;                       // on a scale from shadow (0) to added light (1)
constexpr double kNeutralStep = 0.03;                       // below it the channels are so alike that there is no such scale
constexpr double kShadeBendSd = 0.5, kNoiseSd = 0.03;       // the parabola's prior, over the region's extent, and the blocks' scatter to weigh it by
constexpr double kCorner = 0.18;                            // of a neutral region: a smaller bright part must not just lie in a corner, like a spot of glare,
constexpr std::size_t kThrough = 7;                         // but its edge must run across so many of the strips
constexpr int kStrips = 10;                                 // along the edge

/// One block for the search: its place in blocks about the middle, linear sRGB, and the mean logarithm of its strong channels.
struct Look {
  double x = 0, y = 0, ln = 0;
  Vec3 rgb{};
  std::size_t block = 0;
};

/// A line: t = nx·x + ny·y − c is positive on one side.
struct Line {
  double nx = 1, ny = 0, c = 0, gain = 0;
  double across(const Look& l) const { return nx * l.x + ny * l.y - c; }
  double along(const Look& l) const { return ny * l.x - nx * l.y; }
};

/// The line in one direction that takes most of the squares that a plane leaves, when one step along it is allowed for.
Line bestLine(const std::vector<Look>& looks, double angle, const Mat3& inverse_moments, const Vec3& moments_ln) {
  Line best{std::cos(angle), std::sin(angle), 0, 0};
  constexpr double kFine = 4;  // places tried in one block's width
  double low = 1e300, high = -1e300;
  for (const Look& l : looks) {
    low = std::min(low, best.across(l));
    high = std::max(high, best.across(l));
  }
  struct Slice {
    Vec3 moments{};  // 1, x, y
    double ln = 0;
  };
  std::vector<Slice> slices(static_cast<std::size_t>(kFine * (high - low)) + 1);
  for (const Look& l : looks) {
    Slice& s = slices[std::min(slices.size() - 1, static_cast<std::size_t>(std::max(0.0, kFine * (best.across(l) - low))))];
    s.moments = s.moments + Vec3{1, l.x, l.y};
    s.ln += l.ln;
  }
  const auto n = static_cast<double>(looks.size());
  Vec3 h{};  // the far side's moments
  double h_ln = 0;
  for (std::size_t i = slices.size(); i-- > 1;) {
    if (slices[i].moments[0] == 0) continue;
    h = h + slices[i].moments;
    h_ln += slices[i].ln;
    if (h[0] < kLeastPart * n || h[0] > (1 - kLeastPart) * n) continue;
    const Vec3 share = inverse_moments * h;  // the step's course, as far as a plane can follow it
    const double left = h[0] - dot(share, h), with = h_ln - dot(share, moments_ln);
    if (left < 1e-9 * n) continue;
    const double gain = with * with / left;
    if (gain > best.gain) {
      best.gain = gain;
      best.c = low + static_cast<double>(i) / kFine;
    }
  }
  return best;
}

/// The step across a line in strips along it, in the mean logarithm and in each linear channel, with standard errors; and the levels next to it.
struct Steps {
  std::pair<double, double> ln{0, 1e9};
  std::array<std::pair<double, double>, 3> rgb{};
  Vec3 lit{}, dark{};
  double scatter = 0;  // of ln from strip to strip
  std::size_t strips = 0, agree = 0;
};

Steps stepsAcross(const std::vector<Look>& looks, const Line& line, double reach, double extent, double blur) {
  struct Side {
    double n = 0, t = 0, tt = 0, ttt = 0, tttt = 0;
    std::array<double, 4> y{}, ty{}, tty{};
  };
  double low = 1e300, high = -1e300;
  for (const Look& l : looks) {
    low = std::min(low, line.along(l));
    high = std::max(high, line.along(l));
  }
  std::vector<std::array<Side, 2>> strips(kStrips);
  for (const Look& l : looks) {
    const double t = line.across(l);
    if (std::abs(t) < blur || std::abs(t) > reach) continue;
    const int strip = std::clamp(static_cast<int>(kStrips * (line.along(l) - low) / std::max(1e-9, high - low)), 0, kStrips - 1);
    Side& s = strips[static_cast<std::size_t>(strip)][t > 0];
    const std::array<double, 4> y{l.ln, l.rgb[0], l.rgb[1], l.rgb[2]};
    s.n += 1;
    s.t += t;
    s.tt += t * t;
    s.ttt += t * t * t;
    s.tttt += t * t * t * t;
    for (std::size_t k = 0; k < 4; ++k) {
      s.y[k] += y[k];
      s.ty[k] += t * y[k];
      s.tty[k] += t * t * y[k];
    }
  }
  Steps out;
  std::array<std::vector<double>, 4> steps;
  std::array<double, 2> n{};
  Vec3 lit{}, dark{};
  for (const auto& sides : strips) {
    const auto& [a, b] = sides;
    for (std::size_t k = 0; k < 3; ++k) {
      dark[k] += a.y[k + 1];
      lit[k] += b.y[k + 1];
    }
    n[0] += a.n;
    n[1] += b.n;
    if (a.n < 2 || b.n < 2) continue;
    for (std::size_t k = 0; k < 4; ++k) {
      double tt = 0, tq = 0, qq = 0, ty = 0, qy = 0;
      for (const Side& s : sides) {
        tt += s.tt - s.t * s.t / s.n;
        tq += s.ttt - s.t * s.tt / s.n;
        qq += s.tttt - s.tt * s.tt / s.n;
        ty += s.ty[k] - s.t * s.y[k] / s.n;
        qy += s.tty[k] - s.tt * s.y[k] / s.n;
      }
      qq += std::pow(kNoiseSd / kShadeBendSd * extent * extent, 2);
      const double det = tt * qq - tq * tq;
      const double slope = det > 0 ? (qq * ty - tq * qy) / det : 0, bend = det > 0 ? (tt * qy - tq * ty) / det : 0;
      steps[k].push_back(b.y[k] / b.n - a.y[k] / a.n - slope * (b.t / b.n - a.t / a.n) - bend * (b.tt / b.n - a.tt / a.n));
    }
  }
  if (n[0] < 1 || n[1] < 1) return out;
  out.lit = (1 / n[1]) * lit;
  out.dark = (1 / n[0]) * dark;
  out.strips = steps[0].size();
  out.ln = trimmedMean(steps[0]);
  for (std::size_t k = 0; k < 3; ++k) out.rgb[k] = trimmedMean(steps[k + 1]);
  out.scatter = out.ln.second * std::sqrt(static_cast<double>(out.strips));
  for (const double s : steps[0]) out.agree += s > 0.5 * out.ln.first;
  return out;
}

/// True when the channels step as under a shadow. Sets whether the surface can tell.
bool likeShade(const Steps& s, bool& coloured) {
  const auto top = static_cast<std::size_t>(std::ranges::max_element(s.lit) - s.lit.begin());
  const double most = s.lit[top], step = s.rgb[top].first;
  if (most <= 0 || step <= 0 || step >= most) return false;
  double along = 0, scale = 0, error = 0;
  const double common = -std::log1p(-step / most);
  for (std::size_t k = 0; k < 3; ++k) {
    const double part = s.lit[k] / most, seen = s.rgb[k].first / step;
    along += (seen - part) * (1 - part);
    scale += (1 - part) * (1 - part);
    error += std::pow((1 - part) * s.rgb[k].second / step, 2);
    if (part < 0.2) continue;  // too dark for its ratio to be sure
    const double drop = s.rgb[k].first / s.lit[k];
    if (drop >= 1) return false;
    const double noise = std::hypot(s.rgb[k].second / s.lit[k], s.rgb[top].second / most);
    if (std::abs(-std::log1p(-drop) - common) > kUnlike + kTint * common + 2 * noise) return false;
  }
  coloured = scale > kNeutralStep && 3 * std::sqrt(error) < scale;
  return scale <= kNeutralStep || along / scale < kTowardsGlare;
}

/// Takes out what differs from the middle value of the 5 × 5 blocks about it: dust, glints, and the blur of an edge, but not the edge.
void dropSpecks(const Grid& g, std::vector<Look>& looks) {
  constexpr double kSpeck = 0.05;  // in ln, and four robust standard deviations
  std::vector<std::ptrdiff_t> at(g.blocks.size(), -1);
  for (std::size_t i = 0; i < looks.size(); ++i) at[looks[i].block] = static_cast<std::ptrdiff_t>(i);
  std::vector<double> off, sizes, around;
  for (const Look& l : looks) {
    const int column = static_cast<int>(l.block) % g.columns, row = static_cast<int>(l.block) / g.columns;
    around.clear();
    for (int r = std::max(0, row - 2); r <= std::min(g.rows - 1, row + 2); ++r)
      for (int c = std::max(0, column - 2); c <= std::min(g.columns - 1, column + 2); ++c)
        if (const auto j = at[static_cast<std::size_t>(r * g.columns + c)]; j >= 0) around.push_back(looks[static_cast<std::size_t>(j)].ln);
    const auto middle = around.begin() + static_cast<std::ptrdiff_t>(around.size() / 2);
    std::ranges::nth_element(around, middle);
    off.push_back(l.ln - *middle);
    sizes.push_back(std::abs(off.back()));
  }
  const double most = std::max(kSpeck, 4 * medianOf(sizes) / 0.6745);
  std::size_t i = 0;
  std::erase_if(looks, [&](const Look&) { return std::abs(off[i++]) > most; });
}

}  // namespace

Shade findShade(const Grid& g) {
  Shade shade;
  std::vector<Look> looks;
  Vec3 usual{};
  for (std::size_t k = 0; k < 3; ++k) {
    std::vector<double> values;
    for (const std::size_t i : g.full) values.push_back(dot(kXyzD50ToSrgb.row[k], g.blocks[i].mean()));
    if (values.size() < 40) return shade;  // too few blocks for an edge between two parts
    usual[k] = medianOf(std::move(values));
  }
  const double brightest = std::ranges::max(usual);
  if (brightest <= 0) return shade;
  double x = 0, y = 0;
  for (const std::size_t i : g.full) {
    const Block& b = g.blocks[i];
    if (4 * b.top > b.count) continue;  // burnt out: it shows no ratio
    Look l;
    l.rgb = kXyzD50ToSrgb * b.mean();
    double n = 0;
    for (std::size_t k = 0; k < 3; ++k)
      if (usual[k] > 0.3 * brightest) {
        l.ln += std::log(std::max(l.rgb[k], 0.02 * usual[k]));
        n += 1;
      }
    l.ln /= n;
    l.x = b.x / (b.count * g.side);
    l.y = b.y / (b.count * g.side);
    l.block = i;
    looks.push_back(l);
  }
  if (2 * looks.size() < g.full.size()) return shade;  // burnt out
  dropSpecks(g, looks);
  if (2 * looks.size() < g.full.size()) return shade;
  for (const Look& l : looks) {
    x += l.x;
    y += l.y;
  }
  const auto n = static_cast<double>(looks.size());
  std::vector<double> logs;
  for (Look& l : looks) {
    l.x -= x / n;
    l.y -= y / n;
    logs.push_back(l.ln);
  }
  const double middle = medianOf(std::move(logs));
  Mat3 moments{};
  Vec3 moments_ln{};
  for (Look& l : looks) {
    l.ln -= middle;
    const Vec3 v{1, l.x, l.y};
    moments = moments + outer(v, v);
    moments_ln = moments_ln + l.ln * v;
  }
  if (determinant(moments) < 1e-6 * n * n * n) return shade;  // all in a line
  const Mat3 inverse_moments = inverse(moments);

  // A step of the least size between the least parts takes this much, before a plane has taken its share; a tenth of it is worth a look.
  const double worthwhile = 0.1 * kLeastShade * kLeastShade * kLeastPart * (1 - kLeastPart) * n;
  constexpr int kAngles = 24, kTried = 4;
  const double apart = std::numbers::pi / kAngles;
  std::vector<Line> lines;
  for (int a = 0; a < kAngles; ++a) lines.push_back(bestLine(looks, a * apart, inverse_moments, moments_ln));
  std::ranges::sort(lines, std::greater{}, &Line::gain);
  lines.resize(kTried);
  for (Line line : lines) {
    if (line.gain < worthwhile) break;
    const double coarse = std::atan2(line.ny, line.nx);
    for (int a = -4; a <= 4; ++a) {
      const Line fine = bestLine(looks, coarse + a * apart / 5, inverse_moments, moments_ln);
      if (fine.gain > line.gain) line = fine;
    }
    double low = 0, high = 0;
    for (const Look& l : looks) {
      low = std::min(low, line.across(l));
      high = std::max(high, line.across(l));
    }
    const double extent = high - low;
    // An edge is not quite straight nor quite sharp: where there is room, more of it is left out.
    const double blur = std::clamp(kBend * extent, kBlur, std::max(kBlur, 0.3 * std::min(-low, high)));
    Steps wide = stepsAcross(looks, line, 1e300, extent, blur);
    if (wide.ln.first < 0) {  // the lit side is the one where t is positive
      line = {-line.nx, -line.ny, -line.c, line.gain};
      wide = stepsAcross(looks, line, 1e300, extent, blur);
    }
    const double step = wide.ln.first;
    if (step < std::max(kLeastShade, kClear * wide.ln.second) || 5 * wide.agree < 4 * wide.strips) continue;
    if (wide.scatter > kUnevenShade * step + kUnevenLeast) continue;  // a spot's rim is not one height
    const Steps near = stepsAcross(looks, line, blur + kNear * extent, extent, blur);
    if (near.ln.first < std::max(kHolds * step, 2 * near.ln.second)) continue;
    bool coloured = false;
    if (!likeShade(wide, coloured)) continue;
    double dark = 0;
    for (const Look& l : looks) dark += line.across(l) < 0;
    if (!coloured && (near.ln.first < kHoldsNeutral * step || (wide.strips < kThrough && n - dark < kCorner * n))) continue;
    shade.step = step;
    shade.share = dark / n;
    shade.coloured = coloured;
    shade.dark.assign(g.blocks.size(), false);
    const auto placed = [&](std::size_t i) {
      const Block& b = g.blocks[i];
      Look l;
      l.x = b.x / (b.count * g.side) - x / n;
      l.y = b.y / (b.count * g.side) - y / n;
      return l;
    };
    // By the line; near it also by level, for an edge is not quite straight.
    std::vector<Spot> lit;
    for (const Look& l : looks)
      if (line.across(l) > kBlur) lit.push_back({l.x, l.y, l.ln, 1});
    const Plane plane = robustPlane(lit).first;
    std::vector<Vec3> rgb(g.blocks.size());
    for (const std::size_t i : g.full) rgb[i] = kXyzD50ToSrgb * g.blocks[i].mean();
    const auto smooth = smoothed(g, rgb);
    for (const std::size_t i : g.full) {
      const Look l = placed(i);
      const double t = line.across(l);
      double ln = 0, channels = 0;
      for (std::size_t k = 0; k < 3; ++k)
        if (usual[k] > 0.3 * brightest) {
          ln += std::log(std::max(smooth[i][k], 0.02 * usual[k]));
          channels += 1;
        }
      const bool low_level = ln / channels - middle < plane(l.x, l.y) - 0.4 * step;
      shade.dark[i] = t < kBlur || (t < 0.15 * extent && low_level);
    }
    return shade;
  }
  return shade;
}

std::vector<Kept> maskLit(const Grid& g, const Shade& shade) {
  Grid lit = g;
  lit.full.clear();
  for (const std::size_t i : g.full) {
    if (!shade.dark[i]) lit.full.push_back(i);
    else lit.blocks[i].count = 0;  // nor does it count as a neighbour
  }
  std::vector<Kept> kept(g.blocks.size(), Kept::Outside);
  if (!lit.full.empty()) kept = mask(lit);
  for (const std::size_t i : g.full)
    if (shade.dark[i]) kept[i] = Kept::Shadow;
  return kept;
}

}  // namespace huewright
