// What a live camera costs: taking a frame in, a verdict on the average, how many verdicts a second that makes on two cores, and how much of them 30 frames and 10 verdicts a second take.
//   live_bench
#include <algorithm>
#include <cstdio>
#include <ctime>
#include <functional>
#include <opencv2/imgproc.hpp>
#include <string>
#include <vector>

#include "capture/frame_check.hpp"
#include "session/live_judge.hpp"
#include "support/live_frames.hpp"

namespace {

namespace hw = huewright;

constexpr hw::Size kFull{1920, 1080};
constexpr int kFrames = 8;

/// Milliseconds of this thread, the median over runs.
double milliseconds(int runs, const std::function<void(int)>& work) {
  std::vector<double> times;
  const auto now = [] {
    timespec t{};
    ::clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
    return 1e3 * static_cast<double>(t.tv_sec) + 1e-6 * static_cast<double>(t.tv_nsec);
  };
  for (int i = 0; i < runs; ++i) {
    const double begun = now();
    work(i);
    times.push_back(now() - begun);
  }
  std::ranges::nth_element(times, times.begin() + runs / 2);
  return times[static_cast<std::size_t>(runs / 2)];
}

/// Frames of a sample photo made 1920 wide, the middle 1080 rows of it.
std::vector<std::vector<std::uint8_t>> framesOf(const char* photo) {
  hw::fixtures::LiveScene scene(photo);
  std::vector<std::vector<std::uint8_t>> frames;
  for (int i = 0; i < kFrames; ++i) {
    std::vector<std::uint8_t> codes = scene.frame(3);
    const cv::Mat small(scene.size().height, scene.size().width, CV_8UC3, codes.data());
    cv::Mat large;
    const int height = std::max(kFull.height, kFull.width * scene.size().height / scene.size().width);
    cv::resize(small, large, {kFull.width, height}, 0, 0, cv::INTER_LINEAR);
    const cv::Mat part = large.rowRange((height - kFull.height) / 2, (height - kFull.height) / 2 + kFull.height);
    frames.emplace_back(part.data, part.data + static_cast<std::ptrdiff_t>(3 * kFull.width * kFull.height));
  }
  return frames;
}

void live(const char* name, const char* photo, hw::ChartUse use, bool chart = false) {
  auto session = hw::Session::open(HUEWRIGHT_SOURCE_DIR "/calib");
  if (!session) return;
  hw::JudgeRequest request;
  request.photo = "camera";
  request.grey_y = 0.19;
  request.card_kind = hw::CardKind::Same;
  request.chart_use = use;
  if (chart) {  // as README.md has its places, in a picture of 1300 x 680 that was made 1920 x 1080
    const auto place = [](int x, int y, int w, int h) {
      hw::Quad quad = hw::toQuad({x, y, w, h});
      for (hw::Point& p : quad.corners) p = {p.x * kFull.width / 1300, p.y * kFull.height / 680};
      return quad;
    };
    request.regions.panels = {place(78, 115, 265, 378)};
    request.regions.card = place(425, 130, 194, 193);
    request.regions.greys = {place(451, 438, 138, 75)};
  }
  const auto frames = framesOf(photo);
  auto judge = hw::LiveJudge::begin(*session, request);
  if (!judge) return;
  judge->take(frames[0], kFull);
  hw::LiveVerdict verdict;
  const double first = milliseconds(1, [&](int) { verdict = judge->judge(); });
  if (!verdict.report || verdict.report->chart.has_value() != chart) {
    std::printf("# %s: %s\n", name, verdict.problem ? sentence(*verdict.problem).c_str() : "the chart was not used as it should");
    return;
  }
  hw::FrameCheck check(true);
  const double looked = milliseconds(60, [&](int i) { check.look({.size = kFull, .rgb = frames[static_cast<std::size_t>(i % kFrames)]}); });
  const double taken = milliseconds(60, [&](int i) { judge->take(frames[static_cast<std::size_t>(i % kFrames)], kFull); });
  const double judged = milliseconds(40, [&](int) { verdict = judge->judge(); });
  const auto line = [&](const char* what, double value, const char* aim) { std::printf("%-44s %8.2f %6s\n", (std::string(name) + what).c_str(), value, aim); };
  line("-first-verdict-ms", first, "-");
  line("-frame-check-ms", looked, "-");
  line("-take-ms", taken, "-");
  line("-verdict-ms", judged, "-");
  // 30 frames a second are taken in by one thread; what is left of its second is for verdicts.
  line("-verdicts-a-second", (1000 - 30 * (taken + looked)) / judged, "10");
  line("-cpu-share-of-two-cores", (30 * (taken + looked) + 10 * judged) / 2000, "1");
}

}  // namespace

int main() {
  std::printf("# a live camera of 1920 x 1080, 30 frames a second, CPU of one thread; share: of two cores, with ten verdicts a second\n");
  const auto frames = framesOf("on-the-mat.jpg");
  std::vector<cv::Mat> grey;
  for (const auto& codes : frames) {
    cv::Mat one;
    cv::Mat(kFull.height, kFull.width, CV_8UC3, const_cast<std::uint8_t*>(codes.data())).convertTo(one, CV_32FC3);
    cv::cvtColor(one, one, cv::COLOR_RGB2GRAY);
    grey.push_back(one);
  }
  const double correlated = milliseconds(10, [&](int i) { cv::phaseCorrelate(grey[static_cast<std::size_t>(i % kFrames)].clone(), grey[0].clone()); });
  auto session = hw::Session::open(HUEWRIGHT_SOURCE_DIR "/calib");
  if (!session) return 5;
  hw::JudgeRequest request;
  request.photo = "camera";
  auto judge = hw::LiveJudge::begin(*session, request);
  if (!judge) return 5;
  judge->take(frames[0], kFull);
  static_cast<void>(judge->judge());
  const double taken = milliseconds(40, [&](int i) { judge->take(frames[static_cast<std::size_t>(i % kFrames)], kFull); });
  std::printf("%-44s %8.2f %6s\n", "take-vs-phasecorrelate", taken / correlated, "-");
  live("mat", "on-the-mat.jpg", hw::ChartUse::Auto);
  live("mat-no-chart-sought", "stepped.jpg", hw::ChartUse::None);
  live("chart", "with-chart.jpg", hw::ChartUse::Auto, true);
  return 0;
}
