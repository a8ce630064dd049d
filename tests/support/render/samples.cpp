#include "render/samples.hpp"

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "render/spectra.hpp"

namespace huewright::render {
namespace {

struct Mix {
  int strong, weak;
  double share() const { return static_cast<double>(strong) / (strong + weak); }
  std::string text() const { return std::to_string(strong) + ":" + std::to_string(weak); }
};

constexpr Mix kWanted{1, 3};
constexpr double kCoats = 4;

// Deterministic odds and ends of one photo: how straight things were laid, where the dust fell.
struct Hand {
  Random random;
  double askew() { return random.uniform(-1.6, 1.6); }
};

Paint teal(Mix mix, double coats = kCoats, double film = 1) {
  return {Ground::BrightSilver, Pair::TealAqua, mix.share(), coats, 5, film};
}

Finish sprayed() {
  Finish f;
  f.flake = 0.75;
  f.mottle = 0.012;
  f.bevel_px = 2.5;
  f.dust = 4;
  return f;
}

Shop workshop(const char* light, char camera) {
  Shop s;
  s.name = "frame builder's bench";
  s.lamp.light = light;
  s.lamp.falloff = 0.06;
  s.lamp.direction_deg = 82;
  s.lamp.vignette = 0.03;
  s.camera.sensitivity = camera;
  s.camera.exposure = 0.96;
  s.camera.iso = 200;
  s.style.contrast = 0.22;
  s.style.saturation = 1.06;
  s.style.hue_twist_deg = 1.0;
  s.style.sharpening = 0.35;
  s.style.quality = 88;
  s.view.tilt_deg = 5;
  s.bench = Bench::Wood;
  s.veil = 0.002;
  return s;
}

void addPanel(Sample& sample, Hand& hand, Mix mix, Place place, double film = 1, double coats = kCoats) {
  place.turn_deg += hand.askew();
  sample.scene.panels.push_back({teal(mix, coats, film), sprayed(), place});
  sample.mixes.push_back(mix.text());
}

void addCard(Sample& sample, Hand& hand, Place place, double border) {
  place.turn_deg += hand.askew();
  CardSpec card;
  card.paint = teal(kWanted);
  card.finish = sprayed();
  card.finish.mottle = 0.006;
  card.finish.dust = 1;
  card.finish.bevel_px = 0;
  card.place = place;
  card.border_px = border;
  sample.scene.card = card;
  sample.card_mix = kWanted.text();
}

void addGrey(Sample& sample, Hand& hand, Place place) {
  place.turn_deg += hand.askew();
  GreySpec grey;
  grey.place = place;
  sample.scene.greys.push_back(grey);
}

// The common lay-out: the panel at the left, the card at the right, the grey patch below the card.
Sample pair(const char* file, const char* shows, std::uint64_t seed, Mix mix, const Shop& shop, double film = 1) {
  Sample s;
  s.file = file;
  s.shows = shows;
  s.seed = seed;
  s.options.camera = shop.camera.sensitivity;
  s.scene.size = {960, 640};
  s.scene.shop = shop;
  s.scene.panels.clear();
  s.scene.greys.clear();
  Hand hand{Random(seed)};
  addPanel(s, hand, mix, {130, 92, 350, 430, 0}, film);
  addCard(s, hand, {566, 110, 258, 258, 0}, 18);
  addGrey(s, hand, {600, 440, 180, 112, 0});
  return s;
}

Sample fourPanels() {
  Sample s = pair("four-panels.jpg",
                  "four panels against one card, from 1:5 at the left to 1:2 at the right, the card in the middle",
                  107, kWanted, workshop("ID65", 'a'));
  s.scene.size = {1100, 720};
  s.scene.panels.clear();
  s.scene.greys.clear();
  s.mixes.clear();
  Hand hand{Random(s.seed)};
  // All in one row across the light, the card in the middle.
  const Mix mixes[] = {{1, 5}, {1, 4}, {1, 3}, {1, 2}};
  for (int i = 0; i < 4; ++i) addPanel(s, hand, mixes[i], {64.0 + 199 * (i < 2 ? i : i + 1), 112, 176, 282, 0}, i == 2 ? 1.015 : 1);
  addCard(s, hand, {474, 126, 152, 246, 0}, 12);
  addGrey(s, hand, {462, 486, 176, 126, 0});
  return s;
}

Sample withChart() {
  Sample s = pair("with-chart.jpg", "a 24-patch colour chart beside panel, card and grey: the camera is known, and the panel's own colour with it", 115, {1, 4},
                  workshop("LED-B3", 'c'));
  s.scene.size = {1300, 680};
  s.scene.shop.camera.exposure = 0.72;   // so that the chart's white is not burnt out
  s.scene.panels.clear();
  s.scene.greys.clear();
  s.mixes.clear();
  Hand hand{Random(s.seed)};
  addPanel(s, hand, {1, 4}, {60, 92, 300, 420, 0});
  addCard(s, hand, {406, 110, 230, 230, 0}, 18);
  addGrey(s, hand, {436, 420, 170, 110, 0});
  s.scene.chart = ChartSpec{};
  s.scene.chart->place = {690, 110, 550, 0, -2};
  return s;
}

Sample clipped() {
  Shop shop = workshop("D65", 'a');
  shop.camera.exposure = 2.05;
  Sample s = pair("clipped.jpg",
                  "over-exposed: two channels of the light panel and of the card are at the top of their range", 105, {1, 5}, shop);
  s.scene.panels[0].paint.ground = s.scene.card.paint.ground = Ground::PearlWhite;
  s.scene.panels[0].paint.coats = s.scene.card.paint.coats = 1.5;
  return s;
}

Sample glare() {
  Sample s = pair("glare.jpg", "a strip lamp is mirrored over more than a third of the panel", 106, {1, 2}, workshop("LED-B3", 'c'));
  s.scene.panels[0].finish.glare = {{0.33, 0.40, 0.25, 0.80, 0.75, 0.30, 5, 9}, {0.34, 0.40, 0.45, 1.1, 0.12, 1.0, 2, 9}};
  return s;
}

Sample linearTiff() {
  Shop shop = workshop("D50", 'a');
  shop.style = linearStyle(Space::Srgb);
  shop.camera.iso = 100;
  shop.bench = Bench::GreyCard;
  Sample s = pair("linear.tif", "the difference of too-strong.jpg as a linear 16-bit TIFF", 108, {1, 2}, shop);
  s.options.bits = 12;
  s.scene.size = {384, 256};
  const auto shrink = [](Place& p) { p = {p.x * 0.4, p.y * 0.4, p.width * 0.4, p.height * 0.4, p.turn_deg}; };
  shrink(s.scene.panels[0].place);
  shrink(s.scene.card.place);
  shrink(s.scene.greys[0].place);
  s.scene.card.border_px = 7;
  s.scene.panels[0].finish.bevel_px = 1.5;
  return s;
}

Sample twoGreys() {
  Shop shop = workshop("LED-B5", 'a');
  shop.lamp.falloff = 0.32;
  shop.lamp.direction_deg = 4;
  shop.bench = Bench::GreyCard;
  Sample s = pair("two-greys.jpg",
                  "light that falls off by a third from left to right, and a grey patch at either end", 109, kWanted, shop);
  s.scene.panels.clear();
  s.scene.greys.clear();
  s.mixes.clear();
  // Panel and card are plain enough here for the lamp's fall-off to be the only trouble.
  Hand hand{Random(s.seed)};
  addPanel(s, hand, {1, 4}, {206, 130, 250, 360, 0});
  addCard(s, hand, {506, 168, 230, 284, 0}, 14);
  s.scene.panels[0].finish.flake = s.scene.card.finish.flake = 0.3;
  addGrey(s, hand, {64, 262, 104, 104, 0});
  addGrey(s, hand, {796, 262, 104, 104, 0});
  return s;
}

Sample turned() {
  Sample s = pair("turned.jpg",
                  "held upright: stored on its side with an EXIF orientation of 6; places are those of the upright picture",
                  110, {1, 2}, workshop("ID50", 'c'));
  s.scene.size = {640, 960};
  s.options.orientation = 6;
  s.scene.panels.clear();
  s.scene.greys.clear();
  s.mixes.clear();
  Hand hand{Random(s.seed)};
  addPanel(s, hand, {1, 2}, {120, 96, 400, 370, 0});
  addCard(s, hand, {112, 570, 262, 262, 0}, 18);
  addGrey(s, hand, {444, 640, 112, 140, 0});
  s.scene.shop.lamp.direction_deg = 20;
  return s;
}

// The printed mat, a little askew, with the card, two greys and the black chip in their windows; no panel yet.
Sample onMat(const char* file, const char* shows, std::uint64_t seed, const Shop& shop) {
  auto layout = readMatLayout(calibFolder(), "a4");
  if (!layout) throw std::runtime_error("the mat's layout cannot be read");
  Sample s;
  s.file = file;
  s.shows = shows;
  s.seed = seed;
  s.options.camera = shop.camera.sensitivity;
  s.scene.size = {1400, 1000};
  s.scene.shop = shop;
  s.scene.mat = MatSpec{};
  s.scene.mat->layout = std::move(*layout);
  s.scene.mat->gap_mm = 1.5;
  s.scene.panels.clear();
  s.scene.greys.resize(2);
  s.scene.black = ChipSpec{};
  Hand hand{Random(seed)};
  addCard(s, hand, {}, 0);
  return s;
}

void putPanel(Sample& sample, Mix mix, int window) {
  sample.scene.panels.push_back({teal(mix), sprayed(), {}});
  sample.scene.mat->panels.push_back({MatWindowKind::Panel, window});
  sample.mixes.push_back(mix.text());
}

Sample threeOnMat() {
  Shop shop = workshop("ID65", 'a');
  shop.lamp.falloff = 0.12;
  shop.veil = 0.006;
  shop.view.tilt_deg = 9;
  shop.view.turn_deg = -3;
  Sample s = onMat("on-the-mat.jpg", "three panels on the printed mat, from 1:5 to 1:2, in light that falls off by an eighth", 111, shop);
  s.scene.mat->turn_deg = 2.5;
  const Mix mixes[] = {{1, 5}, {1, 4}, {1, 2}};
  for (int i = 0; i < 3; ++i) putPanel(s, mixes[i], i);
  return s;
}

Sample stepped() {
  Shop shop = workshop("LED-B3", 'c');
  shop.bench = Bench::GreyCard;
  shop.view.tilt_deg = 7;
  Sample s = onMat("stepped.jpg", "one stepped panel on the mat: bare ground at the top, then one coat more in every strip", 112, shop);
  s.scene.mat->turn_deg = -1.8;
  putPanel(s, {1, 2}, 1);
  PanelSpec& panel = s.scene.panels.front();
  panel.steps = {0, 1, 2, 3, 4};
  panel.step_widths = {1, 1.08, 0.94, 1.03, 0.97};
  panel.tape = {3, -0.25, 0.8};
  return s;
}

// Light along panel and card: what the flakes' angle does looks like paint until the two have changed places.
void changedOver(std::vector<Sample>& all) {
  Shop shop = workshop("ID50", 'a');
  shop.lamp.direction_deg = 3;
  Sample first = onMat("one-way.jpg", "light along panel and card, not across them: the flakes' angle looks like paint", 113, shop);
  first.scene.mat->turn_deg = 1.2;
  putPanel(first, {1, 2}, 1);
  Sample second = first;
  first.swapped = second.file = "changed-over.jpg";
  second.shows = "the second shot of one-way.jpg: panel and card have changed places";
  second.seed = 114;
  second.scene = swapped(first.scene);
  all.push_back(std::move(first));
  all.push_back(std::move(second));
}

}  // namespace

std::vector<Sample> samples() {
  std::vector<Sample> all;
  all.push_back(pair("there.jpg", "the panel matches the card", 101, kWanted, workshop("ID65", 'a'), 1.012));
  all.push_back(pair("too-strong.jpg", "too much of the strong tint: deeper than the card", 102, {1, 2}, workshop("ID65", 'a')));
  all.push_back(pair("too-weak.jpg", "too little of the strong tint: lighter than the card", 103, {1, 5}, workshop("LED-B3", 'c')));
  Shop dim = workshop("FL11", 'c');
  dim.camera.iso = 3200;
  dim.camera.exposure = 0.5;
  dim.style.quality = 80;
  dim.lamp.falloff = 0.12;
  dim.lamp.direction_deg = 86;
  dim.bench = Bench::DarkCloth;
  all.push_back(pair("cant-say.jpg", "a difference near the tolerance, in poor light, with a noisy camera", 104, {2, 7}, dim));
  all.push_back(clipped());
  all.push_back(glare());
  all.push_back(fourPanels());
  all.push_back(linearTiff());
  all.push_back(twoGreys());
  all.push_back(turned());
  all.push_back(threeOnMat());
  all.push_back(stepped());
  changedOver(all);
  all.push_back(withChart());
  return all;
}

}  // namespace huewright::render
