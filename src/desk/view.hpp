// What the window itself remembers: which page, how large, how light. No colours are worked out here, nothing is read or written.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "desk/keys.hpp"
#include "sitting/action.hpp"
#include "sitting/state.hpp"

namespace huewright::desk {

enum class Surround { Dark, Mid, Light };

/// Kept from one start to the next.
struct DeskLook {
  Page page = Page::Panel;
  Surround surround = Surround::Mid;
  float text = 1.0f;                 ///< 1 to 3
  int width = 1280, height = 800;    ///< of the window, in screen units
  bool swapped = false, gap = false;
  bool been_here = false;            ///< the first steps were shown
  bool vapour_told = false;          ///< the words about solvent vapour were put away
};

/// What a file browser was opened for.
enum class Asking { Nothing, Photo, Again, ChangedOver, OtherLight, Tilted, Series, SaveSeries, Tints, Chart, SaveProfile, Profile, Sheet, Film, Follow, Stills };

struct PhotoViewState {
  double zoom = 0;                   ///< screen pixels per full-size pixel; 0: the whole photo
  Point centre{};                    ///< full-size pixels, in the middle of the view
  int photo = 0;                     ///< that zoom and centre are for
  int selected = -1;                 ///< region, counted through panels, card, greys, black; -1: none
  int dragging = -1;                 ///< corner 0..3, 4: the whole; -1: none
  Point grabbed{};
  std::optional<Quad> before;        ///< the region as it was when the drag began
  bool magnifier = false, map = false, marks = false, hidden = false;
  int adding = 0;                    ///< 1 a panel, 2 the card, 3 a grey, 4 a black chip: the next drag draws it
  std::optional<Point> drawn_from;
  Point probed{-1, -1};
  bool moved = false;                ///< the drag that goes on has changed something
  int looked = 0;                    ///< photo whose every pixel was asked for
};

struct VerdictViewState {
  int panel = -1;                    ///< whose verdict is shown; -1: the main one
  bool budget = false;
};

/// What was told of the job, for the cup. Absent: what is usual for the tool, or not known.
struct PourViewState {
  double area_m2 = 0.5;
  bool airbrush = false;
  std::optional<double> loss{};      ///< share, 0..0.95
  std::optional<double> film_um{}, rest_ml{}, cup_ml{};
  std::optional<double> strong_density{}, weak_density{}, carrier_density{};  ///< g/mL; all three: it is weighed
  std::optional<double> scale_g{};   ///< the scale's step
  std::string title;                 ///< of the sheet
  std::string asked;                 ///< what was asked for last, so that it is asked once
};

struct SeriesViewState {
  int selected = -1;
  bool grounds = false, pour = false;
  int ground = -1;                   ///< of Series::grounds, chosen; -1: none
  std::string ground_trouble;        ///< what is wrong with what was typed of a ground last
  PourViewState cup;
  std::string trouble;               ///< what is wrong with the number that was typed last
};

struct CameraViewState {
  int photo = 0;
};

struct LiveViewState {
  std::string source;                ///< the camera that is chosen; empty: the one that ran last, else the first
  int arrival = 0;                   ///< id of the one that is chosen
};

struct BrowserState {
  Asking asking = Asking::Nothing;
  std::string typed;                 ///< name of a file to write, or to jump to
  int selected = -1;
  std::vector<std::string> chosen;   ///< several photos at once
  std::filesystem::path folder{};    ///< that `selected` and `chosen` are for
  bool all = false;                  ///< files that do not fit are listed too
  bool newest = false;               ///< by date, the newest first; else by name
  bool retype = false;               ///< the name field takes the keyboard anew, with what `typed` holds
  bool sure = false;                 ///< it was said that a file of that name is there
  std::optional<PourRequest> pour{}; ///< for Asking::Sheet: what is to be written
  bool marks = false;                ///< for Asking::Film: by the marks of the shown photo
};

struct DeskState {
  DeskLook look;
  PhotoViewState photo;
  VerdictViewState verdict;
  SeriesViewState series;
  CameraViewState camera;
  LiveViewState live;
  BrowserState browser;
  bool keys = false, recent = false, sprayed = false;
  std::vector<Mix> mixes_typed;      ///< while some of several panels' mixes are still to be typed
  std::string sprayed_wrong;         ///< what was wrong with what was typed last
  int first_step = 0;                ///< of the first steps; 0: not shown
  Page back = Page::Panel;           ///< the page before Across the room
  bool quit = false;
};

using Actions = std::vector<Action>;

}  // namespace huewright::desk
