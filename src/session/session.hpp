// What the program can do, free of any command line or window.
#pragma once

#include <filesystem>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "judge/advice.hpp"
#include "judge/ranking.hpp"
#include "judge/verdict.hpp"

namespace huewright {

struct JudgeRequest {
  std::filesystem::path photo;
  Regions regions;                        ///< as given, upright full-size pixels; with no region at all the mat is looked for
  std::optional<Lab<D50>> card_lab;       ///< the card as numbers instead of a region
  std::optional<double> grey_y;           ///< luminance factor of the grey patch, 0.02..1
  Encoding encoding = Encoding::Auto;
  std::vector<Mix> mixes;                 ///< none, one for all panels, or one a panel
  std::optional<double> coats;
  CardKind card_kind = CardKind::Unknown;
  std::optional<double> tolerance;        ///< ΔE00; absent: that of the first situation in calib/standards.json
  Limits limits;
};

struct JudgeReport {
  PhotoFacts photo;
  Regions regions;                        ///< clockwise
  Reading reading;
  std::vector<Verdict> verdicts;          ///< one a panel, in the order given
  OnePanelAdvice advice;                  ///< for the first panel
  Ranking ranking;                        ///< empty order with one panel
  std::vector<Caution> cautions;
};

class Session {
 public:
  /// Loads the data that every job needs. Errors: DataMissing.
  static Result<Session> open(const std::filesystem::path& calib);

  const Standards& standards() const { return standards_; }

  /// The main job: from a photo to a verdict. Checks the request before any file is opened.
  /// Errors: NoPhoto, NoPanel, NoCard, TwoCards, BadMix, BadNumber, TooManyPanels; of Photo, arrange and measure; Stopped.
  Result<JudgeReport> judge(const JudgeRequest& request, std::stop_token stop = {}) const;

 private:
  Standards standards_;
  std::filesystem::path calib_;
};

}  // namespace huewright
