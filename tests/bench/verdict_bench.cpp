#include <fcntl.h>
#include <opencv2/imgcodecs.hpp>
#include <spawn.h>
#include <string>
#include <sys/wait.h>
#include <vector>

#include "bench/pair.hpp"
#include "bench/photo.hpp"
#include "bench/ratios.hpp"
#include "session/session.hpp"

extern char** environ;

namespace huewright::bench {
namespace {

/// Runs a program to its end, its output thrown away; true when it exits with 0.
bool runs(const std::string& program, std::vector<std::string> words) {
  words.insert(words.begin(), program);
  std::vector<char*> pointers;
  for (std::string& word : words) pointers.push_back(word.data());
  pointers.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  ::posix_spawn_file_actions_init(&actions);
  ::posix_spawn_file_actions_addopen(&actions, 1, "/dev/null", O_WRONLY, 0);
  pid_t child = 0;
  const int failed = ::posix_spawn(&child, program.c_str(), &actions, nullptr, pointers.data(), environ);
  ::posix_spawn_file_actions_destroy(&actions);
  int status = 0;
  return failed == 0 && ::waitpid(child, &status, 0) == child && WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

}  // namespace

void addVerdict(const std::filesystem::path& photo, const std::filesystem::path& with_chart) {
  const auto verdict = [](const char* name, const char* aim, const char* remark, const std::filesystem::path& file, ChartUse use, bool chart) {
    add({name, aim, remark, 30,
         [file, use, chart] {
           static const auto session = Session::open(HUEWRIGHT_SOURCE_DIR "/calib");
           JudgeRequest request;
           request.photo = file;
           request.regions = {{toQuad(kPanel)}, toQuad(kCard), {toQuad(kGrey)}};
           request.grey_y = 0.18;
           request.chart_use = use;
           if (!session) return false;
           const auto report = session->judge(request);
           return report && report->chart.has_value() == chart;
         },
         [path = file.string()] { return !cv::imread(path).empty(); }});
  };
  verdict("verdict-vs-imread", "0.5",
          "Session::judge with --chart none on the 12-megapixel JPEG against cv::imread of it, file cached; the aim is 0.35 later", photo, ChartUse::None, false);
  verdict("verdict-no-chart-vs-imread", "-", "the same, a chart looked for and none there", photo, ChartUse::Auto, false);
  verdict("verdict-chart-vs-imread", "-", "the same, a chart found and used", with_chart, ChartUse::Auto, true);
  const auto process = [](const char* name, const char* remark, const std::filesystem::path& file, bool look) {
    auto words = judgeWords(file);
    if (!look) words.insert(words.end(), {"--chart", "none"});
    add({name, "-", remark, 12, [words] { return runs(HUEWRIGHT_PROGRAM, words); }, [path = file.string()] { return runs(IMREAD_PROGRAM, {path}); }});
  };
  process("process-vs-imread-process", "the whole program huewright judge --chart none against a program that only calls cv::imread", photo, false);
  process("process-no-chart-vs-imread", "the same, a chart looked for and none there", photo, true);
  process("process-chart-vs-imread", "the same, a chart found and used", with_chart, true);
}

}  // namespace huewright::bench
