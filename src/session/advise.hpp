// From a series file to the next mix. Free of any command line or window.
#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "mix/advise.hpp"
#include "mix/other_grounds.hpp"
#include "mix/shelf.hpp"

namespace huewright {

struct AdviseRequest {
  std::filesystem::path series;
  std::optional<std::filesystem::path> tints;       ///< known tints
  std::optional<std::filesystem::path> save_tints;  ///< where to keep the tints of this series; a file that is there is never overwritten
  std::optional<std::filesystem::path> shelf;       ///< choose two or three of these tints instead
  std::optional<double> part_coats;                 ///< coats on the real part
  std::optional<std::filesystem::path> plot;        ///< where to draw it, an SVG file; one that is there is replaced
};

struct AdviseReport {
  Series series;
  Advice advice;                                    ///< empty but for its sentence and cautions when a shelf was searched
  std::vector<ShelfMix> shelf_mixes;
  std::vector<std::string> shelf_names;             ///< of all tints on the shelf
};

/// A tint file; nothing when none is named. Errors: TintFileUnusable.
Result<std::optional<TintFile>> openTints(const std::optional<std::filesystem::path>& path);

/// Of a series that is in memory, which may still lack what a file must have. Errors: SeriesUnusable, also for a panel without any ground; those of the fit.
Result<AdviseReport> adviseOn(Series series, const std::optional<TintFile>& tints, std::optional<double> part_coats);

/// Errors: SeriesUnusable, also when a plot is wanted and nothing is known; TintFileUnusable, FileThere, WriteFailed; BadChoice when save_tints is wanted and nothing was sprayed, when the plot's name does
/// not end in .svg or a shelf is to be plotted; OutOfMemory, Internal.
Result<AdviseReport> adviseOn(const AdviseRequest& request);

struct GroundsRequest {
  std::filesystem::path series;
  std::optional<std::filesystem::path> tints;
  std::optional<std::filesystem::path> plot;        ///< as in AdviseRequest
};

struct GroundsReport {
  std::vector<int> next_parts;                      ///< empty when the accepted mix was taken
  double strong = 0, weak = 0, coats = 0;
  std::vector<GroundLook> looks;                    ///< the first is the series' own ground
  std::vector<Caution> cautions;
};

/// Of a series that is in memory. Errors: SeriesUnusable when it names no other ground, or nothing is known of its tints; those of the fit.
Result<GroundsReport> groundsOf(const Series& series, const std::optional<TintFile>& tints);

/// The accepted mix, else the one advised next, over the series' ground and its other grounds.
/// Errors: those of adviseOn; SeriesUnusable when it names no other ground, or nothing is known of its tints.
Result<GroundsReport> groundsOf(const GroundsRequest& request);

}  // namespace huewright
