// Error, coverage and advice of the main job on simulated scenes whose truth is known. Printed, never asserted.
//   judge_figures TRIALS_PER_CELL SEED [even|uneven|numbers] [trials.csv]
// even: the light of a good set-up (the figures that are promised). uneven: up to 15 % fall-off, vignette, a second lamp, one grey.
// numbers: the card is given as Lab, so that nothing cancels.
// A cell is a file kind and a true distance; inside it cameras, lights, tint pairs, grounds and sides take turns by chance.
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <mutex>
#include <string>
#include <vector>

#include "figures/figures.hpp"
#include "render/picture_file.hpp"
#include "render/scene.hpp"
#include "session/session.hpp"

namespace {

namespace hw = huewright;
namespace hr = huewright::render;
namespace hf = huewright::figures;

constexpr double kTruths[] = {0, 0.5, 1, 2, 4};

struct Trial {
  bool linear = false;
  double truth = 0, de00 = 0, low = 0, high = 0;
  std::string cluster;         // camera and light
  bool clipped = false;
  hw::Band band{};
  int share_said = 0, share_true = 0, coats_said = 0, coats_true = 0;
  hw::Vec3 u{}, u_true{};
  std::array<hw::Mat3, hw::kPartCount> covariance{};
  double depth = 0, depth_sd = 0;
};

int signOf(double x) { return x > 0 ? 1 : x < 0 ? -1 : 0; }
int signOf(hw::Way way) { return way == hw::Way::Increase ? 1 : way == hw::Way::Decrease ? -1 : 0; }

/// One scene: a same-paint card and a panel at that true distance, or nothing when the paint cannot be at that distance.
std::optional<hr::SceneSpec> makeScene(std::uint64_t seed, bool linear, double truth, const std::string& kind) {
  hr::Random random(seed * 2654435761u + 17);
  hr::SceneSpec scene;
  hr::ShopOptions options;
  options.max_falloff = kind == "uneven" ? 0.15 : 0;
  options.max_vignette = kind == "uneven" ? 0.10 : 0;
  options.second_lamp_chance = kind == "uneven" ? 0.3 : 0;
  scene.shop = hr::randomShop(seed, options);
  if (kind == "uneven") scene.shop.lamp.direction_deg = random.uniform(0, 360);
  if (linear) scene.shop.style = hr::linearStyle(random.chance(0.5) ? hr::Space::P3 : hr::Space::Srgb);
  else scene.shop.style.tagged = true;

  const hr::Paint card = hf::randomPaint(random);
  scene.card.kind = hr::CardKind::Same;
  scene.card.paint = card;
  const auto panel = hf::paintAt(random, card, truth);
  if (!panel) return {};
  scene.panels[0].paint = *panel;
  scene.panels[0].finish.film_slope = 0.02 * random.normal();  // a hand does not lay an even film
  scene.card.finish.film_slope = 0.01 * random.normal();
  scene.greys[0].y = random.uniform(0.17, 0.22);
  return scene;
}

Trial judgeOne(const hw::Session& session, const hr::SceneSpec& scene, std::uint64_t seed, bool linear, const std::string& kind) {
  Trial t;
  t.linear = linear;
  t.cluster = std::string(1, scene.shop.camera.sensitivity) + " " + scene.shop.lamp.light;
  const hr::Rendered picture = hr::render(scene, seed);
  const hf::TemporaryFile file(seed, "", linear ? ".tif" : ".jpg");
  hr::writePicture(file.path(), picture, {.camera = scene.shop.camera.sensitivity});
  hw::JudgeRequest request;
  request.photo = file.path();
  request.regions = picture.regions;
  if (kind == "numbers") {
    request.regions.card.reset();
    request.card_lab = picture.truth.card.lab;
  }
  request.grey_y = picture.truth.greys[0].y;
  request.card_kind = hw::CardKind::Same;
  request.coats = scene.panels[0].paint.coats;
  request.mixes = {{scene.panels[0].paint.share, 1 - scene.panels[0].paint.share}};
  const auto report = session.judge(request);
  if (!report) {
    std::fprintf(stderr, "seed %llu: %s\n", static_cast<unsigned long long>(seed), hw::sentence(report.error()).c_str());
    t.clipped = true;
    return t;
  }
  const hw::Verdict& v = report->verdicts[0];
  const hr::PanelTruth& p = picture.truth.panels[0];
  t.truth = p.de00;
  t.de00 = v.de00;
  t.low = v.low;
  t.high = v.high;
  t.band = v.band;
  for (const auto& c : report->cautions) t.clipped |= c.code == hw::CautionCode::Clipped;
  t.u = v.delta.u;
  t.u_true = hw::deltaVector(p.surface.lab, picture.truth.card.lab).u;
  for (std::size_t i = 0; i < hw::kPartCount; ++i)
    t.covariance[i] = hw::covarianceOfDifference(report->reading, 0, v.delta.by_panel, v.delta.by_card, static_cast<hw::Part>(i));
  t.depth = report->advice.depth;
  t.depth_sd = report->advice.depth_sd;
  t.share_said = signOf(report->advice.strong_share);
  for (const auto& step : report->advice.actions)
    if (step.what == "coats") t.coats_said = signOf(step.way);
  t.share_true = signOf(p.best_share.value - p.paint.share);
  t.coats_true = signOf(p.best_coats.value - p.paint.coats);
  return t;
}

struct Summary {
  double coverage = 0, half_width = 0;
};

Summary printCell(const std::string& name, const std::vector<const Trial*>& trials) {
  std::vector<double> error, half;
  int covered = 0, there = 0, cant = 0;
  for (const Trial* t : trials) {
    error.push_back(std::abs(t->de00 - t->truth));
    half.push_back(0.5 * (t->high - t->low));
    covered += t->low <= t->truth && t->truth <= t->high;
    there += t->band == hw::Band::There;
    cant += t->band == hw::Band::CantSay;
  }
  const auto n = static_cast<double>(trials.size());
  const Summary s{covered / n, hf::quantile(half, 0.5)};
  std::printf("%-22s %5zu  %5.2f /%5.2f     %5.1f %%   %5.2f  %5.2f      %5.1f %%  %5.1f %%\n", name.c_str(), trials.size(), hf::quantile(error, 0.5),
              hf::quantile(error, 0.95), 100 * s.coverage, s.half_width, s.half_width / hf::quantile(error, 0.95), 100 * there / n, 100 * cant / n);
  return s;
}

void printPooled(const char* name, const std::vector<const Trial*>& trials) {
  hf::Coverage coverage;
  for (const Trial* t : trials) coverage.add(t->cluster, t->low <= t->truth && t->truth <= t->high);
  std::printf("%s: covers %.1f %% (95 %% interval %.1f to %.1f, %zu clusters of camera and light)\n", name, 100 * coverage.share(),
              100 * (coverage.share() - coverage.half()), 100 * (coverage.share() + coverage.half()), coverage.clusters());
}

void printAdvice(const std::vector<const Trial*>& trials) {
  int all = 0, spoke = 0, right = 0, coats_spoke = 0, coats_right = 0, false_there = 0;
  for (const Trial* t : trials) {
    false_there += t->band == hw::Band::There && t->truth > 2 * 1.0;
    if (t->truth < 0.25) continue;
    ++all;
    spoke += t->share_said != 0;
    right += t->share_said != 0 && t->share_said == t->share_true;
    coats_spoke += t->coats_said != 0;
    coats_right += t->coats_said != 0 && t->coats_said == t->coats_true;
  }
  std::printf("advice on the strong tint: speaks in %.1f %% of %d, right in %.1f %%\n", 100.0 * spoke / all, all, 100.0 * right / std::max(spoke, 1));
  std::printf("advice on coats: speaks in %.1f %%, right in %.1f %%\n", 100.0 * coats_spoke / all, 100.0 * coats_right / std::max(coats_spoke, 1));
  std::printf("'there' said at over twice the tolerance: %d\n", false_there);
}

void writeCsv(const char* path, const std::vector<Trial>& trials) {
  std::FILE* file = std::fopen(path, "w");
  if (!file) return;
  for (const Trial& t : trials) {
    std::fprintf(file, "%d,%g,%g,%g,%g,%s,%d,%d,%d,%d,%d,%g,%g", t.linear, t.truth, t.de00, t.low, t.high, t.cluster.c_str(), t.clipped, t.share_said, t.share_true,
                 t.coats_said, t.coats_true, t.depth, t.depth_sd);
    for (double x : t.u) std::fprintf(file, ",%g", x);
    for (double x : t.u_true) std::fprintf(file, ",%g", x);
    for (const auto& m : t.covariance)
      for (const auto& row : m.row)
        for (double x : row) std::fprintf(file, ",%g", x);
    std::fprintf(file, "\n");
  }
  std::fclose(file);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 3) {
    std::fputs("judge_figures TRIALS_PER_CELL SEED [even|uneven|numbers] [trials.csv]\n", stderr);
    return 2;
  }
  const int per_cell = std::atoi(argv[1]);
  const auto seed = static_cast<std::uint64_t>(std::strtoull(argv[2], nullptr, 10));
  const std::string kind = argc > 3 ? argv[3] : "even";
  const auto session = hw::Session::open(HUEWRIGHT_SOURCE_DIR "/calib");
  if (!session) return 5;

  std::vector<Trial> trials;
  std::mutex lock;
  const int cells = 2 * static_cast<int>(std::size(kTruths));
  hf::forEach(cells * per_cell, [&](int i) {
    const int cell = i % cells;
    const bool linear = cell >= static_cast<int>(std::size(kTruths));
    const double truth = kTruths[cell % static_cast<int>(std::size(kTruths))];
    for (std::uint64_t attempt = 0;; ++attempt) {
      const std::uint64_t s = seed + static_cast<std::uint64_t>(i) * 1000 + attempt;
      const auto scene = makeScene(s, linear, truth, kind);
      if (!scene) continue;
      const Trial t = judgeOne(*session, *scene, s, linear, kind);
      const std::scoped_lock hold(lock);
      trials.push_back(t);
      if (!t.clipped) break;
    }
  });
  if (argc > 4) writeCsv(argv[4], trials);

  std::size_t clipped = 0;
  for (const Trial& t : trials) clipped += t.clipped;
  const char* about = kind == "uneven" ? "uneven light" : kind == "numbers" ? "even light, the card as numbers" : "even light";
  std::printf("seed %llu; same-paint card, one grey patch, %s; %zu scenes, of which %zu said \"clipped\" and are left out\n",
              static_cast<unsigned long long>(seed), about, trials.size(), clipped);
  std::printf("file, true ΔE00            n  error med/95th   covers   half-width  /95th    there   can't say\n");
  for (const bool linear : {false, true}) {
    std::vector<const Trial*> all;
    for (const double truth : kTruths) {
      std::vector<const Trial*> cell;
      for (const Trial& t : trials)
        if (!t.clipped && t.linear == linear && std::abs(t.truth - truth) < 0.2) cell.push_back(&t);
      all.insert(all.end(), cell.begin(), cell.end());
      char name[40];
      std::snprintf(name, sizeof name, "%s, %.1f", linear ? "linear TIFF" : "JPEG", truth);
      printCell(name, cell);
    }
    printCell(linear ? "linear TIFF, all" : "JPEG, all", all);
    printPooled(linear ? "linear TIFF" : "JPEG", all);
    printAdvice(all);
  }
  return 0;
}
