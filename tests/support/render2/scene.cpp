#include "render2/scene.hpp"

#include <algorithm>
#include <cmath>

#include "colour/delta_e.hpp"
#include "render2/board.hpp"
#include "render2/things.hpp"

namespace huewright::render2 {
namespace {

constexpr int kFieldLattice = 48;

struct BenchLook {
  Spectrum body;
  double grain, waves, shortest_cm, longest_cm;   // relative spreads of pixels and of waves, and the waves' lengths
};

BenchLook look(Bench bench) {
  switch (bench) {
    case Bench::DarkRubber: return {even(0.045) + 0.006 * rise(560, 90), 0.06, 0.04, 0.4, 3};
    case Bench::GreyBoard: return {even(0.24) + 0.02 * rise(540, 90), 0.02, 0.015, 1, 8};
    case Bench::Plywood: return {0.20 * even(1) + 0.32 * rise(545, 55), 0.03, 0.07, 0.7, 9};
    case Bench::LightPaper: return {0.66 * rise(398, 12), 0.008, 0.01, 2, 12};
  }
  return {};
}

// Something on the bench, ready to be seen.
struct Thing {
  Rectangle rectangle;
  Skin skin;
  std::optional<Film> film{};
  double gloss = 0;
};

Thing painted(const Paint& paint, const Finish& finish, const Place& place, const Eyes& eyes, Random random) {
  const double reach = 4.5 * finish.mottle + 0.5 * (std::abs(finish.slope_x) + std::abs(finish.slope_y)) + 0.01;
  return {Rectangle(place), Skin(paint, reach, eyes), Film(place, finish, random), finish.gloss};
}

Thing cardThing(const Spec& spec, const Eyes& eyes, std::uint64_t seed) {
  if (spec.card.paint) return painted(*spec.card.paint, spec.card_finish, spec.card_place, eyes, render::streamOf(seed, 22));
  return {Rectangle(spec.card_place), Skin(spec.card.reflectance, eyes), {}, spec.card_finish.gloss};
}

Lab<D50> meanLab(const Thing& thing) {
  if (!thing.film) return toLab(thing.skin.xyz(1));
  Vec3 sum{};
  for (int i = 0; i < kFieldLattice; ++i)
    for (int j = 0; j < kFieldLattice; ++j)
      sum = sum + toVec(thing.skin.xyz(thing.film->at(thing.rectangle.outward((i + 0.5) / kFieldLattice - 0.5, (j + 0.5) / kFieldLattice - 0.5))));
  const Vec3 mean = 1.0 / (kFieldLattice * kFieldLattice) * sum;
  return toLab(Xyz<D50>{mean[0], mean[1], mean[2]});
}

class Stage {
 public:
  Stage(const Spec& spec, std::uint64_t seed)
      : spec_(spec), seed_(seed), light_(spec.light), eyes_(spec, light_), view_(spec.view, spec.size),
        things_{painted(spec.panel, spec.panel_finish, spec.panel_place, eyes_, render::streamOf(seed, 21)), cardThing(spec, eyes_, seed),
                {Rectangle(spec.grey_place), Skin(greyBody(spec.grey), eyes_), {}, 0}},
        white_room_(eyes_.byRoom(even(1))) {
    if (spec.chart) board_.emplace(*spec.chart, eyes_, render::streamOf(seed, 23));
  }

  std::vector<float> expose() const;
  Vec3 whiteRaw() const { return (1 - spec_.light.ambient) * eyes_.byLamp(even(1)) + spec_.light.ambient * white_room_; }
  void tell(Rendered& out) const;

 private:
  Vec3 seen(const Thing& thing, Point at, double lamp, double room, double sparkle) const;
  double shade(Point at, const Vec3& to_lamp) const;

  const Spec& spec_;
  std::uint64_t seed_;
  LightField light_;
  Eyes eyes_;
  View view_;
  std::vector<Thing> things_;   // panel, card, grey
  std::optional<Board> board_;
  Vec3 white_room_;
};

Vec3 Stage::seen(const Thing& thing, Point at, double lamp, double room, double sparkle) const {
  if (thing.gloss <= 0 && !thing.skin.flakes()) return thing.skin.raw(1, 1, lamp, room);
  const Vec3 to_lamp = light_.toLamp(at), to_eye = view_.toEye(at);
  const Geometry here = geometryOf(to_lamp, to_eye);
  static const Geometry standard = standardGeometry();
  double gain = 1;
  if (const GroundBody* ground = thing.skin.flakes())
    gain = flakeGain(*ground, here, light_.halfSpread()) * std::max(1 + ground->sparkle * sparkle, 0.0);
  const double film = thing.film ? thing.film->at(at) : 1;
  // Only a coated body's light crosses a surface; what is printed was given as it looks from outside.
  if (thing.film) lamp *= throughSurface(1, 0, here) / throughSurface(1, 0, standard);
  const double mirrored = thing.gloss * fresnel(here.cos_out) * spec_.room *
                          std::max(1 + (spec_.room_x * at.x + spec_.room_y * at.y) / spec_.light.half_width, 0.0);
  return thing.skin.raw(film, gain, lamp, room) + mirrored * white_room_;
}

// The part of the lamp's light that the things let through to the bench at a place.
double Stage::shade(Point at, const Vec3& to_lamp) const {
  constexpr double kThick = 0.25;   // cm
  const double x = to_lamp[0] / to_lamp[2] * kThick, y = to_lamp[1] / to_lamp[2] * kThick;
  const double soft = 0.08 + 6 * light_.halfSpread() * kThick;
  double through = 1;
  const auto cover = [&](const Rectangle& r) { through *= 1 - std::clamp(0.5 + r.depth({at.x + x, at.y + y}) / soft, 0.0, 1.0); };
  for (const Thing& t : things_) cover(t.rectangle);
  if (board_) cover(board_->rectangle());
  return through;
}

std::vector<float> Stage::expose() const {
  const Size size = spec_.size;
  std::vector<float> rgb(3 * static_cast<std::size_t>(size.width) * static_cast<std::size_t>(size.height));
  const BenchLook bench = look(spec_.bench);
  const Skin bench_skin(bench.body, eyes_);
  Random random = render::streamOf(seed_, 1);
  const Waves grain(bench.shortest_cm, bench.longest_cm, 6, random);
  const Vec3 white = whiteRaw();
  const double scale = spec_.camera.exposure / std::max({white[0], white[1], white[2]}), px_per_cm = view_.pixelsPerCm();
  float deviate[4]{};
  std::size_t i = 0;
  for (int row = 0; row < size.height; ++row)
    for (int column = 0; column < size.width; ++column, i += 3) {
      const Point pixel{column + 0.5, row + 0.5}, at = view_.toPlace(pixel);
      if (column % 2 == 0) random.normals4(deviate);
      const auto noise = static_cast<double>(deviate[column % 2]);
      const double lamp = light_.lamp(at), room = light_.ambient(at);
      Vec3 raw{};
      double left = 1;   // of the pixel, not yet covered
      const auto lay = [&](const Rectangle& rectangle, auto&& look_of) {
        const double cover = left * std::clamp(rectangle.depth(at) * px_per_cm + 0.5, 0.0, 1.0);
        if (cover <= 0) return;
        raw = raw + cover * look_of();
        left -= cover;
      };
      for (const Thing& thing : things_) lay(thing.rectangle, [&] { return seen(thing, at, lamp, room, noise); });
      if (board_) lay(board_->rectangle(), [&] { return board_->raw(at, px_per_cm, lamp, room); });
      if (left > 0) {
        const double texture = std::max(1 + bench.grain * noise + bench.waves * grain.at(at), 0.0);
        raw = raw + left * texture * bench_skin.raw(1, 1, lamp * shade(at, light_.toLamp(at)), room);
      }
      const double lens = scale * std::pow(view_.cosOffAxis(pixel), 4 * spec_.camera.vignetting);
      for (std::size_t c = 0; c < 3; ++c) rgb[i + c] = static_cast<float>(lens * raw[c]);
    }
  return rgb;
}

void Stage::tell(Rendered& out) const {
  out.regions.panels = {things_[0].rectangle.quad(view_)};
  out.regions.card = things_[1].rectangle.quad(view_);
  out.regions.greys = {things_[2].rectangle.quad(view_)};
  if (board_) out.chart = board_->patchCorners(view_);
  Truth& t = out.truth;
  t.panel = meanLab(things_[0]);
  t.card = meanLab(things_[1]);
  t.de00 = deltaE2000(t.panel, t.card);
  t.grey_y = xyzD50(greyBody(spec_.grey)).Y;
  t.share = spec_.panel.share;
  t.best_share = bestShare(spec_.panel, t.card);
  t.stronger = t.best_share > t.share ? 1 : t.best_share < t.share ? -1 : 0;
}

// Correlated colour temperature, for the camera's guess. Source: McCamy (1992).
double temperatureOf(const Spectrum& light) {
  const Vec3 v = xyzBy(even(1), light);
  const double sum = v[0] + v[1] + v[2], n = (v[0] / sum - 0.3320) / (0.1858 - v[1] / sum);
  return ((449 * n + 3525) * n + 6823.3) * n + 5520.33;
}

}  // namespace

Spectrum greyBody(const GreySpec& grey) {
  const Spectrum shape = spectrumOf([&](double nm) { return 1 + grey.tilt * (0.5 * std::tanh((nm - 555) / 70) + 0.2 * std::sin((nm - 400) / 45)); });
  return grey.y / xyzD50(shape).Y * shape;
}

std::vector<float> onSensor(const Spec& spec, std::uint64_t seed) { return Stage(spec, seed).expose(); }

Rendered render(const Spec& spec, std::uint64_t seed) {
  const Stage stage(spec, seed);
  Rendered out;
  out.size = spec.size;
  out.tone = spec.tone;
  out.p3 = spec.camera.p3;
  out.camera = spec.camera.letter;
  stage.tell(out);
  std::vector<float> sensor = stage.expose();
  blurred(spec.size, spec.camera.blur, sensor);
  Random noise = render::streamOf(seed, 4);
  out.linear = demosaiced(spec.size, mosaic(spec.camera, spec.size, sensor, noise));
  develop(spec.camera, stage.whiteRaw(), temperatureOf(lampSpectrum(spec.light.lamp)), out.linear);
  return out;
}

}  // namespace huewright::render2
