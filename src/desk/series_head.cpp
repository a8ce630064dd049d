#include <fmt/format.h>
#include <imgui.h>

#include "desk/fields.hpp"
#include "desk/flow.hpp"
#include "desk/series_parts.hpp"
#include "desk/swatch_row.hpp"

namespace huewright::desk {
namespace {

constexpr NumberRange kNextCarrier{0, 100}, kMostParts{1, 24}, kNextCoats{0, 50, true};
constexpr std::size_t kLongestName = 60;

std::string savedWords(const Plan& plan) {
  if (plan.series_file.empty()) return "Not saved in a file yet. Nothing is lost: it is kept here until you save it.";
  const std::string name = plan.series_file.filename().string();
  return plan.series_saved ? "Saved in " + name + "." : "Changed since it was saved in " + name + ". Nothing is lost: it is kept here until you save it.";
}

}  // namespace

void drawSeriesHead(SeriesViewState& view, Drawing& d) {
  const Series& series = *d.state.plan.series;
  const SeriesShown& shown = d.state.series;
  const float em = ImGui::GetFontSize();
  wrapped(savedWords(d.state.plan).c_str());
  if (d.state.plan.tints) wrapped(("Known tints are used, from " + d.state.plan.tints->filename().string() + ".").c_str());

  const SwatchPiece pieces[]{{shown.target ? &*shown.target : nullptr, "The wanted colour"}, {shown.ground ? &*shown.ground : nullptr, "The ground, bare"}};
  swatchRow("wanted and ground", pieces, std::min(8 * em, ImGui::GetContentRegionAvail().x), 2.2f * em, d.look);
  const std::string ground = !series.ground ? "no ground of its own" : series.ground->name.empty() ? "its ground" : series.ground->name;
  const std::string words = series.target ? "The wanted colour, over " + ground : "No wanted colour yet: keep a reading of a panel beside its card.";
  if (ImGui::GetContentRegionAvail().x > 22 * em) ImGui::SameLine();
  wrapped(words);

  Series changed = series;
  Typed any = Typed::Nothing;
  std::string wrong;
  const auto note = [&](Typed typed, const char* what, const NumberRange& range) {
    if (typed == Typed::Wrong) wrong = rangeSentence(what, range);
    if (typed != Typed::Nothing) any = typed;
  };
  Flow flow;
  const float name_width = std::min(9 * em, ImGui::GetContentRegionAvail().x), number_width = 3.2f * em;
  const auto before = [&](const char* lead, float width) {
    flow.next(ImGui::CalcTextSize(lead).x + ImGui::GetStyle().ItemSpacing.x + width);
    ImGui::AlignTextToFramePadding();
    ImGui::TextUnformatted(lead);
    if (ImGui::CalcTextSize(lead).x + ImGui::GetStyle().ItemSpacing.x + width <= ImGui::GetContentRegionAvail().x) ImGui::SameLine();
  };
  before("Strong tint", name_width);
  note(textField("##strong name", changed.strong_name, kLongestName, name_width, "What the strong tint is called; it stands on the pour sheet.", "name"), "A name", {});
  before("weak tint", name_width);
  note(textField("##weak name", changed.weak_name, kLongestName, name_width, "What the weak tint is called; it stands on the pour sheet.", "name"), "A name", {});
  before("carrier to one of tint", number_width);
  note(numberField("##carrier next", changed.carrier_per_tint, kNextCarrier, number_width, "Volumes of carrier to one of all the tint, for what is sprayed next."), "Carrier", kNextCarrier);
  double parts = changed.limits.max_total_parts;
  before("parts in all, at most", number_width);
  note(numberField("##most parts", parts, kMostParts, number_width, "No mix of more parts is suggested."), "Parts", kMostParts);
  changed.limits.max_total_parts = static_cast<int>(parts);
  before("coats from", 2 * number_width + ImGui::CalcTextSize("to").x + 2 * ImGui::GetStyle().ItemSpacing.x);
  note(numberField("##least coats", changed.limits.coats_low, kNextCoats, number_width, "Fewer coats are not suggested."), "Coats", kNextCoats);
  ImGui::SameLine();
  ImGui::AlignTextToFramePadding();
  ImGui::TextUnformatted("to");
  ImGui::SameLine();
  note(numberField("##most coats", changed.limits.coats_high, kNextCoats, number_width, "More coats are not suggested."), "Coats", kNextCoats);
  if (any == Typed::Changed && changed.limits.coats_high < changed.limits.coats_low) any = Typed::Wrong, wrong = "The most coats are fewer than the least.";
  if (any == Typed::Changed && !changed.strong_name.empty() && changed.strong_name == changed.weak_name) any = Typed::Wrong, wrong = "Both tints have the same name. Give each its own.";
  if (any == Typed::Changed) d.out.push_back(act::SetSeries{changed, "changing what may be suggested", false}), view.trouble.clear();
  if (any == Typed::Wrong) view.trouble = wrong;
}

}  // namespace huewright::desk
