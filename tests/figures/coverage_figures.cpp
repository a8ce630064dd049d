// How often the stated 95 % interval holds the true difference, and how wide it is, by file, kind of card, true distance, camera and light.
//   coverage_figures TRIALS_PER_CELL SEED [second]     second: on the frozen second renderer, which nothing was tuned on
// A cell is a kind of file, a kind of card and a true distance; inside it cameras, lights, tint pairs, grounds and sides take turns by chance.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <map>
#include <mutex>
#include <string>
#include <vector>

#include "figures/figures.hpp"
#include "render/picture_file.hpp"
#include "render/scene.hpp"
#include "render2/scene.hpp"
#include "session/session.hpp"

namespace {

namespace hw = huewright;
namespace hr = huewright::render;
namespace hr2 = huewright::render2;
namespace fig = huewright::figures;

constexpr std::array kTruths{0.0, 0.5, 1.0, 2.0, 4.0};
constexpr std::array<const char*, 2> kFiles{"JPEG", "linear TIFF"};

struct Trial {
  bool linear = false, clipped = false;
  hw::CardKind said{};
  double nominal = 0, truth = 0, de00 = 0, low = 0, high = 0;
  std::string camera, light;
};

/// The reflectance of a card that is said to be of that kind. Similar: seven parts of the same paint's spectrum and three of other pigments that look alike.
std::optional<hr::Spectrum> bodyOf(hw::CardKind kind, const hr::Paint& paint, hr::Random& random) {
  const int set = random.below(3);
  switch (kind) {
    case hw::CardKind::Printed: return hr::printed(hr::labOf(paint));
    case hw::CardKind::Other: return hr::otherPigments(hr::labOf(paint), set);
    case hw::CardKind::Similar: {
      hr::Spectrum body = hr::reflectance(paint);
      const hr::Spectrum other = hr::otherPigments(hr::labOf(paint), set);
      for (std::size_t i = 0; i < body.size(); ++i) body[i] = 0.7 * body[i] + 0.3 * other[i];
      return body;
    }
    case hw::CardKind::Same:
    case hw::CardKind::Unknown: break;
  }
  return {};
}

/// Nothing when the panel's paint cannot be at that distance from the card.
std::optional<hr::SceneSpec> makeScene(std::uint64_t seed, bool linear, hw::CardKind said, double truth) {
  hr::Random random = hr::streamOf(seed, 0xc07e);
  hr::SceneSpec scene;
  scene.shop = fig::mildShop(seed, linear, random);
  const hr::Paint paint = fig::randomPaint(random);
  // Of an unknown card anything may be true.
  const hw::CardKind is = said == hw::CardKind::Unknown ? static_cast<hw::CardKind>(random.below(4)) : said;
  scene.card.paint = paint;
  scene.card.body = bodyOf(is, paint, random);
  if (is == hw::CardKind::Printed) {
    scene.card.kind = hr::CardKind::Printed;
    scene.card.finish.glossy = false;
  } else if (is != hw::CardKind::Same) {
    scene.card.kind = hr::CardKind::OtherPigments;
  }
  const hw::Lab<hw::D50> wanted = hr::cardLab(scene.card);
  hr::Paint panel = paint;
  if (truth > 0) {
    const hr::Side side = random.chance(0.5) ? hr::Side::Stronger : hr::Side::Weaker;
    const bool by_share = random.chance(0.6);
    const auto value = by_share ? hr::shareForDistance(panel, wanted, truth, side) : hr::coatsForDistance(panel, wanted, truth, side);
    if (!value) return {};
    (by_share ? panel.share : panel.coats) = *value;
  }
  scene.panels[0].paint = panel;
  scene.panels[0].finish.film_slope = 0.02 * random.normal();
  scene.card.finish.film_slope = 0.01 * random.normal();
  scene.greys[0].y = random.uniform(0.17, 0.22);
  return scene;
}

/// Fills in what the program says of a picture.
void judge(const hw::Session& session, hw::JudgeRequest request, std::uint64_t seed, Trial& t) {
  request.card_kind = t.said;
  request.chart_use = hw::ChartUse::None;
  const auto report = session.judge(request);
  if (!report) {
    std::fprintf(stderr, "seed %llu: %s\n", static_cast<unsigned long long>(seed), hw::sentence(report.error()).c_str());
    t.clipped = true;
    return;
  }
  const hw::Verdict& v = report->verdicts[0];
  t.de00 = v.de00;
  t.low = v.low;
  t.high = v.high;
  t.clipped = std::ranges::any_of(report->cautions, [](const hw::Caution& c) { return c.code == hw::CautionCode::Clipped; });
}

/// False when the paint cannot be at that distance.
bool inFirstWorld(const hw::Session& session, std::uint64_t seed, Trial& t) {
  const auto scene = makeScene(seed, t.linear, t.said, t.nominal);
  if (!scene) return false;
  t.camera = std::string(1, scene->shop.camera.sensitivity);
  t.light = scene->shop.lamp.light;
  const hr::Rendered picture = hr::render(*scene, seed);
  const fig::TemporaryFile file(seed, "-coverage", t.linear ? ".tif" : ".jpg");
  hr::writePicture(file.path(), picture, {.camera = scene->shop.camera.sensitivity});
  hw::JudgeRequest request;
  request.photo = file.path();
  request.regions = picture.regions;
  request.grey_y = picture.truth.greys[0].y;
  t.truth = picture.truth.panels[0].de00;
  judge(session, request, seed, t);
  return true;
}

bool inSecondWorld(const hw::Session& session, std::uint64_t seed, Trial& t) {
  hr::Random random = hr::streamOf(seed, 0xc07f);
  // Of an unknown card anything may be true.
  const auto is = static_cast<hr2::CardKind>(t.said == hw::CardKind::Unknown ? random.below(4) : static_cast<int>(t.said));
  const hr2::Spec spec = hr2::randomSpec(seed, {.de00 = t.nominal, .card = is, .linear = t.linear, .chart = false});
  const hr2::Rendered picture = hr2::render(spec, seed);
  t.camera = std::string(1, picture.camera);
  t.light = spec.light.lamp;
  const fig::TemporaryFile file(seed, "-coverage2", t.linear ? ".tif" : ".jpg");
  hr2::writePicture(file.path(), picture);
  hw::JudgeRequest request;
  request.photo = file.path();
  request.regions = picture.regions;
  request.grey_y = picture.truth.grey_y;
  t.truth = picture.truth.de00;
  judge(session, request, seed, t);
  return true;
}

/// One row: what the trials that `of` takes show.
template <class Of>
void printRow(const std::string& name, const std::vector<Trial>& trials, Of&& of) {
  std::vector<double> error, half;
  fig::Coverage covered;
  int zero = 0, true_zero = 0;
  for (const Trial& t : trials) {
    if (t.clipped || !of(t)) continue;
    error.push_back(std::abs(t.de00 - t.truth));
    half.push_back(0.5 * (t.high - t.low));
    covered.add(t.camera + t.light, t.low <= t.truth && t.truth <= t.high);
    if (t.nominal == 0) {
      ++true_zero;
      zero += t.low == 0;
    }
  }
  if (error.empty()) return;
  std::printf("%-34s %5zu  %5.2f /%5.2f   %5.1f %% (+- %.1f)  %5.2f  %5.2f", name.c_str(), error.size(), fig::quantile(error, 0.5), fig::quantile(error, 0.95),
              100 * covered.share(), 100 * covered.half(), fig::quantile(half, 0.5), fig::quantile(half, 0.5) / fig::quantile(error, 0.95));
  if (true_zero > 0) std::printf("   low end 0 in %.1f %% of %d", 100.0 * zero / true_zero, true_zero);
  std::printf("\n");
}

}  // namespace

int main(int count, char** words) {
  if (count < 3) {
    std::fprintf(stderr, "coverage_figures TRIALS_PER_CELL SEED [second]\n");
    return 2;
  }
  const int per_cell = std::atoi(words[1]);
  const std::uint64_t first = std::strtoull(words[2], nullptr, 10);
  const bool second = count > 3 && std::string(words[3]) == "second";
  const auto session = hw::Session::open(HUEWRIGHT_SOURCE_DIR "/calib");
  if (!session) return 5;
  const int cells = static_cast<int>(kFiles.size() * hw::kCardKindCount * kTruths.size());
  std::vector<Trial> trials;
  std::mutex lock;
  fig::forEach(cells * per_cell, [&](int i) {
    const int cell = i % cells;
    const bool linear = cell % 2 == 1;
    const auto said = static_cast<hw::CardKind>(cell / 2 % static_cast<int>(hw::kCardKindCount));
    const double truth = kTruths[static_cast<std::size_t>(cell / 2) / hw::kCardKindCount];
    for (std::uint64_t attempt = 0; attempt < 20; ++attempt) {
      const std::uint64_t seed = first * 1'000'003 + static_cast<std::uint64_t>(i) * 20 + attempt;
      Trial t;
      t.linear = linear;
      t.said = said;
      t.nominal = truth;
      if (!(second ? inSecondWorld : inFirstWorld)(*session, seed, t)) continue;
      const std::scoped_lock hold(lock);
      trials.push_back(t);
      return;
    }
  });
  const auto clipped = std::ranges::count_if(trials, &Trial::clipped);
  std::printf("Coverage, %s renderer, seed %llu: %zu scenes, of which %lld said \"clipped\" and are left out\n", second ? "second" : "first", static_cast<unsigned long long>(first), trials.size(),
              static_cast<long long>(clipped));
  std::printf("%-34s %5s  %12s   %16s  %5s  %s\n", "", "n", "error 50/95", "covers (95 %)", "half", "/ 95th");
  for (const bool linear : {false, true}) {
    const std::string file = kFiles[linear];
    for (std::size_t k = 0; k < hw::kCardKindCount; ++k) {
      const auto kind = static_cast<hw::CardKind>(k);
      for (const double truth : kTruths) {
        char name[64];
        std::snprintf(name, sizeof name, "%s, %s, %.1f", file.c_str(), std::string(hw::cardKindName(kind)).c_str(), truth);
        printRow(name, trials, [&](const Trial& t) { return t.linear == linear && t.said == kind && t.nominal == truth; });
      }
      printRow(file + ", " + std::string(hw::cardKindName(kind)) + ", all", trials, [&](const Trial& t) { return t.linear == linear && t.said == kind; });
    }
    printRow(file + ", all", trials, [&](const Trial& t) { return t.linear == linear; });
  }
  const auto by = [&](std::string Trial::*what, const char* title) {
    std::map<std::string, int> names;
    for (const Trial& t : trials) ++names[t.*what];
    for (const auto& [name, n] : names) printRow(title + name, trials, [&](const Trial& t) { return t.*what == name; });
  };
  by(&Trial::camera, "camera ");
  by(&Trial::light, "light ");
  printRow("all", trials, [](const Trial&) { return true; });
  return 0;
}
