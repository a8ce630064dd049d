#include "sitting/inside.hpp"

#include <cstdlib>

#include "sitting/folder.hpp"
#include "sitting/window_words.hpp"

namespace huewright {

void Sitting::Inside::workOutPour(const PourRequest& wish) {
  slow.post("pour", "Working out the cup", [this, wish](const Progress&) -> Finish {
    return [this, wish, done = pour(wish)] {
      state.pour = {wish, {}, {}};
      if (!done) {
        state.pour.trouble = windowWords(done.error());
        if (!wish.out.empty()) say(done.error());
        return;
      }
      state.pour.report = std::make_shared<const PourReport>(*done);
      if (!wish.out.empty()) say("The sheet is in " + wish.out.front().string() + ".");
    };
  });
}

void Sitting::Inside::listFolder(fs::path folder) {
  if (folder.empty()) folder = state.folder.folder;
  if (folder.empty() && !state.recent.empty()) folder = state.recent.front().parent_path();
  if (folder.empty()) {
    const char* home = std::getenv("HOME");
    folder = home && *home ? home : "/";
  }
  quick.post("folder", "", [this, folder](const Progress&) -> Finish { return [this, shown = readFolder(folder)] { state.folder = shown; }; });
}

void Sitting::Inside::demo(int step) {
  if (step == 1) {
    open({{places.samples / "on-the-mat.jpg"}, PhotoRole::First});
  } else if (step == 2) {
    openSeries(places.samples / "teal-series.json");
  } else {
    addCharts({places.samples / "with-chart.jpg"});
  }
}

}  // namespace huewright
