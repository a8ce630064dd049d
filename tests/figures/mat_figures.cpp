// What the mat, a plain sheet, a swapped shot, a black chip and stepped panels are worth, on simulated scenes whose truth is known. Printed, never
// asserted.   mat_figures WHAT TRIALS SEED
//   falloff: 15 % fall-off in any direction; the mat's paper, two greys, one grey, a plain sheet's photo, against even light
//   flake:   metallic grounds and light across the sheet; one shot against two with panel and card changed over, and with the mat half turned
//   veil:    1 % of white mirrored by every glossy surface; with and without the black chip
//   finder:  photos of the sheet in any turn, tilted to 40 degrees, blurred to 1.5 pixels; and as many pictures without one
//   steps:   stepped panels with tape lines: how often every strip is found, and how well it is read
#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <mutex>
#include <string>
#include <tuple>
#include <vector>

#include "figures/figures.hpp"
#include "render/picture_file.hpp"
#include "render/scene.hpp"
#include "scene/mat_finder.hpp"
#include "session/session.hpp"

namespace {

namespace hw = huewright;
namespace hr = huewright::render;
namespace hf = huewright::figures;

constexpr double kTruths[] = {0, 1, 2, 4};
const hw::Size kSize{1500, 1100};

struct Outcome {
  bool judged = false, clipped = false;
  double de00 = 0, low = 0, high = 0;
};

/// By way of judging, all trials in the same order.
using Table = std::map<std::string, std::vector<std::pair<double, Outcome>>>;  // truth, outcome

const hw::MatLayout& a4() {
  static const hw::MatLayout kLayout = hw::readMatLayout(HUEWRIGHT_SOURCE_DIR "/calib", "a4").value();
  return kLayout;
}

hr::Paint paintAt(hr::Random& random, const hr::Paint& card, double truth) {
  for (int attempt = 0; attempt < 8; ++attempt)
    if (const auto panel = hf::paintAt(random, card, truth)) return *panel;
  return card;
}

/// A mat with one panel, a card, two greys and a black chip, in even light.
hr::SceneSpec matScene(std::uint64_t seed, double truth, bool metallic, double max_veil) {
  hr::Random random(seed * 2654435761u + 29);
  hr::SceneSpec scene;
  scene.size = kSize;
  hr::ShopOptions options;
  options.max_falloff = 0;
  options.max_vignette = 0;
  options.max_veil = max_veil;
  options.max_tilt_deg = 20;
  scene.shop = hr::randomShop(seed, options);
  scene.shop.lamp.direction_deg = random.uniform(0, 360);
  if (random.chance(0.5)) scene.shop.style = hr::linearStyle(random.chance(0.5) ? hr::Space::P3 : hr::Space::Srgb);
  else scene.shop.style.tagged = true;
  scene.shop.camera.exposure = std::min(scene.shop.camera.exposure, 0.85);
  constexpr hr::Ground kMetallic[] = {hr::Ground::BrightSilver, hr::Ground::PaleGold};
  const hr::Paint card = metallic ? hf::randomPaint(random, kMetallic) : hf::randomPaint(random);
  scene.card.kind = hr::CardKind::Same;
  scene.card.paint = card;
  scene.panels[0].paint = paintAt(random, card, truth);
  scene.panels[0].finish.film_slope = 0.02 * random.normal();
  scene.card.finish.film_slope = 0.01 * random.normal();
  scene.greys.resize(2);
  for (hr::GreySpec& grey : scene.greys) grey.y = 0.19;
  scene.black = hr::ChipSpec{};
  scene.black->y = random.uniform(0.002, 0.006);
  scene.mat = hr::MatSpec{};
  scene.mat->layout = a4();
  scene.mat->turn_deg = random.uniform(-8, 8);
  scene.mat->dirt = random.below(4);
  // Next to the card, as the sheet asks for.
  scene.mat->panels = {{hw::MatWindowKind::Panel, random.chance(0.5) ? 1 : 2}};
  return scene;
}

struct File {
  hf::TemporaryFile file;
  hr::Rendered picture;
  File(const hr::SceneSpec& scene, std::uint64_t seed, const std::string& tail, std::optional<hr::Rendered> ready = {})
      : file(seed, tail, scene.shop.style.linear ? ".tif" : ".jpg"), picture(ready ? std::move(*ready) : hr::render(scene, seed)) {
    hr::writePicture(file.path(), picture, {.camera = scene.shop.camera.sensitivity});
  }
  const std::filesystem::path& path() const { return file.path(); }
};

hw::JudgeRequest requestFor(const File& file) {
  hw::JudgeRequest request;
  request.photo = file.path();
  request.grey_y = 0.19;
  request.card_kind = hw::CardKind::Same;
  return request;
}

Outcome judged(const hw::Session& session, const hw::JudgeRequest& request, const char* what) {
  const auto report = session.judge(request);
  Outcome o;
  if (!report) {
    std::fprintf(stderr, "%s: %s\n", what, hw::sentence(report.error()).c_str());
    return o;
  }
  o.judged = true;
  const hw::Verdict& v = report->verdicts[report->main];
  o.de00 = v.de00;
  o.low = v.low;
  o.high = v.high;
  for (const auto& c : report->cautions) o.clipped |= c.code == hw::CautionCode::Clipped;
  return o;
}

/// Only the regions, by hand, with so many greys and no chip.
hw::JudgeRequest byHand(const File& file, std::size_t greys) {
  hw::JudgeRequest request = requestFor(file);
  request.regions = file.picture.regions;
  request.regions.greys.resize(greys);
  request.regions.black.reset();
  return request;
}

/// Ways of judging one scene, in order. Of every other the shift from the first is told.
using Results = std::vector<std::pair<std::string, Outcome>>;

Results fallOff(const hw::Session& session, std::uint64_t seed, double truth, double& true_de) {
  hr::SceneSpec scene = matScene(seed, truth, false, 0.004);
  Results all;
  {
    const File even(scene, seed, "-even");
    true_de = even.picture.truth.panels[0].de00;
    all.push_back({"even light, mat", judged(session, requestFor(even), "even")});
    all.push_back({"even light, two greys", judged(session, byHand(even, 2), "even")});
  }
  scene.shop.lamp.falloff = 0.15;
  scene.shop.lamp.vignette = 0.05;
  const File uneven(scene, seed, "-fall");
  all.push_back({"15 % fall-off, mat", judged(session, requestFor(uneven), "fall-off")});
  all.push_back({"15 % fall-off, two greys", judged(session, byHand(uneven, 2), "fall-off")});
  all.push_back({"15 % fall-off, one grey", judged(session, byHand(uneven, 1), "fall-off")});
  const File sheet(scene, seed + 1, "-sheet", hr::plainSheet(scene, seed + 1));
  auto request = byHand(uneven, 1);
  request.plain_sheet = sheet.path();
  all.push_back({"15 % fall-off, plain sheet", judged(session, request, "sheet")});
  return all;
}

Results flake(const hw::Session& session, std::uint64_t seed, double truth, double& true_de) {
  hr::SceneSpec scene = matScene(seed, truth, true, 0.004);
  hr::Random random(seed + 5);
  scene.shop.lamp.direction_deg = random.chance(0.5) ? random.uniform(-25, 25) : 180 + random.uniform(-25, 25);  // along panel and card: the worst way
  scene.shop.lamp.falloff = 0.06;
  Results all;
  {
    // What is wanted of the other ways: the light across panel and card, and even, so that the angle does nothing to their difference.
    hr::SceneSpec across = scene;
    across.shop.lamp.direction_deg = 90 + scene.mat->turn_deg;
    across.shop.lamp.falloff = 0;
    const File good(across, seed, "-across");
    all.push_back({"light across, one shot", judged(session, requestFor(good), "across")});
  }
  const File first(scene, seed, "-first");
  true_de = first.picture.truth.panels[0].de00;
  const File exchanged(hr::swapped(scene), seed + 1, "-swap"), turned(hr::halfTurned(scene), seed + 2, "-turn");
  all.push_back({"one shot", judged(session, requestFor(first), "one shot")});
  auto request = requestFor(first);
  request.swapped = exchanged.path();
  all.push_back({"two shots, changed over", judged(session, request, "changed over")});
  request.swapped = turned.path();
  all.push_back({"two shots, mat half turned", judged(session, request, "half turned")});
  return all;
}

Results veil(const hw::Session& session, std::uint64_t seed, double truth, double& true_de) {
  hr::SceneSpec scene = matScene(seed, truth, false, 0);
  Results all;
  {
    const File dark(scene, seed, "-dark");
    true_de = dark.picture.truth.panels[0].de00;
    all.push_back({"no veil", judged(session, requestFor(dark), "no veil")});
  }
  scene.shop.veil = 0.01;
  {
    const File with(scene, seed, "-veil");
    all.push_back({"1 % veil, chip", judged(session, requestFor(with), "chip")});
  }
  scene.black.reset();
  const File without(scene, seed, "-bare");
  all.push_back({"1 % veil, no chip", judged(session, requestFor(without), "no chip")});
  return all;
}

void printRow(const std::string& name, std::vector<std::pair<double, Outcome>> rows, std::size_t refused, std::vector<double> shifts = {}) {
  std::vector<double> errors;
  std::size_t covered = 0;
  double half = 0;
  for (const auto& [truth, o] : rows) {
    errors.push_back(std::abs(o.de00 - truth));
    covered += o.low <= truth && truth <= o.high;
    half += 0.5 * (o.high - o.low) / static_cast<double>(rows.size());
  }
  if (errors.empty()) return;
  std::printf("%-36s %5zu   %.2f / %.2f     %5.1f %%    %.2f    %zu", name.c_str(), errors.size(), hf::quantile(errors, 0.5), hf::quantile(errors, 0.95),
              100.0 * static_cast<double>(covered) / static_cast<double>(errors.size()), half, refused);
  if (!shifts.empty()) std::printf("        %.2f / %.2f", hf::quantile(shifts, 0.5), hf::quantile(shifts, 0.95));
  std::printf("\n");
}

/// Rows by way of judging: all true distances together, and true 2 alone. Scenes that any of the ways calls clipped are left out of all.
void compareWays(const char* what, int trials, std::uint64_t seed, Results (*one)(const hw::Session&, std::uint64_t, double, double&)) {
  const auto session = hw::Session::open(HUEWRIGHT_SOURCE_DIR "/calib");
  if (!session) std::exit(5);
  Table table;
  std::map<std::string, std::size_t> refused;
  std::map<std::string, std::vector<double>> shifts;  // from the first way
  std::vector<std::string> order;
  std::size_t clipped = 0;
  std::mutex lock;
  hf::forEach(trials, [&](int i) {
    double truth = 0;
    const auto results = one(*session, seed + 10 * static_cast<std::uint64_t>(i), kTruths[i % 4], truth);
    const std::scoped_lock hold(lock);
    if (order.empty())
      for (const auto& r : results) order.push_back(r.first);
    for (const auto& r : results) refused[r.first] += !r.second.judged;
    if (std::ranges::any_of(results, [](const auto& r) { return r.second.clipped; })) {
      ++clipped;
      return;
    }
    for (const auto& r : results)
      if (r.second.judged) {
        table[r.first].push_back({truth, r.second});
        if (&r != &results.front() && results.front().second.judged) shifts[r.first].push_back(std::abs(r.second.de00 - results.front().second.de00));
      }
  });
  std::printf("%s; seed %llu; %d scenes, JPEG and linear TIFF by halves, of which %zu said \"clipped\" and are left out\n", what,
              static_cast<unsigned long long>(seed), trials, clipped);
  std::printf("                                         n   error med/95th  covers   half-width  refused  shift from the first, med/95th\n");
  for (const std::string& name : order) printRow(name, table[name], refused[name], shifts[name]);
  // Near the card the camera's errors cancel, and what the place does is nearly all that is left.
  for (const auto& [label, low, high] : {std::tuple{"  true 0, 1: ", -1.0, 1.2}, std::tuple{"  true 2: ", 1.8, 2.2}})
    for (const std::string& name : order) {
      std::vector<std::pair<double, Outcome>> some;
      for (const auto& row : table[name])
        if (row.first > low && row.first < high) some.push_back(row);
      printRow(label + name, some, 0);
    }
}

/// Photos of the sheet, and pictures without one.
void finder(int trials, std::uint64_t seed) {
  const auto layouts = hw::readMatLayouts(HUEWRIGHT_SOURCE_DIR "/calib").value();
  std::mutex lock;
  int found = 0, windows_right = 0, without = 0, false_mats = 0;
  double worst = 0;
  const auto previewOf = [](const hr::Rendered& picture, const hr::SceneSpec& scene) {
    return hw::Preview{picture.size, 1, hr::encode8(scene.shop.style, picture.size, picture.linear)};
  };
  hf::forEach(2 * trials, [&](int i) {
    const std::uint64_t s = seed + 10 * static_cast<std::uint64_t>(i);
    hr::Random random(s + 7);
    hr::SceneSpec scene = matScene(s, 1, false, 0.004);
    scene.shop.style = hr::randomStyle(random);
    scene.shop.camera.iso = random.uniform(100, 1600);
    if (i >= trials) {  // as many without: a bench with things on it
      scene.mat.reset();
      const hr::Rendered picture = hr::render(scene, s);
      const auto mat = hw::findMat(previewOf(picture, scene), layouts);
      const std::scoped_lock hold(lock);
      ++without;
      false_mats += mat.has_value();
      return;
    }
    const std::size_t sheet = static_cast<std::size_t>(random.below(3));
    constexpr const char* kSheets[] = {"a4", "letter", "a4-small"};
    scene.mat->layout = *std::ranges::find(layouts, kSheets[sheet], &hw::MatLayout::name);
    scene.mat->turn_deg = random.uniform(0, 360);
    scene.mat->dirt = random.below(6);
    const double tilt = random.uniform(0, 40), towards = random.uniform(0, 6.283);
    scene.shop.view.tilt_deg = tilt * std::sin(towards);
    scene.shop.view.turn_deg = tilt * std::cos(towards);
    scene.shop.view.zoom = 0.72;
    scene.shop.camera.blur = random.uniform(0.4, 1.5);
    scene.shop.lamp.falloff = 0.15;
    const hr::Rendered picture = hr::render(scene, s);
    const auto mat = hw::findMat(previewOf(picture, scene), layouts);
    const std::scoped_lock hold(lock);
    if (!mat) {
      std::fprintf(stderr, "finder %llu: %s\n", static_cast<unsigned long long>(s), hw::sentence(mat.error()).c_str());
      return;
    }
    ++found;
    double off = 0;
    for (std::size_t w = 0; w < mat->windows.size(); ++w) {
      const hw::MatRect& r = mat->layout.windows[w].place;
      const hw::Point corners[] = {{r.x, r.y}, {r.x + r.width, r.y}, {r.x + r.width, r.y + r.height}, {r.x, r.y + r.height}};
      hw::Point wanted[4];
      for (int c = 0; c < 4; ++c) {
        const hw::Vec3 v = *picture.truth.mat * hw::Vec3{corners[c].x, corners[c].y, 1};
        wanted[c] = {v[0] / v[2], v[1] / v[2]};
      }
      const double width = std::hypot(wanted[0].x - wanted[1].x, wanted[0].y - wanted[1].y);
      for (std::size_t c = 0; c < 4; ++c)
        off = std::max(off, std::hypot(mat->windows[w].corners[c].x - wanted[c].x, mat->windows[w].corners[c].y - wanted[c].y) / width);
    }
    worst = std::max(worst, off);
    if (off >= 0.005)
      std::fprintf(stderr, "finder %llu: %s, tilt %.0f, %zu markers missed, sd %.3f, corners %.2f %% off\n", static_cast<unsigned long long>(s),
                   mat->layout.name.c_str(), tilt, mat->missed.size(), mat->sd, 100 * off);
    windows_right += off < 0.005;
  });
  std::printf("the mat in photos: any turn, tilt to 40 degrees, blur to 1.5 pixels at 1500, 15 %% fall-off, phone noise; seed %llu\n",
              static_cast<unsigned long long>(seed));
  std::printf("found in %d of %d; every window's corners within 0.5 %% of its width in %d; the worst %.2f %%\n", found, trials, windows_right, 100 * worst);
  std::printf("in pictures without one: found in %d of %d\n", false_mats, without);
  const std::filesystem::path folder = HUEWRIGHT_SOURCE_DIR "/../shared/photos";
  if (!std::filesystem::is_directory(folder)) return;
  int looked = 0, real = 0;
  for (const auto& file : std::filesystem::directory_iterator(folder)) {
    auto photo = hw::Photo::open(file.path());
    if (!photo) continue;
    const auto preview = photo->preview(1500);
    if (!preview) continue;
    ++looked;
    real += hw::findMat(*preview, layouts).has_value();
  }
  std::printf("in real photographs without one: found in %d of %d\n", real, looked);
}

void stepped(int trials, std::uint64_t seed) {
  const auto session = hw::Session::open(HUEWRIGHT_SOURCE_DIR "/calib");
  if (!session) std::exit(5);
  std::mutex lock;
  int found = 0;
  std::vector<std::pair<double, Outcome>> strips;
  hf::forEach(trials, [&](int i) {
    const std::uint64_t s = seed + 10 * static_cast<std::uint64_t>(i);
    hr::Random random(s + 3);
    hr::SceneSpec scene = matScene(s, 0, false, 0.004);
    hr::PanelSpec& panel = scene.panels[0];
    const int count = 4 + random.below(3);
    for (int n = 0; n < count; ++n) panel.steps.push_back(n), panel.step_widths.push_back(random.uniform(0.8, 1.25));
    panel.tape = {random.uniform(0, 5), random.chance(0.5) ? 0.25 : -0.3, random.uniform(0, 1.5)};
    panel.paint.share = random.uniform(0.15, 0.6);
    const File file(scene, s, "-steps");
    auto request = requestFor(file);
    request.steps = panel.steps;
    const auto report = session->judge(request);
    const std::scoped_lock hold(lock);
    if (!report) {
      std::fprintf(stderr, "steps %llu (%d): %s\n", static_cast<unsigned long long>(s), count, hw::sentence(report.error()).c_str());
      return;
    }
    ++found;
    for (std::size_t n = 1; n < report->verdicts.size(); ++n) {
      if (report->reading.panels[n].clipped > 0.02 || report->reading.card.clipped > 0.02) continue;
      const auto& truth = file.picture.truth;
      const hw::Verdict& v = report->verdicts[n];
      strips.push_back({hw::deltaE2000(truth.panels[0].strips[n].lab, truth.card.lab), {true, false, v.de00, v.low, v.high}});
    }
  });
  std::printf("stepped panels of 4 to 6 strips, tape lines, widths ±25 %%; seed %llu; all strips found on %d of %d\n",
              static_cast<unsigned long long>(seed), found, trials);
  std::printf("                                       n   error med/95th  covers   half-width  refused\n");
  std::vector<std::pair<double, Outcome>> near;
  for (const auto& row : strips)
    if (row.first < 5) near.push_back(row);
  printRow("strips under 5 from the card", near, 0);
  printRow("all strips", strips, 0);
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 4) {
    std::fputs("mat_figures finder|falloff|flake|veil|steps TRIALS SEED\n", stderr);
    return 2;
  }
  const std::string what = argv[1];
  const int trials = std::atoi(argv[2]);
  const auto seed = static_cast<std::uint64_t>(std::strtoull(argv[3], nullptr, 10));
  if (what == "falloff") compareWays("15 % fall-off and 5 % vignette", trials, seed, fallOff);
  else if (what == "flake") compareWays("metallic grounds, light along panel and card", trials, seed, flake);
  else if (what == "veil") compareWays("veil", trials, seed, veil);
  else if (what == "steps") stepped(trials, seed);
  else if (what == "finder") finder(trials, seed);
  else return 2;
  return 0;
}
