// How often "surely nearer" is said of two panels beside one card, and how often it is true; and whether the advice on the strong tint points the right way.
//   ranking_figures TRIALS SEED
// Cards are of the same paint, of other pigments and printed by turns, and said to be so; every second photo is a linear TIFF.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
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
namespace fig = huewright::figures;

constexpr std::array<double, 6> kGaps{0, 0.25, 0.5, 1, 2, 100};   // of the true distances, the classes' bounds
constexpr std::array kKinds{hw::CardKind::Same, hw::CardKind::Printed, hw::CardKind::Other};

struct Trial {
  bool linear = false, clipped = false;
  hw::CardKind kind{};
  std::array<double, 2> truth{};
  bool in_order = false, surely = false;   // the nearer one comes first; the answer says surely
  bool spoke = false, pointed = false;     // on the strong tint; the right way
  double gap() const { return std::abs(truth[0] - truth[1]); }
};

/// Two panels, the card between them, and a grey. Nothing when no paint lies at those distances.
std::optional<hr::SceneSpec> makeScene(std::uint64_t seed, bool linear, hw::CardKind kind) {
  hr::Random random = hr::streamOf(seed, 0xc0a1);
  hr::SceneSpec scene;
  scene.shop = fig::mildShop(seed, linear, random);
  const hr::Paint paint = fig::randomPaint(random);
  scene.card.paint = paint;
  if (kind == hw::CardKind::Printed) {
    scene.card.kind = hr::CardKind::Printed;
    scene.card.finish.glossy = false;
  } else if (kind == hw::CardKind::Other) {
    scene.card.kind = hr::CardKind::OtherPigments;
    scene.card.pigment_set = random.below(3);
  }
  scene.panels.resize(2);
  const hw::Lab<hw::D50> wanted = hr::cardLab(scene.card);
  for (hr::PanelSpec& panel : scene.panels) {
    panel.paint = paint;
    const auto share = hr::shareForDistance(paint, wanted, random.uniform(0.3, 4), random.chance(0.5) ? hr::Side::Stronger : hr::Side::Weaker);
    if (!share) return {};
    panel.paint.share = *share;
    panel.finish.film_slope = 0.02 * random.normal();
  }
  scene.panels[0].place = {50, 60, 220, 300, 0};
  scene.card.place = {340, 80, 200, 260, 0};
  scene.panels[1].place = {610, 60, 220, 300, 0};
  scene.greys[0].y = random.uniform(0.17, 0.22);
  scene.greys[0].place = {370, 430, 150, 100, 0};
  return scene;
}

void printRanking(const std::vector<Trial>& trials, bool linear) {
  std::printf("%s\n  true distances apart by      n   in order   surely said   true when said\n", linear ? "linear TIFF" : "JPEG");
  for (std::size_t g = 0; g + 1 < kGaps.size(); ++g) {
    int all = 0, ordered = 0, said = 0, right = 0;
    for (const Trial& t : trials) {
      if (t.clipped || t.linear != linear || t.gap() < kGaps[g] || t.gap() >= kGaps[g + 1]) continue;
      ++all;
      ordered += t.in_order;
      said += t.surely;
      right += t.surely && t.in_order;
    }
    if (all == 0) continue;
    std::printf("  %5.2f to %6.2f          %5d    %5.1f %%      %5.1f %%       ", kGaps[g], kGaps[g + 1], all, 100.0 * ordered / all, 100.0 * said / all);
    if (said > 0) std::printf("%5.1f %% of %d\n", 100.0 * right / said, said);
    else std::printf("-\n");
  }
}

void printAdvice(const std::vector<Trial>& trials) {
  std::printf("advice on the strong tint, first panel\n");
  for (const hw::CardKind kind : kKinds)
    for (const bool linear : {false, true}) {
      int all = 0, spoke = 0, right = 0;
      for (const Trial& t : trials) {
        if (t.clipped || t.kind != kind || t.linear != linear) continue;
        ++all;
        spoke += t.spoke;
        right += t.spoke && t.pointed;
      }
      if (all > 0)
        std::printf("  %-8s %-12s speaks in %5.1f %% of %4d, right in %5.1f %%\n", std::string(hw::cardKindName(kind)).c_str(), linear ? "linear TIFF" : "JPEG", 100.0 * spoke / all,
                    all, 100.0 * right / std::max(spoke, 1));
    }
}

}  // namespace

int main(int count, char** words) {
  if (count != 3) {
    std::fprintf(stderr, "ranking_figures TRIALS SEED\n");
    return 2;
  }
  const int wanted = std::atoi(words[1]);
  const std::uint64_t first = std::strtoull(words[2], nullptr, 10);
  const auto session = hw::Session::open(HUEWRIGHT_SOURCE_DIR "/calib");
  if (!session) return 5;
  std::vector<Trial> trials;
  std::mutex lock;
  fig::forEach(wanted, [&](int i) {
    Trial t;
    t.linear = i % 2 == 1;
    t.kind = kKinds[static_cast<std::size_t>(i / 2) % kKinds.size()];
    for (std::uint64_t attempt = 0; attempt < 20; ++attempt) {
      const std::uint64_t seed = first * 1'000'033 + static_cast<std::uint64_t>(i) * 20 + attempt;
      const auto scene = makeScene(seed, t.linear, t.kind);
      if (!scene) continue;
      const hr::Rendered picture = hr::render(*scene, seed);
      const fig::TemporaryFile file(seed, "-ranking", t.linear ? ".tif" : ".jpg");
      hr::writePicture(file.path(), picture, {.camera = scene->shop.camera.sensitivity});
      hw::JudgeRequest request;
      request.photo = file.path();
      request.regions = picture.regions;
      request.grey_y = picture.truth.greys[0].y;
      request.card_kind = t.kind;
      request.chart_use = hw::ChartUse::None;
      request.mixes = {{1, 2}, {1, 3}};   // only words hang on them
      request.coats = scene->card.paint.coats;
      const auto report = session->judge(request);
      if (!report) {
        std::fprintf(stderr, "seed %llu: %s\n", static_cast<unsigned long long>(seed), hw::sentence(report.error()).c_str());
        return;
      }
      t.truth = {picture.truth.panels[0].de00, picture.truth.panels[1].de00};
      t.clipped = std::ranges::any_of(report->cautions, [](const hw::Caution& c) { return c.code == hw::CautionCode::Clipped; });
      const std::size_t nearer = t.truth[0] <= t.truth[1] ? 0 : 1;
      t.in_order = report->ranking.order.front().panel == nearer;
      t.surely = report->ranking.order.front().surely_nearer;
      const hw::Way way = report->advice.strong_share;
      t.spoke = way == hw::Way::Increase || way == hw::Way::Decrease;
      t.pointed = (way == hw::Way::Increase) == (scene->panels[0].paint.share < scene->card.paint.share);
      const std::scoped_lock hold(lock);
      trials.push_back(t);
      return;
    }
  });
  std::printf("Ranking and advice, seed %llu: %zu scenes, of which %lld said \"clipped\" and are left out\n", static_cast<unsigned long long>(first), trials.size(),
              static_cast<long long>(std::ranges::count_if(trials, &Trial::clipped)));
  for (const bool linear : {false, true}) printRanking(trials, linear);
  printAdvice(trials);
  return 0;
}
