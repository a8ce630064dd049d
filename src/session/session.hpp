// What the program can do, free of any command line or window.
#pragma once

#include <filesystem>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "camera/chart_reading.hpp"
#include "camera/profile_health.hpp"
#include "judge/advice.hpp"
#include "judge/ranking.hpp"
#include "judge/trust.hpp"
#include "judge/verdict.hpp"
#include "judge/views.hpp"
#include "scene/tag_text.hpp"

namespace huewright {

/// Whether a colour chart in the photo is looked for.
enum class ChartUse { Auto, None, Here };

/// A second look at the same panel and card.
struct ViewRequest {
  std::filesystem::path photo;
  Regions regions;                        ///< none: the mat is looked for, or the first photo's regions hold when it has the same size
};

struct JudgeRequest {
  std::filesystem::path photo;
  std::vector<std::filesystem::path> repeats;        ///< more photos of the same set-up, nothing but the camera moved
  Regions regions;                        ///< as given, upright full-size pixels; with no region at all the mat is looked for
  std::optional<Lab<D50>> card_lab;       ///< the card as numbers instead of a region
  std::optional<double> grey_y;           ///< luminance factor of the grey patch, 0.02..1
  std::optional<std::filesystem::path> grey;         ///< a kept grey (session/kept_grey.hpp) for all greys in the photo; grey_y comes before it
  Encoding encoding = Encoding::Auto;
  std::vector<Mix> mixes;                 ///< none, one for all panels, or one a panel
  std::optional<double> coats;
  std::vector<double> steps;              ///< the panel is stepped: coats of its strips as the picture shows them, 0 for bare ground
  std::optional<double> carrier;          ///< volumes of carrier to one of tint; for the series
  std::optional<std::filesystem::path> plain_sheet;  ///< a photo of plain white paper in the same set-up
  std::optional<std::filesystem::path> swapped;      ///< a second photo, panel and card changed over or the mat turned by half
  std::optional<ViewRequest> also;        ///< in another light
  std::optional<ViewRequest> flop;        ///< panel and card tilted, or seen from a low angle
  std::optional<std::filesystem::path> series;       ///< a series file to write for the tint model; must not be there yet. What is not told of mix, coats and carrier the tags must tell
  ChartUse chart_use = ChartUse::Auto;
  std::optional<Quad> chart;              ///< Here: outer corners of the chart's corner patches
  std::optional<std::filesystem::path> chart_data;   ///< CGATS.17 of the user's own chart; absent: the published 24 patches
  std::optional<std::filesystem::path> profile;      ///< a stored camera profile, for photos without a chart
  CardKind card_kind = CardKind::Unknown;
  std::optional<double> tolerance;        ///< ΔE00; absent: that of the first situation in calib/standards.json
  Limits limits;
};

/// A printed tag in the photo.
struct TagReport {
  TagText text;
  Quad place;                             ///< outside of its black frame; its own top left corner first, then clockwise
  std::optional<std::size_t> panel;       ///< that it was used for: of a stepped panel the first strip; none: another tag lies nearer
};

/// What changing panel and card over showed.
struct SwapReport {
  std::filesystem::path file;
  double apart = 0;                       ///< ΔE00 between the differences that the two shots gave
  double brightness = 0;                  ///< relative: how much the place alone made the panel lighter against the card
};

/// What photos of one set-up showed together.
struct RepeatsReport {
  std::size_t photos = 0, used = 0;
  std::optional<std::filesystem::path> left_out;  ///< the one that does not go with the others
  double left_out_by = 0;                 ///< ΔE00
  double scatter = 0;                     ///< standard deviation of one photo's difference along an axis, ΔE00
};

/// What a second look showed.
struct ViewReport {
  std::filesystem::path file;
  Regions regions;
  Reading reading;
  Trust trust;                            ///< of its photo
  std::vector<Verdict> verdicts;          ///< one a panel
  ViewComparison comparison;              ///< of the main panel
  std::string sentence;                   ///< what the two looks say together
};

struct JudgeReport {
  PhotoFacts photo;
  Regions regions;                        ///< clockwise; of a stepped panel, its strips
  Reading reading;
  std::vector<Verdict> verdicts;          ///< one a panel, in the order given
  bool stepped = false;                   ///< the panels are strips of one stepped panel
  std::size_t main = 0;                   ///< the panel that the advice is for: the first, or the nearest strip
  std::vector<std::string> names;         ///< one a panel: "panel", "panel B", "3 coats"
  std::vector<std::optional<double>> coats;  ///< one a panel, where told
  std::vector<std::optional<Mix>> mixes;     ///< likewise
  std::vector<std::optional<double>> carriers;  ///< likewise, volumes to one of tint
  std::vector<std::string> panel_tags;    ///< one a panel: its tag's name, or empty
  std::vector<TagReport> tags;            ///< found in the first photo, from its top down
  OnePanelAdvice advice;                  ///< for the main panel
  Ranking ranking;                        ///< empty order with one panel
  std::optional<SwapReport> swap;
  std::optional<RepeatsReport> repeats;
  std::optional<ViewReport> also, flop;
  std::optional<Quad> chart;              ///< where a chart was used
  std::optional<Quad> mat;                ///< outline of a mat that was found: round its markers, the sheet's own top left corner first, then clockwise
  Trust trust;                            ///< of the photo; of several that are averaged, the least
  std::vector<Caution> cautions;
};

/// From photos of a chart to a camera profile.
struct ProfileRequest {
  std::vector<std::filesystem::path> photos;   ///< one or more, by one camera in one light
  ChartUse chart_use = ChartUse::Auto;         ///< None is no choice here
  std::optional<Quad> chart;                   ///< of the only photo
  std::optional<std::filesystem::path> chart_data;
  Encoding encoding = Encoding::Auto;
  std::filesystem::path out;                   ///< a .json file; one that is there is replaced. Empty: only look
  std::optional<std::filesystem::path> icc;    ///< an .icc file beside it
  Limits limits;
};

/// One patch of a chart, as a profile's photo shows it.
struct ChartPatchReport {
  std::string name;
  Quad quad;                                   ///< as read: without rim and blur; the chart's own top left corner first, then clockwise
  ChartPatchState state = ChartPatchState::Good;
  Lab<D50> published;
  std::optional<double> off;                   ///< ΔE00 that the profile leaves there when fitted without this patch; absent: it took no part
  bool stands_out = false;                     ///< one of ProfileHealth::worst
};

struct ChartPhotoReport {
  std::filesystem::path file;
  Quad corners;                                ///< of the chart, likewise
  std::vector<ChartPatchReport> patches;       ///< in the chart's order, all of them
};

struct ProfileReport {
  ProfileHealth health;
  std::optional<double> loo_de00;
  bool written = false;                        ///< not when the profile is not usable
  std::vector<ChartPhotoReport> photos;        ///< in the order of the request
  std::vector<Caution> cautions;
};

struct MapRequest {
  JudgeRequest judge;                     ///< no steps, no second shot
  std::filesystem::path out;              ///< a .png file; one that is there is replaced
};

struct MapReport {
  JudgeReport judge;
  std::vector<std::string> sentences;     ///< how even the panel is
  double median_de00 = 0;                 ///< of the places shown
};

class Session {
 public:
  /// Finds the chart in every photo, fits one profile to all, says how far it can be relied on, and writes it if it can.
  /// Errors: NoPhoto, BadChoice; of Photo; ChartNotFound, NoProfile, ChartDataUnusable; WriteFailed.
  Result<ProfileReport> profile(const ProfileRequest& request, std::stop_token stop = {}) const;

  /// Loads the data that every job needs. Errors: DataMissing.
  static Result<Session> open(const std::filesystem::path& calib);

  const Standards& standards() const { return standards_; }
  const std::filesystem::path& calib() const { return calib_; }   ///< the folder of the data

  /// What judge would say before it opens any file. Errors: those of wrong use (exit code 2).
  static Result<void> check(const JudgeRequest& request);

  /// The main job: from a photo to a verdict. Checks the request before any file is opened.
  /// Printed tags are looked for where a preview is made anyway: not when places are given and chart_use is None. What they tell is used where the request tells nothing.
  /// Errors: NoPhoto, NoPanel, NoCard, TwoCards, BadMix, BadNumber, BadSteps, BadChoice, TooManyPanels, FileThere; of Photo, findMat, arrange,
  /// findSteps and measure; SheetUnusable, KeptGreyUnusable, SeriesUntold, SwappedUnusable, RepeatsUnusable, ViewUnusable; WriteFailed; Stopped.
  Result<JudgeReport> judge(const JudgeRequest& request, std::stop_token stop = {}) const;

  /// Judges, then draws the main panel's difference from the card place by place and writes it as a PNG, whole or not at all.
  /// Errors: those of judge; BadChoice when `out` is no .png; WriteFailed.
  Result<MapReport> map(const MapRequest& request, std::stop_token stop = {}) const;

 private:
  Standards standards_;
  std::filesystem::path calib_;
};

}  // namespace huewright
