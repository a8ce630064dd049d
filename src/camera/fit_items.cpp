#include "camera/fit_items.hpp"

#include <algorithm>
#include <cmath>
#include <map>

#include "camera/robust.hpp"

namespace huewright {
namespace {

constexpr double kGainSd = 0.05;     // prior of a photo's gain about that of its neutrals, natural logarithm
constexpr double kScale = 1.2;       // times the median; tried on photographs of a chart and on simulated ones
constexpr double kLeastScale = 0.3;  // ΔE00: where the median is below it, it counts instead

using Reach = std::array<double, 4>;  // left, right, top, bottom

/// How far each photo's chart reaches.
std::map<std::size_t, Reach> reachOf(const std::vector<FitItem>& items) {
  std::map<std::size_t, Reach> reach;
  for (const FitItem& it : items) {
    const Point at = it.patch->at;
    auto& [left, right, top, bottom] = reach.try_emplace(it.photo, Reach{at.x, at.x, at.y, at.y}).first->second;
    left = std::min(left, at.x), right = std::max(right, at.x), top = std::min(top, at.y), bottom = std::max(bottom, at.y);
  }
  return reach;
}

}  // namespace

Vec3 through(const XyzByTerm& m, const Terms& t) {
  Vec3 out{};
  for (std::size_t k = 0; k < 3; ++k)
    for (std::size_t j = 0; j < kTerms; ++j) out[k] += m[k][j] * t[j];
  return out;
}

void balanceItems(std::vector<FitItem>& items, const RampCurve& curve, const std::vector<PhotoFit>& photos) {
  for (FitItem& it : items)
    for (std::size_t c = 0; c < 3; ++c)
      it.balanced[c] = std::exp(-it.light) * photos[it.photo].balance[c] * (curve(it.patch->device[c]) - photos[it.photo].veil[c]);
}

void refineGains(const std::vector<FitItem>& items, const XyzByTerm& terms, std::vector<PhotoFit>& photos) {
  std::vector<Vec3> step(photos.size());
  Vec3 mean{};
  for (std::size_t p = 0; p < photos.size(); ++p) {
    Mat3 normal = Mat3::diagonal({1 / (kGainSd * kGainSd), 1 / (kGainSd * kGainSd), 1 / (kGainSd * kGainSd)});
    Vec3 pull{};
    for (const FitItem& it : items) {
      if (!it.used || it.photo != p) continue;
      const auto by = rootTermsBy(it.balanced);
      Mat3 slope;
      for (std::size_t k = 0; k < 3; ++k)
        for (std::size_t j = 0; j < kTerms; ++j) slope.row[k] = slope.row[k] + terms[k][j] * by[j];
      const Mat3 a = it.weight * (it.metric * slope * Mat3::diagonal(it.balanced));
      const Vec3 off = it.weight * (it.metric * (it.wanted - through(terms, rootTerms(it.balanced))));
      normal = normal + transpose(a) * a;
      pull = pull + transpose(a) * off;
    }
    step[p] = inverse(normal) * pull;
    mean = mean + (1.0 / static_cast<double>(photos.size())) * step[p];
  }
  for (std::size_t p = 0; p < photos.size(); ++p)
    for (std::size_t c = 0; c < 3; ++c) photos[p].balance[c] *= std::exp(step[p][c] - mean[c]);
}

void placeItems(std::vector<FitItem>& items) {
  const auto reach = reachOf(items);
  const auto along = [](double at, double low, double high) { return high > low ? (2 * at - low - high) / (high - low) : 0.0; };
  for (FitItem& it : items) {
    const auto& [left, right, top, bottom] = reach.at(it.photo);
    it.place = {along(it.patch->at.x, left, right), along(it.patch->at.y, top, bottom)};
  }
}

LightSlope slopeInPicture(const std::vector<FitItem>& items, std::size_t photo, const SlopeOver& over) {
  const auto [left, right, top, bottom] = reachOf(items).at(photo);
  const double x = right > left ? 2 / (right - left) : 0, y = bottom > top ? 2 / (bottom - top) : 0;
  return {{0.5 * (left + right), 0.5 * (top + bottom)}, {over.log[0] * x, over.log[1] * y}, {over.sd[0] * x, over.sd[1] * y}};
}

void refineLight(std::vector<FitItem>& items, const XyzByTerm& terms, std::vector<SlopeOver>& slopes) {
  for (std::size_t p = 0; p < slopes.size(); ++p) {
    std::vector<LitPatch> lit;
    for (const FitItem& it : items) {
      if (!it.used || it.photo != p) continue;
      const Vec3 xyz = through(terms, rootTerms(it.balanced));
      lit.push_back({it.weight * (it.metric * xyz), it.weight * (it.metric * (xyz - it.wanted)), it.place});
    }
    slopes[p] = refinedSlope(lit, slopes[p], kParameters);
    for (FitItem& it : items)
      if (it.photo == p) it.light = slopes[p].log[0] * it.place.x + slopes[p].log[1] * it.place.y;
  }
}

void setBack(std::vector<FitItem>& items, const XyzByTerm& terms) {
  std::vector<double> off;
  for (const FitItem& it : items)
    if (it.used) off.push_back(length(it.metric * (it.wanted - through(terms, rootTerms(it.balanced)))));
  const double scale = kScale * std::max(medianOf(off), kLeastScale);
  std::size_t i = 0;
  for (FitItem& it : items)
    if (it.used) it.weight = it.base / std::hypot(1.0, off[i++] / scale);
}

}  // namespace huewright
