// A series file: the panels of a job, what they were sprayed with and how they read (docs/series.md).
#pragma once

#include <array>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/problem.hpp"
#include "colour/lab.hpp"
#include "mix/fit.hpp"

namespace huewright {

struct NamedGround {
  std::string name;                              ///< empty where the file gives none
  Lab<D50> lab;
};

/// SeriesPanel::stage where it is told, in the order of the work.
inline constexpr std::array<const char*, 4> kStages{"wet", "flashed", "cleared", "cured"};

struct SeriesPanel {
  double strong = 0, weak = 0;                   ///< parts by volume, before carrier; not both 0
  double coats = 0;                              ///< > 0
  Lab<D50> lab;
  std::optional<Lab<D50>> ground;                ///< the bare strip in the same photo
  std::optional<double> carrier_per_tint;
  std::string stage;                             ///< of kStages, or empty
  std::optional<Lab<D50>> uncleared;             ///< of a half-cleared panel: the half without clear; `lab` is the cleared half
  std::string name;                              ///< as the file calls it, or empty
  std::string piece;                             ///< strips of one stepped panel have one name here; empty: a panel of its own

  double share() const { return strong / (strong + weak); }
};

/// What may be suggested.
struct MixLimits {
  int max_total_parts = 8;                       ///< 1 to 24
  double coats_low = 1, coats_high = 6;          ///< whole coats are suggested, within these
  bool lines_only = false;                       ///< n:1 and 1:n alone, as cup lines show
  double even_coats = 3;                         ///< fewer coats than this may stripe (common practice, no source)
};

struct Series {
  double carrier_per_tint = 0;                   ///< volumes of carrier to one of all the tint, for what comes next
  std::optional<NamedGround> ground;
  std::optional<Lab<D50>> target;
  double sigma = 0.3;                            ///< of one reading, ΔE00 as the root sum of the three axes
  std::vector<SeriesPanel> panels;
  MixLimits limits;
  std::vector<NamedGround> grounds;              ///< other grounds at hand
  std::string strong_name, weak_name;            ///< of the tints, as a tint file calls them; empty where the file gives none
  std::optional<SeriesPanel> accepted;           ///< the mix that was accepted; its lab is not used
};

/// Panels that a series may hold, and other grounds that it may name.
inline constexpr std::size_t kMostSeriesPanels = 60, kMostGrounds = 40;

/// Reads the bytes of a series file, strictly: an unknown field, a number in quotes, a part below zero, a panel without ground, strips of one piece with two mixes: each is a mistake and is named.
/// Errors: SeriesUnusable with one plain sentence.
Result<Series> readSeries(std::string_view bytes);

/// "panel 3 (1:4, 3 coats)", counted from 1, or the file's own name for it.
std::string panelName(const Series& series, std::size_t index);

/// "stepped panel "A" (1:4)", or "panel "A" (1:4)" when all its readings are of equal coats: the piece that this one is of.
std::string pieceName(const Series& series, std::size_t index);

/// Parts as people write them: "1:4", "2.5:1".
std::string partsWords(double strong, double weak);

/// "3 coats", "1 coat", "2.5 coats".
std::string coatsWords(double coats);

/// The panels for the fit, in the same order. The ground is the panel's own, else the series'. In: a series that readSeries gave.
std::vector<PanelReading> panelReadings(const Series& series);

/// The ground of what comes next: the series', else the last panel's; nothing when there is neither.
std::optional<Lab<D50>> nextGround(const Series& series);

}  // namespace huewright
