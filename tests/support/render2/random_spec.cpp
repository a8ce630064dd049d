// Scenes as a careful painter would set them up: light from one side at about 45°, panel and card across it, the grey beside them.
#include <algorithm>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "render2/board.hpp"
#include "render2/scene.hpp"

namespace huewright::render2 {
namespace {

Paint randomPaint(Random& random) {
  Paint p;
  p.ground = kGrounds[random.below(static_cast<int>(std::size(kGrounds)))];
  p.tints = kTints[random.below(static_cast<int>(std::size(kTints)))];
  p.share = random.uniform(0.2, 0.8);
  p.coats = random.uniform(2, 6);
  p.load = random.uniform(0.35, 0.8);
  p.shade = random.uniform(0.02, 0.25);
  return p;
}

void drawPaints(Spec& spec, Random& random, const SpecOptions& options) {
  for (int attempt = 0; attempt < 400; ++attempt) {
    const Paint paint = randomPaint(random);
    const auto card = makeCard(options.card, paint, random);
    const bool by_share = random.chance(0.6), up = random.chance(0.5);
    if (!card) continue;
    const Lab<D50> look = labD50(card->reflectance);
    const auto match = options.card == CardKind::Same ? std::optional(paint) : matched(paint, look);
    if (!match) continue;
    const auto panel = movedAway(*match, look, options.de00, by_share, up);
    if (!panel) continue;
    spec.card = *card;
    spec.panel = *panel;
    return;
  }
  throw std::runtime_error("no paint was found at that distance from such a card");
}

void drawLight(Spec& spec, Random& random) {
  LightSpec& l = spec.light;
  const auto& names = lampNames();
  l.lamp = names[static_cast<std::size_t>(random.below(static_cast<int>(names.size())))];
  const double slant = random.uniform(38, 54) * std::numbers::pi / 180;
  const double round = (random.chance(0.7) ? -90 : 90) + 6 * random.normal();   // from the far side of the bench, or from the near one
  double far = 70 * std::pow(3.0, random.uniform());
  // Far enough for its mirror image, as the camera sees it, to stay clear of everything.
  while (far * std::sin(slant) * spec.view.eye[2] / (spec.view.eye[2] + far * std::cos(slant)) < 30) far *= 1.1;
  const double turn = round * std::numbers::pi / 180;
  l.at = {far * std::sin(slant) * std::cos(turn), far * std::sin(slant) * std::sin(turn), far * std::cos(slant)};
  l.radius = random.chance(0.3) ? 0 : random.uniform(4, 20);
  l.ambient = random.uniform(0.06, 0.28);
  l.wall = random.below(kWalls);
  l.ambient_x = random.uniform(-0.15, 0.15);
  l.ambient_y = random.uniform(-0.15, 0.15);
  spec.room = random.uniform(0.02, 0.10);
  spec.room_x = random.uniform(-0.6, 0.6);
  spec.room_y = random.uniform(-0.6, 0.6);
}

void drawCamera(Spec& spec, Random& random, bool linear) {
  CameraSpec& c = spec.camera;
  c.letter = kCameras[static_cast<std::size_t>(random.below(static_cast<int>(kCameras.size())))];
  c.exposure = random.uniform(0.55, 0.92);
  c.iso = 100 * std::pow(8.0, random.uniform() * random.uniform());
  c.full_well = c.letter == 'f' ? 9000 : 22000;
  c.read_noise = c.letter == 'f' ? 2.5 : 6;
  c.prnu = random.uniform(0.004, 0.008);
  c.banding = random.uniform(0.3, 1.0) * c.read_noise / 2;
  c.red_error = 0.03 * random.normal();
  c.blue_error = 0.03 * random.normal();
  c.guess_error = 25 * random.normal();
  for (Vec3& row : c.matrix_error.row) {
    for (double& v : row) v = 0.015 * random.normal();
    const double mean = (row[0] + row[1] + row[2]) / 3;
    for (double& v : row) v -= mean;
  }
  c.blur = random.uniform(0.5, 0.9);
  c.vignetting = linear ? random.uniform(0.2, 0.8) : random.uniform(0.1, 0.45);
  c.p3 = linear && random.chance(0.5);
}

void drawPlaces(Spec& spec, Random& random, bool chart) {
  const auto askew = [&] { return 1.2 * random.normal(); };
  const double left = random.chance(0.5) ? -1 : 1, y = chart ? -8.3 : -3.2;
  spec.panel_place = {{left * random.uniform(9.5, 10.5), y}, random.uniform(11.5, 14.5), random.uniform(12, 14.5), askew()};
  spec.card_place = {{-left * random.uniform(8.5, 10), y + random.uniform(-0.8, 0.8)}, random.uniform(8.5, 12), random.uniform(9, 12.5), askew()};
  if (chart) {
    const double side = random.chance(0.5) ? -1 : 1;
    spec.chart = Place{{side * 8.5, 8.1}, 18, boardHeight(18), askew()};
    spec.grey_place = {{-side * random.uniform(8, 12), random.uniform(5.5, 9.5)}, random.uniform(5, 7), random.uniform(4.5, 6), askew()};
  } else {
    spec.grey_place = {{random.uniform(-7, 7), random.uniform(9, 10)}, random.uniform(5, 7), random.uniform(4, 5), askew()};
  }
}

}  // namespace

Spec randomSpec(std::uint64_t seed, const SpecOptions& options) {
  Random random = render::streamOf(seed, 0x2e4de2);
  Spec spec;
  spec.size = options.chart ? Size{1200, 820} : Size{1000, 680};
  spec.view = {{random.uniform(-5, 5), random.uniform(-8, 8), random.uniform(62, 95)}, 1.2 * random.normal(), options.chart ? 52.0 : 44.0,
               random.uniform(-0.02, 0.02)};
  spec.light.half_width = 0.5 * spec.view.wide;
  drawLight(spec, random);
  drawCamera(spec, random, options.linear);
  drawPlaces(spec, random, options.chart);
  spec.tone = randomTone(random);
  spec.tone.linear = options.linear;
  if (options.linear) spec.tone.tagged = true;
  spec.bench = static_cast<Bench>(random.below(4));
  spec.grey = {random.uniform(0.17, 0.23), random.uniform(-0.03, 0.03)};
  spec.panel_finish = {random.uniform(0.008, 0.022), random.uniform(0.1, 0.7), 0.015 * random.normal(), 0.015 * random.normal(), 1};
  spec.card_finish = {random.uniform(0.004, 0.012), random.uniform(0.1, 0.5), 0.008 * random.normal(), 0.008 * random.normal(),
                      options.card == CardKind::Printed ? 0.3 : 1};
  drawPaints(spec, random, options);
  return spec;
}

}  // namespace huewright::render2
