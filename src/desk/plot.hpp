// A plot by ImDrawList: ticks at sensible numbers, error bars, bands, values on hovering.
#pragma once

#include <cstdint>
#include <functional>
#include <span>
#include <string>
#include <vector>

#include "desk/theme.hpp"

namespace huewright::desk {

/// Ticks at 1, 2 or 5 times a power of ten, at most `most` of them, that lie in [low, high]. In: low < high, both finite; most >= 2.
std::vector<double> ticks(double low, double high, int most);

/// As few digits as tell the ticks apart: "0.2", "10".
std::string tickWords(double value, double step);

enum class Mark { Square, Disc, Diamond, Cross };

struct PlotPoint {
  double x = 0, y = 0, low = 0, high = 0;   ///< low = high: no error bar
  Mark mark = Mark::Disc;
  std::uint32_t fill = 0;                   ///< packed, as ink()
  std::string words;                        ///< on hovering
  int id = -1;                              ///< what a click gives back
  bool selected = false;
};

struct PlotBand {
  std::vector<double> x, low, high, line;   ///< all of one length; line: drawn through the band
};

struct PlotSpec {
  std::string x_words, y_words;
  double x_low = 0, x_high = 1, y_low = 0, y_high = 1;
  std::vector<PlotPoint> points;
  std::vector<PlotBand> bands;
  std::vector<std::pair<double, std::string>> levels;   ///< horizontal lines with a word: the tolerance
  std::function<std::string(double x)> x_tick{};        ///< another wording of ticks
};

/// Draws it as an item of that size into the current window. A point above y_high is drawn at the upper edge with an arrow and its y in figures. Gives the id of a point that was clicked, else -1.
int drawPlot(const char* name, const PlotSpec& spec, float width, float height, const Look& look);

}  // namespace huewright::desk
