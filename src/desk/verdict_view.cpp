#include <algorithm>
#include <array>
#include <fmt/format.h>
#include <imgui.h>

#include "desk/band.hpp"
#include "desk/flow.hpp"
#include "desk/swatch_row.hpp"
#include "desk/toolbar.hpp"
#include "desk/views.hpp"

namespace huewright::desk {
namespace {

constexpr float kGap = 24;           // px at scale 1, when panel and card are held apart

/// The panel that is spoken of.
std::size_t spokenOf(const DeskState& desk, const JudgedShown& judged) { return desk.verdict.panel < 0 ? judged.main : static_cast<std::size_t>(desk.verdict.panel); }

/// Panels and card side by side. What is said must be seen as well, so that with large type the colours give way.
void colours(DeskState& desk, const JudgedShown& judged, Drawing& d, float height) {
  const PanelShown& panel = judged.panels[spokenOf(desk, judged)];
  const SwatchPiece card{&judged.card, "card"}, one{&panel.swatch, panel.name};
  const std::array fields{desk.look.swapped ? card : one, desk.look.swapped ? one : card};
  const float width = ImGui::GetContentRegionAvail().x;
  const bool several = judged.panels.size() > 1;
  namedSwatches("panel and card", fields, width, several ? 0.7f * height : height, d.look, desk.look.gap ? kGap * d.look.scale : 0);
  if (!several) return;
  std::vector<SwatchPiece> all;
  for (const PanelShown& p : judged.panels) all.push_back({&p.swatch, p.name});
  const int at = namedSwatches("all", all, width, 0.3f * height, d.look);
  if (at < 0) return;
  desk.verdict.panel = at;
  if (desk.photo.map) d.out.push_back(act::WantMap{true, static_cast<std::size_t>(at)});
}

void list(const char* title, const std::vector<std::string>& lines, const Look& look, bool numbered) {
  if (lines.empty()) return;
  ImGui::Dummy({0, 4 * look.scale});
  wrapped(title, look.type.head);
  int n = 0;
  for (const std::string& line : lines) {
    const ImVec2 at = ImGui::GetCursorPos();
    if (numbered) ImGui::TextUnformatted(fmt::format("{}.", ++n).c_str());
    else ImGui::TextUnformatted("–");
    ImGui::SetCursorPos({at.x + 1.6f * ImGui::GetFontSize(), at.y});
    wrapped(line);
  }
}

void budget(const PanelShown& panel, const Look& look) {
  wrapped("What the uncertainty is made of", look.type.head);
  wrapped("One standard deviation of ΔE00; causes add as the squares.");
  if (!ImGui::BeginTable("budget", 2, ImGuiTableFlags_RowBg)) return;
  ImGui::TableSetupColumn("sd", ImGuiTableColumnFlags_WidthFixed, 4 * ImGui::GetFontSize());
  ImGui::TableSetupColumn("what");
  for (const BudgetRow& row : panel.budget) {
    ImGui::TableNextRow();
    ImGui::TableNextColumn();
    ImGui::TextUnformatted(fmt::format("{}{:.2f}", row.part.empty() ? "" : "  ", row.sd).c_str());
    ImGui::TableNextColumn();
    wrapped(row.part.empty() ? row.cause : "   " + row.part);
  }
  ImGui::EndTable();
}

void buttons(DeskState& desk, const JudgedShown* judged, Drawing& d) {
  const bool keep = judged && !d.state.judging;
  const std::array items{ToolItem{Do::HowSprayed, true, desk.sprayed},        ToolItem{Do::AddToSeries, keep},
                         ToolItem{Do::NextPanel, judged && judged->panels.size() > 1}, ToolItem{Do::Budget, judged != nullptr, desk.verdict.budget},
                         ToolItem{Do::SwapSides, judged != nullptr, desk.look.swapped}, ToolItem{Do::OpenGap, judged != nullptr, desk.look.gap},
                         ToolItem{Do::UseAsGround, keep}};
  for (const Do what : drawToolbar("verdict", items, 1)) {
    switch (what) {
      case Do::SwapSides: desk.look.swapped = !desk.look.swapped; break;
      case Do::OpenGap: desk.look.gap = !desk.look.gap; break;
      case Do::Budget: desk.verdict.budget = !desk.verdict.budget; break;
      case Do::HowSprayed: desk.sprayed = !desk.sprayed; break;
      case Do::AddToSeries: d.out.push_back(act::AddToSeries{}); break;
      case Do::UseAsGround: d.out.push_back(act::UseAsGround{}); break;
      default: {
        const std::size_t next = (spokenOf(desk, *judged) + 1) % judged->panels.size();
        desk.verdict.panel = static_cast<int>(next);
        if (desk.photo.map) d.out.push_back(act::WantMap{true, next});
      }
    }
  }
}

void nothingYet(const SittingState& s, const Look& look) {
  ImGui::Dummy({0, 10 * look.scale});
  if (s.judging) wrapped("Looking at the photo …", look.type.head);
  else if (!s.judge_trouble.empty()) wrapped(s.judge_trouble, look.type.head);
  else wrapped("Photograph the panel beside the wanted colour's card and a grey patch, best on the printed mat, and open the photo.", look.type.head);
}

/// Everything that is said, in the order in which it matters.
void said(const DeskState& desk, const JudgedShown& judged, const SittingState& s, const Look& look) {
  const PanelShown& panel = judged.panels[spokenOf(desk, judged)];
  ImFont* large = look.type.large->FontSize > 0.08f * ImGui::GetIO().DisplaySize.y ? look.type.head : look.type.large;
  drawBand(panel.band, 1.05f * large->FontSize, look);
  ImGui::SameLine();
  wrapped(panel.headline, large);
  wrapped(panel.line, large == look.type.large ? look.type.head : look.type.body);
  if (s.judging) wrapped("This is the verdict from before the last change; the new one is on its way …");
  if (desk.verdict.budget) budget(panel, look);
  ImGui::Dummy({0, 2 * look.scale});
  wrapped(panel.sentence);
  if (!judged.ranking.empty()) wrapped(judged.ranking);
  for (const std::string& seen : judged.looks) wrapped(seen);
  list("What to do", panel.actions, look, true);
  if (!judged.trust.empty()) {
    ImGui::Dummy({0, 4 * look.scale});
    wrapped("How far the photo can be trusted", look.type.head);
    wrapped(judged.trust);
    for (const std::string& better : judged.better) wrapped(better);
  }
  list("Take with care", judged.cautions, look, false);
}

}  // namespace

void drawVerdict(DeskState& desk, Drawing& d) {
  const SittingState& s = d.state;
  const JudgedShown* judged = s.judged ? &*s.judged : nullptr;
  if (judged && desk.verdict.panel >= static_cast<int>(judged->panels.size())) desk.verdict.panel = -1;
  buttons(desk, judged, d);
  if (!judged) return nothingYet(s, d.look);
  const float room = ImGui::GetContentRegionAvail().y;
  colours(desk, *judged, d, std::clamp(room - 19 * d.look.type.body->FontSize, 0.2f * room, 0.5f * room));
  ImGui::BeginChild("said");
  said(desk, *judged, s, d.look);
  ImGui::EndChild();
}

}  // namespace huewright::desk
