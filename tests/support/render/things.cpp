#include "render/things.hpp"

#include <algorithm>

namespace huewright::render {
namespace {

Coating coatingOf(const Eye& eye, const Paint& paint, double reach) {
  Coating coating;
  if (reach <= 0) {
    const Spectrum body = reflectance(paint);
    return {{eye.see(body)}, {xyzUnderD50(body)}};
  }
  constexpr int kLevels = 15;
  std::vector<double> films;
  coating.film_low = std::max(1 - reach, 0.0);
  coating.film_high = 1 + reach;
  for (int i = 0; i < kLevels; ++i) films.push_back(coating.film_low + (coating.film_high - coating.film_low) * i / (kLevels - 1));
  for (const Spectrum& s : reflectances(paint, films)) {
    coating.raw.push_back(eye.see(s));
    coating.xyz.push_back(xyzUnderD50(s));
  }
  return coating;
}

void givePaint(Thing& thing, const Eye& eye, const Paint& paint, const Finish& finish) {
  const GroundBody& ground = body(paint.ground);
  thing.finish = finish;
  thing.sparkle = ground.sparkle * finish.flake;
  thing.angle = ground.angle * finish.flake;
  thing.coatings = {coatingOf(eye, paint, filmReach(finish))};
}

void giveSteps(Thing& thing, const Eye& eye, const PanelSpec& spec) {
  thing.coatings.clear();
  Paint paint = spec.paint;
  double total = 0, so_far = 0;
  const auto width = [&](std::size_t k) { return spec.step_widths.empty() ? 1.0 : spec.step_widths.at(k); };
  for (std::size_t k = 0; k < spec.steps.size(); ++k) total += width(k);
  for (std::size_t k = 0; k < spec.steps.size(); ++k) {
    paint.coats = spec.steps[k];
    thing.coatings.push_back(coatingOf(eye, paint, filmReach(spec.finish)));
    so_far += width(k);
    if (k + 1 < spec.steps.size()) thing.boundaries.push_back(so_far / total);
  }
  thing.tape = spec.tape;
}

}  // namespace

Spectrum cardBody(const CardSpec& card) {
  if (card.body) return *card.body;
  switch (card.kind) {
    case CardKind::Same: return reflectance(card.paint);
    case CardKind::OtherPigments: return otherPigments(labOf(card.paint), card.pigment_set);
    case CardKind::Printed: return printed(labOf(card.paint));
  }
  return {};
}

Thing thingAt(const Place& place, const Perspective& perspective) {
  Thing t;
  t.place = place;
  t.quad = toPicture(perspective, cornersOf(place));
  return t;
}

void giveBody(Thing& thing, const Eye& eye, const Spectrum& body) { thing.coatings = {{{eye.see(body)}, {xyzUnderD50(body)}}}; }

Thing panelThing(const PanelSpec& panel, const Eye& eye, const Perspective& perspective, double veil) {
  Thing thing = thingAt(panel.place, perspective);
  givePaint(thing, eye, panel.paint, panel.finish);
  if (!panel.steps.empty()) giveSteps(thing, eye, panel);
  thing.veil = panel.finish.glossy ? veil : 0;
  return thing;
}

Thing cardThing(const CardSpec& card, const Eye& eye, const Perspective& perspective, double veil) {
  Thing thing = thingAt(card.place, perspective);
  if (card.kind == CardKind::Same && !card.body) {
    givePaint(thing, eye, card.paint, card.finish);
  } else {
    giveBody(thing, eye, cardBody(card));
    thing.finish = card.finish;
  }
  const bool mirrors = card.finish.glossy && card.kind != CardKind::Printed;
  thing.veil = mirrors ? veil : 0;
  return thing;
}

Thing chipThing(const ChipSpec& chip, const Eye& eye, const Perspective& perspective, double veil) {
  Thing thing = thingAt(chip.place, perspective);
  giveBody(thing, eye, grey(chip.y, 0.01));
  thing.finish.glare = chip.glare;
  thing.veil = chip.glossy ? veil : 0;
  return thing;
}

}  // namespace huewright::render
