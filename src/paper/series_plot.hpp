// A series as a drawing: how far each panel came, what the model expects of every share, and what to spray next.
#pragma once

#include <string>
#include <vector>

#include "colour/lab.hpp"
#include "paper/pen.hpp"

namespace huewright {

struct SeriesPlotPanel {
  std::string label;              ///< "1:3, 4 coats"
  double share = 0;               ///< of the strong tint, 0..1
  double de00 = 0, low = 0, high = 0;  ///< measured distance and its 95 % range
  Lab<D50> lab;                   ///< measured
  Lab<D50> predicted;             ///< what the model gives for it
  bool at_these_coats = false;    ///< sprayed in as many coats as the curve is for
  bool left_out = false;          ///< the model does not rest on it
  std::size_t place = 0;          ///< in the series that was given
};

struct SeriesPlotStep {
  double share = 0, de00 = 0, low = 0, high = 0;
};

struct SeriesPlotNext {
  std::string label;              ///< "next: 2:3, 4 coats"
  SeriesPlotStep at;
  double best_low = 0, best_high = 1;  ///< 95 % range of the best share at those coats
  Lab<D50> lab;                   ///< predicted
};

struct SeriesPlot {
  std::string sentence;           ///< above it all
  std::string strong;             ///< name of the strong tint, or empty
  std::string coats;              ///< of the curve: "4 coats"
  std::vector<SeriesPlotStep> curve;   ///< shares rising, from 0 to 1
  std::vector<SeriesPlotPanel> panels;
  SeriesPlotNext next;
  Lab<D50> target;
  std::vector<std::string> small_print;
};

/// 190 mm wide, as high as it takes. Panels at the curve's coats are squares, at others discs, both in their measured colour; one that is left out is crossed; the next mix is a diamond. Below: measured,
/// wanted and predicted side by side, in sRGB; what that cannot show is marked and said. Errors: Internal without a curve; OutOfMemory.
Result<std::string> seriesPlotSvg(const SeriesPlot& plot);

/// The same as a picture. In: 20 <= dpi <= 600. Errors: the same, and Internal for other resolutions.
Result<DrawnPicture> seriesPlotPicture(const SeriesPlot& plot, double dpi);

/// The page, and the corners of the ink of every line of type on it, mm: for the tests.
struct SeriesPlotInk {
  Size page;                      ///< mm
  double plot_top = 0;            ///< mm from the page's top, where the y of SeriesPlotScales begins
  std::vector<Quad> type;
};
SeriesPlotInk seriesPlotInk(const SeriesPlot& plot);

}  // namespace huewright
