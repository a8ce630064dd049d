#include "camera/ramp_curve.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>

#include "camera/ridge.hpp"
#include "camera/robust.hpp"
#include "colour/rgb.hpp"

namespace huewright {
namespace {

// Tuned on simulated picture styles (tests/camera/ramp_curve_test.cpp) and by judgement.
constexpr double kSteep = 1.6;         // log slope beyond which a decoding is wrong: styles reach 1.4, a wrong sRGB decoding makes 2
constexpr double kStraight = 0.04;     // root mean square of ln below which values count as proportional
constexpr double kPatchError = 0.012;  // relative: how well greys are known and evenly lit
constexpr double kRampFloor = 0.0008;  // of white: what the darkest patches are unsure by
constexpr double kVeilError = 0.015;
constexpr double kVeilSds = 2.58;     // one chance in two hundred of a normal variable, one side
constexpr double kRampSlopeSd = 0.4, kRampBendSd = 0.15, kTwistSd = 0.05;
constexpr double kKnotSd = 0.06;         // of ln(light) about the cubic; the five photographs of one phone that were at hand leave up to 0.07
constexpr double kLeastRampSlope = 0.1;  // of the curve in the logarithm
constexpr double kLeastValue = 1e-5;

double decoded(RampCurve::Before before, double v) {
  switch (before) {
    case RampCurve::Before::UndoSrgb: return srgbFromLinear(v);
    case RampCurve::Before::ApplySrgb: return srgbToLinear(v);
    case RampCurve::Before::Nothing: break;
  }
  return v;
}

/// Slope of `decoded`: of the two branches of IEC 61966-2-1.
double decodedSlope(RampCurve::Before before, double v) {
  const double a = std::abs(v);
  switch (before) {
    case RampCurve::Before::UndoSrgb: return a <= 0.0031308 ? 12.92 : 1.055 / 2.4 * std::pow(a, 1 / 2.4 - 1);
    case RampCurve::Before::ApplySrgb: return a <= 0.04045 ? 1 / 12.92 : 2.4 / 1.055 * std::pow((a + 0.055) / 1.055, 1.4);
    case RampCurve::Before::Nothing: break;
  }
  return 1;
}

struct More {
  double value = 0, slope = 0;
};
More moreAt(const std::vector<RampCurve::Knot>& knots, double t) {
  if (knots.empty()) return {};
  const auto next = std::ranges::upper_bound(knots, t, {}, &RampCurve::Knot::t);
  if (next == knots.begin()) return {knots.front().more, 0};
  if (next == knots.end()) return {knots.back().more, 0};
  const RampCurve::Knot &a = *std::prev(next), &b = *next;
  const double width = b.t - a.t, s = (t - a.t) / width, r = 1 - s;
  return {r * r * (a.more * (1 + 2 * s) + a.slope * width * s) + s * s * (b.more * (3 - 2 * s) - b.slope * width * r),
          6 * s * r * (b.more - a.more) / width + a.slope * r * (1 - 3 * s) + b.slope * s * (3 * s - 2)};
}

double logSlope(const RampCurve& c, double t) { return c.slope + t * (2 * c.bend + 3 * t * c.twist) + moreAt(c.knots, t).slope; }
double bentLight(const RampCurve& c, double t) {
  return c.pivot * std::exp(t * (c.slope + t * (c.bend + t * c.twist)) + moreAt(c.knots, t).value);
}

struct RampRow {
  std::size_t level;  // of its photo and channel
  double log_y, sd;
  double value;       // as it came
};

std::vector<RampRow> usable(std::span<const std::vector<RampPoint>> photos) {
  std::vector<RampRow> rows;
  for (std::size_t p = 0; p < photos.size(); ++p)
    for (const RampPoint& g : photos[p]) {
      if (g.clipped || !(g.y > 0.01)) continue;
      for (std::size_t c = 0; c < 3; ++c)
        if (g.device[c] > kLeastValue)
          rows.push_back({3 * p + c, std::log(g.y), std::hypot(kPatchError, kRampFloor / g.y, g.relative_sd[c]), g.device[c]});
    }
  return rows;
}

/// ln(value) against ln(Y) with a level for each photo and channel: the common slope, and the rms of what a slope of one leaves.
struct RampCourse {
  double slope = 1, rms = 0;
};
RampCourse courseOf(const std::vector<RampRow>& rows, RampCurve::Before before, std::size_t levels) {
  std::vector<double> weight(levels), my(levels), mv(levels);
  const auto log_v = [&](const RampRow& r) { return std::log(std::max(decoded(before, r.value), kLeastValue)); };
  for (const RampRow& r : rows) {
    const double w = 1 / (r.sd * r.sd);
    weight[r.level] += w;
    my[r.level] += w * r.log_y;
    mv[r.level] += w * log_v(r);
  }
  double yy = 0, yv = 0, off = 0, all = 0;
  for (const RampRow& r : rows) {
    const double w = 1 / (r.sd * r.sd), dy = r.log_y - my[r.level] / weight[r.level], dv = log_v(r) - mv[r.level] / weight[r.level];
    yy += w * dy * dy;
    yv += w * dy * dv;
    off += w * (dv - dy) * (dv - dy);
    all += w;
  }
  return {yv / yy, std::sqrt(off / all)};
}

/// What a veil leaves of the departure from proportionality, with the curve applied first; huge where nothing can be said.
double rmsUnderVeil(std::span<const std::vector<RampPoint>> photos, const RampCurve& curve) {
  double sum = 0, all = 0;
  for (const auto& photo : photos) {
    std::vector<RampPoint> straight = photo;
    for (RampPoint& g : straight)
      for (double& v : g.device) v = curve(v);
    const auto veil = fitVeil(straight, true);
    if (!veil || !veil->significant) return 1e300;
    for (const RampPoint& g : straight)
      for (std::size_t c = 0; c < 3; ++c) {
        if (g.clipped || !(g.y > 0.01)) continue;
        const double light = std::max(g.device[c] - veil->veil[c], kLeastValue), sd = std::hypot(kPatchError, kRampFloor / g.y, g.relative_sd[c]);
        const double off = std::log(light * veil->balance[c] / g.y);
        sum += off * off / (sd * sd);
        all += 1 / (sd * sd);
      }
  }
  return all > 0 ? std::sqrt(sum / all) : 1e300;
}

}  // namespace

bool RampCurve::isMonotone() const {
  if (!(pivot > 0 && low > 0 && high > low)) return false;
  const double first = std::log(low / pivot), last = std::log(high / pivot);
  std::vector<double> ends{first};
  for (std::size_t k = 0; k < knots.size(); ++k) {
    if (k > 0 && !(knots[k].t > knots[k - 1].t)) return false;
    if (knots[k].t > first && knots[k].t < last) ends.push_back(knots[k].t);
  }
  ends.push_back(last);
  // From end to end the slope is a parabola: its value at both, and where it turns.
  double least = std::min(logSlope(*this, first), logSlope(*this, last));
  for (std::size_t k = 1; k < ends.size(); ++k) {
    const double a = ends[k - 1], b = ends[k], at_a = logSlope(*this, a), at_b = logSlope(*this, b), middle = logSlope(*this, 0.5 * (a + b));
    least = std::min({least, at_a, at_b});
    const double round = 2 * (at_a + at_b - 2 * middle), rise = at_b - at_a - round;  // at_a + rise·s + round·s²
    const double turn = -rise / (2 * round);
    if (round != 0 && turn > 0 && turn < 1) least = std::min(least, at_a + turn * (rise + turn * round));
  }
  return least > 0;
}

double RampCurve::operator()(double value) const {
  const double v = decoded(before, value);
  if (!isBent()) return v;
  const double t = std::log(std::clamp(v, low, high) / pivot);
  const double end = bentLight(*this, t), power = logSlope(*this, t);
  if (v < low) return end * (1 + power * (v / low - 1));
  return v > high ? end * std::pow(v / high, power) : end;
}

double RampCurve::derivative(double value) const {
  const double v = decoded(before, value), first = decodedSlope(before, value);
  if (!isBent()) return first;
  const double t = std::log(std::clamp(v, low, high) / pivot);
  const double power = logSlope(*this, t);
  if (v < low) return first * bentLight(*this, t) * power / low;
  return first * (*this)(value) * power / v;
}

namespace {

/// True where no slope in the logarithm lies below kLeastSlope.
bool steepEnough(RampCurve c) {
  c.slope -= kLeastRampSlope;
  return c.isMonotone();
}

/// What the cubic leaves of each grey, held towards nothing. In: logs: ln(value) of the rows; robust: their weights.
std::vector<RampCurve::Knot> knotsOf(const std::vector<RampRow>& rows, const std::vector<double>& logs, const std::vector<double>& robust, std::size_t levels,
                                     const RampCurve& cubic) {
  struct Sum {
    double weight = 0, off = 0, t = 0;
  };
  std::vector<Sum> level(levels);
  std::map<double, Sum> greys;  // by ln(Y)
  const auto weigh = [&](std::size_t i) { return robust[i] / (rows[i].sd * rows[i].sd); };
  const auto placed = [&](std::size_t i) { return logs[i] - std::log(cubic.pivot); };
  const auto off = [&](std::size_t i) { return rows[i].log_y - std::log(bentLight(cubic, placed(i)) / cubic.pivot); };
  for (std::size_t i = 0; i < rows.size(); ++i) {
    level[rows[i].level].weight += weigh(i);
    level[rows[i].level].off += weigh(i) * off(i);
  }
  for (std::size_t i = 0; i < rows.size(); ++i) {
    Sum& grey = greys[rows[i].log_y];
    grey.weight += weigh(i);
    grey.off += weigh(i) * (off(i) - level[rows[i].level].off / level[rows[i].level].weight);
    grey.t += weigh(i) * placed(i);
  }
  std::vector<RampCurve::Knot> knots;
  for (const auto& [log_y, grey] : greys) {
    const double variance = 1 / grey.weight + kPatchError * kPatchError;  // what is wrong with a grey is wrong in all channels
    knots.push_back({grey.t / grey.weight, kKnotSd * kKnotSd / (kKnotSd * kKnotSd + variance) * grey.off / grey.weight, 0});
  }
  std::ranges::sort(knots, {}, &RampCurve::Knot::t);
  for (std::size_t k = 1; k + 1 < knots.size(); ++k)
    knots[k].slope = (knots[k + 1].more - knots[k - 1].more) / (knots[k + 1].t - knots[k - 1].t);
  return knots;
}

}  // namespace

RampFinding fitRamp(std::span<const std::vector<RampPoint>> photos) {
  RampFinding found;
  std::vector<RampRow> rows = usable(photos);
  // Levels are numbered anew where a photo has no neutral at all.
  std::vector<std::size_t> count(3 * photos.size());
  for (const RampRow& r : rows) ++count[r.level];
  std::erase_if(rows, [&](const RampRow& r) { return count[r.level] < 3; });
  std::vector<std::size_t> number(count.size());
  std::size_t levels = 0;
  for (std::size_t i = 0; i < count.size(); ++i)
    if (count[i] >= 3) number[i] = levels++;
  for (RampRow& r : rows) r.level = number[r.level];
  if (levels == 0) return found;
  const auto [least, most] = std::ranges::minmax(rows, {}, &RampRow::log_y);
  if (most.log_y - least.log_y < 0.7) return found;  // less than a factor of two shows no course

  using enum RampCurve::Before;
  const RampCourse as_came = courseOf(rows, Nothing, levels);
  found.log_slope = as_came.slope;
  found.rms_before = found.rms_after = as_came.rms;
  RampCurve curve;
  found.shape = RampShape::Straight;
  // A wrong decoding shows by what its undoing leaves; by the slope alone where a style lies on top of it. In dark photos the sRGB curve is hardly
  // bent, so that the slope alone would not do.
  const auto fits = [&](RampCurve::Before before) { return as_came.rms > kStraight && courseOf(rows, before, levels).rms < kStraight; };
  if (as_came.slope > kSteep || fits(UndoSrgb)) {
    curve.before = UndoSrgb;
    found.shape = RampShape::LinearStored;
  } else if (as_came.slope < 1 / kSteep || fits(ApplySrgb)) {
    curve.before = ApplySrgb;
    found.shape = RampShape::SrgbStored;
  }
  const RampCourse after = courseOf(rows, curve.before, levels);
  found.rms_after = after.rms;
  if (after.rms < kStraight) {
    found.curve = curve;
    return found;
  }
  // Light that lies over the whole chart lifts the dark end, as a curve would: where it explains all, there is no curve.
  if (const double rms = rmsUnderVeil(photos, curve); rms < kStraight) {
    found.rms_after = rms;
    found.curve = curve;
    return found;
  }
  if (curve.before == Nothing) found.shape = RampShape::Toned;

  // A pivot in the middle of the values keeps the three terms apart.
  std::vector<double> logs;
  for (RampRow& r : rows) {
    r.value = std::max(decoded(curve.before, r.value), kLeastValue);
    logs.push_back(std::log(r.value));
  }
  const auto [lowest, highest] = std::ranges::minmax(logs);
  curve.pivot = std::exp(0.5 * (lowest + highest));
  curve.low = 0.5 * std::exp(lowest);
  curve.high = std::exp(highest);

  const std::size_t columns = levels + 3;
  std::vector<double> robust(rows.size(), 1);
  for (int round = 0; round < 6; ++round) {
    LinearSystem system;
    system.columns = columns;
    for (std::size_t i = 0; i < rows.size(); ++i) {
      const double w = std::sqrt(robust[i]) / rows[i].sd, t = logs[i] - std::log(curve.pivot);
      std::vector<double> row(columns);
      row[rows[i].level] = w;
      row[levels] = w * t;
      row[levels + 1] = w * t * t;
      row[levels + 2] = w * t * t * t;
      system.a.insert(system.a.end(), row.begin(), row.end());
      system.b.push_back(w * (rows[i].log_y - t));  // the slope's departure from one is what is solved for
    }
    std::vector<double> penalty(columns);
    penalty[levels] = 1 / (kRampSlopeSd * kRampSlopeSd);
    penalty[levels + 1] = 1 / (kRampBendSd * kRampBendSd);
    penalty[levels + 2] = 1 / (kTwistSd * kTwistSd);
    for (std::size_t k = 0; k < levels; ++k) penalty[k] = 1e-6;  // only so that a level whose rows were all set aside stays settled
    const auto fit = solveRidge(system, penalty);
    if (!fit) return found;
    curve.slope = 1 + fit->solution[levels];
    curve.bend = fit->solution[levels + 1];
    curve.twist = fit->solution[levels + 2];
    double sum = 0, all = 0;
    for (std::size_t i = 0; i < rows.size(); ++i) {
      const double t = logs[i] - std::log(curve.pivot);
      const double off = fit->solution[rows[i].level] + t * (curve.slope + t * (curve.bend + t * curve.twist)) - rows[i].log_y;
      const double s = off / (3 * 4.685 * rows[i].sd);  // the biweight's usual constant, at three times the expected error
      robust[i] = std::abs(s) < 1 ? std::max((1 - s * s) * (1 - s * s), 1e-6) : 1e-6;
      sum += robust[i] * off * off / (rows[i].sd * rows[i].sd);
      all += robust[i] / (rows[i].sd * rows[i].sd);
    }
    found.rms_after = std::sqrt(sum / all);
  }
  // A cubic that turns round somewhere is not to be trusted anywhere: the plain power law then.
  if (!steepEnough(curve)) {
    curve.bend = curve.twist = 0;
    curve.slope = 1 / courseOf(rows, Nothing, levels).slope;
    found.rms_after = after.rms;
  } else {
    RampCurve closer = curve;
    closer.knots = knotsOf(rows, logs, robust, levels, curve);
    if (steepEnough(closer)) curve = std::move(closer);
  }
  found.curve = curve;
  return found;
}

std::optional<VeilFit> fitVeil(std::span<const RampPoint> neutrals, bool may_have_veil) {
  VeilFit out;
  std::vector<RampPoint> left;
  for (const RampPoint& g : neutrals)
    if (!g.clipped && g.y > 0.01 && std::ranges::min(g.device) > 0) left.push_back(g);
  if (left.empty()) return {};
  double sds = 0;
  for (std::size_t c = 0; c < 3; ++c) {
    double w0 = 0, wy = 0, wyy = 0, wv = 0, wyv = 0;
    for (const RampPoint& g : left) {
      const double sd = g.device[c] * std::hypot(kVeilError, g.relative_sd[c]), w = 1 / (sd * sd);
      w0 += w;
      wy += w * g.y;
      wyy += w * g.y * g.y;
      wv += w * g.device[c];
      wyv += w * g.y * g.device[c];
    }
    const double det = w0 * wyy - wy * wy;
    if (left.size() >= 4 && det > 1e-9 * w0 * wyy) {
      out.measured[c] = (wyy * wv - wy * wyv) / det;
      out.sd[c] = std::sqrt(wyy / det);
      sds += std::max(out.measured[c], 0.0) / out.sd[c];
    }
  }
  // The errors of one grey are shared by the channels, so the mean of the three counts as one.
  out.significant = may_have_veil && sds / 3 > kVeilSds;
  for (std::size_t c = 0; c < 3; ++c) {
    if (out.significant) out.veil[c] = std::max(out.measured[c], 0.0);
    double sum = 0, all = 0;
    for (const RampPoint& g : left) {
      const double light = g.device[c] - out.veil[c];
      if (light <= 0) continue;
      const double sd = std::hypot(kPatchError, kRampFloor / g.y, g.relative_sd[c]), w = 1 / (sd * sd);
      sum += w * std::log(g.y / light);
      all += w;
    }
    if (all <= 0) return {};
    out.balance[c] = std::exp(sum / all);
  }
  return out;
}

}  // namespace huewright
