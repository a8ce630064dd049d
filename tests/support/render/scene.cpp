#include "render/scene.hpp"

#include <algorithm>
#include <cmath>

#include "colour/delta_e.hpp"
#include "render/board.hpp"
#include "render/canvas.hpp"
#include "render/print.hpp"
#include "render/strips.hpp"
#include "render/things.hpp"

namespace huewright::render {
namespace {

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

PanelTruth panelTruth(const Thing& thing, const Painted& painted, const PanelSpec& spec, const Lab<D50>& card, const Perspective& perspective) {
  PanelTruth truth;
  truth.surface = truthOf(thing, painted.mean);
  truth.paint = spec.paint;
  truth.de00 = deltaE2000(truth.surface.lab, card);
  if (spec.steps.empty()) truth.best_share = bestShare(truth.paint, card);
  truth.best_coats = bestCoats(truth.paint, card);
  for (std::size_t k = 0; k < spec.steps.size(); ++k) {
    const Xyz<D50>& mean = painted.strips[k];
    truth.strips.push_back({stripQuad(thing, perspective, k), toLab(mean), mean.Y});
  }
  return truth;
}

void layPaper(Canvas& canvas, const Eye& eye, const SceneSpec& scene, const Perspective& perspective, std::uint64_t seed, Truth& truth) {
  const MatSpec& mat = *scene.mat;
  const Mat3 to_plane = sheetToPlane(mat, scene.size), to_picture = perspective.forward() * to_plane;
  const double px = pxPerMm(mat, scene.size);
  // A rectangle of so many millimetres of paper round a place of the sheet.
  const auto round = [&](Point middle, double width, double height) {
    const Vec3 at = to_plane * Vec3{middle.x, middle.y, 1};
    return toPicture(perspective, cornersOf({at[0] - width * px / 2, at[1] - height * px / 2, width * px, height * px, mat.turn_deg}));
  };
  const Point page = pageSize(mat);
  const Quad quad = round({mat.layout.width / 2, mat.layout.height / 2}, page.x, page.y);
  std::optional<Quad> hole;
  if (const auto& a = mat.layout.aperture)
    hole = round({a->x + a->width / 2, a->y + a->height / 2}, a->width * mat.print_scale_x, a->height * mat.print_scale_y);
  if (scene.drop_shadows) canvas.dropShadow(quad, 0.12);
  canvas.paintPaper(quad, mat.paper, hole, streamOf(seed, 5));
  printMat(canvas, eye, mat, to_picture);
  if (mat.dirt > 0) truth.dirt = soil(canvas, eye, mat, to_picture, streamOf(mat.dirt_seed != 0 ? mat.dirt_seed : seed, 6));
  const Spectrum body = paperBody(mat.paper);
  truth.paper = SurfaceTruth{quad, labUnderD50(body), xyzUnderD50(body).Y};
  truth.mat = to_picture;
}

// Seen through the mat's window rather than lying on the paper.
bool underAperture(const SceneSpec& asked, std::size_t panel) {
  return asked.mat && asked.panels[panel].place.width <= 0 && isAperture(asked.mat->layout, asked.mat->panelSlot(panel));
}

void layClutter(Canvas& canvas, const Eye& eye, const SceneSpec& scene, const Perspective& perspective, std::uint64_t seed) {
  for (std::size_t i = 0; i < scene.clutter.size(); ++i) {
    const ClutterSpec& spec = scene.clutter[i];
    Thing thing = thingAt(spec.place, perspective);
    giveBody(thing, eye, spec.body);
    thing.sparkle = spec.texture;
    thing.finish.bevel_px = spec.bevel_px;
    if (spec.shadow && scene.drop_shadows) canvas.dropShadow(thing.quad, 0.4);
    canvas.paint(thing, streamOf(seed, 1000 + i));
  }
}

// A scene in which everything has its place, and the light that falls on it.
class Stage {
 public:
  explicit Stage(const SceneSpec& asked, bool with_chart = true)
      : scene(laid(asked, with_chart)), eye(scene.shop), perspective(scene.shop.view, scene.size), light(scene.shop.lamp, scene.size, scene.shadow),
        canvas(scene, eye, perspective, light) {}

  const SceneSpec scene;
  const Eye eye;
  const Perspective perspective;
  const LightField light;
  Canvas canvas;

  // How the camera turns what its lens throws on the sensor into a picture; the lens is applied here.
  Development develop(Space space) {
    canvas.blur(scene.shop.camera.blur);
    return development(scene.shop.camera, space, illuminant(scene.shop.lamp.light), greyRaw(scene, eye, perspective, light));
  }

 private:
  static SceneSpec laid(SceneSpec scene, bool with_chart) {
    if (!with_chart) scene.chart.reset();
    lay(scene);
    return scene;
  }
};

// Lens, sensor and development.
void expose(Stage& stage, std::uint64_t seed, Rendered& out) {
  const Shop& shop = stage.scene.shop;
  out.size = stage.scene.size;
  out.style = shop.style;
  const Development how = stage.develop(shop.style.linear ? shop.style.space : Space::Srgb);
  out.linear = stage.canvas.take();
  Random noise = streamOf(seed, 4);
  develop(shop.camera, how, out.size.width, out.linear, noise);
}

void paintScene(Stage& stage, const SceneSpec& asked, std::uint64_t seed, Regions& regions, Truth& truth) {
  const SceneSpec& scene = stage.scene;
  const Shop& shop = scene.shop;
  const Eye& eye = stage.eye;
  const Perspective& perspective = stage.perspective;
  Canvas& canvas = stage.canvas;
  Thing card = cardThing(scene.card, eye, perspective, shop.veil);
  std::vector<Thing> panels, greys;
  for (const PanelSpec& spec : scene.panels) panels.push_back(panelThing(spec, eye, perspective, shop.veil));
  for (const GreySpec& spec : scene.greys) {
    Thing thing = thingAt(spec.place, perspective);
    giveBody(thing, eye, grey(spec.y, spec.tilt));
    greys.push_back(std::move(thing));
  }
  std::optional<Thing> chip;
  if (scene.black) chip = chipThing(*scene.black, eye, perspective, shop.veil);
  const bool has_card = scene.has_card && scene.card.place.width > 0;
  std::optional<Thing> border;
  if (has_card && scene.card.border_px > 0) {
    const Place& p = scene.card.place;
    const double b = scene.card.border_px;
    border = thingAt({p.x - b, p.y - b, p.width + 2 * b, p.height + 2 * b, p.turn_deg}, perspective);
    giveBody(*border, eye, 0.86 * step(395, 9));
  }

  canvas.paintBench(shop.bench, streamOf(seed, 1));
  layClutter(canvas, eye, scene, perspective, seed);
  if (scene.mat) layPaper(canvas, eye, scene, perspective, seed, truth);
  if (scene.drop_shadows) {
    const double tall = scene.mat ? scene.mat->thickness_mm * pxPerMm(*scene.mat, scene.size) / 7 : 1;
    for (std::size_t i = 0; i < panels.size(); ++i)
      if (!underAperture(asked, i)) canvas.dropShadow(panels[i].quad, tall);
    if (has_card) canvas.dropShadow(border ? border->quad : card.quad, tall);
    for (const Thing& t : greys) canvas.dropShadow(t.quad, tall);
    if (chip) canvas.dropShadow(chip->quad, tall);
    if (scene.chart) canvas.dropShadow(boardQuad(*scene.chart, perspective), scene.mat ? tall : 0.4);
  }
  if (border) canvas.paint(*border, streamOf(seed, 2));
  if (has_card) {
    truth.card = truthOf(card, canvas.paint(card, streamOf(seed, 3)).mean);
    regions.card = card.quad;
  } else {
    const Spectrum body = cardBody(scene.card);
    truth.card = {{}, labUnderD50(body), xyzUnderD50(body).Y};
  }
  for (std::size_t i = 0; i < panels.size(); ++i) {
    const Painted painted = canvas.paint(panels[i], streamOf(seed, 100 + i));
    truth.panels.push_back(panelTruth(panels[i], painted, scene.panels[i], truth.card.lab, perspective));
    regions.panels.push_back(panels[i].quad);
  }
  for (std::size_t i = 0; i < greys.size(); ++i) {
    truth.greys.push_back(truthOf(greys[i], canvas.paint(greys[i], streamOf(seed, 200 + i)).mean));
    regions.greys.push_back(greys[i].quad);
  }
  if (chip) {
    truth.black = truthOf(*chip, canvas.paint(*chip, streamOf(seed, 7)).mean);
    regions.black = chip->quad;
  }
  if (scene.chart) truth.chart = paintChart(canvas, eye, scene, perspective, seed);
}

}  // namespace

Rendered render(const SceneSpec& asked, std::uint64_t seed) {
  Stage stage(asked);
  Rendered out;
  paintScene(stage, asked, seed, out.regions, out.truth);
  expose(stage, seed, out);
  return out;
}

RawPicture renderRaw(const SceneSpec& asked, std::uint64_t seed) {
  Stage stage(asked);
  RawPicture out;
  out.size = stage.scene.size;
  out.camera = stage.scene.shop.camera;
  paintScene(stage, asked, seed, out.regions, out.truth);
  const Development how = stage.develop(Space::Srgb);
  out.sensor = stage.canvas.take();
  out.neutral = neutralOf(how);
  Random noise = streamOf(seed, 10);
  readOut(out.camera, how.to_sensor, out.sensor, noise);
  return out;
}

Rendered plainSheet(const SceneSpec& asked, std::uint64_t seed, const std::optional<Place>& part) {
  Stage stage(asked, false);
  const SceneSpec& scene = stage.scene;
  Canvas& canvas = stage.canvas;
  const double w = scene.size.width, h = scene.size.height;
  Quad quad{{{{-9, -9}, {w + 9, -9}, {w + 9, h + 9}, {-9, h + 9}}}};
  if (part) {
    quad = toPicture(stage.perspective, cornersOf(*part));
    canvas.paintBench(scene.shop.bench, streamOf(seed, 1));
    if (scene.drop_shadows) canvas.dropShadow(quad, 0.12);
  }
  const PaperSpec paper = scene.mat ? scene.mat->paper : PaperSpec{};
  canvas.paintPaper(quad, paper, {}, streamOf(seed, 5));
  Rendered out;
  const Spectrum body = paperBody(paper);
  out.truth.paper = SurfaceTruth{quad, labUnderD50(body), xyzUnderD50(body).Y};
  expose(stage, seed, out);
  return out;
}

}  // namespace huewright::render
