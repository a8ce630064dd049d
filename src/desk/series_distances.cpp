#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <imgui.h>

#include "base/text.hpp"
#include "desk/flow.hpp"
#include "desk/plot_marks.hpp"
#include "desk/series_parts.hpp"
#include "paper/series_scales.hpp"

namespace huewright::desk {
namespace {

std::uint32_t colourOfReading(const SeriesShown& series, std::size_t reading, const Look& look) {
  return reading < series.rows.size() ? ink(series.rows[reading].swatch.rgb) : ink(look.greys.surround);
}

/// ΔE00 at the plot's top. A panel that the model does not rest on may lie far off; it does not press the others together.
double topOfScale(const SeriesPlot& plot) {
  SeriesPlot relied = plot;
  std::erase_if(relied.panels, [](const SeriesPlotPanel& p) { return p.left_out; });
  return seriesPlotScales(relied).top;
}

PlotSpec distancePlot(const SeriesViewState& view, const SittingState& state, const Look& look) {
  const SeriesPlot& plot = *state.series.plot;
  const SeriesPlotScales scales = seriesPlotScales(plot);
  PlotSpec spec;
  spec.y_words = "\u0394E00 off the wanted colour";
  spec.x_words = "share of " + (plot.strong.empty() ? "the strong tint" : plot.strong) + " in the tint; line and band: " + plot.coats;
  spec.x_low = scales.share_low;
  spec.x_high = scales.share_high;
  spec.y_high = topOfScale(plot);
  spec.x_tick = [](double share) { return fmt::format("{:.0f} %", 100 * share); };
  PlotBand band;
  for (const SeriesPlotStep& step : plot.curve) {
    band.x.push_back(step.share);
    band.low.push_back(step.low);
    band.high.push_back(step.high);
    band.line.push_back(step.de00);
  }
  spec.bands.push_back(std::move(band));
  spec.levels.emplace_back(state.plan.choices.tolerance, fmt::format("near enough: {:g}", state.plan.choices.tolerance));
  for (const SeriesPlotPanel& p : plot.panels) {
    PlotPoint point;
    point.x = p.share;
    point.y = p.de00;
    point.low = p.low;
    point.high = p.high;
    point.mark = markOf(state.series, p.place);
    point.fill = colourOfReading(state.series, p.place, look);
    point.words = fmt::format("{}: {}\nread {:.1f} ({:.1f} to {:.1f}) off the wanted colour{}", capitalised(readingWords(p.place)), p.label, p.de00, p.low, p.high, p.left_out ? "\nleft out: the model does not rest on it" : "");
    point.id = static_cast<int>(p.place);
    point.selected = view.selected == point.id;
    spec.points.push_back(std::move(point));
  }
  const SeriesPlotNext& next = plot.next;
  PlotPoint point;
  point.x = next.at.share;
  point.y = next.at.de00;
  point.low = next.at.low;
  point.high = next.at.high;
  point.mark = Mark::Diamond;
  point.fill = state.series.next ? ink(state.series.next->rgb) : ink(look.greys.surround);
  point.words = fmt::format("{}\nexpected {:.1f} ({:.1f} to {:.1f}) off the wanted colour\nbest share between {:.0f} and {:.0f} %", next.label, next.at.de00, next.at.low, next.at.high, 100 * next.best_low, 100 * next.best_high);
  spec.points.push_back(std::move(point));
  return spec;
}

/// What the shapes mean.
void shapesKey(const SeriesPlot& plot, const Look& look) {
  const auto any = [&](auto what) { return std::ranges::any_of(plot.panels, what); };
  struct Shape {
    Mark mark;
    bool there;
    std::string words;
  };
  const Shape shapes[]{{Mark::Square, any([](const auto& p) { return p.at_these_coats && !p.left_out; }), "panel of " + plot.coats},
                       {Mark::Disc, any([](const auto& p) { return !p.at_these_coats && !p.left_out; }), "panel of other coats or ground"},
                       {Mark::Cross, any([](const auto& p) { return p.left_out; }), "left out"},
                       {Mark::Diamond, true, "to spray next"}};
  Flow flow;
  const float em = ImGui::GetFontSize();
  for (const Shape& shape : shapes) {
    if (!shape.there) continue;
    flow.next(2 * em + ImGui::CalcTextSize(shape.words.c_str()).x);
    ImGui::BeginGroup();
    const ImVec2 at = ImGui::GetCursorScreenPos();
    drawMark(ImGui::GetWindowDrawList(), shape.mark, at.x + 0.9f * em, at.y + 0.55f * em, ink(look.greys.surround), false, look);
    ImGui::Indent(2 * em);
    wrapped(shape.words);
    ImGui::Unindent(2 * em);
    ImGui::EndGroup();
  }
}

}  // namespace

void drawDistances(SeriesViewState& view, Drawing& d, float width, float height) {
  if (!d.state.series.plot) return;
  const int clicked = drawPlot("distances", distancePlot(view, d.state, d.look), width, height, d.look);
  if (clicked >= 0) view.selected = clicked;
  shapesKey(*d.state.series.plot, d.look);
  if (d.look.type.small) ImGui::PushFont(d.look.type.small);
  for (const std::string& one : d.state.series.plot->small_print) wrapped(one);
  if (d.look.type.small) ImGui::PopFont();
}

}  // namespace huewright::desk
