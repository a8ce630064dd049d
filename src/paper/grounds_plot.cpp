#include "paper/grounds_plot.hpp"

#include <algorithm>
#include <cmath>

#include "paper/swatches.hpp"

namespace huewright {
namespace {

// Millimetres.
constexpr double kGroundsPage = 190, kGroundsMargin = 8, kGroundsStrip = 24, kGroundsHigh = 22, kGroundsRow = 31;
constexpr Type kGroundsTitle{5, true}, kGroundsName{3.8, true}, kGroundsText{3.3}, kGroundsFine{2.5, false, Align::Left, 0, 0.25};
constexpr double kGroundsLine = 1.35;  // of the font's size
constexpr const char* kGroundsPlotName = "One mix over several grounds";

/// Draws down the page; y is where the next thing goes.
class GroundsPage {
 public:
  GroundsPage(Pen& pen, const GroundsPlot& plot) : pen_(pen), plot_(plot) {}

  /// Draws all of it and tells the height that it takes.
  double compose() {
    paragraph(plot_.title, kGroundsTitle, kGroundsMargin, kGroundsPage - kGroundsMargin);
    y_ += 3;
    for (std::size_t i = 0; i < plot_.rows.size(); ++i) row(plot_.rows[i], i == 0);
    for (const std::string& line : plot_.small_print) paragraph(line, kGroundsFine, kGroundsMargin, kGroundsPage - kGroundsMargin);
    if (clipped_) paragraph("* This colour lies outside what sRGB shows; it is drawn as near as can be, so do not judge it by eye here.", kGroundsFine, kGroundsMargin, kGroundsPage - kGroundsMargin);
    return std::ceil(y_ + kGroundsMargin - 1);
  }

 private:
  void paragraph(const std::string& text, Type type, double left, double right) {
    if (text.empty()) return;
    for (const std::string& line : pen_.wrapped(text, type, right - left)) {
      type.widest = right - left;
      pen_.text({left, y_ + type.size}, line, type);
      y_ += kGroundsLine * type.size;
    }
  }

  void row(const GroundsPlotRow& row, bool first) {
    const double top = y_;
    std::vector<std::pair<const char*, Lab<D50>>> strips{{"bare ground", row.ground}, {"the mix over it", row.lab}};
    if (!first) strips.emplace_back("over the first", plot_.rows.front().lab);
    std::vector<Lab<D50>> labs;
    for (std::size_t i = 0; i < strips.size(); ++i) {
      const bool outside = outsideSrgb(strips[i].second);
      clipped_ = clipped_ || outside;
      labs.push_back(strips[i].second);
      Type word = kGroundsFine;
      word.align = Align::Centre;
      word.widest = kGroundsStrip - 0.6;
      pen_.text({kGroundsMargin + (static_cast<double>(i) + 0.5) * kGroundsStrip, top + 2.4}, std::string(strips[i].first) + (outside ? " *" : ""), word);
    }
    drawSwatches(pen_, {kGroundsMargin, top + 3.6, kGroundsStrip * static_cast<double>(strips.size()), kGroundsHigh}, labs);
    const double left = kGroundsMargin + 3 * kGroundsStrip + 5, right = kGroundsPage - kGroundsMargin;
    y_ = top + 3.6;
    paragraph(row.name, kGroundsName, left, right);
    paragraph(row.words, kGroundsText, left, right);
    if (!row.warning.empty()) {
      y_ += 1;
      paragraph("! " + row.warning, kGroundsText, left, right);
    }
    y_ = std::max(y_ + 2, top + kGroundsRow);
  }

  Pen& pen_;
  const GroundsPlot& plot_;
  double y_ = kGroundsMargin - 1;
  bool clipped_ = false;
};

double groundsHeight(const GroundsPlot& plot) {
  Pen scratch = Pen::picture(10, 10, 25.4);
  return GroundsPage(scratch, plot).compose();
}

}  // namespace

Result<std::string> groundsPlotSvg(const GroundsPlot& plot) {
  if (plot.rows.empty()) return fail(Code::Internal, "a drawing without a ground");
  Pen pen = Pen::svg(kGroundsPage, groundsHeight(plot), kGroundsPlotName);
  GroundsPage(pen, plot).compose();
  return pen.svgText();
}

Result<DrawnPicture> groundsPlotPicture(const GroundsPlot& plot, double dpi) {
  if (plot.rows.empty() || !(dpi >= 20 && dpi <= 600)) return fail(Code::Internal, "a drawing without a ground, or at an odd resolution");
  Pen pen = Pen::picture(kGroundsPage, groundsHeight(plot), dpi);
  GroundsPage(pen, plot).compose();
  return pen.drawn();
}

GroundsPlotInk groundsPlotInk(const GroundsPlot& plot) {
  Pen scratch = Pen::picture(10, 10, 25.4);
  const double height = GroundsPage(scratch, plot).compose();
  return {{static_cast<int>(kGroundsPage), static_cast<int>(height)}, scratch.typeBoxes()};
}

}  // namespace huewright
