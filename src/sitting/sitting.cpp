#include "sitting/sitting.hpp"

#include <algorithm>
#include <cmath>
#include <cstdlib>
#include <fmt/format.h>
#include <span>

#include "photo/write.hpp"
#include "session/series.hpp"
#include "session/series_text.hpp"
#include "session/text_file.hpp"
#include "session/user_data.hpp"
#include "sitting/folder.hpp"
#include "sitting/memory.hpp"
#include "sitting/work.hpp"
#include "sitting/window_words.hpp"
#include "sitting/words.hpp"

namespace huewright {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kMostUndo = 200;
constexpr std::size_t kMostRecent = 12;

template <class... Ts>
struct Overloaded : Ts... {
  using Ts::operator()...;
};

/// The panel that was cut into these strips, which lie side by side in their order. In: at least one.
Quad aroundStrips(std::span<const Quad> strips) {
  const auto& first = strips.front().corners;
  const auto& last = strips.back().corners;
  const Point way{centre(strips.back()).x - centre(strips.front()).x, centre(strips.back()).y - centre(strips.front()).y};
  const Point along{first[1].x - first[0].x, first[1].y - first[0].y}, down{first[3].x - first[0].x, first[3].y - first[0].y};
  const auto part = [&](const Point& axis) { return (way.x * axis.x + way.y * axis.y) / std::hypot(axis.x, axis.y); };
  const double x = part(along), y = part(down);
  if (std::abs(x) >= std::abs(y)) return x >= 0 ? Quad{{first[0], last[1], last[2], first[3]}} : Quad{{last[0], first[1], first[2], last[3]}};
  return y >= 0 ? Quad{{first[0], first[1], last[2], last[3]}} : Quad{{last[0], last[1], first[2], first[3]}};
}

bool takesRegions(PhotoRole role) { return role == PhotoRole::First || role == PhotoRole::OtherLight || role == PhotoRole::Tilted; }

}  // namespace

struct Sitting::Inside {
  Inside(SittingPlaces p, Session s, std::function<void()> wake) : places(std::move(p)), session(std::move(s)), quick(wake), slow(std::move(wake)) {}

  struct Past {
    Plan plan;
    std::string words;
  };

  SittingPlaces places;
  Session session;
  SittingState state;
  std::vector<Past> past, future;
  bool joinable = false;              ///< the last undo step is still being made
  int next_id = 1;
  unsigned opens = 0;
  std::map<std::string, double> window;
  std::string judged_key, series_key, camera_key;
  int judged_photo = 0;               ///< id of the first photo that state.judged is of
  bool want_map = false, want_marks = false;
  std::optional<std::size_t> map_panel;
  std::shared_ptr<Pointer> pointer = std::make_shared<Pointer>();
  std::shared_ptr<const JudgeReport> report;   ///< of the plan as it is; nothing while judging
  Worker quick, slow;                 ///< the last, so that they stop first

  // ---- Saying.

  void say(std::string sentence, bool bad = false) { state.notice = {std::move(sentence), bad, state.notice.number + 1}; }
  void say(const Problem& problem) { say(windowWords(problem), true); }

  // ---- The plan, undone and kept.

  /// Before a change. joins: it goes on with the one before.
  void remember(const std::string& words, bool joins = false) {
    if (joins && joinable && !past.empty() && past.back().words == words) return;
    past.push_back({state.plan, words});
    if (past.size() > kMostUndo) past.erase(past.begin());
    future.clear();
    joinable = true;
  }

  /// After a change: works out what follows from it, and writes the plan down.
  void follow() {
    state.can_undo = !past.empty();
    state.can_redo = !future.empty();
    state.undo_words = past.empty() ? "" : past.back().words;
    state.redo_words = future.empty() ? "" : future.back().words;
    showPhotos();
    if (judgeKey(state.plan) != judged_key) judge();
    if (seriesKey(state.plan) != series_key) advise();
    if (cameraKey(state.plan) != camera_key) profile();
    keep();
  }

  std::string text() const { return memoryText({state.plan, state.recent, window}); }

  void keep() {
    if (places.memory.empty()) return;
    quick.post("memory", "", [file = places.memory, text = text(), this](const Progress&) -> Finish {
      if (writeWhole(file, text)) return {};
      return [this, file] { say(Problem{Code::WriteFailed, file.string()}); };
    });
  }

  void recall() {
    std::error_code ignored;
    if (places.memory.empty() || !fs::exists(places.memory, ignored)) return;
    const auto text = readTextFile(places.memory, Code::MemoryUnusable);
    auto memory = text ? readMemory(*text) : Result<Memory>(std::unexpected(text.error()));
    if (!memory) {
      fs::path aside = places.memory;
      aside += ".unreadable";
      fs::copy_file(places.memory, aside, fs::copy_options::overwrite_existing, ignored);
      say(Problem{Code::MemoryUnusable, aside.string()});
      return;
    }
    state.plan = std::move(memory->plan);
    state.recent = std::move(memory->recent);
    window = std::move(memory->window);
    for (const PlannedPhoto& photo : state.plan.photos) next_id = std::max(next_id, photo.id + 1);
    if (const PlannedPhoto* first = firstPhoto(state.plan)) state.shown = first->id;
  }

  void lately(const fs::path& file) {
    std::error_code ignored;
    const fs::path whole = fs::absolute(file, ignored);
    std::erase(state.recent, whole);
    state.recent.insert(state.recent.begin(), whole);
    if (state.recent.size() > kMostRecent) state.recent.resize(kMostRecent);
  }

  // ---- Photos.

  PhotoShown* shownPhoto(int id) {
    const auto at = std::ranges::find(state.photos, id, &PhotoShown::id);
    return at == state.photos.end() ? nullptr : &*at;
  }
  PlannedPhoto* planned(int id) {
    const auto at = std::ranges::find(state.plan.photos, id, &PlannedPhoto::id);
    return at == state.plan.photos.end() ? nullptr : &*at;
  }

  /// One shown photo for each in the plan, in its order; those that are new are read.
  void showPhotos() {
    std::vector<PhotoShown> next;
    for (const PlannedPhoto& photo : state.plan.photos) {
      PhotoShown shown;
      shown.id = photo.id;
      if (const PhotoShown* old = shownPhoto(photo.id)) shown = *old;
      else shown.opening = true;
      if (photo.by_hand) {
        shown.regions = *photo.by_hand;
        shown.found = false;
      } else if (!shown.found) {
        shown.regions = {};
      }
      next.push_back(std::move(shown));
    }
    state.photos = std::move(next);
    if (!shownPhoto(state.shown)) state.shown = state.photos.empty() ? 0 : state.photos.front().id;
    for (const PhotoShown& shown : state.photos)
      if (shown.opening && !quick.busy("photo " + std::to_string(shown.id))) readPhoto(shown.id);
  }

  void readPhoto(int id) {
    quick.post("photo " + std::to_string(id), "Opening the photo", [this, id, file = planned(id)->file, encoding = state.plan.choices.encoding](const Progress&) -> Finish {
      return [this, id, opened = openForShow(file, {}, encoding)] {
        if (PhotoShown* shown = shownPhoto(id)) put(opened, *shown);
      };
    });
  }

  static void put(const Result<OpenedPhoto>& opened, PhotoShown& shown) {
    shown.opening = false;
    if (!opened) {
      shown.trouble = windowWords(opened.error());
      return;
    }
    shown.facts = opened->facts;
    shown.size = opened->size;
    shown.preview = opened->preview;
  }

  /// Opens them first and changes the plan then, so that a file that cannot be used changes nothing.
  void open(const act::OpenPhotos& wish) {
    if (wish.files.empty()) return;
    quick.post(fmt::format("open {}", ++opens), "Opening the photo", [this, wish, encoding = state.plan.choices.encoding](const Progress& progress) -> Finish {
      std::vector<Result<OpenedPhoto>> opened;
      for (const fs::path& file : wish.files) {
        if (progress.stopped()) return {};
        opened.push_back(openForShow(file, {}, encoding));
        progress.done(static_cast<double>(opened.size()) / static_cast<double>(wish.files.size()));
      }
      return [this, wish, opened = std::move(opened)] { take(wish, opened); };
    });
  }

  void take(const act::OpenPhotos& wish, const std::vector<Result<OpenedPhoto>>& opened) {
    for (std::size_t i = 0; i < opened.size(); ++i)
      if (!opened[i]) return say(opened[i].error());
    Plan& plan = state.plan;
    const bool anew = wish.role == PhotoRole::First;
    if (!anew && !firstPhoto(plan)) return say("Open the photo of the panel first; others can be added to it then.", true);
    remember(anew ? "opening a photo" : "adding a photo");
    if (anew) {
      plan.photos.clear();
      // Another panel: its mix is another one, what the card is and how it is judged are not.
      plan.choices.mixes.clear();
      plan.choices.coats.reset();
      plan.choices.steps.clear();
    } else if (wish.role != PhotoRole::Again) {
      std::erase_if(plan.photos, [&](const PlannedPhoto& p) { return p.role == wish.role; });
    }
    for (std::size_t i = 0; i < opened.size(); ++i) {
      PlannedPhoto photo{next_id++, wish.files[i], i == 0 ? wish.role : PhotoRole::Again, {}};
      PhotoShown shown;
      shown.id = photo.id;
      put(opened[i], shown);
      if (i == 0) state.shown = photo.id;
      plan.photos.push_back(std::move(photo));
      state.photos.push_back(std::move(shown));
      lately(wish.files[i]);
    }
    follow();
  }

  // ---- Judging.

  std::optional<JudgeRequest> request() const {
    const Plan& plan = state.plan;
    const PlannedPhoto* first = firstPhoto(plan);
    if (!first) return {};
    JudgeRequest r;
    r.photo = first->file;
    if (first->by_hand) r.regions = *first->by_hand;
    for (const PlannedPhoto& photo : plan.photos) {
      const ViewRequest view{photo.file, photo.by_hand.value_or(Regions{})};
      switch (photo.role) {
        case PhotoRole::First: break;
        case PhotoRole::Again: r.repeats.push_back(photo.file); break;
        case PhotoRole::ChangedOver: r.swapped = photo.file; break;
        case PhotoRole::OtherLight: r.also = view; break;
        case PhotoRole::Tilted: r.flop = view; break;
      }
    }
    const Choices& c = plan.choices;
    r.card_lab = c.card_lab;
    r.grey_y = c.grey_y;
    r.encoding = c.encoding;
    r.mixes = c.mixes;
    if (c.steps.empty()) r.coats = c.coats;
    r.steps = c.steps;
    r.carrier = c.carrier;
    r.chart_use = c.use_chart ? ChartUse::Auto : ChartUse::None;
    r.profile = c.profile;
    r.card_kind = c.card_kind;
    r.tolerance = c.tolerance;
    if (c.kept_grey && !c.grey_y) r.grey = keptGrey();
    return r;
  }

  /// The grey that this person keeps, where there is one.
  static std::optional<fs::path> keptGrey() {
    const auto path = keptGreyPath();
    std::error_code ignored;
    if (path && fs::exists(*path, ignored)) return *path;
    return {};
  }

  void judge() {
    judged_key = judgeKey(state.plan);
    report.reset();
    state.map.reset();
    state.marks.reset();
    state.kept_grey = keptGrey().has_value();
    const PlannedPhoto* first = firstPhoto(state.plan);
    if (!first || first->id != judged_photo) state.judged.reset();  // a verdict on another panel
    judged_photo = first ? first->id : 0;
    const auto wish = request();
    if (!wish) {
      slow.cancel("judge");
      state.judging = false;
      state.judged.reset();
      state.judge_trouble.clear();
      return;
    }
    state.judging = true;
    slow.post(
        "judge", "Judging the panel",
        [this, wish = *wish](const Progress& progress) -> Finish {
          auto judged = session.judge(wish, progress.stop());
          return [this, judged = std::move(judged)]() mutable { take(std::move(judged)); };
        },
        [this](const std::string& why) { take(Result<JudgeReport>(fail(Code::Internal, why))); });
  }

  void take(Result<JudgeReport> judged) {
    state.judging = false;
    if (!judged) {
      state.judged.reset();
      state.judge_trouble = judged.error().code == Code::Stopped ? "" : windowWords(judged.error());
      return;
    }
    state.judge_trouble.clear();
    report = std::make_shared<const JudgeReport>(std::move(*judged));
    state.judged = judgedShown(report);
    for (PhotoShown& shown : state.photos) {
      const PlannedPhoto* photo = planned(shown.id);
      const Regions* found = photo->role == PhotoRole::First          ? &report->regions
                             : photo->role == PhotoRole::OtherLight ? report->also ? &report->also->regions : nullptr
                             : photo->role == PhotoRole::Tilted     ? report->flop ? &report->flop->regions : nullptr
                                                                    : nullptr;
      if (photo->role == PhotoRole::First) {
        shown.chart = report->chart;
        shown.mat = report->mat;
      }
      if (!found) continue;
      shown.found = !photo->by_hand;
      if (photo->by_hand) continue;
      shown.regions = *found;
      if (photo->role == PhotoRole::First && report->stepped) shown.regions.panels = {aroundStrips(found->panels)};
    }
    look();
  }

  /// The panel that a map is wanted of.
  std::size_t mapped() const { return map_panel && *map_panel < report->verdicts.size() ? *map_panel : state.judged->main; }

  /// The map and the marks, where they are wanted and there is a verdict to make them from.
  void look() {
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

  // ---- The series.

  void advise() {
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

  void addReading() {
    const Choices& c = state.plan.choices;
    if (!report) return say("There is no verdict to keep yet.", true);
    if (c.mixes.empty() || !c.carrier || (!c.coats && c.steps.empty()))
      return say("Say first how the panel was sprayed: the mix, the carrier, and the coats (key E).", true);
    auto read = seriesOf(*report, *c.carrier);
    if (!read) return say(read.error());
    remember("keeping a reading");
    Series& series = beginSeries(*c.carrier);
    if (!series.target) series.target = read->target;
    if (series.panels.empty()) series.sigma = read->sigma;
    const auto taken = [&](const std::string& piece) { return std::ranges::any_of(series.panels, [&](const SeriesPanel& p) { return p.piece == piece; }); };
    std::string piece = read->panels.empty() ? "" : read->panels.front().piece;
    for (int n = 2; !piece.empty() && taken(piece); ++n) piece = fmt::format("{} {}", read->panels.front().piece, n);  // another stepped panel
    for (SeriesPanel& panel : read->panels) {
      panel.piece = piece;
      if (panel.stage.empty()) panel.stage = c.stage;
      if (*c.carrier != series.carrier_per_tint) panel.carrier_per_tint = *c.carrier;
      if (read->ground && series.ground) panel.ground = read->ground->lab;
      series.panels.push_back(std::move(panel));
    }
    if (!series.ground) series.ground = read->ground;
    state.plan.series_saved = false;
    constexpr double kOtherCard = 2;  // ΔE00, beyond what two readings of one card differ by; a choice
    const double apart = series.target && read->target ? deltaE2000(*series.target, *read->target) : 0;
    if (apart > kOtherCard)
      say(fmt::format("The reading is kept, but the card in this photo lies ΔE00 {:.1f} from the series' wanted colour. If it is another card, undo this and begin another series.", apart), true);
    else say(read->panels.size() == 1 ? "The reading is kept in the series." : fmt::format("{} readings are kept in the series.", read->panels.size()));
    follow();
  }

  Series& beginSeries(double carrier) {
    if (!state.plan.series) {
      state.plan.series.emplace();
      state.plan.series->carrier_per_tint = carrier;
      state.plan.series_file.clear();
    }
    return *state.plan.series;
  }

  void useAsGround() {
    if (!report) return say("There is no verdict to take the ground from yet.", true);
    remember("taking a ground");
    Series& series = beginSeries(state.plan.choices.carrier.value_or(0));
    series.ground = NamedGround{series.ground ? series.ground->name : "", report->reading.panels[report->main].lab};
    state.plan.series_saved = false;
    say("The panel in this photo counts as the bare ground of the series.");
    follow();
  }

  void openSeries(const fs::path& file) {
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

  void saveSeries(const fs::path& wish) {
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

  // ---- The camera.

  void profile() {
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
        "profile", "Reading the chart", [this, wish](const Progress& progress) -> Finish { return [this, shown = cameraForShow(session, wish, progress.stop())] { take(shown); }; },
        [this](const std::string& why) { take(Result<CameraShown>(fail(Code::Internal, why))); });
  }

  void readChart(const fs::path& file) {
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

  void take(const Result<CameraShown>& shown) {
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

  void addCharts(const std::vector<fs::path>& files) {
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

  void saveProfile(fs::path file) {
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

  // ---- Pouring, folders, the demo.

  void workOutPour(const PourRequest& wish) {
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

  void listFolder(fs::path folder) {
    if (folder.empty()) folder = state.folder.folder;
    if (folder.empty() && !state.recent.empty()) folder = state.recent.front().parent_path();
    if (folder.empty()) {
      const char* home = std::getenv("HOME");
      folder = home && *home ? home : "/";
    }
    quick.post("folder", "", [this, folder](const Progress&) -> Finish { return [this, shown = readFolder(folder)] { state.folder = shown; }; });
  }

  void demo(int step) {
    if (step == 1) {
      open({{places.samples / "on-the-mat.jpg"}, PhotoRole::First});
    } else if (step == 2) {
      openSeries(places.samples / "teal-series.json");
    } else {
      addCharts({places.samples / "with-chart.jpg"});
    }
  }

  void step(std::vector<Past>& from, std::vector<Past>& to, const char* none) {
    if (from.empty()) return say(none, true);
    to.push_back({std::move(state.plan), from.back().words});
    state.plan = std::move(from.back().plan);
    from.pop_back();
    joinable = false;
    follow();
  }

  void apply(const Action& action);
};

namespace {

/// What is kept must be found again from any folder.
std::vector<fs::path> absolute(std::vector<fs::path> files) {
  std::error_code ignored;
  for (fs::path& file : files) file = fs::absolute(file, ignored).lexically_normal();
  return files;
}

}  // namespace

void Sitting::Inside::apply(const Action& action) {
  // What was done is told until the next thing is; what went wrong stays until it is put away.
  const bool looking = std::holds_alternative<act::KeepWindow>(action) || std::holds_alternative<act::Probe>(action) || std::holds_alternative<act::LookClosely>(action) ||
                       std::holds_alternative<act::WantMap>(action) || std::holds_alternative<act::WantMarks>(action) || std::holds_alternative<act::ShowPhoto>(action) ||
                       std::holds_alternative<act::ListFolder>(action) || std::holds_alternative<act::WorkOutPour>(action);
  if (!looking && !state.notice.bad) state.notice.sentence.clear();
  std::visit(
      Overloaded{
          [&](const act::OpenPhotos& a) { open({absolute(a.files), a.role}); },
          [&](const act::ClosePhoto& a) {
            const PlannedPhoto* photo = planned(a.id);
            if (!photo) return;
            remember("closing a photo");
            if (photo->role == PhotoRole::First) state.plan.photos.clear();
            else std::erase_if(state.plan.photos, [&](const PlannedPhoto& p) { return p.id == a.id; });
            follow();
          },
          [&](const act::SetRole& a) {
            PlannedPhoto* photo = planned(a.id);
            if (!photo || photo->role == a.role) return;
            if (photo->role == PhotoRole::First) return say("This is the photo that is judged. Give that place to another one instead.", true);
            remember("changing what a photo is for");
            for (PlannedPhoto& other : state.plan.photos)
              if (other.id != a.id && other.role == a.role && a.role != PhotoRole::Again) other.role = photo->role;
            photo->role = a.role;
            if (!takesRegions(a.role)) photo->by_hand.reset();
            for (PhotoShown& shown : state.photos) shown.found = false;
            follow();
          },
          [&](const act::ShowPhoto& a) {
            if (planned(a.id)) state.shown = a.id;
          },
          [&](const act::SetRegions& a) {
            PlannedPhoto* photo = planned(a.id);
            if (!photo) return;
            if (!takesRegions(photo->role)) return say("In this photo things lie where they lie in the first one.", true);
            remember(a.words, a.joins);
            photo->by_hand = a.regions;
            follow();
          },
          [&](const act::FindRegions& a) {
            PlannedPhoto* photo = planned(a.id);
            if (!photo || !photo->by_hand) return;
            remember("looking for the mat");
            photo->by_hand.reset();
            follow();
          },
          [&](const act::SetChoices& a) {
            remember("changing how it was sprayed or is judged", a.joins);
            state.plan.choices = a.choices;
            follow();
          },
          [&](const act::Stop&) {
            quick.cancelAll();
            slow.cancelAll();
            state.judging = state.advising = state.profiling = false;
            judged_key.clear(), series_key.clear(), camera_key.clear();  // the next change starts them again
            if (!report && firstPhoto(state.plan)) {
              state.judged.reset();
              state.judge_trouble = "It was stopped before there was a verdict. Any change starts it again.";
            }
            for (PhotoShown& shown : state.photos)
              if (shown.opening) shown.opening = false, shown.trouble = "Stopped before it was read.";
            keep();
          },
          [&](const act::LookClosely& a) {
            const PhotoShown* shown = shownPhoto(a.id);
            if (!shown || shown->full || quick.busy("full")) return;
            quick.post("full", "Reading every pixel", [this, id = a.id, file = planned(a.id)->file, encoding = state.plan.choices.encoding](const Progress&) -> Finish {
              return [this, id, full = everyPixel(file, {}, encoding)] {
                for (PhotoShown& s : state.photos) s.full = s.id == id && full ? *full : nullptr;  // one at a time: they are large
              };
            });
          },
          [&](const act::Probe& a) {
            const PlannedPhoto* photo = planned(a.id);
            if (!photo) return;
            const auto by = photo->role == PhotoRole::First ? report : nullptr;
            quick.post("probe", "", [this, a, by, file = photo->file, encoding = state.plan.choices.encoding, pointer = pointer](const Progress&) -> Finish {
              return [this, seen = pointer->look(a.id, file, a.at, by.get(), {}, encoding)] {
                if (seen) state.probe = *seen;
                else state.probe.reset();
              };
            });
          },
          [&](const act::WantMap& a) {
            if (a.panel != map_panel) state.map.reset();
            want_map = a.on;
            map_panel = a.panel;
            look();
          },
          [&](const act::WantMarks& a) { want_marks = a.on, look(); },
          [&](const act::AddToSeries&) { addReading(); },
          [&](const act::UseAsGround&) { useAsGround(); },
          [&](const act::NewSeries&) {
            remember("beginning a series");
            state.plan.series.reset();
            state.plan.series_file.clear();
            state.plan.series_saved = true;
            follow();
          },
          [&](const act::OpenSeries& a) { openSeries(absolute({a.file}).front()); },
          [&](const act::SaveSeries& a) { saveSeries(a.file.empty() ? a.file : absolute({a.file}).front()); },
          [&](const act::SetSeries& a) {
            remember(a.words, a.joins);
            state.plan.series = a.series;
            state.plan.series_saved = false;
            follow();
          },
          [&](const act::UseTints& a) {
            remember("using known tints");
            state.plan.tints = a.file;
            follow();
          },
          [&](const act::SetPart& a) {
            remember("saying the part's coats", true);
            state.plan.part_coats = a.coats;
            follow();
          },
          [&](const act::AddChartPhotos& a) { addCharts(absolute(a.files)); },
          [&](const act::DropChartPhoto& a) {
            if (a.index >= state.plan.chart_photos.size()) return;
            remember("taking a chart photo out");
            state.plan.chart_photos.erase(state.plan.chart_photos.begin() + static_cast<std::ptrdiff_t>(a.index));
            follow();
          },
          [&](const act::SaveProfile& a) { saveProfile(absolute({a.file}).front()); },
          [&](const act::UseProfile& a) {
            remember("using a profile");
            state.plan.choices.profile = a.file;
            follow();
          },
          [&](const act::WorkOutPour& a) { workOutPour(a.request); },
          [&](const act::ListFolder& a) { listFolder(a.folder); },
          [&](const act::Undo&) { step(past, future, "There is nothing to undo."); },
          [&](const act::Redo&) { step(future, past, "There is nothing to do again."); },
          [&](const act::HideNotice&) { state.notice.sentence.clear(); },
          [&](const act::Demo& a) { demo(a.step); },
          [&](const act::KeepWindow& a) {
            if (window == a.numbers) return;
            window = a.numbers;
            keep();
          },
      },
      action);
}

Sitting::Sitting(std::unique_ptr<Inside> in) : in_(std::move(in)) {}
Sitting::Sitting(Sitting&&) noexcept = default;
Sitting& Sitting::operator=(Sitting&&) noexcept = default;

Sitting::~Sitting() {
  if (in_ && !in_->places.memory.empty()) static_cast<void>(writeWhole(in_->places.memory, in_->text()));  // kept after every change already
}

Result<Sitting> Sitting::open(SittingPlaces places, std::function<void()> wake) {
  auto session = Session::open(places.calib);
  if (!session) return std::unexpected(session.error());
  auto in = std::make_unique<Inside>(std::move(places), std::move(*session), std::move(wake));
  in->state.situations = in->session.standards().situations;
  in->state.plan.choices.tolerance = in->state.situations.front().tolerance;
  std::error_code ignored;
  if (!in->places.memory.empty()) fs::create_directories(in->places.memory.parent_path(), ignored);
  in->recall();
  in->state.window = in->window;
  in->follow();
  return Sitting(std::move(in));
}

void Sitting::apply(const Action& action) {
  in_->apply(action);
  in_->state.work = in_->slow.now().what.empty() ? in_->quick.now() : in_->slow.now();
}

bool Sitting::poll() {
  const bool quick = in_->quick.poll(), slow = in_->slow.poll();
  const WorkNow now = in_->slow.now().what.empty() ? in_->quick.now() : in_->slow.now();
  const bool other = now.what != in_->state.work.what || now.share != in_->state.work.share || now.waiting != in_->state.work.waiting;
  in_->state.work = now;
  return quick || slow || other;
}

void Sitting::settle() {
  while (!in_->quick.idle() || !in_->slow.idle()) {
    in_->quick.settle();
    in_->slow.settle();
  }
  poll();
}

const SittingState& Sitting::state() const { return in_->state; }

std::optional<JudgeRequest> Sitting::judgeRequest() const { return in_->request(); }

}  // namespace huewright
