#include "render/scene.hpp"

#include <algorithm>
#include <cmath>

#include "colour/delta_e.hpp"
#include "render/canvas.hpp"

namespace huewright::render {
namespace {

// A stream of random numbers of its own for each part of the picture, so that one part does not shift the others.
Random stream(std::uint64_t seed, std::uint64_t part) { return Random(seed * 0x2545f4914f6cdd1dULL + part * 0x9e3779b97f4a7c15ULL); }

Thing thingAt(const Place& place, const Perspective& perspective) {
  Thing t;
  t.place = place;
  t.quad = toPicture(perspective, cornersOf(place));
  return t;
}

void giveBody(Thing& thing, const Eye& eye, const Spectrum& body) {
  thing.raw = {eye.see(body)};
  thing.xyz = {xyzUnderD50(body)};
}

void givePaint(Thing& thing, const Eye& eye, const Paint& paint, const Finish& finish) {
  const GroundBody& ground = body(paint.ground);
  thing.finish = finish;
  thing.sparkle = ground.sparkle * finish.flake;
  thing.angle = ground.angle * finish.flake;
  const double reach = filmReach(finish);
  if (reach <= 0) return giveBody(thing, eye, reflectance(paint));
  constexpr int kLevels = 15;
  std::vector<double> films;
  thing.film_low = std::max(1 - reach, 0.0);
  thing.film_high = 1 + reach;
  for (int i = 0; i < kLevels; ++i) films.push_back(thing.film_low + (thing.film_high - thing.film_low) * i / (kLevels - 1));
  for (const Spectrum& s : reflectances(paint, films)) {
    thing.raw.push_back(eye.see(s));
    thing.xyz.push_back(xyzUnderD50(s));
  }
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

SurfaceTruth truthOf(const Thing& thing, const Xyz<D50>& mean) { return {thing.quad, toLab(mean), mean.Y}; }

// What the camera sees of the first grey, for a balance that is exact on it.
Vec3 greyRaw(const SceneSpec& scene, const Eye& eye, const Perspective& perspective, const LightField& light) {
  if (scene.greys.empty()) return {1, 1, 1};
  const GreySpec& spec = scene.greys.front();
  const Point at = perspective.toPicture({spec.place.x + 0.5 * spec.place.width, spec.place.y + 0.5 * spec.place.height});
  const Level level = light.at(at.x, at.y);
  const Raw raw = eye.see(grey(spec.y, spec.tilt));
  Vec3 sum{};
  for (std::size_t c = 0; c < 3; ++c)
    sum[c] = level.first * static_cast<double>(raw.first[c]) + level.second * static_cast<double>(raw.second[c]);
  return sum;
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

Rendered render(const SceneSpec& asked, std::uint64_t seed) {
  SceneSpec scene = asked;
  arrange(scene);
  const Shop& shop = scene.shop;
  const Eye eye(shop);
  const Perspective perspective(shop.view, scene.size);
  const LightField light(shop.lamp, scene.size, scene.shadow);

  Thing card = cardThing(scene.card, eye, perspective, shop.veil);
  std::vector<Thing> panels, greys;
  for (const PanelSpec& spec : scene.panels) {
    Thing thing = thingAt(spec.place, perspective);
    givePaint(thing, eye, spec.paint, spec.finish);
    thing.veil = spec.finish.glossy ? shop.veil : 0;
    panels.push_back(std::move(thing));
  }
  for (const GreySpec& spec : scene.greys) {
    Thing thing = thingAt(spec.place, perspective);
    giveBody(thing, eye, grey(spec.y, spec.tilt));
    greys.push_back(std::move(thing));
  }
  std::optional<Thing> border;
  if (scene.card.border_px > 0) {
    const Place& p = scene.card.place;
    const double b = scene.card.border_px;
    border = thingAt({p.x - b, p.y - b, p.width + 2 * b, p.height + 2 * b, p.turn_deg}, perspective);
    giveBody(*border, eye, 0.86 * step(395, 9));
  }

  Canvas canvas(scene, eye, perspective, light);
  canvas.paintBench(shop.bench, stream(seed, 1));
  if (scene.drop_shadows) {
    for (const Thing& t : panels) canvas.dropShadow(t.quad);
    canvas.dropShadow(border ? border->quad : card.quad);
    for (const Thing& t : greys) canvas.dropShadow(t.quad);
  }
  Rendered out;
  out.size = scene.size;
  out.style = shop.style;
  if (border) canvas.paint(*border, stream(seed, 2));
  out.truth.card = truthOf(card, canvas.paint(card, stream(seed, 3)));
  out.regions.card = card.quad;
  for (std::size_t i = 0; i < panels.size(); ++i) {
    PanelTruth truth;
    truth.surface = truthOf(panels[i], canvas.paint(panels[i], stream(seed, 100 + i)));
    truth.paint = scene.panels[i].paint;
    truth.de00 = deltaE2000(truth.surface.lab, out.truth.card.lab);
    truth.best_share = bestShare(truth.paint, out.truth.card.lab);
    truth.best_coats = bestCoats(truth.paint, out.truth.card.lab);
    out.truth.panels.push_back(truth);
    out.regions.panels.push_back(panels[i].quad);
  }
  for (std::size_t i = 0; i < greys.size(); ++i) {
    out.truth.greys.push_back(truthOf(greys[i], canvas.paint(greys[i], stream(seed, 200 + i))));
    out.regions.greys.push_back(greys[i].quad);
  }
  canvas.blur(shop.camera.blur);
  out.linear = canvas.take();
  const Development how = development(shop.camera, shop.style.linear ? shop.style.space : Space::Srgb, illuminant(shop.lamp.light),
                                      greyRaw(scene, eye, perspective, light));
  Random noise = stream(seed, 4);
  develop(shop.camera, how, scene.size.width, out.linear, noise);
  return out;
}

}  // namespace huewright::render
