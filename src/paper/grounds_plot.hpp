// One mix over several grounds as a drawing.
#pragma once

#include <string>
#include <vector>

#include "colour/lab.hpp"
#include "paper/pen.hpp"

namespace huewright {

struct GroundsPlotRow {
  std::string name, words;        ///< of the ground; how the mix looks over it, one sentence or less
  std::string warning;            ///< or empty
  Lab<D50> ground, lab;
};

struct GroundsPlot {
  std::string title;              ///< "The accepted mix, 2:3 at 4 coats"
  std::vector<GroundsPlotRow> rows;    ///< the first is the ground that the others are held against
  std::vector<std::string> small_print;
};

/// 190 mm wide, as high as it takes: for each ground the bare ground, the mix over it and the mix over the first ground, edges touching, in sRGB; beside them its words. What sRGB cannot show is
/// marked and said. Errors: Internal without a ground; OutOfMemory.
Result<std::string> groundsPlotSvg(const GroundsPlot& plot);

/// The same as a picture. In: 20 <= dpi <= 600. Errors: the same, and Internal for other resolutions.
Result<DrawnPicture> groundsPlotPicture(const GroundsPlot& plot, double dpi);

/// The page, mm, and the corners of the ink of every line of type on it: for the tests.
struct GroundsPlotInk {
  Size page;
  std::vector<Quad> type;
};
GroundsPlotInk groundsPlotInk(const GroundsPlot& plot);

}  // namespace huewright
