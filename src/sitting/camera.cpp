#include "sitting/inside.hpp"

#include <algorithm>
#include <fmt/format.h>

#include "sitting/memory.hpp"
#include "sitting/window_words.hpp"

namespace huewright {

void Sitting::Inside::profile() {
  camera_key = cameraKey(state.plan);
  const auto& files = state.plan.chart_photos;
  std::erase_if(state.camera.photos, [&](const ChartPhotoShown& p) { return std::ranges::find(files, p.file) == files.end(); });
  state.profiling = !files.empty();
  if (files.empty()) {
    slow.cancel("profile");
    state.camera = {};
    return;
  }
  for (const fs::path& file : files)
    if (std::ranges::find(state.camera.photos, file, &ChartPhotoShown::file) == state.camera.photos.end()) readChart(file);
  ProfileRequest wish;
  wish.photos = files;
  wish.encoding = state.plan.chart_encoding;
  slow.post(
      "profile", "Reading the chart", [this, wish](const Progress& progress) -> Finish { return [this, shown = cameraForShow(session, wish, progress.stop())] { takeCamera(shown); }; },
      [this](const std::string& why) { takeCamera(Result<CameraShown>(fail(Code::Internal, why))); });
}

void Sitting::Inside::readChart(const fs::path& file) {
  state.camera.photos.push_back({.file = file, .preview = {}, .size = {}, .trouble = {}, .patches = {}});
  quick.post("chart " + file.string(), "Opening the photo", [this, file, encoding = state.plan.chart_encoding](const Progress&) -> Finish {
    return [this, file, opened = openForShow(file, {}, encoding)] {
      const auto at = std::ranges::find(state.camera.photos, file, &ChartPhotoShown::file);
      if (at == state.camera.photos.end()) return;
      if (opened) at->preview = opened->preview, at->size = opened->size;
      else at->trouble = windowWords(opened.error());
    };
  });
}

void Sitting::Inside::takeCamera(const Result<CameraShown>& shown) {
  state.profiling = false;
  CameraShown next;
  if (shown) next = *shown;
  else next.trouble = shown.error().code == Code::Stopped ? "" : windowWords(shown.error());
  // The pictures stay.
  for (ChartPhotoShown& photo : state.camera.photos) {
    const auto at = std::ranges::find(next.photos, photo.file, &ChartPhotoShown::file);
    photo.patches = at == next.photos.end() ? std::vector<ChartPatchShown>{} : at->patches;
  }
  next.photos = std::move(state.camera.photos);
  state.camera = std::move(next);
}

void Sitting::Inside::addCharts(const std::vector<fs::path>& files) {
  quick.post(fmt::format("open {}", ++opens), "Opening the photo", [this, files, encoding = state.plan.chart_encoding](const Progress&) -> Finish {
    std::optional<Problem> problem;
    for (const fs::path& file : files)
      if (const auto opened = openForShow(file, {}, encoding); !opened && !problem) problem = opened.error();
    return [this, files, problem] {
      if (problem) return say(*problem);
      remember("adding a chart photo");
      for (const fs::path& file : files)
        if (std::ranges::find(state.plan.chart_photos, file) == state.plan.chart_photos.end()) state.plan.chart_photos.push_back(file);
      follow();
    };
  });
}

void Sitting::Inside::saveProfile(fs::path file) {
  if (state.plan.chart_photos.empty()) return say("Add a photo of a colour chart first.", true);
  if (file.extension() != ".json") file += ".json";
  std::error_code ignored;
  if (fs::exists(file, ignored)) return say(Problem{Code::FileThere, file.string()});
  ProfileRequest wish;
  wish.photos = state.plan.chart_photos;
  wish.encoding = state.plan.chart_encoding;
  wish.out = file;
  wish.icc = fs::path(file).replace_extension(".icc");
  slow.post("save profile", "Writing the profile", [this, wish](const Progress& progress) -> Finish {
    return [this, wish, done = session.profile(wish, progress.stop())] {
      if (!done) return say(done.error());
      if (!done->written) return say("The profile is not usable, so nothing was written. " + (done->health.sentences.empty() ? "" : done->health.sentences.front()), true);
      state.camera.written = true;
      remember("using a profile");
      state.plan.choices.profile = wish.out;
      say("The profile is kept in " + wish.out.string() + ", and photos without a chart are judged by it.");
      follow();
    };
  });
}

void Sitting::Inside::dropChart(std::size_t index) {
  if (index >= state.plan.chart_photos.size()) return;
  remember("taking a chart photo out");
  state.plan.chart_photos.erase(state.plan.chart_photos.begin() + static_cast<std::ptrdiff_t>(index));
  follow();
}

}  // namespace huewright
