#include "judge/pair.hpp"

#include <algorithm>
#include <array>
#include <cmath>

#include "colour/delta_e.hpp"
#include "judge/joined.hpp"

namespace huewright {
namespace {

constexpr double kFromPlace = 0.10;     // of the change that the place made: what does not cancel, one standard deviation; judgement
constexpr double kNotThese = 8.0;       // ΔE00 not explained by brightness: these are not the same two things

std::vector<Influence> joinInfluences(const Reading& first, const Reading& second) {
  std::vector<Influence> joined;
  std::vector<const Influence*> shared_first, shared_second;
  const auto take = [&](const Reading& shot, std::vector<const Influence*>& shared) {
    for (const Influence& influence : shot.influences) {
      if (influence.renewal == Renewal::Never) {
        shared.push_back(&influence);
        continue;
      }
      Influence half = influence;
      for (Vec3& v : half.on_lab) v = 0.5 * v;
      joined.push_back(std::move(half));
    }
  };
  take(first, shared_first);
  take(second, shared_second);
  // One linear and one rendered file have different lists; then each counts in full for its half, which is on the safe side.
  const bool alike = std::ranges::equal(shared_first, shared_second, {}, &Influence::part, &Influence::part);
  for (std::size_t i = 0; i < shared_first.size(); ++i) {
    Influence influence = *shared_first[i];
    if (alike)
      for (std::size_t k = 0; k < influence.on_lab.size(); ++k) influence.on_lab[k] = 0.5 * (influence.on_lab[k] + shared_second[i]->on_lab[k]);
    joined.push_back(std::move(influence));
  }
  if (!alike && shared_second.size() > shared_first.size())
    for (const Influence* influence : shared_second) joined.push_back(*influence);
  return joined;
}

}  // namespace

Result<Pair> averagePair(const Reading& first, const Reading& second) {
  if (first.panels.size() != 1 || second.panels.size() != 1 || !first.card_in_photo || !second.card_in_photo)
    return fail(Code::SwappedUnusable, "it must show one panel and the card");
  const DeltaVector u1 = deltaVector(first.panels[0].lab, first.card.lab), u2 = deltaVector(second.panels[0].lab, second.card.lab);
  const auto ratio = [](const Reading& r) { return std::log(std::max(1e-6, r.panels[0].xyz.Y) / std::max(1e-6, r.card.xyz.Y)); };
  Pair pair;
  pair.apart = length(u1.u - u2.u);
  pair.brightness = ratio(first) - ratio(second);

  pair.reading = first;
  Reading& r = pair.reading;
  r.panels[0] = joined(std::array{&first.panels[0], &second.panels[0]});
  r.card = joined(std::array{&first.card, &second.card});
  r.influences = joinInfluences(first, second);
  addCautions(r, second);

  // What brightness alone would have done to the difference, half of it on either side.
  const DeltaVector u = deltaVector(r.panels[0].lab, r.card.lab);
  const Vec3 by_light = u.by_panel * (labByXyz(r.panels[0].xyz) * (0.5 * pair.brightness * toVec(r.panels[0].xyz))) -
                        u.by_card * (labByXyz(r.card.xyz) * (0.5 * pair.brightness * toVec(r.card.xyz)));
  pair.other = length(u1.u - u2.u - by_light);
  Mat3 noise{};
  for (const Influence& influence : r.influences) {
    if (influence.renewal == Renewal::Never) continue;
    const Vec3 shift = 2.0 * (u.by_panel * influence.on_lab[0] + u.by_card * influence.on_lab[1]);  // halved above
    noise = noise + outer(shift, shift);
  }
  pair.other_sd = std::sqrt(trace(noise));
  if (pair.other > kNotThese) return fail(Code::SwappedUnusable, "it does not show the same panel and card");

  // What does not cancel: brightness of the panel against the card.
  Influence left{Part::LightAngle, {{}, {}}};
  left.on_lab[0] = labByXyz(r.panels[0].xyz) * (kFromPlace * 0.5 * pair.brightness * toVec(r.panels[0].xyz));
  r.influences.push_back(std::move(left));
  refreshDeviations(r);
  return pair;
}

}  // namespace huewright
