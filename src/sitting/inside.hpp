// The inside of a sitting, for the files of this room only: one state, two workers, a thread each for a camera and a followed folder, and what can be done, a group and a file for each concern.
//
// A new concern takes: an action and its line in doing.cpp; a group of functions below with a file of its own; what a window shows of it in state.hpp. A job runs on `quick` or `slow` from
// copies alone and hands back a finish, which runs on the caller's thread and is the only part of it that may touch the members. A change of the plan is `remember`, the change, `follow`.
#pragma once

#include "sitting/folder_run.hpp"
#include "sitting/live_run.hpp"
#include "sitting/memory_place.hpp"
#include "sitting/sitting.hpp"
#include "sitting/work.hpp"

namespace huewright {

namespace fs = std::filesystem;

struct Sitting::Inside {
  Inside(SittingPlaces p, Session s, std::function<void()> w, SittingDevices d)
      : places(std::move(p)), devices(std::move(d)), memory(places.memory), session(std::move(s)), wake(std::move(w)), quick(wake), slow(wake) {}

  struct Past {
    Plan plan;
    std::string words;
  };
  struct Kept {
    std::size_t readings = 0;         ///< none without a caution: all of them are in the series already
    std::optional<Caution> caution{}; ///< as SeriesFile::add has it
  };

  SittingPlaces places;
  SittingDevices devices;
  MemoryPlace memory;                 ///< this window's own; empty: nothing is kept
  Session session;
  std::function<void()> wake;
  SittingState state;
  std::vector<Past> past, future;
  bool joinable = false;              ///< the last undo step is still being made
  int next_id = 1;
  unsigned opens = 0;
  int arrived = 0;                    ///< id of the last arrival
  std::string live_key, followed_key; ///< what camera and folder are judged by
  std::map<std::string, double> window;
  std::string judged_key, series_key, camera_key;
  int judged_photo = 0;               ///< id of the first photo that state.judged is of
  bool want_map = false, want_marks = false;
  std::optional<std::size_t> map_panel;
  std::shared_ptr<Pointer> pointer = std::make_shared<Pointer>();
  std::shared_ptr<const JudgeReport> report;   ///< of the plan as it is; nothing while judging
  Worker quick, slow;                 ///< the last, with the two below, so that they stop first
  std::unique_ptr<LiveRun> live;      ///< also while it comes to a stop
  std::unique_ptr<FolderRun> followed;

  // ---- doing.cpp
  void apply(const Action& action);

  // ---- past.cpp: saying, undoing, and what follows from a change.
  void say(std::string sentence, bool bad = false);
  void say(const Problem& problem);
  /// Before a change. joins: it goes on with the one before.
  void remember(const std::string& words, bool joins = false);
  /// After a change: works out what follows from it, and writes the plan down.
  void follow();
  /// Takes the plan from one pile and puts the present one on the other. none: what is said when there is nothing.
  void step(std::vector<Past>& from, std::vector<Past>& to, const char* none);
  void stop();

  // ---- keeping.cpp: from one start to the next.
  std::string text() const;
  void keep();
  void recall();
  /// That another window is open, and where this one's work is kept.
  void sayBeside();
  /// Puts a file first among those that were used lately.
  void lately(const fs::path& file);

  // ---- photos.cpp: which there are, opened and shown.
  PhotoShown* shownPhoto(int id);
  PlannedPhoto* planned(int id);
  /// One shown photo for each in the plan, in its order; those that are new are read.
  void showPhotos();
  void readPhoto(int id);
  /// Opens them first and changes the plan then, so that a file that cannot be used changes nothing.
  void open(const act::OpenPhotos& wish);
  void takeIn(const act::OpenPhotos& wish, const std::vector<Result<OpenedPhoto>>& opened);

  // ---- marking.cpp: what each photo is for, and what lies where in it.
  void closePhoto(int id);
  void setRole(const act::SetRole& wish);
  void setRegions(const act::SetRegions& wish);
  void findRegions(int id);

  // ---- judging.cpp
  /// How things are judged, whatever photo they are in.
  JudgeRequest choices() const;
  std::optional<JudgeRequest> request() const;
  void judge();
  void takeVerdict(Result<JudgeReport> judged);

  // ---- looking.cpp: at what a verdict rests on.
  /// The panel that a map is wanted of.
  std::size_t mapped() const;
  /// The map and the marks, where they are wanted and there is a verdict to make them from.
  void look();
  void wantMap(const act::WantMap& wish);
  void lookClosely(int id);
  void probe(const act::Probe& wish);

  // ---- readings.cpp: the series and what it advises.
  void advise();
  void addReading();
  /// Its panels become readings of the series. Errors: of seriesOf.
  Result<Kept> keepReadings(const JudgeReport& judged);
  Series& beginSeries(double carrier);
  void useAsGround();
  void newSeries();
  void setSeries(const act::SetSeries& wish);

  // ---- series_file.cpp
  void openSeries(const fs::path& file);
  void saveSeries(const fs::path& wish);

  // ---- camera.cpp: its profile from photos of charts.
  void profile();
  void readChart(const fs::path& file);
  void takeCamera(const Result<CameraShown>& shown);
  void addCharts(const std::vector<fs::path>& files);
  void dropChart(std::size_t index);
  void saveProfile(fs::path file);

  // ---- live.cpp: a camera that runs, and stills of it.
  LiveWish liveWish() const;
  void startCamera(const act::StartCamera& wish);
  void stopCamera();
  void takeStill();
  /// Hands on what has changed in how things are judged, to the camera and to the followed folder.
  void judgeLive();
  /// Takes in what the camera's thread has told. True when there was something.
  bool pollLive();

  // ---- following.cpp: a folder into which photos come.
  void followFolder(const fs::path& folder);
  void unfollow();
  /// How photos that come are judged.
  JudgeRequest choicesForArrivals() const;
  /// That they are judged so from now on, where it has changed.
  void judgeArrivals();
  /// Puts it into the series by its tags, and says in its sentence whether it is there.
  void fileArrival(Arrival& arrival);
  bool pollFollowed();

  // ---- errands.cpp: what changes no plan of its own.
  void workOutPour(const PourRequest& wish);
  void listFolder(fs::path folder);
  void demo(int step);
};

}  // namespace huewright
