#include "sitting/inside.hpp"

#include "photo/write.hpp"
#include "session/series_text.hpp"
#include "session/text_file.hpp"

namespace huewright {

void Sitting::Inside::openSeries(const fs::path& file) {
  quick.post("series file", "Opening the series", [this, file](const Progress&) -> Finish {
    const auto text = readTextFile(file, Code::SeriesUnusable);
    return [this, file, series = text ? readSeries(*text) : Result<Series>(std::unexpected(text.error()))] {
      if (!series) return say(series.error());
      remember("opening a series");
      state.plan.series = *series;
      state.plan.series_file = file;
      state.plan.series_saved = true;
      lately(file);
      follow();
    };
  });
}

void Sitting::Inside::saveSeries(const fs::path& wish) {
  if (!state.plan.series) return say("There is no series to save yet.", true);
  fs::path file = wish.empty() ? state.plan.series_file : wish;
  if (file.empty()) return say("Say first where the series is to be saved (Ctrl+Shift+S).", true);
  if (file.extension() != ".json") file += ".json";
  std::error_code ignored;
  if (file != state.plan.series_file && fs::exists(file, ignored)) return say(Problem{Code::FileThere, file.string()});
  quick.post("series file", "Saving the series", [this, file, text = seriesText(*state.plan.series)](const Progress&) -> Finish {
    return [this, file, text, written = writeWhole(file, text)] {
      if (!written) return say(written.error());
      state.plan.series_file = file;
      state.plan.series_saved = state.plan.series && seriesText(*state.plan.series) == text;
      lately(file);
      say("The series is saved in " + file.string() + ".");
      keep();
    };
  });
}

}  // namespace huewright
