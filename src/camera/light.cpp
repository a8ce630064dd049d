#include "camera/light.hpp"

#include <algorithm>
#include <cmath>

namespace huewright {
namespace {

constexpr Mat3 kFromSharp = inverse(kBradford);
constexpr double kDarkestTrusted = 0.004;  // of white: below it a "grey" is black and its channels are noise
constexpr double kTrendBeyond = 0.5;       // of the greys' span: how far a trend is followed past the outermost grey
constexpr double kLine = 0.15;             // greys whose spread across is under this share of the spread along count as one line

}  // namespace

Mat3 xyzByLogGain(const Vec3& corrected_xyz) { return kFromSharp * Mat3::diagonal(kBradford * corrected_xyz); }

Result<Light> Light::fromGreys(std::span<const Patch> greys, double grey_y, std::optional<LightMap> map) {
  const Vec3 neutral = grey_y * kWhite<D50>;
  return fromGreys(greys, Xyz<D50>{neutral[0], neutral[1], neutral[2]}, std::move(map));
}

Result<Light> Light::fromGreys(std::span<const Patch> greys, const Xyz<D50>& colour, std::optional<LightMap> map) {
  Light light;
  const Vec3 truth = kBradford * toVec(colour);
  light.map_ = std::move(map);
  for (std::size_t i = 0; i < greys.size(); ++i) {
    const Patch& grey = greys[i];
    const std::string name = greys.size() < 2 ? "The grey patch" : "Grey patch " + std::to_string(i + 1);
    if (grey.pixels == 0 || grey.masked > 0.9) return fail(Code::GreyUnusable, name + " is glare or shadow almost everywhere");
    if (grey.clipped_top > 0.5) return fail(Code::GreyUnusable, name + " is burnt out in the photo");
    const Vec3 sharp = kBradford * toVec(grey.mean);
    if (*std::ranges::min_element(sharp) < kDarkestTrusted) return fail(Code::GreyUnusable, name + " is black in the photo");
    Vec3 log_gain;
    for (std::size_t k = 0; k < 3; ++k) log_gain[k] = std::log(truth[k] / sharp[k]);
    const Mat3 by_xyz = Mat3::diagonal({-1 / sharp[0], -1 / sharp[1], -1 / sharp[2]}) * kBradford;
    light.places_.push_back(grey.centre);
    light.log_gains_.push_back(log_gain);
    light.covariances_.push_back(by_xyz * grey.of_mean * transpose(by_xyz));
  }
  const std::size_t n = light.places_.size();
  if (n < 2) return light;

  const auto count = static_cast<double>(n);
  for (const Point& p : light.places_) light.origin_ = {light.origin_.x + p.x / count, light.origin_.y + p.y / count};
  double xx = 0, xy = 0, yy = 0;
  for (const Point& p : light.places_) {
    const double dx = p.x - light.origin_.x, dy = p.y - light.origin_.y;
    xx += dx * dx;
    xy += dx * dy;
    yy += dy * dy;
  }
  const double turn = 0.5 * std::atan2(2 * xy, xx - yy);
  light.axis_ = {std::cos(turn), std::sin(turn)};
  const double spread = std::hypot(xx - yy, 2 * xy), along = 0.5 * (xx + yy + spread), across = 0.5 * (xx + yy - spread);
  for (const Point& p : light.places_) {
    const double t = (p.x - light.origin_.x) * light.axis_.x + (p.y - light.origin_.y) * light.axis_.y;
    light.reach_low_ = std::min(light.reach_low_, t);
    light.reach_high_ = std::max(light.reach_high_, t);
  }
  if (n >= 3 && across > kLine * kLine * along) {
    // Least-squares plane through the greys: weight i at (dx, dy) is 1/n + (dx, dy) · M⁻¹ (dx_i, dy_i).
    const double det = xx * yy - xy * xy;
    for (const Point& p : light.places_) {
      const double dx = p.x - light.origin_.x, dy = p.y - light.origin_.y;
      light.affine_.push_back({1 / count, (yy * dx - xy * dy) / det, (xx * dy - xy * dx) / det});
    }
  }
  return light;
}

std::vector<double> Light::weights(Point place) const {
  const std::size_t n = places_.size();
  if (n == 0) return {};
  if (n == 1) return {1.0};
  if (map_) return std::vector<double>(n, 1.0 / static_cast<double>(n));
  double dx = place.x - origin_.x, dy = place.y - origin_.y;
  const double reach = (1 + 2 * kTrendBeyond) * 0.5 * (reach_high_ - reach_low_);
  std::vector<double> w(n);
  if (!affine_.empty()) {
    const double far = std::hypot(dx, dy);
    const double held = far > reach ? reach / far : 1.0;
    for (std::size_t i = 0; i < n; ++i) w[i] = affine_[i][0] + held * (affine_[i][1] * dx + affine_[i][2] * dy);
    return w;
  }
  const double span = reach_high_ - reach_low_;
  const double t = std::clamp(dx * axis_.x + dy * axis_.y, reach_low_ - kTrendBeyond * span, reach_high_ + kTrendBeyond * span);
  double tt = 0;
  std::vector<double> at(n);
  for (std::size_t i = 0; i < n; ++i) {
    at[i] = (places_[i].x - origin_.x) * axis_.x + (places_[i].y - origin_.y) * axis_.y;
    tt += at[i] * at[i];
  }
  for (std::size_t i = 0; i < n; ++i) w[i] = 1.0 / static_cast<double>(n) + (tt > 0 ? t * at[i] / tt : 0.0);
  return w;
}

Light Light::fromPaper(LightMap map, double paper_y) {
  Light light;
  const Vec3 white = kBradford * kWhite<D50>;
  light.level_ = Vec3{std::log(paper_y * white[0]), std::log(paper_y * white[1]), std::log(paper_y * white[2])};
  light.map_ = std::move(map);
  light.paper_is_grey_ = true;
  return light;
}

Light Light::evenedTo(LightMap map, Point place) {
  Light light;
  light.level_ = map.logLight(place);
  light.map_ = std::move(map);
  return light;
}

void Light::keepLevel(bool brightness_by_greys) {
  if (log_gains_.empty()) return;
  Vec3 mean{};
  for (const Vec3& g : log_gains_) mean = mean + (1.0 / static_cast<double>(log_gains_.size())) * g;
  if (brightness_by_greys) {
    const double level = (mean[0] + mean[1] + mean[2]) / 3;
    mean = {mean[0] - level, mean[1] - level, mean[2] - level};
  }
  for (Vec3& g : log_gains_) g = g - mean;
}

void Light::follow(const LightSlope& slope, bool brightness_by_greys) {
  if (map_ || greys() > 1) return;
  followed_ = slope;
  if (brightness_by_greys && greys() == 1) followed_->middle = places_.front();
}

std::optional<double> Light::followedSd(Point place) const {
  if (!followed_) return {};
  const double dx = place.x - followed_->middle.x, dy = place.y - followed_->middle.y;
  return std::hypot(followed_->sd[0] * dx, followed_->sd[1] * dy);
}

Vec3 Light::logGainAt(Point place) const {
  if (level_) return *level_ - map_->logLight(place);
  const auto w = weights(place);
  Vec3 log_gain{};
  if (followed_) {
    const double course = followed_->per_pixel[0] * (place.x - followed_->middle.x) + followed_->per_pixel[1] * (place.y - followed_->middle.y);
    log_gain = {-course, -course, -course};
  }
  for (std::size_t i = 0; i < w.size(); ++i)
    log_gain = log_gain + w[i] * (map_ ? log_gains_[i] + map_->logLight(places_[i]) - map_->logLight(place) : log_gains_[i]);
  return log_gain;
}

std::array<double, 2> Light::slope(Point at) const {
  if (map_) {
    const auto light = map_->slope(at);
    return {-light[0], -light[1]};
  }
  std::array<double, 2> slope{};
  if (followed_) slope = {-followed_->per_pixel[0], -followed_->per_pixel[1]};
  const auto here = weights(at), along_x = weights({at.x + 1, at.y}), along_y = weights({at.x, at.y + 1});
  for (std::size_t i = 0; i < here.size(); ++i) {
    const Vec3& g = log_gains_[i];
    const double mean = (g[0] + g[1] + g[2]) / 3;
    slope[0] += (along_x[i] - here[i]) * mean;
    slope[1] += (along_y[i] - here[i]) * mean;
  }
  return slope;
}

Mat3 Light::correction(Point place) const {
  if (places_.empty() && !map_ && !followed_) return Mat3::identity();
  const Vec3 log_gain = logGainAt(place);
  return kFromSharp * Mat3::diagonal({std::exp(log_gain[0]), std::exp(log_gain[1]), std::exp(log_gain[2])}) * kBradford;
}

}  // namespace huewright
