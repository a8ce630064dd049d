#include "judge/repeats.hpp"

#include <algorithm>
#include <cmath>

#include "colour/delta_e.hpp"
#include "judge/joined.hpp"

namespace huewright {
namespace {

constexpr double kLeastOfModel = 0.25; // of the modelled variance that is kept when the photos agree better than that
constexpr double kFarOff = 40;         // squared, in the others' spread: over six standard deviations, since the model may be too small by half; judgement
constexpr double kWorthNaming = 0.5;   // ΔE00: a smaller departure does no harm; judgement

using Shots = std::vector<const Reading*>;

Mat3 minus(const Mat3& a, const Mat3& b) { return a + (-1.0) * b; }

/// The same matrix without its negative part.
Mat3 positivePart(const Mat3& m) {
  const Eigen3 e = eigenSymmetric(m);
  Mat3 sum{};
  for (std::size_t k = 0; k < 3; ++k) {
    const Vec3 v{e.vectors(0, k), e.vectors(1, k), e.vectors(2, k)};
    sum = sum + std::max(0.0, e.values[k]) * outer(v, v);
  }
  return sum;
}

/// One colour of all photos.
template <class Get>
ColourReading over(const Shots& shots, Get&& of) {
  std::vector<const ColourReading*> all;
  for (const Reading* shot : shots) all.push_back(&of(*shot));
  return joined(all);
}

Vec3 shiftOfDifference(const Influence& influence, std::size_t panel, const DeltaVector& u) {
  return u.by_panel * influence.on_lab[panel] + u.by_card * influence.on_lab.back();
}

Mat3 modelled(const Reading& shot, std::size_t panel, const DeltaVector& u, Renewal renewal) {
  Mat3 sum{};
  for (const Influence& influence : shot.influences)
    if (influence.renewal == renewal) {
      const Vec3 shift = shiftOfDifference(influence, panel, u);
      sum = sum + outer(shift, shift);
    }
  return sum;
}

/// One panel's difference vectors over the photos, with what the model expects of them.
struct Series {
  std::vector<Vec3> u{};
  Mat3 of_photo{}, of_set_up{};  // modelled, of one photo
};

Series seriesOf(const Shots& shots, std::size_t panel) {
  Series s;
  const double share = 1.0 / static_cast<double>(shots.size());
  for (const Reading* shot : shots) {
    const DeltaVector u = deltaVector(shot->panels[panel].lab, shot->card.lab);
    s.u.push_back(u.u);
    s.of_photo = s.of_photo + share * modelled(*shot, panel, u, Renewal::Photo);
    s.of_set_up = s.of_set_up + share * modelled(*shot, panel, u, Renewal::SetUp);
  }
  return s;
}

struct Spread {
  Vec3 mean{};
  Mat3 covariance{};  // of one photo, blended with the model
};

Spread spreadOf(const Series& s, std::optional<std::size_t> without = {}) {
  Spread spread;
  double n = 0;
  for (std::size_t i = 0; i < s.u.size(); ++i)
    if (i != without) {
      spread.mean = spread.mean + s.u[i];
      ++n;
    }
  spread.mean = (1 / n) * spread.mean;
  Mat3 sum = kPrior * s.of_photo;
  for (std::size_t i = 0; i < s.u.size(); ++i)
    if (i != without) sum = sum + outer(s.u[i] - spread.mean, s.u[i] - spread.mean);
  spread.covariance = (1 / (kPrior + n - 1)) * sum;
  return spread;
}

/// How far one photo is from the others, squared, in their spread; and its ΔE00.
struct Apart {
  double square = 0, de00 = 0;
};

Apart shotApart(const Series& s, std::size_t shot) {
  const Spread others = spreadOf(s, shot);
  const double n = static_cast<double>(s.u.size());
  const Vec3 off = s.u[shot] - others.mean;
  // A hand that holds the camera sees the set-up from elsewhere each time.
  const Mat3 expected = (n / (n - 1)) * others.covariance + s.of_set_up + 1e-6 * Mat3::identity();
  return {dot(off, inverse(expected) * off), length(off)};
}

/// The photo that stands apart the most, if any does.
std::optional<std::pair<std::size_t, double>> oddOne(const Shots& shots) {
  if (shots.size() < 3) return {};
  std::optional<std::pair<std::size_t, double>> odd;
  double worst = kFarOff;
  for (std::size_t p = 0; p < shots.front()->panels.size(); ++p) {
    const Series s = seriesOf(shots, p);
    for (std::size_t i = 0; i < shots.size(); ++i)
      if (const Apart a = shotApart(s, i); a.square > worst && a.de00 > kWorthNaming) {
        worst = a.square;
        odd = {i, a.de00};
      }
  }
  return odd;
}

/// True when the photos scatter far more than the model and a hand's movements explain.
bool disagree(const Series& s) {
  const double n = static_cast<double>(s.u.size());
  Vec3 mean{};
  for (const Vec3& u : s.u) mean = mean + (1 / n) * u;
  double seen = 0;
  for (const Vec3& u : s.u) seen += dot(u - mean, u - mean) / (n - 1);
  constexpr double kFar = 3;  // times as far
  return std::sqrt(seen) > kWorthNaming && seen > kFar * kFar * trace(s.of_photo + s.of_set_up);
}

void combineInfluences(const Shots& shots, Reading& reading, double& scatter) {
  const double n = static_cast<double>(shots.size());
  const std::size_t panels = reading.panels.size();
  // Per panel what the photos say; the card has the mean.
  double photo_factor = 0;
  std::vector<Influence> excess;
  scatter = 0;
  for (std::size_t p = 0; p < panels; ++p) {
    const Series s = seriesOf(shots, p);
    const Spread spread = spreadOf(s);
    scatter = std::max(scatter, std::sqrt(trace(spread.covariance) / 3));
    const double model = std::max(1e-12, trace(s.of_photo));
    photo_factor += std::clamp(trace(spread.covariance) / model, kLeastOfModel, 1.0) / static_cast<double>(panels);
    const Mat3 more = positivePart(minus(spread.covariance, s.of_photo));
    const DeltaVector u = deltaVector(reading.panels[p].lab, reading.card.lab);
    const Mat3 to_lab = inverse(u.by_panel);
    const Eigen3 e = eigenSymmetric(more);
    for (std::size_t k = 0; k < 3; ++k) {
      if (e.values[k] <= 0) continue;
      Influence influence{Part::Scatter, std::vector<Vec3>(panels + 1), Renewal::Photo};
      influence.on_lab[p] = to_lab * (std::sqrt(e.values[k] / n) * Vec3{e.vectors(0, k), e.vectors(1, k), e.vectors(2, k)});
      excess.push_back(std::move(influence));
    }
  }
  std::vector<Influence> all;
  const auto scaled = [&](const Influence& from, double by) {
    Influence influence = from;
    for (Vec3& shift : influence.on_lab) shift = by * shift;
    all.push_back(std::move(influence));
  };
  for (const Reading* shot : shots)
    for (const Influence& influence : shot->influences)
      if (influence.renewal == Renewal::Photo) scaled(influence, std::sqrt(photo_factor) / n);
  // What is alike in all photos is taken from the first: the photos differ little there.
  for (const Influence& influence : shots.front()->influences)
    if (influence.renewal != Renewal::Photo) all.push_back(influence);
  all.insert(all.end(), excess.begin(), excess.end());
  reading.influences = std::move(all);
}

}  // namespace

Result<Repeats> combineRepeats(std::span<const Reading> readings) {
  Shots shots;
  for (const Reading& r : readings) shots.push_back(&r);
  if (shots.empty()) return fail(Code::RepeatsUnusable, "there is none");
  for (const Reading* shot : shots)
    if (shot->panels.size() != shots.front()->panels.size() || shot->card_in_photo != shots.front()->card_in_photo)
      return fail(Code::RepeatsUnusable, "they do not show the same panels and card");
  Repeats repeats;
  if (const auto odd = oddOne(shots)) {
    repeats.left_out = odd->first;
    repeats.left_out_by = odd->second;
    shots.erase(shots.begin() + static_cast<std::ptrdiff_t>(odd->first));
  }
  repeats.used = shots.size();
  Reading& r = repeats.reading = *shots.front();
  for (std::size_t p = 0; p < r.panels.size(); ++p) r.panels[p] = over(shots, [p](const Reading& shot) -> const ColourReading& { return shot.panels[p]; });
  if (r.card_in_photo) r.card = over(shots, [](const Reading& shot) -> const ColourReading& { return shot.card; });
  for (const Reading* shot : shots) addCautions(r, *shot);
  if (shots.size() > 1) {
    for (std::size_t p = 0; p < r.panels.size(); ++p) repeats.disagree = repeats.disagree || disagree(seriesOf(shots, p));
    combineInfluences(shots, r, repeats.scatter);
  }
  refreshDeviations(r);
  return repeats;
}

}  // namespace huewright
