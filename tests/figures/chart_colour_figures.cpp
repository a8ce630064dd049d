// How well a panel's own colour, and its difference from the card, are known with a chart in the photo; the same photos without its use beside.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <map>
#include <mutex>

#include "colour/delta_e.hpp"
#include "figures/chart_figures.hpp"
#include "figures/figures.hpp"
#include "render/picture_file.hpp"
#include "session/session.hpp"

namespace huewright::figures {
namespace {

namespace hr = render;

constexpr std::array kTruths{2.0, 4.0};
enum class Kind { Linear, Jpeg, Raw };
constexpr std::array<const char*, 3> kKinds{"linear TIFF", "JPEG", "raw DNG"};
constexpr std::array<const char*, 2> kWays{"chart", "no chart"};
constexpr double kFallOff = 0.12;
constexpr int kUnits = 2000;   // pixels across: so much that noise spoils no patch of a chart that is well lit

/// Light that a camera's colours are made for, and light that is harder on them.
enum class Lights { Easy, Hard };
constexpr std::array<const char*, 2> kLights{"daylight, LED", "others"};
Lights groupOf(const std::string& light) {
  constexpr double kWarm = 3500;   // kelvin
  const bool daylight = light.starts_with('D') || light == "ID65", led = light.starts_with("LED");
  return daylight || (led && hr::colourTemperature(hr::illuminant(light)) > kWarm) ? Lights::Easy : Lights::Hard;
}

struct Outcome {
  bool judged = false, clipped = false, chart = false;
  Lab<D50> lab;                          // of the panel
  double off = 0;                        // ΔE00 from its true colour
  double de00 = 0, low = 0, high = 0;    // panel and card in the photo
  double de00_numbers = 0, low_numbers = 0, high_numbers = 0;   // the card as numbers
};

struct Trial {
  Kind kind{};
  Lights lights{};
  double nominal = 0, truth = 0;
  std::string paint;            // pair, ground, and the file's colour space
  Lab<D50> lab;                 // true, of the panel
  std::string cluster;          // camera and light
  std::uint64_t seed = 0;
  std::array<Outcome, 2> ways;  // as kWays
};

/// Panel, card, grey and chart side by side, either side first. Nothing when the paint cannot be at that distance.
std::optional<hr::SceneSpec> makeScene(std::uint64_t seed, Kind kind, double truth, hr::ShopOptions shops) {
  hr::Random random = hr::streamOf(seed, 0xc01);
  hr::SceneSpec scene;
  scene.size = {kUnits, kUnits * 3 / 4};
  for (double* length : {&scene.panels[0].finish.mottle_px, &scene.card.finish.mottle_px}) *length *= 2;   // it was set for pictures half as wide
  shops.max_falloff = 0;
  shops.max_vignette = 0;
  scene.shop = hr::randomShop(seed, shops);
  scene.shop.view.zoom = 0.92;
  scene.shop.lamp.falloff = kFallOff;
  scene.shop.lamp.direction_deg = random.uniform(0, 360);
  if (kind == Kind::Linear) scene.shop.style = hr::linearStyle(random.chance(0.5) ? hr::Space::P3 : hr::Space::Srgb);
  else scene.shop.style.tagged = true;

  scene.card.kind = hr::CardKind::Same;
  scene.card.paint = randomPaint(random);
  const auto panel = paintAt(random, scene.card.paint, truth);
  if (!panel) return {};
  scene.panels[0].paint = *panel;
  scene.panels[0].finish.film_slope = 0.02 * random.normal();
  scene.card.finish.film_slope = 0.01 * random.normal();
  for (hr::Finish* finish : {&scene.panels[0].finish, &scene.card.finish})
    if (random.chance(0.2)) {
      const double x = random.uniform(0.1, 0.9), y = random.uniform(0.1, 0.9);
      const double radius = random.uniform(0.05, 0.2), strength = random.uniform(0.1, 0.6);
      finish->glare.push_back({x, y, radius, radius, strength});
    }
  scene.greys[0].y = random.uniform(0.17, 0.22);
  scene.chart = hr::ChartSpec{};

  // In parts of the width, from the side on which the panel lies.
  const bool left = random.chance(0.5), exchanged = random.chance(0.5);
  const auto put = [&](hr::Place& place, double x, double y, double width, double height, double turn) {
    place = {kUnits * (left ? x : 1 - x - width), kUnits * y, kUnits * width, kUnits * height, turn};
  };
  const double y = random.uniform(0.05, 0.35), turn_a = random.uniform(-4, 4), turn_b = random.uniform(-4, 4);
  put(scene.panels[0].place, exchanged ? 0.28 : 0.055, y, 0.2, 0.28, turn_a);
  put(scene.card.place, exchanged ? 0.055 : 0.28, y, 0.2, 0.28, turn_b);
  const double grey_y = random.uniform(0.08, 0.55), chart_y = random.uniform(0.07, 0.42), turn = random.uniform(-8, 8);
  put(scene.greys[0].place, 0.51, grey_y, 0.09, 0.09, 0);
  put(scene.chart->place, 0.625, chart_y, 0.31, 0.31 * hr::boardShape(*scene.chart), turn);
  if (random.chance(0.5)) scene.chart->place.turn_deg += 180;
  return scene;
}

struct Photographed {
  Regions regions;
  hr::Truth truth;
};

Photographed photograph(const hr::SceneSpec& scene, std::uint64_t seed, Kind kind, const std::filesystem::path& path) {
  if (kind == Kind::Raw) {
    hr::RawPicture picture = hr::renderRaw(scene, seed);
    hr::writeDng(path, picture);
    return {picture.regions, std::move(picture.truth)};
  }
  hr::Rendered picture = hr::render(scene, seed);
  hr::writePicture(path, picture, {.camera = scene.shop.camera.sensitivity});
  return {picture.regions, std::move(picture.truth)};
}

Outcome judged(const Session& session, JudgeRequest request, const hr::Truth& truth) {
  Outcome o;
  const auto report = session.judge(request);
  request.regions.card.reset();
  request.card_lab = truth.card.lab;
  const auto numbers = session.judge(request);
  if (!report || !numbers) {
    std::fprintf(stderr, "%s: %s\n", request.photo.filename().c_str(), sentence(report ? numbers.error() : report.error()).c_str());
    return o;
  }
  o.judged = true;
  o.chart = report->chart.has_value();
  o.clipped = std::ranges::any_of(report->cautions, [](const Caution& c) { return c.code == CautionCode::Clipped; });
  if (request.chart_use == ChartUse::Auto && !o.chart)
    for (const Caution& c : report->cautions)
      if (c.code == CautionCode::ChartNotUsed) std::fprintf(stderr, "%s: %s\n", request.photo.filename().c_str(), sentence(c).c_str());
  o.lab = report->reading.panels[0].lab;
  o.off = deltaE2000(o.lab, truth.panels[0].surface.lab);
  const Verdict &v = report->verdicts[0], &w = numbers->verdicts[0];
  o.de00 = v.de00, o.low = v.low, o.high = v.high;
  o.de00_numbers = w.de00, o.low_numbers = w.low, o.high_numbers = w.high;
  return o;
}

Trial tryOne(const Session& session, const hr::SceneSpec& scene, std::uint64_t seed, Kind kind) {
  Trial t;
  t.kind = kind;
  t.seed = seed;
  t.lights = groupOf(scene.shop.lamp.light);
  t.cluster = std::string(1, scene.shop.camera.sensitivity) + " " + scene.shop.lamp.light;
  const TemporaryFile file(seed, "-colour", kind == Kind::Linear ? ".tif" : kind == Kind::Jpeg ? ".jpg" : ".dng");
  const Photographed picture = photograph(scene, seed, kind, file.path());
  t.truth = picture.truth.panels[0].de00;
  t.lab = picture.truth.panels[0].surface.lab;
  const hr::Paint& paint = scene.panels[0].paint;
  t.paint = std::string(hr::strongName(paint.pair)) + " over " + std::string(hr::nameOf(paint.ground));
  std::ranges::replace(t.paint, ',', ' ');
  if (scene.shop.style.space == hr::Space::P3) t.paint += " in P3";
  JudgeRequest request;
  request.photo = file.path();
  request.regions = picture.regions;
  request.grey_y = picture.truth.greys[0].y;
  request.card_kind = CardKind::Same;
  t.ways[0] = judged(session, request, picture.truth);
  request.chart_use = ChartUse::None;
  t.ways[1] = judged(session, request, picture.truth);
  return t;
}

bool clipped(const Trial& t) { return t.ways[0].clipped || t.ways[1].clipped; }

/// One line of a table.
class Row {
 public:
  void add(const Trial& t, double error, double low, double high) {
    error_.push_back(error);
    half_.push_back(0.5 * (high - low));
    coverage_.add(t.cluster, low <= t.truth && t.truth <= high);
  }
  void print(const std::string& name, const char* aim) const {
    if (error_.empty()) return;
    const double share = 100 * coverage_.share(), half = 100 * coverage_.half();
    std::printf("  %-34s %5zu   %5.2f / %5.2f   %-11s  %5.1f %% (%.1f to %.1f, %zu)   %5.2f\n", name.c_str(), error_.size(), quantile(error_, 0.5),
                quantile(error_, 0.95), aim, share, std::max(0.0, share - half), std::min(100.0, share + half), coverage_.clusters(),
                quantile(half_, 0.5));
  }

 private:
  std::vector<double> error_, half_;
  Coverage coverage_;
};

constexpr const char* kHead = "n    error med/95th   aim          covers (95 % interval, clusters)  half-width";

/// The interval is that of the distance from the card when the card is given as numbers: nothing cancels.
void printAbsolute(const std::vector<const Trial*>& trials) {
  constexpr std::array<const char*, 2> kAims{"0.90 / 2.20", "1.30 / 3.20"};
  std::printf("  the panel's own colour           %5s%s\n", "", kHead);
  for (std::size_t way = 0; way < kWays.size(); ++way)
    for (std::size_t lights = 0; lights < kLights.size(); ++lights) {
      Row row;
      for (const Trial* t : trials)
        if (static_cast<std::size_t>(t->lights) == lights) {
          const Outcome& o = t->ways[way];
          row.add(*t, o.off, o.low_numbers, o.high_numbers);
        }
      row.print(std::string(kWays[way]) + ", " + kLights[lights], way == 0 && trials[0]->kind == Kind::Linear ? kAims[lights] : "-");
    }
}

const char* aimOf(Kind kind, double truth) {
  if (kind == Kind::Linear) return truth == 2 ? "0.10 / 0.35" : "0.20 / 0.65";
  return kind == Kind::Jpeg && truth == 2 ? "0.15 / 0.70" : "-";
}

void printDifference(const std::vector<const Trial*>& trials) {
  std::printf("  the panel against the card       %5s%s\n", "", kHead);
  for (std::size_t way = 0; way < kWays.size(); ++way) {
    Row both;
    for (const double truth : kTruths) {
      Row row;
      for (const Trial* t : trials) {
        if (t->nominal != truth) continue;
        const Outcome& o = t->ways[way];
        for (Row* into : {&row, &both}) into->add(*t, std::abs(o.de00 - t->truth), o.low, o.high);
      }
      row.print(std::string(kWays[way]) + ", true " + (truth == 2 ? "2" : "4"), way == 0 ? aimOf(trials[0]->kind, truth) : "-");
    }
    both.print(std::string(kWays[way]) + ", both", "-");
  }
}

void writeCsv(const char* path, const std::vector<Trial>& trials) {
  std::FILE* file = std::fopen(path, "w");
  if (!file) return;
  std::fprintf(file, "kind,nominal,truth,camera,light,seed,way,judged,clipped,chart,off,de00,low,high,de00_numbers,low_numbers,high_numbers,paint,"
                     "L_true,a_true,b_true,L,a,b\n");
  for (const Trial& t : trials)
    for (std::size_t way = 0; way < kWays.size(); ++way) {
      const Outcome& o = t.ways[way];
      std::fprintf(file, "%s,%g,%g,%c,%s,%llu,%s,%d,%d,%d,", kKinds[static_cast<std::size_t>(t.kind)], t.nominal, t.truth, t.cluster[0],
                   t.cluster.c_str() + 2, static_cast<unsigned long long>(t.seed), kWays[way], o.judged, o.clipped, o.chart);
      std::fprintf(file, "%g,%g,%g,%g,%g,%g,%g,%s,%.2f,%.2f,%.2f,%.2f,%.2f,%.2f\n", o.off, o.de00, o.low, o.high, o.de00_numbers, o.low_numbers,
                   o.high_numbers, t.paint.c_str(), t.lab.L, t.lab.a, t.lab.b, o.lab.L, o.lab.a, o.lab.b);
    }
  std::fclose(file);
}

}  // namespace

void chartColour(int trials, std::uint64_t seed, const hr::ShopOptions& shops, const char* csv) {
  const auto session = Session::open(HUEWRIGHT_SOURCE_DIR "/calib").value();
  std::vector<Trial> all;
  std::mutex lock;
  const int cells = static_cast<int>(kKinds.size() * kTruths.size());
  forEach(cells * trials, [&](int i) {
    const Kind kind = static_cast<Kind>(i % static_cast<int>(kKinds.size()));
    const double nominal = kTruths[static_cast<std::size_t>(i % cells) / kKinds.size()];
    for (std::uint64_t attempt = 0;; ++attempt) {
      const std::uint64_t s = seed + static_cast<std::uint64_t>(i) * 1000 + attempt;
      const auto scene = makeScene(s, kind, nominal, shops);
      if (!scene) continue;
      Trial t = tryOne(session, *scene, s, kind);
      t.nominal = nominal;
      const std::scoped_lock hold(lock);
      all.push_back(std::move(t));
      return;
    }
  });
  if (csv) writeCsv(csv, all);
  std::printf("a chart, panel and card of the same paint, and one grey in the photo; %.0f %% fall-off in any direction, flake, some glare; "
              "cameras %s; seed %llu\n",
              100 * kFallOff, shops.cameras.c_str(), static_cast<unsigned long long>(seed));
  for (std::size_t kind = 0; kind < kKinds.size(); ++kind) {
    std::vector<const Trial*> good, cut;
    int scenes = 0, refused = 0;
    std::map<char, int> unused;   // by camera
    for (const Trial& t : all)
      if (static_cast<std::size_t>(t.kind) == kind) {
        ++scenes;
        if (!t.ways[0].judged || !t.ways[1].judged) ++refused;
        else if (!t.ways[0].chart) ++unused[t.cluster[0]];
        else (clipped(t) ? cut : good).push_back(&t);
      }
    std::printf("\n%s: %d scenes; left out: %d refused,", kKinds[kind], scenes, refused);
    for (const auto& [camera, n] : unused) std::printf(" %d with camera %c whose chart was not used,", n, camera);
    std::printf(" %zu that said \"clipped\"", cut.size());
    std::vector<double> cut_off;
    for (const Trial* t : cut) cut_off.push_back(t->ways[0].off);
    if (!cut.empty()) std::printf(" (their own colour is off by %.2f / %.2f)", quantile(cut_off, 0.5), quantile(cut_off, 0.95));
    std::printf("\n");
    if (good.empty()) continue;
    printAbsolute(good);
    printDifference(good);
  }
}

}  // namespace huewright::figures
