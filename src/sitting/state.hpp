// All that a window shows: the plan, and what was found out from it. Plain data, in words and display colours; nothing here computes.
#pragma once

#include <array>
#include <cstdint>
#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "paper/grounds_plot.hpp"
#include "paper/series_plot.hpp"
#include "session/advise.hpp"
#include "session/pour.hpp"
#include "session/session.hpp"
#include "sitting/arrivals.hpp"
#include "sitting/judged_shown.hpp"
#include "sitting/live_shown.hpp"
#include "sitting/picture.hpp"
#include "sitting/plan.hpp"
#include "sitting/worker.hpp"

namespace huewright {

/// A photo in the strip, in the order of Plan::photos.
struct PhotoShown {
  int id = 0;
  bool opening = false;
  std::string trouble;               ///< why the file cannot be used; empty: it can
  std::string facts;                 ///< "JPEG, 4032 × 3024, sRGB"
  Size size;                         ///< upright, full size; 0 × 0 before it is known
  PictureRef preview;                ///< nothing before it is read
  PictureRef full;                   ///< every pixel, once somebody has looked closely
  Regions regions;                   ///< where things lie: by hand, else as found; may be empty
  bool found = false;                ///< the program found them
  std::optional<Quad> chart;         ///< a chart that was used
  std::optional<Quad> mat;           ///< outline of a mat that was found
};

/// The panel's differences place by place, over the photo.
struct MapShown {
  std::string name;                  ///< of the panel
  Quad quad;                         ///< where it lies, full-size pixels of the first photo
  PictureRef picture;                ///< see-through where nothing is shown
  double top = 0;                    ///< ΔE00 at the far end of the scale
  std::vector<std::array<std::uint8_t, 3>> scale;  ///< colours from 0 to top, evenly spaced
  std::vector<std::string> sentences;
};

/// What was left out of a region: glare, shadow, clipped.
struct MarksShown {
  struct One {
    Quad quad;
    PictureRef picture;              ///< glare, shadow and clipped pixels in the colours below; the rest see-through
    double glare = 0, shadow = 0, clipped = 0;  ///< shares, 0..1
  };
  std::vector<One> regions;
};
inline constexpr std::array<std::uint8_t, 3> kGlareColour{255, 80, 200}, kShadowColour{60, 120, 255}, kClippedColour{255, 160, 0};

/// What lies under the pointer.
struct ProbeShown {
  int photo = 0;                     ///< id
  Point at;                          ///< full-size pixels
  PictureRef around;                 ///< every pixel round it, a square
  std::vector<std::string> lines;    ///< "linear 0.182 0.204 0.231", "L* … a* … b* …"
};

struct SeriesRowShown {
  Swatch swatch;
  std::string name;                  ///< "panel 3 (1:4, 3 coats)"
  std::string trouble;               ///< why the model leaves it out; empty: it does not
  double de00 = 0;                   ///< from the wanted colour
  std::optional<Swatch> ground{};    ///< the bare strip in its photo; absent: the series' ground counts
};

struct SeriesShown {
  std::vector<SeriesRowShown> rows;  ///< one a panel of the series
  std::optional<Swatch> target, ground;
  std::string trouble;               ///< why there is no advice
  std::shared_ptr<const AdviseReport> advice;
  std::optional<Swatch> next;        ///< the next mix's colour, predicted
  std::string next_words;            ///< "2:3 at 4 coats"
  std::vector<std::string> alternatives;
  std::vector<std::string> cautions;
  std::shared_ptr<const SeriesPlot> plot;
  struct Ground {
    std::string name;                ///< may be empty of its own ground
    std::string words{}, lean{};     ///< against its own ground; empty before the mix is known
    Swatch bare{};
    std::optional<Swatch> mixed{};   ///< the mix over it, once one is known
  };
  std::vector<Ground> grounds;       ///< its own ground, if it has one, then Series::grounds
  bool own_ground = false;           ///< the first of them is its own
  std::string grounds_mix;           ///< "2:3 at 4 coats, accepted"
};

/// One patch of a chart, over its photo.
struct ChartPatchShown {
  std::string name;
  Quad quad;
  double off = 0;                    ///< ΔE00 that the profile leaves there when fitted without it; negative: it took no part
  bool stands_out = false;
  std::string why;                   ///< "in glare", "burnt out", "covered" or empty
  Swatch published;
};

struct ChartPhotoShown {
  std::filesystem::path file;
  PictureRef preview;
  Size size;
  std::string trouble;
  std::vector<ChartPatchShown> patches;
};

struct CameraShown {
  std::vector<ChartPhotoShown> photos;   ///< in the order of Plan::chart_photos
  std::vector<std::string> sentences;    ///< the first says good, usable or not usable
  std::optional<Health> health;
  std::string trouble;
  std::vector<std::string> cautions;
  bool written = false;
};

struct FolderEntry {
  std::string name;
  bool folder = false;
  std::uintmax_t bytes = 0;
  std::string when;                  ///< "2026-11-28 14:03"
};

struct FolderShown {
  std::filesystem::path folder;
  std::vector<FolderEntry> entries;  ///< folders first, then files, by name
  std::string trouble;
};

struct PourShown {
  PourRequest request;               ///< what it was worked out for
  std::string trouble;
  std::shared_ptr<const PourReport> report;
};

/// The last thing worth saying: that something was done, or why it could not be.
struct Notice {
  std::string sentence;
  bool bad = false;
  unsigned number = 0;               ///< grows with every notice
};

struct SittingState {
  Plan plan;
  std::vector<PhotoShown> photos;
  int shown = 0;                     ///< id of the photo that is looked at; 0: none
  std::optional<JudgedShown> judged; ///< of the plan before the last change while `judging`
  bool judging = false;
  std::string judge_trouble;         ///< why there is no verdict, and what to do
  std::optional<MapShown> map;
  std::optional<MarksShown> marks;
  std::optional<ProbeShown> probe;
  SeriesShown series;
  bool advising = false;
  CameraShown camera;
  bool profiling = false;
  FolderShown folder;
  PourShown pour;
  LiveShown live;
  FollowedShown followed;
  std::vector<Arrival> arrivals;     ///< photos that came into the followed folder, the newest first, at most kMostArrivals
  Notice notice;
  bool can_undo = false, can_redo = false;
  std::string undo_words, redo_words;    ///< "moving a region"
  std::vector<std::filesystem::path> recent;   ///< photos and series files, the last first
  WorkNow work;
  bool kept_grey = false;            ///< a measured grey is kept on this machine
  std::map<std::string, double> window;  ///< as it was kept
  std::vector<Situation> situations; ///< tolerances by their word
};

}  // namespace huewright
