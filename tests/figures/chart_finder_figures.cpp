// How often the colour chart is found and read in photos of an untidy bench, and how often where there is none.
#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <ctime>
#include <map>
#include <mutex>

#include "camera/chart_reading.hpp"
#include "figures/chart_figures.hpp"
#include "figures/figures.hpp"
#include "render/chart_scene.hpp"
#include "render/picture_file.hpp"
#include "scene/chart_finder.hpp"
#include "session/set_up.hpp"

namespace huewright::figures {
namespace {

namespace hr = render;

constexpr double kRight = 0.1;   // of the distance between patches: a sampled patch keeps well inside then

std::string_view faultName(ChartFault fault) {
  constexpr std::array<std::string_view, 9> kNames{"no grid", "not its colours", "mirrored",  "cut off", "hidden",
                                                   "glare",   "burnt out",       "too small", "photo"};
  return kNames[static_cast<std::size_t>(fault)];
}

/// CPU time of this thread, seconds.
double cpuSeconds() {
  timespec now{};
  ::clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
  return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

double apart(Point a, Point b) { return std::hypot(a.x - b.x, a.y - b.y); }

/// The largest distance between corners, `turn` corners on.
double offBy(const Quad& found, const Quad& right, std::size_t turn) {
  double worst = 0;
  for (std::size_t i = 0; i < 4; ++i) worst = std::max(worst, apart(found.corners[i], right.corners[(i + turn) % 4]));
  return worst;
}

hr::SceneSpec benchScene(std::uint64_t seed, const hr::ShopOptions& shops) {
  hr::ChartSceneOptions options;
  options.size = {1800, 1200};
  options.shop = shops;
  options.shop.max_falloff = 0.25;
  options.shop.max_vignette = 0.10;
  options.shop.max_iso = 1600;
  hr::SceneSpec scene = hr::chartScene(seed, options);
  hr::Random random = hr::streamOf(seed, 0xf19);
  scene.shop.lamp.direction_deg = random.uniform(0, 360);
  scene.shop.camera.blur = random.uniform(0.4, 1.8);
  scene.shop.camera.exposure = std::min(scene.shop.camera.exposure, 0.8);   // the white patch is not burnt out, wherever it lies
  return scene;
}

enum class Without { Clutter, Swatches, OtherColours, OtherOrder };
constexpr std::array<const char*, 4> kWithout{"clutter", "a board of swatches in other rows and columns", "24 other colours laid as the chart is",
                                              "the chart's colours in another order"};

/// The chart goes, and something else may come into its place.
void replaceChart(hr::SceneSpec& scene, Without kind, hr::Random& random) {
  const hr::ChartSpec chart = *scene.chart;
  scene.chart.reset();
  if (kind == Without::Clutter) return;
  int columns = 6, rows = 4;
  while (kind == Without::Swatches && columns == 6 && rows == 4) columns = 3 + random.below(6), rows = 2 + random.below(5);
  const double pitch = std::min(chart.place.width / (columns + 0.3), chart.place.height / (rows + 0.3)), side = chart.patch_share * pitch;
  const double angle = chart.place.turn_deg * 3.14159265358979 / 180, c = std::cos(angle), s = std::sin(angle);
  const auto at = [&](double dx, double dy, double width, double height) {
    const double x = chart.place.x + 0.5 * chart.place.width + c * dx - s * dy, y = chart.place.y + 0.5 * chart.place.height + s * dx + c * dy;
    return hr::Place{x - 0.5 * width, y - 0.5 * height, width, height, chart.place.turn_deg};
  };
  scene.clutter.push_back({at(0, 0, (columns + 0.3) * pitch, (rows + 0.3) * pitch), hr::grey(chart.frame, 0.01), 0.004, 0, true});
  std::vector<hr::Spectrum> bodies;
  for (int i = 0; i < columns * rows; ++i)
    bodies.push_back(hr::surfaces190()[static_cast<std::size_t>(random.below(static_cast<int>(hr::surfaces190().size())))]);
  if (kind == Without::OtherOrder)
    for (std::size_t i = 0; i < bodies.size(); ++i) {   // a shuffle that is the same everywhere
      const auto j = static_cast<std::size_t>(random.below(static_cast<int>(i) + 1));
      bodies[i] = bodies[j];
      bodies[j] = hr::chartColours()[i].body;
    }
  for (int i = 0; i < columns * rows; ++i)
    scene.clutter.push_back({at((i % columns - 0.5 * (columns - 1)) * pitch, (i / columns - 0.5 * (rows - 1)) * pitch, side, side),
                             bodies[static_cast<std::size_t>(i)], 0.004, 0, false});
}

struct Found {
  std::expected<ChartReading, ChartRefusal> reading = std::unexpected(ChartRefusal{});
  std::vector<GridProposal> proposals;
  double find_seconds = 0, read_seconds = 0;
};

Found findIn(const hr::SceneSpec& scene, const hr::Rendered& picture, std::uint64_t seed, const ChartReference& reference) {
  const TemporaryFile file(seed, "-chart", ".jpg");
  hr::writePicture(file.path(), picture, {.camera = scene.shop.camera.sensitivity});
  Photo photo = Photo::open(file.path()).value();
  const Preview preview = photo.preview(kPreviewSide).value();
  Found found;
  const double from = cpuSeconds();
  found.proposals = findChartGrids(preview, reference.columns, reference.rows).value();
  const double between = cpuSeconds();
  std::vector<ChartGrid> grids;
  for (const GridProposal& p : found.proposals) grids.push_back({p.homography, p.patch_share});
  found.reading = readChart(photo, preview, grids, reference);
  found.find_seconds = between - from;
  found.read_seconds = cpuSeconds() - between;
  return found;
}

struct Tally {
  std::mutex lock;
  int proposed = 0, read = 0, right = 0, upright = 0;
  std::vector<double> off, find_ms, read_ms;
  std::map<std::string, int> misses;
  std::map<char, std::pair<int, int>> by_camera;   // right, all
  std::array<int, 4> without{}, grids{}, false_charts{};
};

void withChart(std::uint64_t seed, const hr::ShopOptions& shops, const ChartReference& reference, Tally& tally) {
  const hr::SceneSpec scene = benchScene(seed, shops);
  const hr::Rendered picture = hr::render(scene, seed);
  const Found found = findIn(scene, picture, seed, reference);
  const hr::ChartTruth& truth = *picture.truth.chart;
  const Quad& q = truth.quad;
  const double wide = 0.5 * (apart(q.corners[0], q.corners[1]) + apart(q.corners[3], q.corners[2]));
  const double pitch = wide / (hr::kChartColumns - 1 + truth.patch_share);
  const bool proposed = std::ranges::any_of(found.proposals, [&](const GridProposal& p) {
    return std::min(offBy(p.corners, q, 0), offBy(p.corners, q, 2)) < kRight * pitch;
  });
  const std::scoped_lock hold(tally.lock);
  tally.find_ms.push_back(1000 * found.find_seconds);
  tally.read_ms.push_back(1000 * found.read_seconds);
  tally.proposed += proposed;
  const char camera = scene.shop.camera.sensitivity;
  ++tally.by_camera[camera].second;
  std::string why;
  double off = NAN;
  if (!found.reading) {
    why = (proposed ? "proposed, but refused: " : "not proposed: ") + std::string(faultName(found.reading.error().fault));
  } else {
    ++tally.read;
    off = offBy(found.reading->corners, q, 0) / pitch;
    const bool upright = off < 0.5;
    tally.upright += upright;
    tally.right += off < kRight;
    tally.by_camera[camera].first += off < kRight;
    if (upright) tally.off.push_back(off);
    if (!upright) why = "read in another place or turn";
    else if (off >= kRight) why = "corners off";
  }
  if (why.empty()) return;
  ++tally.misses[why];
  const hr::Shop& shop = scene.shop;
  std::fprintf(stderr, "chart %llu: %s; %.0f px wide, tilt %.0f/%.0f, turn %.0f, blur %.1f, iso %.0f, frame %.2f, share %.2f, "
               "camera %c, %s, %zu proposals, off %.2f: %s\n",
               static_cast<unsigned long long>(seed), why.c_str(), wide, shop.view.tilt_deg, shop.view.turn_deg, scene.chart->place.turn_deg,
               shop.camera.blur, shop.camera.iso, scene.chart->frame, truth.patch_share, camera, shop.lamp.light.c_str(), found.proposals.size(), off,
               found.reading ? "" : found.reading.error().sentence.c_str());
}

void withoutChart(std::uint64_t seed, Without kind, const hr::ShopOptions& shops, const ChartReference& reference, Tally& tally) {
  hr::SceneSpec scene = benchScene(seed, shops);
  hr::Random random = hr::streamOf(seed, 0xf1a);
  replaceChart(scene, kind, random);
  const Found found = findIn(scene, hr::render(scene, seed), seed, reference);
  const auto k = static_cast<std::size_t>(kind);
  const std::scoped_lock hold(tally.lock);
  tally.find_ms.push_back(1000 * found.find_seconds);
  tally.read_ms.push_back(1000 * found.read_seconds);
  ++tally.without[k];
  tally.grids[k] += !found.proposals.empty();
  tally.false_charts[k] += found.reading.has_value();
  if (found.reading)
    std::fprintf(stderr, "no chart %llu: %s taken for one, error %.1f\n", static_cast<unsigned long long>(seed), kWithout[k], found.reading->error);
}

}  // namespace

void chartFinder(int trials, std::uint64_t seed, const hr::ShopOptions& shops) {
  const ChartReference reference = readChart24(HUEWRIGHT_SOURCE_DIR "/calib").value();
  // Half of the pictures without a chart have clutter only.
  constexpr std::array kKinds{Without::Clutter, Without::Swatches, Without::Clutter, Without::OtherColours,
                              Without::Clutter, Without::Swatches, Without::Clutter, Without::OtherOrder};
  Tally tally;
  forEach(2 * trials, [&](int i) {
    const std::uint64_t s = seed + static_cast<std::uint64_t>(i);
    if (i < trials) withChart(s, shops, reference, tally);
    else withoutChart(s, kKinds[static_cast<std::size_t>(i) % kKinds.size()], shops, reference, tally);
  });
  const auto percent = [&](int n) { return 100.0 * n / trials; };
  std::printf("the chart in JPEG photos of 1800 x 1200: 12 to 60 %% of the width, any turn, tilt to 35 degrees, blur to 1.8 pixels, 25 %% fall-off, "
              "ISO to 1600, clutter; cameras %s; seed %llu\n",
              shops.cameras.c_str(), static_cast<unsigned long long>(seed));
  std::printf("the right grid proposed in %d of %d (%.1f %%); a chart read in %d (%.1f %%), the right way up in %d\n", tally.proposed, trials,
              percent(tally.proposed), tally.read, percent(tally.read), tally.upright);
  std::printf("read with corners within %.1f of the distance between patches: %d (%.1f %%; aim 99 %%)\n", kRight, tally.right, percent(tally.right));
  std::printf("corners off, of that distance: median %.3f, 95th %.3f, worst %.3f\n", quantile(tally.off, 0.5), quantile(tally.off, 0.95),
              quantile(tally.off, 1));
  for (const auto& [camera, n] : tally.by_camera) std::printf("  camera %c: %d of %d\n", camera, n.first, n.second);
  for (const auto& [why, n] : tally.misses) std::printf("  missed, %s: %d\n", why.c_str(), n);
  int all = 0, wrong = 0;
  for (std::size_t k = 0; k < kWithout.size(); ++k) {
    std::printf("without a chart, %s: a grid proposed in %d of %d, a chart read in %d\n", kWithout[k], tally.grids[k], tally.without[k],
                tally.false_charts[k]);
    all += tally.without[k];
    wrong += tally.false_charts[k];
  }
  std::printf("without a chart, all: a chart read in %d of %d (aim 0 of 300)\n", wrong, all);
  std::printf("CPU time on a preview of %d pixels: finding %.0f / %.0f ms, reading %.0f / %.0f ms (median/95th)\n", kPreviewSide,
              quantile(tally.find_ms, 0.5), quantile(tally.find_ms, 0.95), quantile(tally.read_ms, 0.5), quantile(tally.read_ms, 0.95));
}

}  // namespace huewright::figures
