// The window: waits for events, draws a frame, hands on what the person did. Everything else is in the sitting and in the views.
#include <cstdio>
#include <exception>
#include <memory>
#include <string_view>

#include "desk/desk.hpp"
#include "desk/look_numbers.hpp"
#include "desk/shell.hpp"
#include "session/data_folder.hpp"
#include "session/user_data.hpp"
#include "sitting/sitting.hpp"

namespace {

namespace hw = huewright;
namespace hd = huewright::desk;

constexpr double kWhileWorking = 0.1, kIdle = 3600;   // seconds to sleep when nothing happens
constexpr int kSettling = 3;                          // frames drawn after an event, until ImGui's own state has come to rest
constexpr int kLiveSettling = 1;                      // while a camera runs, which soon gives the next picture

int refuse(const hw::Problem& problem) {
  std::fprintf(stderr, "%s\n", hw::sentence(problem).c_str());
  return hw::exitCode(problem.code);
}

hw::Action dropped(std::vector<std::filesystem::path> files, hd::DeskLook& look) {
  if (files.front().extension() == ".json") {
    look.page = hd::Page::Mixes;
    return hw::act::OpenSeries{files.front()};
  }
  std::error_code ignored;
  if (std::filesystem::is_directory(files.front(), ignored)) {
    look.page = hd::Page::Live;
    return hw::act::FollowFolder{files.front()};
  }
  if (files.front().extension() == ".avi" || files.front().extension() == ".mkv") {
    look.page = hd::Page::Live;
    return hw::act::StartCamera{files.front().string()};
  }
  if (look.page == hd::Page::Camera) return hw::act::AddChartPhotos{std::move(files)};
  look.page = hd::Page::Panel;
  return hw::act::OpenPhotos{std::move(files), hw::PhotoRole::First};
}

int run(const std::vector<std::filesystem::path>& files) {
  std::unique_ptr<hd::Shell> shell;  // outlives the sitting, whose workers wake it
  hw::SittingPlaces places;
  const auto calib = hw::findCalib();
  if (!calib) return refuse(calib.error());
  places.calib = *calib;
  if (const auto samples = hw::findSamples()) places.samples = *samples;
  if (const auto memory = hw::sittingPath()) places.memory = *memory;
  auto sitting = hw::Sitting::open(std::move(places), hd::Shell::wake);
  if (!sitting) return refuse(sitting.error());

  const hd::DeskLook kept = hd::lookOf(sitting->state().window);
  auto opened = hd::Shell::open("Huewright", kept.width, kept.height);
  if (!opened) return refuse(opened.error());
  shell = std::move(*opened);
  hd::Desk desk(shell->textures(), kept, shell->contentScale());
  desk.view().series.cup = hd::cupOf(sitting->state().window);
  if (!files.empty()) {
    sitting->apply(dropped(files, desk.view().look));
    desk.view().first_step = 0;  // whoever names a file knows what to do
    desk.view().look.been_here = true;
  }

  for (int settling = kSettling; !shell->closed() && !desk.view().quit;) {
    const bool working = !sitting->state().work.what.empty();
    shell->wait(settling > 0 ? 0 : working ? kWhileWorking : kIdle);
    const int rest = sitting->state().live.running ? kLiveSettling : kSettling;
    settling = settling > 0 ? settling - 1 : rest;
    if (sitting->poll()) settling = rest;
    if (auto fallen = shell->dropped(); !fallen.empty()) {
      sitting->apply(dropped(std::move(fallen), desk.view().look));
      desk.view().first_step = 0;
    }

    desk.setContentScale(shell->contentScale());
    if (desk.typeIsOld()) {
      desk.remakeType();
      shell->fontsChanged();
    }
    const hw::Size size = shell->size();
    if (size.width < 1 || size.height < 1) continue;  // folded away
    shell->beginFrame();
    const auto actions = desk.frame(sitting->state(), static_cast<float>(size.width), static_cast<float>(size.height));
    shell->endFrame(desk.look().greys.surround);
    for (const hw::Action& action : actions) sitting->apply(action);
    if (!actions.empty()) settling = kSettling;
    const hw::Size window = shell->windowSize();
    desk.view().look.width = window.width;
    desk.view().look.height = window.height;
    sitting->apply(hw::act::KeepWindow{hd::numbersOf(desk.view().look, desk.view().series.cup)});
  }
  shell->hide();
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  try {
    std::vector<std::filesystem::path> files;
    for (int i = 1; i < argc; ++i) {
      const std::string_view word = argv[i];
      if (word == "--help") {
        std::puts("huewright-desk [PHOTO… | SERIES.json | FOLDER | FILM]\nThe window of Huewright. Every action has a key; F12 lists them.");
        return 0;
      }
      if (word == "--version") {
        std::puts("huewright-desk " HUEWRIGHT_VERSION);
        return 0;
      }
      if (word.starts_with("--")) {
        std::fprintf(stderr, "\"%s\" is not an option of huewright-desk. Name photos, a series file, a folder or a film, or nothing at all.\n", argv[i]);
        return 2;
      }
      files.emplace_back(argv[i]);
    }
    return run(files);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "Huewright made a mistake of its own (%s). What you did is kept; please report it.\n", error.what());
    return 4;
  }
}
