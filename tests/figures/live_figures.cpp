// What averaging the frames of a live camera is worth, and whether a live verdict is that of a still; and a long run. Printed, never asserted.
//   live_figures noise SCENES SEED   simulated scenes on the mat, with noise of three strengths from frame to frame
//   live_figures soak HOURS SEED     so many hours of 30 frames a second, of a small picture that shakes, with changes of light and things laid anew: memory from hour to hour
#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <string>
#include <unistd.h>
#include <vector>

#include "colour/delta_e.hpp"
#include "figures/figures.hpp"
#include "photo/write.hpp"
#include "render/picture_file.hpp"
#include "render/scene.hpp"
#include "session/live_judge.hpp"
#include "support/live_frames.hpp"

namespace {

namespace hw = huewright;
namespace hr = huewright::render;
namespace hf = huewright::figures;
using hw::fixtures::LiveScene;

hw::JudgeRequest liveRequest() {
  hw::JudgeRequest request;
  request.photo = "camera";
  request.grey_y = 0.19;
  request.card_kind = hw::CardKind::Same;
  return request;
}

/// A mat with a panel, a card and a grey of one invented paint or two, as a camera of 1280 x 960 renders it.
std::optional<LiveScene> sceneOf(std::uint64_t seed) {
  hr::Random random(seed * 2654435761u + 41);
  hr::SceneSpec scene;
  scene.size = {1280, 960};
  hr::ShopOptions options;
  options.max_tilt_deg = 15;
  scene.shop = hr::randomShop(seed, options);
  scene.shop.style.tagged = true;
  const hr::Paint card = hf::randomPaint(random);
  scene.card.kind = hr::CardKind::Same;
  scene.card.paint = card;
  const auto panel = hf::paintAt(random, card, random.uniform(0, 4));
  scene.panels[0].paint = panel.value_or(card);
  for (hr::GreySpec& grey : scene.greys) grey.y = 0.19;
  scene.mat = hr::MatSpec{};
  scene.mat->layout = hw::readMatLayout(HUEWRIGHT_SOURCE_DIR "/calib", "a4").value();
  scene.mat->panels = {{hw::MatWindowKind::Panel, 1}};
  const hf::TemporaryFile file(seed, "live", ".jpg");
  hr::writePicture(file.path(), hr::render(scene, seed), {.camera = scene.shop.camera.sensitivity});
  auto photo = hw::Photo::open(file.path());
  auto preview = photo ? photo->preview(4000) : hw::Result<hw::Preview>(std::unexpected(photo.error()));
  if (!preview) return {};
  return LiveScene(preview->size, std::move(preview->rgb), static_cast<unsigned>(seed));
}

struct Live {
  hw::LiveVerdict verdict;
  hw::Vec3 u{};
};

/// The verdict on so many frames. In: the places, found once, as a running average has them.
std::optional<Live> liveOf(const hw::Session& session, LiveScene& scene, double noise, int frames, const hw::Regions& places) {
  auto request = liveRequest();
  request.regions = places;
  request.chart_use = hw::ChartUse::None;
  auto judge = hw::LiveJudge::begin(session, request);
  if (!judge) return {};
  for (int i = 0; i < frames; ++i) {
    judge->take(scene.frame(noise), scene.size());
    if (frames > 1 && !judge->judge().report) return {};
  }
  Live live{judge->judge()};
  if (!live.verdict.report) return {};
  live.u = live.verdict.report->verdicts.front().delta.u;
  return live;
}

double spreadOf(const std::vector<hw::Vec3>& all) {
  using namespace huewright;  // the vectors' operators
  hw::Vec3 mean{};
  double square = 0;
  for (const hw::Vec3& u : all) mean = mean + (1.0 / static_cast<double>(all.size())) * u;
  for (const hw::Vec3& u : all) square += dot(u - mean, u - mean) / static_cast<double>(all.size() - 1);
  return std::sqrt(square);
}

double quantile(std::vector<double> values, double share) {
  if (values.empty()) return NAN;
  std::ranges::sort(values);
  return values[static_cast<std::size_t>(std::lround(share * static_cast<double>(values.size() - 1)))];
}

int noise(const hw::Session& session, int scenes, std::uint64_t seed) {
  constexpr int kAgain = 12, kTogether = 16;
  std::printf("live camera: %d scenes on the mat at 1280 x 960, seed %llu; %d averages of %d frames and as many single frames each\n", scenes, static_cast<unsigned long long>(seed), kAgain, kTogether);
  std::printf("  noise    n   noise part of the interval   scatter of the difference, ΔE00   measured   stated : measured   live - still, ΔE00\n"
              "  (codes)      16 : 1 (5th to 95th)         one frame    16 frames             16 : 1     16 frames           median / 95th / most\n");
  for (const double level : {1.5, 3.0, 6.0}) {
    std::vector<double> stated, measured, honest, apart, one_sd, many_sd;
    int used = 0;
    for (int s = 0; s < scenes; ++s) {
      auto scene = sceneOf(seed + static_cast<std::uint64_t>(s));
      if (!scene) continue;
      auto finder = hw::LiveJudge::begin(session, liveRequest());
      if (!finder) continue;
      finder->take(scene->frame(level), scene->size());
      const hw::LiveVerdict found = finder->judge();
      if (!found.report) continue;
      for (int i = 1; i < kTogether; ++i) finder->take(scene->frame(level), scene->size());
      const hw::LiveVerdict on_mat = finder->judge();
      std::vector<hw::Vec3> singles, averages;
      double part = 0;
      for (int i = 0; i < kAgain; ++i) {
        const auto one = liveOf(session, *scene, level, 1, found.report->regions), many = liveOf(session, *scene, level, kTogether, found.report->regions);
        if (!one || !many || !many->verdict.noise) break;
        singles.push_back(one->u);
        averages.push_back(many->u);
        stated.push_back(*many->verdict.noise / *many->verdict.frame_noise);
        part += *many->verdict.noise / kAgain;
        if (i > 0) continue;
        const hf::TemporaryFile file(seed + static_cast<std::uint64_t>(s), "still", ".png");
        auto request = liveRequest();
        request.photo = file.path();
        if (!hw::writeStill(file.path(), scene->size(), scene->frame(level))) continue;
        if (const auto still = session.judge(request); still && on_mat.report) apart.push_back(std::abs(still->verdicts.front().de00 - on_mat.report->verdicts.front().de00));
      }
      if (averages.size() < kAgain) continue;
      ++used;
      one_sd.push_back(spreadOf(singles));
      many_sd.push_back(spreadOf(averages));
      measured.push_back(many_sd.back() / one_sd.back());
      honest.push_back(part / spreadOf(averages));
    }
    std::printf("  %5.1f  %3d   %.3f (%.3f to %.3f)      %.4f       %.4f                %.3f      %.2f                %.3f / %.3f / %.3f\n", level, used, quantile(stated, 0.5), quantile(stated, 0.05),
                quantile(stated, 0.95), quantile(one_sd, 0.5), quantile(many_sd, 0.5), quantile(measured, 0.5), quantile(honest, 0.5), quantile(apart, 0.5), quantile(apart, 0.95), quantile(apart, 1));
    std::fflush(stdout);
  }
  return 0;
}

/// Megabytes of this process in memory.
double resident() {
  std::ifstream file("/proc/self/statm");
  long pages = 0, in_memory = 0;
  file >> pages >> in_memory;
  return static_cast<double>(in_memory) * static_cast<double>(::sysconf(_SC_PAGESIZE)) / (1 << 20);
}

int soak(const hw::Session& session, double hours, std::uint64_t seed) {
  LiveScene scene("there.jpg", 160, static_cast<unsigned>(seed));
  auto photo = hw::Photo::open(HUEWRIGHT_SOURCE_DIR "/sample-images/there.jpg");
  if (!photo) return 3;
  const double by = static_cast<double>(scene.size().width) / photo->size().width;
  const auto place = [&](int x, int y, int w, int h) {  // as sample-images/README.md tells
    hw::Quad quad = hw::toQuad({x, y, w, h});
    for (hw::Point& p : quad.corners) p = {by * p.x, by * p.y};
    return quad;
  };
  auto request = liveRequest();
  request.regions.panels = {place(149, 110, 316, 400)};
  request.regions.card = place(579, 126, 228, 229);
  request.regions.greys = {place(614, 453, 156, 89)};
  request.chart_use = hw::ChartUse::None;
  auto judge = hw::LiveJudge::begin(session, request);
  if (!judge) return 3;
  // Frames are drawn beforehand: drawing them would take longer than judging them.
  std::vector<std::vector<std::uint8_t>> frames;
  for (int i = 0; i < 64; ++i) frames.push_back(scene.frame(2, i % 4 - 1.5 + 0.5, i % 3 - 1));
  for (int i = 0; i < 16; ++i) frames.push_back(scene.frame(2, 0, 0, 0, 0.8));
  for (int i = 0; i < 16; ++i) frames.push_back(scene.frame(2, 3, 2, 0.5));
  frames.push_back(std::vector<std::uint8_t>(scene.codes().size(), 90));
  const auto all = static_cast<long long>(hours * 3600 * 30);
  std::printf("soak: %lld frames of %d x %d (%.3g hours of 30 a second), a verdict on every third\n", all, scene.size().width, scene.size().height, hours);
  long long verdicts = 0;
  const auto begun = std::chrono::steady_clock::now();
  for (long long i = 0; i < all; ++i) {
    // Ten seconds of each: as it is, in another light, laid elsewhere, and a second of nothing.
    const long long second = i / 30 % 40;
    const std::size_t at = second < 19 ? static_cast<std::size_t>(i % 64) : second < 29 ? static_cast<std::size_t>(64 + i % 16) : second < 39 ? static_cast<std::size_t>(80 + i % 16) : 96;
    judge->take(frames[at], scene.size());
    if (i % 3 == 0 && judge->judge().report) ++verdicts;
    if (i % std::max(1LL, all / 24) == 0) {
      std::printf("  %5.1f %% %9lld verdicts %8.1f MB %8.0f s\n", 100.0 * static_cast<double>(i) / static_cast<double>(all), verdicts, resident(),
                  std::chrono::duration<double>(std::chrono::steady_clock::now() - begun).count());
      std::fflush(stdout);
    }
  }
  std::printf("  100.0 %% %9lld verdicts %8.1f MB\n", verdicts, resident());
  return 0;
}

}  // namespace

int main(int count, char** words) {
  if (count != 4 || (std::strcmp(words[1], "noise") != 0 && std::strcmp(words[1], "soak") != 0)) {
    std::fputs("live_figures noise SCENES SEED | soak HOURS SEED\n", stderr);
    return 2;
  }
  const auto session = hw::Session::open(HUEWRIGHT_SOURCE_DIR "/calib");
  if (!session) return 5;
  const std::uint64_t seed = std::strtoull(words[3], nullptr, 10);
  if (std::strcmp(words[1], "soak") == 0) return soak(*session, std::atof(words[2]), seed);
  return noise(*session, std::atoi(words[2]), seed);
}
