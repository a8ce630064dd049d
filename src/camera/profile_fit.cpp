#include "camera/profile_fit.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include "camera/fit_items.hpp"
#include "camera/ridge.hpp"
#include "colour/delta_e.hpp"
#include "colour/rgb.hpp"

namespace huewright {
namespace {

constexpr double kMostClipped = 0.02;
constexpr double kNeutralChroma = 4;
constexpr std::size_t kFewestPatches = 12;  // different patches: twice as many values as parameters
constexpr double kPlainError = 1.0;         // ΔE00 along one axis: the noise that halves a patch's weight
constexpr int kGainRounds = 5;
// Tuned on simulated charts and paints; see profile_fit_test.cpp.
constexpr double kUnsure = 1.0;         // shifts of the coefficients, in σ: as the theory of least squares has it
constexpr double kMisfit = 0.9;         // misfit, in σ
constexpr int kLightRounds = 8, kLightSteps = 3;  // then no figure of the photographs at hand changes any more
// Of pictures that a camera's style has bent. What it cuts off and shifts is no noise: few patches are far off, and more of the others is kept.
constexpr double kStyledRidge = 0.02;   // times the ridge
constexpr double kMisfitReach = 25;     // CIELAB units
constexpr double kLeastSigma = 0.05;    // ΔE00: nothing fits better than this for good reason

bool isOut(const FitPatch& p) { return p.spoilt || p.clipped > kMostClipped; }

bool finite(const FitPatch& p) {
  double sum = p.clipped + p.reference.L + p.reference.a + p.reference.b;
  for (std::size_t r = 0; r < 3; ++r) {
    sum += p.device[r];
    for (std::size_t c = 0; c < 3; ++c) sum += p.of_mean(r, c);
  }
  return std::isfinite(sum);
}

Vec3 relativeSd(const FitPatch& p) {
  Vec3 sd{};
  for (std::size_t c = 0; c < 3; ++c) sd[c] = p.device[c] > 0 ? std::sqrt(std::max(p.of_mean(c, c), 0.0)) / p.device[c] : 0.0;
  return sd;
}

RampPoint rampPoint(const FitPatch& p, const RampCurve& curve, double light) {
  const Vec3 sd = relativeSd(p);
  RampPoint out{{}, {}, std::exp(light) * toXyz(p.reference).Y, isOut(p)};
  for (std::size_t c = 0; c < 3; ++c) {
    out.device[c] = curve(p.device[c]);
    out.relative_sd[c] = out.device[c] > 0 ? sd[c] * curve.derivative(p.device[c]) * p.device[c] / out.device[c] : 0;
  }
  return out;
}

std::vector<std::vector<RampPoint>> ramps(const std::vector<FitItem>& items, std::size_t photos, const RampCurve& curve) {
  std::vector<std::vector<RampPoint>> out(photos);
  for (const FitItem& it : items)
    if (it.patch->neutral) out[it.photo].push_back(rampPoint(*it.patch, curve, it.light));
  return out;
}

/// Without neutrals: the patches together are as bright, in each channel of sRGB, as their references are.
std::optional<Vec3> balanceOfAll(const std::vector<FitPatch>& patches, const RampCurve& curve) {
  Vec3 have{}, want{};
  for (const FitPatch& p : patches) {
    if (isOut(p)) continue;
    for (std::size_t c = 0; c < 3; ++c) have[c] += curve(p.device[c]);
    want = want + kXyzD50ToSrgb * toVec(toXyz(p.reference));
  }
  if (!(std::ranges::min(have) > 0 && std::ranges::min(want) > 0)) return {};
  return Vec3{want[0] / have[0], want[1] / have[1], want[2] / have[2]};
}

/// Three rows an item; `terms` 3: the plain matrix, 6: the root-polynomial.
LinearSystem systemOf(const std::vector<FitItem>& items, std::size_t terms) {
  LinearSystem s;
  s.columns = 3 * terms;
  for (const FitItem& it : items) {
    if (!it.used) continue;
    const Terms t = rootTerms(it.balanced);
    const Vec3 wanted = it.metric * it.wanted;
    for (std::size_t r = 0; r < 3; ++r) {
      for (std::size_t k = 0; k < 3; ++k)
        for (std::size_t j = 0; j < terms; ++j) s.a.push_back(it.weight * it.metric(r, k) * t[j]);
      s.b.push_back(it.weight * wanted[r]);
      s.group.push_back(it.group);
    }
  }
  return s;
}

/// On the root terms alone, in proportion to the linear terms of the same output.
std::vector<double> penaltyOf(const LinearSystem& s, double ridge) {
  std::vector<double> diagonal(s.columns), penalty(s.columns);
  for (std::size_t i = 0; i < s.a.size(); ++i) diagonal[i % s.columns] += s.a[i] * s.a[i];
  for (std::size_t k = 0; k < 3; ++k) {
    const double mean = (diagonal[k * kTerms] + diagonal[k * kTerms + 1] + diagonal[k * kTerms + 2]) / 3;
    for (std::size_t j = 3; j < kTerms; ++j) penalty[k * kTerms + j] = ridge * mean;
  }
  return penalty;
}

XyzByTerm termsOf(std::span<const double> solution) {
  XyzByTerm out{};
  for (std::size_t k = 0; k < 3; ++k)
    for (std::size_t j = 0; j < kTerms; ++j) out[k][j] = solution[k * kTerms + j];
  return out;
}

/// Noise of a patch as ΔE00 along one axis, through the plain matrix.
double noiseDe(const FitItem& it, const Mat3& matrix, const ColourMap& map) {
  Vec3 by{};
  for (std::size_t c = 0; c < 3; ++c) by[c] = map.balance[c] * map.curve.derivative(it.patch->device[c]);
  const Mat3 to_u = it.metric * matrix * Mat3::diagonal(by);
  return std::sqrt(std::max(trace(to_u * it.patch->of_mean * transpose(to_u)), 0.0) / 3);
}

/// Inverse of Σ t·tᵀ over the directions of the balanced values, and the largest leverage among them.
bool setSpan(const std::vector<FitItem>& items, double weight_each, ColourMap& map) {
  LinearSystem s;
  s.columns = kTerms;
  std::vector<Terms> all;
  for (const FitItem& it : items) {
    const double size = length(it.balanced);
    if (!it.used || size <= 0) continue;
    all.push_back(rootTerms((1 / size) * it.balanced));
    for (const double t : all.back()) s.a.push_back(std::sqrt(weight_each) * t);
    s.b.push_back(0);
    s.group.push_back(it.group);
  }
  const auto fit = solveRidge(s, std::vector<double>(kTerms, 1e-6));
  if (!fit) return false;
  for (std::size_t i = 0; i < kTerms; ++i)
    for (std::size_t j = 0; j < kTerms; ++j) {
      map.span[i][j] = 0;
      for (std::size_t k = 0; k < kTerms; ++k) map.span[i][j] += fit->inverse_root[i * kTerms + k] * fit->inverse_root[j * kTerms + k];
    }
  map.largest_leverage = 0;
  for (const Terms& t : all) {
    double leverage = 0;
    for (std::size_t i = 0; i < kTerms; ++i)
      for (std::size_t j = 0; j < kTerms; ++j) leverage += t[i] * map.span[i][j] * t[j];
    map.largest_leverage = std::max(map.largest_leverage, leverage);
  }
  return map.largest_leverage > 0;
}

using Fitted = std::expected<ProfileFit, std::string>;
std::unexpected<std::string> refuseFit(std::string sentence) { return std::unexpected(std::move(sentence)); }

constexpr const char* kNoLight = "The chart's patches are black in the photo: no profile can be made. Give it more light.";
constexpr const char* kNoSpread =
    "The chart's patches do not differ enough in colour for a profile. Use a chart with at least twelve strong and pale colours.";

/// Curve, veil and balance of every photo.
std::expected<void, std::string> readRamps(std::span<const std::vector<FitPatch>> photos, const std::vector<FitItem>& items, const FitOptions& options,
                                           ProfileFit& fit) {
  RampCurve curve;
  fit.photos.clear();
  fit.ramp = fitRamp(ramps(items, photos.size(), {}));
  if (options.device == DeviceKind::LinearSrgb) curve = fit.ramp.curve;
  else fit.ramp.curve = {};
  const auto straight = ramps(items, photos.size(), curve);
  for (std::size_t p = 0; p < photos.size(); ++p) {
    PhotoFit photo;
    const bool bent = curve.isBent();
    if (const auto veil = fitVeil(straight[p], !bent)) {
      photo = {veil->veil, veil->sd, veil->balance, true};
    } else {
      const auto balance = balanceOfAll(photos[p], curve);
      if (!balance) return refuseFit(kNoLight);
      photo.balance = *balance;
    }
    fit.photos.push_back(photo);
  }
  return {};
}

std::expected<std::vector<FitItem>, std::string> fitItemsOf(std::span<const std::vector<FitPatch>> photos, std::size_t& used) {
  std::vector<FitItem> items;
  std::map<std::string, std::size_t> groups;
  for (std::size_t p = 0; p < photos.size(); ++p)
    for (const FitPatch& patch : photos[p]) {
      if (!finite(patch)) return refuseFit("The patch \"" + patch.name + "\" has no readable value: no profile can be made.");
      FitItem it;
      it.patch = &patch;
      it.photo = p;
      it.group = groups.try_emplace(patch.name, groups.size()).first->second;
      const Xyz<D50> xyz = toXyz(patch.reference);
      it.used = !isOut(patch) && std::ranges::max(patch.device) > 0 && xyz.Y > 0;
      it.wanted = toVec(xyz);
      it.metric = deltaVector(patch.reference, patch.reference).by_panel * labByXyz(xyz);
      items.push_back(it);
    }
  std::map<std::size_t, int> times;
  for (const FitItem& it : items)
    if (it.used) ++times[it.group];
  used = times.size();
  if (used < kFewestPatches)
    return refuseFit("Only " + std::to_string(used) + " different patches of the chart can be used; a profile needs " + std::to_string(kFewestPatches) +
                  ". Take care that none is burnt out, covered or in glare.");
  return items;
}

}  // namespace

bool isNeutral(const Lab<D50>& reference) { return chroma(toVec(reference)) < kNeutralChroma; }

FitPatch fitPatch(std::string name, const Patch& patch, DeviceKind device, const Lab<D50>& reference) {
  FitPatch out;
  out.name = std::move(name);
  const Mat3 map = device == DeviceKind::CameraRgb ? Mat3::identity() : kXyzD50ToSrgb;
  out.device = map * toVec(patch.mean);
  out.of_mean = map * patch.of_mean * transpose(map);
  out.reference = reference;
  out.neutral = isNeutral(reference);
  out.clipped = std::max(patch.clipped_top, patch.clipped_bottom);
  out.at = patch.centre;
  return out;
}

Fitted fitProfile(std::span<const std::vector<FitPatch>> photos, const FitOptions& options) {
  ProfileFit fit;
  auto read = fitItemsOf(photos, fit.used);
  if (!read) return refuseFit(read.error());
  std::vector<FitItem>& items = *read;
  placeItems(items);
  if (const auto ramp = readRamps(photos, items, options, fit); !ramp) return refuseFit(ramp.error());

  ColourMap map;
  map.device = options.device;
  map.camera = options.camera;
  map.curve = fit.ramp.curve;

  // Each patch counts once however many photos show it: what is wrong with it is wrong in all of them.
  std::map<std::size_t, double> shown;
  for (const FitItem& it : items)
    if (it.used) ++shown[it.group];
  const auto share = [&](const FitItem& it) { return it.used ? std::sqrt(1 / shown[it.group]) : 0.0; };
  for (FitItem& it : items) it.weight = share(it);
  balanceItems(items, map.curve, fit.photos);
  auto plain = solveRidge(systemOf(items, 3));
  if (!plain) return refuseFit(kNoSpread);
  const auto matrixOf = [](const RidgeFit& f) {
    const auto& s = f.solution;
    return Mat3{{{{s[0], s[1], s[2]}, {s[3], s[4], s[5]}, {s[6], s[7], s[8]}}}};
  };
  const Mat3 first = matrixOf(*plain);
  for (FitItem& it : items) {
    ColourMap photo = map;
    photo.balance = fit.photos[it.photo].balance;
    it.base = it.weight = share(it) / std::hypot(1.0, noiseDe(it, first, photo) / kPlainError);
  }

  std::optional<RidgeFit> solved;
  const bool styled = map.curve.isBent();
  const auto solve = [&] {
    if (styled && solved) setBack(items, map.terms);
    balanceItems(items, map.curve, fit.photos);
    const LinearSystem system = systemOf(items, kTerms);
    solved = solveRidge(system, penaltyOf(system, styled ? kStyledRidge * options.ridge : options.ridge));
    if (solved) map.terms = termsOf(solved->solution);
    return solved.has_value();
  };
  if (!solve()) return refuseFit(kNoSpread);
  std::vector<SlopeOver> slopes(photos.size());
  for (int round = 0; round < kLightRounds && options.even; ++round) {
    for (int step = 0; step < kLightSteps; ++step) {
      refineLight(items, map.terms, slopes);
      if (!solve()) return refuseFit(kNoSpread);
    }
    // The greys lie in a row, so that a slope along it looks like a tone curve.
    if (const auto ramp = readRamps(photos, items, options, fit); !ramp) return refuseFit(ramp.error());
    map.curve = fit.ramp.curve;
    if (!solve()) return refuseFit(kNoSpread);
  }
  for (int round = 0; round < kGainRounds && photos.size() > 1; ++round) {
    refineGains(items, map.terms, fit.photos);
    if (!solve()) return refuseFit(kNoSpread);
  }
  for (std::size_t p = 0; p < photos.size(); ++p) fit.photos[p].light = slopeInPicture(items, p, slopes[p]);
  plain = solveRidge(systemOf(items, 3));
  if (!plain || !setSpan(items, static_cast<double>(fit.used) / static_cast<double>(items.size()), map)) return refuseFit(kNoSpread);
  map.matrix = matrixOf(*plain);
  map.veil = fit.photos.front().veil;
  map.balance = fit.photos.front().balance;

  // Errors, with the patch and without it; of several photos the mean.
  double squares = 0, weights = 0, count = 0;
  std::size_t row = 0;
  for (const FitItem& it : items) {
    const FitPatch& p = *it.patch;
    const Vec3 mapped = through(map.terms, rootTerms(it.balanced));
    const Lab<D50> fitted = toLab(Xyz<D50>{mapped[0], mapped[1], mapped[2]});
    FittedPatch out{p.name, it.photo, it.used, p.neutral, p.clipped, std::ranges::max(relativeSd(p)), p.reference, fitted, 0, 0, p.at, it.light};
    out.de00 = out.loo_de00 = deltaE2000(out.fitted, out.reference);
    if (it.used) {
      // Left out, the map's XYZ at the patch is the reference plus the left-out residual, taken back from the metric.
      const Vec3 u = (1 / it.weight) * Vec3{solved->left_out[row], solved->left_out[row + 1], solved->left_out[row + 2]};
      row += 3;
      const Vec3 xyz = it.wanted + inverse(it.metric) * u;
      out.loo_de00 = deltaE2000(toLab(Xyz<D50>{xyz[0], xyz[1], xyz[2]}), out.reference);
      const double once = 1 / shown[it.group];
      fit.mean_de00 += once * out.de00;
      fit.loo_de00 += once * out.loo_de00;
      fit.worst_loo_de00 = std::max(fit.worst_loo_de00, out.loo_de00);
      squares += it.base * it.base * dot(u, u) / 3;  // those that were set back count whole: they tell what the map leaves
      weights += it.base * it.base;
      count += once;
    }
    fit.patches.push_back(out);
  }
  fit.mean_de00 /= count;
  fit.loo_de00 /= count;

  const double sigma = std::max(std::sqrt(squares / weights), kLeastSigma);
  map.misfit = kMisfit * sigma;
  map.misfit_reach = kMisfitReach;
  for (std::size_t k = 0; k < kParameters; ++k) {
    std::vector<double> column(kParameters);
    for (std::size_t i = 0; i < kParameters; ++i) column[i] = kUnsure * sigma * solved->inverse_root[i * kParameters + k];
    map.unsure.push_back(termsOf(column));
  }
  fit.profile = {ProfileKind::Chart, fit.loo_de00, std::move(map)};
  return fit;
}

}  // namespace huewright
