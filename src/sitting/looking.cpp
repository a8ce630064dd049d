#include "sitting/inside.hpp"

namespace huewright {

std::size_t Sitting::Inside::mapped() const { return map_panel && *map_panel < report->verdicts.size() ? *map_panel : state.judged->main; }

void Sitting::Inside::look() {
  const auto wish = request();
  if (!report || !wish) return;
  if (want_map && !state.map)
    slow.post("map", "Drawing the map", [this, wish = *wish, report = report, panel = mapped()](const Progress& progress) -> Finish {
      return [this, map = mapForShow(wish, *report, panel, progress.stop())] {
        if (map) state.map = *map;
        else say(map.error());
      };
    });
  if (want_marks && !state.marks)
    slow.post("marks", "Looking for glare", [this, wish = *wish, report = report](const Progress& progress) -> Finish {
      return [this, marks = marksForShow(wish, *report, progress.stop())] {
        if (marks) state.marks = *marks;
        else say(marks.error());
      };
    });
}

void Sitting::Inside::wantMap(const act::WantMap& wish) {
  if (wish.panel != map_panel) state.map.reset();
  want_map = wish.on;
  map_panel = wish.panel;
  look();
}

void Sitting::Inside::lookClosely(int id) {
  const PhotoShown* shown = shownPhoto(id);
  if (!shown || shown->full || quick.busy("full")) return;
  quick.post("full", "Reading every pixel", [this, id, file = planned(id)->file, encoding = state.plan.choices.encoding](const Progress&) -> Finish {
    return [this, id, full = everyPixel(file, {}, encoding)] {
      for (PhotoShown& s : state.photos) s.full = s.id == id && full ? *full : nullptr;  // one at a time: they are large
    };
  });
}

void Sitting::Inside::probe(const act::Probe& wish) {
  const PlannedPhoto* photo = planned(wish.id);
  if (!photo) return;
  const auto by = photo->role == PhotoRole::First ? report : nullptr;
  quick.post("probe", "", [this, wish, by, file = photo->file, encoding = state.plan.choices.encoding, pointer = pointer](const Progress&) -> Finish {
    return [this, seen = pointer->look(wish.id, file, wish.at, by.get(), {}, encoding)] {
      if (seen) state.probe = *seen;
      else state.probe.reset();
    };
  });
}

}  // namespace huewright
