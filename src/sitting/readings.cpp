#include "sitting/inside.hpp"

#include <algorithm>
#include <fmt/format.h>

#include "session/joining_cautions.hpp"
#include "session/series.hpp"
#include "session/series_names.hpp"
#include "session/tagged.hpp"
#include "sitting/memory.hpp"
#include "sitting/window_words.hpp"

namespace huewright {

void Sitting::Inside::advise() {
  series_key = seriesKey(state.plan);
  if (!state.plan.series) {
    slow.cancel("advise");
    state.series = {};
    state.advising = false;
    return;
  }
  state.advising = true;
  slow.post("advise", "Working out the next mix", [this, series = *state.plan.series, tints = state.plan.tints, part = state.plan.part_coats](const Progress&) -> Finish {
    return [this, shown = seriesForShow(series, tints, part)] {
      state.series = shown;
      state.advising = false;
    };
  });
}

Result<Sitting::Inside::Kept> Sitting::Inside::keepReadings(const JudgeReport& judged) {
  const double carrier = carrierOf(judged).value_or(0);
  auto read = seriesOf(judged, carrier);
  if (!read) return std::unexpected(read.error());
  const Series none;
  const Series& there = state.plan.series ? *state.plan.series : none;
  const double of_series = state.plan.series ? there.carrier_per_tint : carrier;
  // A plain panel without a tag gets no name: in the window it is known by its mix and coats.
  bool by_name = judged.stepped;
  for (SeriesPanel& panel : read->panels) {
    by_name = by_name || !panel.name.empty();
    const double its_own = panel.carrier_per_tint.value_or(carrier);
    panel.carrier_per_tint = its_own == of_series ? std::nullopt : std::optional(its_own);
    if (read->ground && there.ground) panel.ground = read->ground->lab;
    if (panel.stage.empty()) panel.stage = state.plan.choices.stage;
  }
  if (by_name) nameAnew(there.panels, of_series, read->panels, judged);
  if (by_name && read->panels.empty()) return Kept{};
  if (auto full = noRoomCaution(there.panels.size(), read->panels.size())) return Kept{0, full};
  remember("keeping a reading");
  Series& series = beginSeries(carrier);
  if (!series.target) series.target = read->target;
  if (series.panels.empty()) series.sigma = read->sigma;
  for (const SeriesPanel& panel : read->panels) series.panels.push_back(panel);
  if (!series.ground) series.ground = read->ground;
  state.plan.series_saved = false;
  Kept kept{read->panels.size(), otherCardCaution(series.target, read->target)};
  follow();
  return kept;
}

void Sitting::Inside::addReading() {
  if (!report) return say("There is no verdict to keep yet.", true);
  // Of what was told and of what tags tell.
  if (!untold(*report).empty()) return say("Say first how the panel was sprayed: the mix, the carrier, and the coats (key E); or lay a tag by it that tells them.", true);
  const auto kept = keepReadings(*report);
  if (!kept) return say(kept.error());
  if (kept->caution) return say(windowWords(*kept->caution), true);
  if (kept->readings == 0) return say("This reading is in the series already.", true);
  say(kept->readings == 1 ? "The reading is kept in the series." : fmt::format("{} readings are kept in the series.", kept->readings));
}

Series& Sitting::Inside::beginSeries(double carrier) {
  if (!state.plan.series) {
    state.plan.series.emplace();
    state.plan.series->carrier_per_tint = carrier;
    state.plan.series_file.clear();
  }
  return *state.plan.series;
}

void Sitting::Inside::useAsGround() {
  if (!report) return say("There is no verdict to take the ground from yet.", true);
  remember("taking a ground");
  Series& series = beginSeries(state.plan.choices.carrier.value_or(0));
  series.ground = NamedGround{series.ground ? series.ground->name : "", report->reading.panels[report->main].lab};
  state.plan.series_saved = false;
  say("The panel in this photo counts as the bare ground of the series.");
  follow();
}

void Sitting::Inside::newSeries() {
  remember("beginning a series");
  state.plan.series.reset();
  state.plan.series_file.clear();
  state.plan.series_saved = true;
  follow();
}

void Sitting::Inside::setSeries(const act::SetSeries& wish) {
  remember(wish.words, wish.joins);
  state.plan.series = wish.series;
  state.plan.series_saved = false;
  follow();
}

}  // namespace huewright
