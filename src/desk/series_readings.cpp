#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <imgui.h>

#include "desk/fields.hpp"
#include "desk/flow.hpp"
#include "desk/plot_marks.hpp"
#include "desk/series_parts.hpp"
#include "desk/signs.hpp"
#include "desk/swatch_row.hpp"

namespace huewright::desk {
namespace {

constexpr NumberRange kPanelParts{0, 10000}, kPanelCoats{0, 50, true}, kPanelCarrier{0, 100};

/// The panel as the row's fields have it, and what is wrong with what was typed.
struct RowEdit {
  SeriesPanel panel;
  bool changed = false;
  std::string wrong{};
};

void groundField(RowEdit& edit, const Series& series, const Swatch* own, Flow& flow, const Look& look) {
  const std::string common = !series.ground || series.ground->name.empty() ? "the series' ground" : series.ground->name;
  if (!edit.panel.ground || !series.ground) {
    flow.words(("over " + (edit.panel.ground ? "its own bare strip" : common)).c_str());
    return;
  }
  const float width = std::min(15 * ImGui::GetFontSize(), ImGui::GetContentRegionAvail().x);
  flow.next(width);
  ImGui::SetNextItemWidth(width);
  if (ImGui::BeginCombo("##ground", "over its own bare strip")) {
    const SwatchPiece piece{own, "The bare strip in this panel's photo"};
    swatchRow("own ground", {&piece, 1}, 3 * ImGui::GetFontSize(), ImGui::GetFontSize(), look);
    ImGui::SameLine();
    ImGui::Selectable("its own bare strip", true);
    if (ImGui::Selectable(common.c_str())) edit.panel.ground.reset(), edit.changed = true;
    ImGui::EndCombo();
  }
}

void rowFields(RowEdit& edit, const Series& series, const Swatch* ground, const Look& look) {
  const float em = ImGui::GetFontSize(), gap = ImGui::GetStyle().ItemSpacing.x, number = 3.2f * em, room = ImGui::GetContentRegionAvail().x;
  Flow flow;
  const auto take = [&](Typed typed, const char* what, const NumberRange& range) {
    if (typed == Typed::Changed) edit.changed = true;
    if (typed == Typed::Wrong) edit.wrong = rangeSentence(what, range);
  };
  const auto word = [](const char* text) {
    ImGui::SameLine();
    ImGui::AlignTextToFramePadding();
    ImGui::TextUnformatted(text);
  };
  flow.next(2 * number + 2 * gap + ImGui::CalcTextSize(":").x);
  take(numberField("##strong", edit.panel.strong, kPanelParts, number, "Parts of the strong tint, by volume, before carrier."), "Parts", kPanelParts);
  word(":");
  ImGui::SameLine();
  take(numberField("##weak", edit.panel.weak, kPanelParts, number, "Parts of the weak tint, by volume, before carrier."), "Parts", kPanelParts);
  flow.next(number + 2 * gap + ImGui::CalcTextSize("atcoats").x);  // else "1 : 3  3 coats" could be read as one ratio
  ImGui::AlignTextToFramePadding();
  ImGui::TextUnformatted("at");
  ImGui::SameLine();
  take(numberField("##coats", edit.panel.coats, kPanelCoats, number, "Coats of tint on this panel."), "Coats", kPanelCoats);
  word("coats");
  flow.next(number + gap + ImGui::CalcTextSize("carrier").x);
  const std::string usual = fieldNumber(series.carrier_per_tint);
  take(numberField("##carrier", edit.panel.carrier_per_tint, kPanelCarrier, number, "Volumes of carrier to one of tint. Empty: as the series has it.", usual.c_str()), "Carrier", kPanelCarrier);
  word("carrier");
  const float stage = std::min(7.5f * em, room);
  flow.next(stage);
  ImGui::SetNextItemWidth(stage);
  edit.changed |= stageField("##stage", edit.panel.stage);
  groundField(edit, series, ground, flow, look);
  if (edit.changed && edit.panel.strong + edit.panel.weak <= 0) edit.changed = false, edit.wrong = "A mix takes at least one part of one of the tints.";
}

/// The head of a row: its mark as in the plot, its name, how far it is off, and whether it was accepted.
void rowHead(std::size_t i, const Series& series, const SeriesShown& shown, const Swatch* colour, bool selected, const Look& look) {
  const float em = ImGui::GetFontSize();
  const ImVec2 at = ImGui::GetCursorScreenPos();
  drawMark(ImGui::GetWindowDrawList(), markOf(shown, i), at.x + 0.6f * em, at.y + 0.55f * em, colour ? ink(colour->rgb) : ink(look.greys.surround), false, look);
  std::string words = i < shown.rows.size() && !shown.rows[i].name.empty() ? shown.rows[i].name : panelName(series, i);
  if (i < shown.rows.size() && series.target) {
    words += fmt::format(": {:.1f}", shown.rows[i].de00);
    if (shown.plot)
      for (const SeriesPlotPanel& p : shown.plot->panels)
        if (p.place == i) words += fmt::format(" ({:.1f} to {:.1f})", p.low, p.high);
    words += " off the wanted colour";
  }
  if (isAccepted(series, series.panels[i])) words += ", accepted";
  if (selected) words += ", chosen";
  ImGui::Indent(1.5f * em);
  wrapped(words);
  ImGui::Unindent(1.5f * em);
}

void readingRow(std::size_t i, SeriesViewState& view, Drawing& d, bool come_into_sight) {
  const Series& series = *d.state.plan.series;
  const SeriesShown& shown = d.state.series;
  const bool selected = view.selected == static_cast<int>(i);
  const SeriesRowShown* row = i < shown.rows.size() ? &shown.rows[i] : nullptr;
  const float em = ImGui::GetFontSize(), bar = 6 * d.look.scale, gap = ImGui::GetStyle().ItemSpacing.x;
  ImDrawList* list = ImGui::GetWindowDrawList();
  ImGui::PushID(static_cast<int>(i));
  list->ChannelsSplit(2);
  list->ChannelsSetCurrent(1);
  const ImVec2 from = ImGui::GetCursorScreenPos();
  const float room = ImGui::GetContentRegionAvail().x;
  ImGui::Dummy({1, 0.2f * em});
  ImGui::Indent(bar + gap);
  ImGui::BeginGroup();
  const bool beside = room > 24 * em;
  const SwatchPiece pieces[]{{row ? &row->swatch : nullptr, "This panel"}, {shown.target ? &*shown.target : nullptr, "The wanted colour"}};
  swatchRow("panel and wanted", pieces, 6 * em, 2.8f * em, d.look);
  if (beside) ImGui::SameLine();
  ImGui::BeginGroup();
  RowEdit edit{series.panels[i]};
  rowHead(i, series, shown, row ? &row->swatch : nullptr, selected, d.look);
  rowFields(edit, series, row && row->ground ? &*row->ground : nullptr, d.look);
  if (row && !row->trouble.empty()) cautionLine(row->trouble.c_str(), d.look);
  ImGui::EndGroup();
  ImGui::EndGroup();
  ImGui::Unindent(bar + gap);
  ImGui::Dummy({1, 0.2f * em});
  const ImVec2 to{from.x + room, ImGui::GetCursorScreenPos().y - ImGui::GetStyle().ItemSpacing.y};
  list->ChannelsSetCurrent(0);
  if (selected) {
    list->AddRectFilled(from, to, ink(d.look.greys.panel));
    list->AddRectFilled(from, {from.x + bar, to.y}, ink(d.look.greys.type));
  }
  list->ChannelsMerge();
  if (ImGui::IsWindowHovered() && ImGui::IsMouseHoveringRect(from, to) && ImGui::IsMouseClicked(0)) view.selected = static_cast<int>(i);
  if (selected && come_into_sight) ImGui::SetScrollFromPosY((from.y + to.y) / 2 - ImGui::GetWindowPos().y);
  ImGui::PopID();
  if (!edit.wrong.empty()) view.trouble = edit.wrong;
  if (edit.changed) {
    Series changed = series;
    changed.panels[i] = edit.panel;
    d.out.push_back(act::SetSeries{changed, "changing " + readingWords(i), false});
    view.trouble.clear();
  }
}

void accept(const Series& series, const SeriesPanel& panel, Actions& out) {
  Series changed = series;
  if (isAccepted(series, panel)) {
    changed.accepted.reset();
    out.push_back(act::SetSeries{changed, "taking the accepted mix back", false});
    return;
  }
  changed.accepted = panel;
  out.push_back(act::SetSeries{changed, "accepting a mix", false});
}

}  // namespace

std::string readingWords(std::size_t reading) { return "reading " + std::to_string(reading + 1); }

bool isAccepted(const Series& series, const SeriesPanel& panel) {
  const auto& a = series.accepted;
  return a && a->strong * panel.weak == a->weak * panel.strong && a->coats == panel.coats && a->carrier_per_tint.value_or(series.carrier_per_tint) == panel.carrier_per_tint.value_or(series.carrier_per_tint);
}

Mark markOf(const SeriesShown& series, std::size_t reading) {
  if (series.plot)
    for (const SeriesPlotPanel& p : series.plot->panels)
      if (p.place == reading) return p.left_out ? Mark::Cross : p.at_these_coats ? Mark::Square : Mark::Disc;
  return reading < series.rows.size() && !series.rows[reading].trouble.empty() ? Mark::Cross : Mark::Disc;
}

void drawReadings(SeriesViewState& view, Drawing& d) {
  const Series& series = *d.state.plan.series;
  const int count = static_cast<int>(series.panels.size());
  view.selected = std::clamp(view.selected, -1, count - 1);
  const bool chosen = view.selected >= 0;
  bool moved = false;
  Flow flow;
  if (flow.button(Do::NextReading, count > 0)) view.selected = (view.selected + 1) % count, moved = true;
  const auto place = static_cast<std::size_t>(std::max(0, view.selected));
  const bool accepted = chosen && isAccepted(series, series.panels[place]);
  if (flow.button(Do::AcceptMix, chosen, accepted) && chosen && !moved) accept(series, series.panels[place], d.out);
  if (flow.button(Do::RemoveReading, chosen) && chosen && !moved) {
    Series changed = series;
    changed.panels.erase(changed.panels.begin() + static_cast<std::ptrdiff_t>(place));
    d.out.push_back(act::SetSeries{changed, "taking " + readingWords(place) + " out", false});
  }
  if (!view.trouble.empty()) cautionLine(view.trouble.c_str(), d.look);
  if (series.accepted) wrapped(fmt::format("Accepted: {} at {}.", partsWords(series.accepted->strong, series.accepted->weak), coatsWords(series.accepted->coats)));
  if (count == 0) wrapped("No panel has been read yet. Spray one, judge its photo on the Panel page (F1), say there how it was sprayed (E), and keep the reading (Enter).");
  for (std::size_t i = 0; i < series.panels.size(); ++i) {
    ImGui::Separator();
    readingRow(i, view, d, moved);
  }
}

}  // namespace huewright::desk
