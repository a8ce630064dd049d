#include <algorithm>
#include <cmath>
#include <imgui.h>

#include "desk/flow.hpp"
#include "desk/pour_request.hpp"
#include "desk/series_parts.hpp"
#include "desk/signs.hpp"

namespace huewright::desk {
namespace {

constexpr float kTwoColumns = 58, kPlotBeside = 50;  // em of room

void seriesButtons(DeskState& desk, Drawing& d) {
  SeriesViewState& view = desk.series;
  const Plan& plan = d.state.plan;
  const bool open = plan.series.has_value();
  const bool mix = open && (plan.series->accepted || (d.state.series.advice && d.state.series.advice->advice.next));
  Flow flow;
  if (flow.button(Do::NewSeries)) d.out.push_back(act::NewSeries{});
  if (flow.button(Do::OpenSeries)) askForFile(desk, Asking::Series, d.out);
  if (flow.button(Do::SaveSeries, open)) {
    if (plan.series_file.empty()) askForFile(desk, Asking::SaveSeries, d.out);
    else d.out.push_back(act::SaveSeries{});
  }
  if (flow.button(Do::SaveSeriesAs, open)) {
    askForFile(desk, Asking::SaveSeries, d.out);
    if (!plan.series_file.empty()) desk.browser.typed = plan.series_file.filename().string();
  }
  if (flow.button(Do::UseTints, open, plan.tints.has_value(), plan.tints ? "No known tints" : nullptr)) {
    if (plan.tints) d.out.push_back(act::UseTints{});
    else askForFile(desk, Asking::Tints, d.out);
  }
  if (flow.button(Do::OtherGrounds, open, view.grounds)) view.grounds = !view.grounds, view.pour = false;
  if (flow.button(Do::PourCup, mix, view.pour)) view.pour = !view.pour, view.grounds = false;
  if (flow.button(Do::WriteSheet, mix)) {
    view.pour = true;
    view.grounds = false;
    askForFile(desk, Asking::Sheet, d.out);
    desk.browser.pour = pourRequestOf(view.cup, d.state);
  }
  if (!mix) view.pour = false;
}

void noSeries(const Look& look) {
  heading("No series is open", look);
  wrapped("A series holds all panels that were sprayed for one colour: their mixes, their coats, and how they read. From them the program works out what to spray next.");
  ImGui::Spacing();
  itemLine("Judge a panel's photo on the Panel page (F1), say there how it was sprayed (E), and keep the reading (Enter): that begins a series.", look);
  itemLine("Or open a series file that was saved before (Ctrl+R), or drop it on the window.", look);
  itemLine("Best first panel: a stepped one. Mask a strip, spray a coat, peel the tape, and so on, so that one to four coats lie side by side.", look);
}

/// What is asked of the series now: the cup, other grounds, or what to spray next and the plot.
void answers(DeskState& desk, Drawing& d, bool plot_beside) {
  if (desk.series.pour) return drawPour(desk, d);
  if (desk.series.grounds) return drawOtherGrounds(desk.series, d);
  const float em = ImGui::GetFontSize(), gap = 2 * ImGui::GetStyle().ItemSpacing.x;
  const ImVec2 room = ImGui::GetContentRegionAvail();
  if (plot_beside && d.state.series.plot && room.x > kPlotBeside * em) {
    const float width = std::floor(0.52f * room.x);
    ImGui::BeginChild("distances beside", {width, room.y});
    drawDistances(desk.series, d, ImGui::GetContentRegionAvail().x, std::min(room.y - 4 * em, 0.9f * width));
    ImGui::EndChild();
    ImGui::SameLine(0, gap);
    ImGui::BeginChild("next", {0, room.y});
    drawNextMix(d);
    drawNextMore(d);
    ImGui::EndChild();
    return;
  }
  drawNextMix(d);
  ImGui::Spacing();
  const float width = ImGui::GetContentRegionAvail().x;
  drawDistances(desk.series, d, width, std::clamp(0.5f * width, 12 * em, 26 * em));
  drawNextMore(d);
}

}  // namespace

void drawSeries(DeskState& desk, Drawing& d) {
  const float em = ImGui::GetFontSize();
  const bool narrow = ImGui::GetContentRegionAvail().x < kTwoColumns * em;
  if (narrow) ImGui::BeginChild("series", ImGui::GetContentRegionAvail());  // the buttons scroll too: large type leaves little room
  seriesButtons(desk, d);
  const ImVec2 room = ImGui::GetContentRegionAvail();
  if (!d.state.plan.series) {
    noSeries(d.look);
  } else if (narrow) {
    // The answer first, then what it rests on.
    answers(desk, d, false);
    heading("Readings", d.look);
    drawReadings(desk.series, d);
    heading("What is wanted", d.look);
    drawSeriesHead(desk.series, d);
  } else {
    ImGui::BeginChild("readings", {std::clamp(0.4f * room.x, 29 * em, 46 * em), room.y});
    drawSeriesHead(desk.series, d);
    heading("Readings", d.look);
    drawReadings(desk.series, d);
    ImGui::EndChild();
    ImGui::SameLine(0, 2 * ImGui::GetStyle().ItemSpacing.x);
    ImGui::BeginChild("answers", {0, room.y});
    answers(desk, d, true);
    ImGui::EndChild();
  }
  if (narrow) ImGui::EndChild();
}

}  // namespace huewright::desk
