#include "paper/series_plot.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdio>
#include <tuple>

#include "colour/rgb.hpp"
#include "paper/plot_axis.hpp"
#include "paper/plot_symbols.hpp"
#include "paper/series_scales.hpp"
#include "paper/swatches.hpp"

namespace huewright {
namespace {

// Millimetres.
constexpr double kPlotPage = kSeriesPage, kPlotMargin = 8;
constexpr Type kPlotTitle{5, true}, kPlotText{3.3}, kPlotLabel{3}, kPlotFine{2.5, false, Align::Left, 0, 0.25};
constexpr double kPlotLine = 1.35;  // of the font's size
constexpr double kBandGrey = 0.87, kGridGrey = 0.75;
constexpr int kMostTicks = kSeriesTicks;
constexpr const char* kPlotName = "Distance from the wanted colour against the share of the strong tint";

/// Draws down the page; y is where the next thing goes.
class SeriesPage {
 public:
  SeriesPage(Pen& pen, const SeriesPlot& plot) : pen_(pen), plot_(plot), scales_(seriesPlotScales(plot)) {}

  /// Draws all of it and tells the height that it takes.
  double compose() {
    paragraph("Distance from the wanted colour", kPlotTitle);
    paragraph(plot_.sentence, kPlotText);
    y_ += 3;
    plot_top_ = y_;
    pen_.push({0, y_});
    axes();
    curve();
    points();
    pen_.pop();
    y_ += scales_.room.y + scales_.room.height + 13;
    key();
    swatches();
    for (const std::string& line : plot_.small_print) paragraph(line, kPlotFine);
    if (clipped_) paragraph("* This colour lies outside what sRGB shows; it is drawn as near as can be, so do not judge it by eye here.", kPlotFine);
    return std::ceil(y_ + kPlotMargin - 1);
  }
  double plotTop() const { return plot_top_; }

 private:
  void paragraph(const std::string& text, Type type) {
    const double width = kPlotPage - 2 * kPlotMargin;
    for (const std::string& line : pen_.wrapped(text, type, width)) {
      type.widest = width;
      if (!line.empty()) pen_.text({kPlotMargin, y_ + type.size}, line, type);
      y_ += kPlotLine * type.size;
    }
  }

  void axes() {
    const PlotBox& room = scales_.room;
    const double bottom = room.y + room.height;
    pen_.text({kPlotMargin, kPlotLabel.size}, "ΔE00 from the wanted colour, lower is nearer", {kPlotLabel.size, true});
    const Type end{kPlotLabel.size, false, Align::Right}, middle{kPlotLabel.size, false, Align::Centre};
    for (const double tick : ticksWithin(0, scales_.top, kMostTicks)) {
      const double y = scales_.at(0, tick).y;
      pen_.text({room.x - 2, y + 0.36 * kPlotLabel.size}, tickWords(tick), end);
    }
    for (const double tick : ticksWithin(100 * scales_.share_low, 100 * scales_.share_high, kMostTicks)) {
      const double x = scales_.at(tick / 100, 0).x;
      pen_.line(std::array{Point{x, bottom}, Point{x, bottom + 1.5}}, 0.3);
      pen_.text({x, bottom + 2.5 + kPlotLabel.size}, tickWords(tick) + " %", middle);
    }
    const Type title{kPlotLabel.size, true, Align::Centre, room.width};
    pen_.text({room.x + room.width / 2, bottom + 4 + 2.2 * kPlotLabel.size}, "share of the strong tint" + (plot_.strong.empty() ? "" : " (" + plot_.strong + ")") + " in all the tint", title);
  }

  void curve() {
    const PlotBox& room = scales_.room;
    // The band, cut off at the top and at the sides.
    std::vector<Point> band;
    const auto within = [&](const SeriesPlotStep& s) { return s.share >= scales_.share_low - 1e-9 && s.share <= scales_.share_high + 1e-9; };
    for (const auto& s : plot_.curve)
      if (within(s)) band.push_back(scales_.at(s.share, std::min(s.high, scales_.top)));
    for (auto s = plot_.curve.rbegin(); s != plot_.curve.rend(); ++s)
      if (within(*s)) band.push_back(scales_.at(s->share, std::min(s->low, scales_.top)));
    pen_.polygon(band, kBandGrey);
    for (const double tick : ticksWithin(0, scales_.top, kMostTicks)) {
      const double y = scales_.at(0, tick).y;
      pen_.line(std::array{Point{room.x, y}, Point{room.x + room.width, y}}, 0.15, kGridGrey);
    }
    if (scales_.top > 1) {
      const double y = scales_.at(0, 1).y;
      pen_.line(std::array{Point{room.x, y}, Point{room.x + room.width, y}}, 0.35, 0.3, 1.2);
      for (double x = room.x; x < room.x + room.width; x += 2) no_labels_.push_back({x, y});
    }
    for (const auto& run : shownCurve(plot_.curve, scales_)) {
      pen_.line(run, 0.6);
      no_labels_.insert(no_labels_.end(), run.begin(), run.end());
    }
    pen_.line(std::array{Point{room.x, room.y}, Point{room.x, room.y + room.height}, Point{room.x + room.width, room.y + room.height}}, 0.4);
    // Where the best share lies, on the foot of the plot.
    const double low = std::clamp(plot_.next.best_low, scales_.share_low, scales_.share_high), high = std::clamp(plot_.next.best_high, scales_.share_low, scales_.share_high);
    pen_.line(std::array{scales_.at(low, 0), scales_.at(high, 0)}, 1.3);
  }

  void points() {
    std::vector<PlotBox> taken;
    std::vector<LabelWish> wishes;
    std::vector<Type> types;
    std::vector<std::string> labels;
    const auto around = [&](Point at, double half) { taken.push_back({at.x - half, at.y - half, 2 * half, 2 * half}); };
    const auto wish = [&](Point at, double away, const std::string& label, bool bold) {
      types.push_back({kPlotLabel.size, bold});
      labels.push_back(label);
      wishes.push_back({at, away, pen_.widthOf(label, types.back()), 1.05 * kPlotLabel.size, bold});
    };
    const Point next = scales_.at(plot_.next.at.share, plot_.next.at.de00);
    wish(next, kNextHalf + 1, plot_.next.label, true);
    around(next, 0.8 * kNextHalf);
    const auto barOf = [&](double share, double low, double high, double cap) {
      const Point from = scales_.at(share, std::min(low, scales_.top)), to = scales_.at(share, std::min(high, scales_.top));
      errorBar(pen_, from, to, cap);
      taken.push_back({from.x - cap, to.y, 2 * cap, from.y - to.y});
    };
    barOf(plot_.next.at.share, plot_.next.at.low, plot_.next.at.high, 1.2);
    struct Named {
      std::string label;
      Point first, last;
      bool crossed, at_these_coats;
      double de00;
      int count;
    };
    std::vector<Named> named;  // panels of one mix that lie close together share a label
    for (const SeriesPlotPanel& panel : plot_.panels) {
      constexpr double kTogether = 5;
      const Point at = scales_.at(panel.share, panel.de00);
      barOf(panel.share, panel.low, panel.high, kPanelHalf + 1);
      around(at, kPanelHalf + 0.5);
      const std::string label = panel.label + (panel.left_out ? " (left out)" : "") + mark(panel.lab);
      const auto near = std::ranges::find_if(named, [&](const Named& n) { return n.label == label && std::hypot(n.last.x - at.x, n.last.y - at.y) < kTogether; });
      if (near == named.end()) named.push_back({label, at, at, panel.left_out, panel.at_these_coats, panel.de00, 1});
      else {
        near->last = at;
        ++near->count;
      }
    }
    // Where there is no room for all, those that matter most have a name: what is left out of the fit, what should lie on the line, then the nearest.
    std::ranges::stable_sort(named, {}, [](const Named& n) { return std::tuple(!n.crossed, !n.at_these_coats, n.de00); });
    for (const Named& n : named) wish(n.first, kPanelHalf + (n.crossed ? 2.5 : 2), n.label + (n.count > 1 ? ", " + std::to_string(n.count) + " times" : ""), false);
    const auto places = placeLabels(wishes, scales_.room, taken, no_labels_);
    for (std::size_t i = 0; i < places.size(); ++i) {
      if (places[i].far) pen_.line(std::array{wishes[i].point, labelTie(places[i].box, wishes[i].point)}, 0.2, 0.4);
      if (places[i].left_out) unnamed_ += named[i - 1].count;  // the first is the next mix, which is never left out
    }
    // Panels last: one that lies on the next mix stays to be seen.
    nextSymbol(pen_, next, Ink(toSrgb8(plot_.next.lab)));
    for (const SeriesPlotPanel& panel : plot_.panels) panelSymbol(pen_, scales_.at(panel.share, panel.de00), Ink(toSrgb8(panel.lab)), panel.at_these_coats, panel.left_out);
    for (std::size_t i = 0; i < places.size(); ++i) {
      if (places[i].left_out) continue;
      types[i].widest = places[i].box.width;
      pen_.text({places[i].box.x, places[i].box.y + 0.8 * kPlotLabel.size}, labels[i], types[i]);
    }
  }

  /// What the signs mean, in two columns.
  void key() {
    constexpr double kColumn = (kPlotPage - 2 * kPlotMargin) / 2, kSign = 12;
    const auto any = [&](auto which) { return std::ranges::any_of(plot_.panels, which); };
    int place = 0;
    const auto entry = [&](const std::string& words, auto&& draw) {
      const double x = kPlotMargin + (place % 2) * kColumn, y = y_ + 2.5 + (place / 2) * 6;
      draw(Point{x + kSign / 2 - 1, y});
      Type type = kPlotLabel;
      type.widest = kColumn - kSign - 1;
      pen_.text({x + kSign, y + 0.36 * type.size}, words, type);
      ++place;
    };
    entry("the mix to spray next, in its predicted colour", [&](Point at) { nextSymbol(pen_, at, Ink(toSrgb8(plot_.next.lab)), 2.6); });
    entry("what the model expects at " + plot_.coats, [&](Point at) { pen_.line(std::array{Point{at.x - 4, at.y}, Point{at.x + 4, at.y}}, 0.6); });
    if (any([](const auto& p) { return p.at_these_coats; })) entry("a panel of " + plot_.coats + ", in its measured colour", [&](Point at) { panelSymbol(pen_, at, 0.6, true, false); });
    entry("95 % of panels sprayed so would lie in here", [&](Point at) { pen_.box(at.x - 4, at.y - 1.8, 8, 3.6, kBandGrey); });
    if (any([](const auto& p) { return !p.at_these_coats; })) entry("a panel of other coats: not to lie on the line", [&](Point at) { panelSymbol(pen_, at, 0.6, false, false); });
    entry("1: about what a trained eye just sees", [&](Point at) { pen_.line(std::array{Point{at.x - 4, at.y}, Point{at.x + 4, at.y}}, 0.35, 0.3, 1.2); });
    if (any([](const auto& p) { return p.left_out; })) entry("a panel that is left out, see the advice", [&](Point at) { panelSymbol(pen_, at, 0.6, false, true); });
    entry("where the best share lies at " + plot_.coats + ", 95 %", [&](Point at) { pen_.line(std::array{Point{at.x - 4, at.y}, Point{at.x + 4, at.y}}, 1.3); });
    entry("how sure the distance is, 95 %", [&](Point at) { errorBar(pen_, {at.x, at.y + 2}, {at.x, at.y - 2}, 1.2); });
    y_ += 6 * ((place + 1) / 2) + 3;
    if (unnamed_ == 0) return;
    paragraph((unnamed_ == 1 ? std::string("1 panel has") : std::to_string(unnamed_) + " panels have") + " no name in the drawing, for want of room. Below, every panel has its name and its distance.", kPlotLabel);
    y_ += 2;
  }

  std::string mark(const Lab<D50>& lab) {
    if (!outsideSrgb(lab)) return "";
    clipped_ = true;
    return " *";
  }

  void swatches() {
    constexpr double kStrip = 10.6, kHigh = 15, kCell = 3 * kStrip, kCells = 5, kCellGap = (kPlotPage - 2 * kPlotMargin - kCells * kCell) / (kCells - 1);
    constexpr double kRow = kHigh + 12.5;
    paragraph("Side by side, edges touching", {kPlotText.size, true});
    y_ += 1;
    Type word = kPlotFine, label = kPlotLabel;
    word.align = Align::Centre;
    word.size = 2.05;
    int place = 0;
    const auto cell = [&](std::vector<std::pair<const char*, Lab<D50>>> strips, const std::string& text, const std::string& under, bool bold) {
      const double x = kPlotMargin + place % static_cast<int>(kCells) * (kCell + kCellGap), y = y_ + place / static_cast<int>(kCells) * kRow;
      std::vector<Lab<D50>> labs;
      for (std::size_t i = 0; i < strips.size(); ++i) {
        labs.push_back(strips[i].second);
        word.widest = kStrip - 0.3;
        pen_.text({x + (static_cast<double>(i) + 0.5) * kStrip, y + 2}, strips[i].first + mark(strips[i].second), word);
      }
      drawSwatches(pen_, {x, y + 3, kStrip * static_cast<double>(strips.size()), kHigh}, labs);
      label.bold = bold;
      label.widest = kCell + kCellGap - 1;
      pen_.text({x, y + kHigh + 3 + 1.15 * label.size}, text, label);
      Type fine = kPlotFine;
      fine.widest = label.widest;
      pen_.text({x, y + kHigh + 3 + 1.15 * label.size + 1.4 * fine.size}, under, fine);
      ++place;
    };
    const auto rounded = [](double de00) {
      std::array<char, 32> digits{};
      std::snprintf(digits.data(), digits.size(), "%.1f", de00);
      return std::string(digits.data());
    };
    for (const SeriesPlotPanel& panel : plot_.panels)
      cell({{"measured", panel.lab}, {"wanted", plot_.target}, {"predicted", panel.predicted}}, panel.label, "ΔE00 " + rounded(panel.de00) + (panel.left_out ? ", left out" : ""), false);
    cell({{"wanted", plot_.target}, {"predicted", plot_.next.lab}}, plot_.next.label, "ΔE00 " + rounded(plot_.next.at.de00) + " expected", true);
    y_ += kRow * std::ceil(place / kCells) + 1;
  }

  Pen& pen_;
  const SeriesPlot& plot_;
  SeriesPlotScales scales_;
  double y_ = kPlotMargin - 1, plot_top_ = 0;
  bool clipped_ = false;
  int unnamed_ = 0;
  std::vector<Point> no_labels_;
};

double heightOf(const SeriesPlot& plot) {
  Pen scratch = Pen::picture(10, 10, 25.4);
  return SeriesPage(scratch, plot).compose();
}

}  // namespace

Result<std::string> seriesPlotSvg(const SeriesPlot& plot) {
  if (plot.curve.empty()) return fail(Code::Internal, "a plot without a curve");
  Pen pen = Pen::svg(kPlotPage, heightOf(plot), kPlotName);
  SeriesPage(pen, plot).compose();
  return pen.svgText();
}

Result<DrawnPicture> seriesPlotPicture(const SeriesPlot& plot, double dpi) {
  if (plot.curve.empty() || !(dpi >= 20 && dpi <= 600)) return fail(Code::Internal, "a plot without a curve, or at an odd resolution");
  Pen pen = Pen::picture(kPlotPage, heightOf(plot), dpi);
  SeriesPage(pen, plot).compose();
  return pen.drawn();
}

SeriesPlotInk seriesPlotInk(const SeriesPlot& plot) {
  Pen scratch = Pen::picture(10, 10, 25.4);
  SeriesPage page(scratch, plot);
  const double height = page.compose();
  return {{static_cast<int>(kPlotPage), static_cast<int>(height)}, page.plotTop(), scratch.typeBoxes()};
}

}  // namespace huewright
