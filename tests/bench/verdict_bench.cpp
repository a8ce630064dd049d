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

void addVerdict(const std::filesystem::path& photo) {
  const std::string path = photo.string();
  add({"verdict-vs-imread", "0.5", "Session::judge on the 12-megapixel JPEG against cv::imread of it, file cached; the aim is 0.35 later", 30,
       [photo] {
         static const auto session = Session::open(HUEWRIGHT_SOURCE_DIR "/calib");
         JudgeRequest request;
         request.photo = photo;
         request.regions = {{toQuad(kPanel)}, toQuad(kCard), {toQuad(kGrey)}};
         request.grey_y = 0.18;
         return session && session->judge(request).has_value();
       },
       [path] { return !cv::imread(path).empty(); }});
  add({"process-vs-imread-process", "-", "the whole program huewright judge against a program that only calls cv::imread", 12,
       [photo] { return runs(HUEWRIGHT_PROGRAM, judgeWords(photo)); }, [path] { return runs(IMREAD_PROGRAM, {path}); }});
}

}  // namespace huewright::bench
