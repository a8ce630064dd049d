#include <algorithm>
#include <imgui.h>

#include "desk/flow.hpp"
#include "desk/series_parts.hpp"
#include "desk/signs.hpp"
#include "desk/swatch_row.hpp"

namespace huewright::desk {

void drawOtherGrounds(Drawing& d) {
  const SeriesShown& series = d.state.series;
  heading("Over other grounds", d.look);
  if (d.state.plan.series->grounds.empty()) {
    wrapped("This series names no other ground. Write them into its file under \"grounds\", each with its name and its L*, a*, b* as a photo of the bare ground gave them, and open it again.");
    return;
  }
  if (series.grounds.empty()) {
    wrapped(d.state.advising ? "Working it out \u2026" : "Nothing can be said of other grounds before something is known of the tints: spray a panel and keep its reading.");
    return;
  }
  wrapped((series.grounds_mix + ". Left the bare ground, in the middle the mix over it, right the mix over " + (series.grounds.front().name.empty() ? "its own ground" : series.grounds.front().name) + ". All are the model's colours, not measured.").c_str());
  const float em = ImGui::GetFontSize();
  for (std::size_t i = 0; i < series.grounds.size(); ++i) {
    const auto& ground = series.grounds[i];
    ImGui::PushID(static_cast<int>(i));
    ImGui::Separator();
    const float room = ImGui::GetContentRegionAvail().x;
    const bool beside = room > 34 * em;
    const SwatchPiece pieces[]{{&ground.bare, "The bare ground"}, {&ground.mixed, "The mix over it"}, {&series.grounds.front().mixed, "The mix over the first ground"}};
    swatchRow("ground", pieces, std::min(18 * em, room), 4.5f * em, d.look);
    if (beside) ImGui::SameLine();
    ImGui::BeginGroup();
    wrapped(ground.name.empty() ? "Its own ground" : ground.name, d.look.type.head);
    wrapped(ground.words);
    if (!ground.lean.empty()) cautionLine(ground.lean.c_str(), d.look);
    ImGui::EndGroup();
    ImGui::PopID();
  }
}

}  // namespace huewright::desk
