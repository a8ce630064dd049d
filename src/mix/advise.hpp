// What to spray next, from a whole series.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/caution.hpp"
#include "mix/alternatives.hpp"
#include "mix/known_tints.hpp"
#include "mix/learn.hpp"
#include "mix/on_the_part.hpp"
#include "mix/reach.hpp"
#include "mix/stages.hpp"

namespace huewright {

struct AdviseOptions {
  std::optional<TintFile> tints;       ///< known tints, and the painter's film spread
  std::optional<double> part_coats;    ///< coats that lie on the real part
};

struct Advice {
  std::optional<NextMix> next;         ///< nothing without panels and known tints
  double share_low = 0, share_high = 1;///< 95 % range of the best share at next's coats
  Reach reach;
  std::vector<Alternative> alternatives;
  std::optional<LearnPlan> learn;      ///< when the panels tell too little
  std::optional<PartAdvice> part;
  std::vector<ClearForecast> forecasts;
  TintFit fit;
  std::size_t panels = 0;              ///< that the fit rests on
  double film_floor = 0;               ///< ΔE00 by which the film's spread alone moves the next panel, one standard deviation
  std::string sentence;
  std::vector<Caution> cautions;
};

/// The fit that advice rests on: copies, stages and odd panels dealt with, known tints as priors.
struct Groundwork {
  Series series;                       ///< the panels that are used
  std::vector<std::size_t> from;       ///< of each of them, its place in the series that was given
  std::vector<PanelReading> panels;
  TintFit fit;
  bool tints_known = false;            ///< at least one
  std::vector<ClearForecast> forecasts;
  std::vector<Caution> cautions;
};
Result<Groundwork> groundwork(const Series& series, const std::optional<TintFile>& tints);

/// Errors: SeriesUnusable without a target or a ground; TintFileUnusable when its tints cannot be matched with the series; those of the fit.
Result<Advice> advise(const Series& series, const AdviseOptions& options = {});

}  // namespace huewright
