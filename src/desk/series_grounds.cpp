#include <algorithm>
#include <fmt/format.h>
#include <imgui.h>

#include "desk/fields.hpp"
#include "desk/flow.hpp"
#include "desk/series_parts.hpp"
#include "desk/signs.hpp"
#include "desk/swatch_row.hpp"

namespace huewright::desk {
namespace {

constexpr NumberRange kGroundL{0, 120}, kGroundAb{-200, 200};  // as readSeries has them
constexpr std::size_t kLongestGround = 60;
constexpr Lab<D50> kNewGround{80, 0, 0};                       // a light grey, until its numbers are typed

/// "another ground", or with a number where that is taken.
std::string newGroundName(const Series& series) {
  std::string name = "another ground";
  for (int n = 2; std::ranges::find(series.grounds, name, &NamedGround::name) != series.grounds.end(); ++n) name = fmt::format("another ground {}", n);
  return name;
}

void addGround(SeriesViewState& view, const Series& series, const Lab<D50>& lab, Actions& out) {
  Series changed = series;
  changed.grounds.push_back({newGroundName(series), lab});
  view.ground = static_cast<int>(series.grounds.size());
  view.ground_trouble.clear();
  out.push_back(act::SetSeries{changed, "adding a ground", false});
}

void groundButtons(SeriesViewState& view, Drawing& d) {
  const Series& series = *d.state.plan.series;
  const int count = static_cast<int>(series.grounds.size());
  const int chosen = view.ground < count ? view.ground : -1;  // one that was added just now may not be there yet
  const bool room = series.grounds.size() < kMostGrounds;
  const JudgeReport* judged = d.state.judged && !d.state.judging ? d.state.judged->report.get() : nullptr;
  Flow flow;
  if (flow.button(Do::AddGround, room)) addGround(view, series, kNewGround, d.out);
  else if (flow.button(Do::TakeGround, room && judged)) addGround(view, series, judged->reading.panels[judged->main].lab, d.out);
  else if (flow.button(Do::NextGround, count > 0)) view.ground = (chosen + 1) % count;
  else if (flow.button(Do::RemoveGround, chosen >= 0)) {
    Series changed = series;
    const std::string name = series.grounds[static_cast<std::size_t>(chosen)].name;
    changed.grounds.erase(changed.grounds.begin() + chosen);
    d.out.push_back(act::SetSeries{changed, "taking " + name + " out", false});
  }
}

/// Its name and its numbers. True when they were changed; what is wrong goes into the trouble.
bool groundFields(NamedGround& ground, bool may_be_nameless, std::string& trouble) {
  const float em = ImGui::GetFontSize(), number = 4.2f * em, gap = ImGui::GetStyle().ItemSpacing.x;
  Typed any = Typed::Nothing;
  std::string wrong;
  const auto take = [&](Typed typed, const std::string& sentence) {
    if (typed == Typed::Wrong) wrong = sentence;
    if (typed != Typed::Nothing) any = typed;
  };
  Flow flow;
  const float left = ImGui::GetCursorScreenPos().x, wide = std::min(13 * em, ImGui::GetContentRegionAvail().x);
  int value_count = 0;
  flow.next(wide);
  NamedGround typed = ground;
  take(textField("##name", typed.name, kLongestGround, wide, "What this ground is called.", "name"), "A name of a ground is a line of plain text.");
  if (any == Typed::Changed && typed.name.empty() && !may_be_nameless) any = Typed::Wrong, wrong = "Each ground needs a name, so that they can be told apart.";
  // The three numbers stay in one line where they can.
  const float one = ImGui::CalcTextSize("L*").x + gap + number, all = 3 * one + 2 * gap;
  const bool together = all <= ImGui::GetWindowPos().x + ImGui::GetWindowContentRegionMax().x - left;
  const auto axis = [&](const char* lead, const char* name, double& value, const NumberRange& range) {
    if (together && value_count > 0) ImGui::SameLine();
    else flow.next(together ? all : one);
    ++value_count;
    ImGui::AlignTextToFramePadding();
    ImGui::TextUnformatted(lead);
    ImGui::SameLine();
    take(numberField(name, value, range, number, "As a photo of the bare ground gave it, CIELAB under D50."), rangeSentence(lead, range));
  };
  axis("L*", "##L", typed.lab.L, kGroundL);
  axis("a*", "##a", typed.lab.a, kGroundAb);
  axis("b*", "##b", typed.lab.b, kGroundAb);
  if (any == Typed::Nothing) return false;
  trouble = any == Typed::Wrong ? wrong : "";
  if (any == Typed::Changed) ground = typed;
  return any == Typed::Changed;
}

/// ground: which of the other grounds; none for its own.
void groundRow(const SeriesShown::Ground& shown, std::optional<std::size_t> ground, SeriesViewState& view, Drawing& d) {
  const Series& series = *d.state.plan.series;
  const auto& first = d.state.series.grounds.front();
  const float em = ImGui::GetFontSize(), room = ImGui::GetContentRegionAvail().x, bar = 6 * d.look.scale;
  const bool chosen = ground && view.ground == static_cast<int>(*ground);
  const ImVec2 from = ImGui::GetCursorScreenPos();
  ImGui::Indent(bar + ImGui::GetStyle().ItemSpacing.x);
  const SwatchPiece pieces[]{{&shown.bare, "The bare ground"}, {shown.mixed ? &*shown.mixed : nullptr, "The mix over it"}, {first.mixed ? &*first.mixed : nullptr, "The mix over the first ground"}};
  if (swatchRow("ground", pieces, std::min(15 * em, room), 4.5f * em, d.look) >= 0 && ground) view.ground = static_cast<int>(*ground);
  if (room > 34 * em) ImGui::SameLine();
  ImGui::BeginGroup();
  Series changed = series;
  if (ground && groundFields(changed.grounds[*ground], false, view.ground_trouble)) d.out.push_back(act::SetSeries{changed, "changing a ground", false});
  else if (!ground && !series.ground) wrapped("Its own ground: the bare strip of the last panel");
  else if (!ground && groundFields(*changed.ground, true, view.ground_trouble)) d.out.push_back(act::SetSeries{changed, "changing the series' ground", false});
  if (!ground) wrapped("The series' own ground, which the others are held against.");
  else if (!shown.words.empty()) wrapped(shown.words);
  if (!shown.lean.empty()) cautionLine(shown.lean.c_str(), d.look);
  ImGui::EndGroup();
  ImGui::Unindent(bar + ImGui::GetStyle().ItemSpacing.x);
  if (chosen) ImGui::GetWindowDrawList()->AddRectFilled(from, {from.x + bar, ImGui::GetCursorScreenPos().y - ImGui::GetStyle().ItemSpacing.y}, ink(d.look.greys.type));
}

}  // namespace

void drawOtherGrounds(SeriesViewState& view, Drawing& d) {
  const SeriesShown& shown = d.state.series;
  const Series& series = *d.state.plan.series;
  heading("Over other grounds", d.look);
  groundButtons(view, d);
  if (!view.ground_trouble.empty()) cautionLine(view.ground_trouble.c_str(), d.look);
  if (shown.grounds.size() != series.grounds.size() + (shown.own_ground ? 1 : 0)) {  // one was added or taken out just now
    wrapped("Working it out \u2026");
    return;
  }
  if (!shown.grounds_mix.empty())
    wrapped(shown.grounds_mix + ". Left the bare ground, in the middle the mix over it, right the mix over " + (shown.grounds.front().name.empty() ? "its own ground" : shown.grounds.front().name) + ". All are the model's colours, not measured.");
  else if (!series.grounds.empty())
    wrapped(d.state.advising ? "Working it out \u2026" : "Nothing can be said of the mix over them before something is known of the tints: spray a panel and keep its reading.");
  for (std::size_t i = 0; i < shown.grounds.size(); ++i) {
    ImGui::PushID(static_cast<int>(i));
    ImGui::Separator();
    const bool own = shown.own_ground && i == 0;
    groundRow(shown.grounds[i], own ? std::nullopt : std::optional(i - (shown.own_ground ? 1 : 0)), view, d);
    ImGui::PopID();
  }
  if (series.grounds.empty())
    wrapped("No other ground is named yet. Add one and type its numbers, or judge a photo of the bare ground on the Panel page (F1) and take its colour from there.");
}

}  // namespace huewright::desk
