#include "desk/arrivals_list.hpp"

#include <algorithm>
#include <array>
#include <imgui.h>

#include "desk/band.hpp"
#include "desk/flow.hpp"
#include "desk/short_name.hpp"
#include "desk/signs.hpp"
#include "desk/swatch_row.hpp"

namespace huewright::desk {

const Arrival* chosenArrival(const LiveViewState& view, const SittingState& state) {
  const auto at = std::ranges::find(state.arrivals, view.arrival, &Arrival::id);
  return at == state.arrivals.end() ? nullptr : &*at;
}

Action openingOf(const Arrival& arrival) { return act::OpenPhotos{{arrival.file}, PhotoRole::First, !arrival.by_tags}; }

void drawArrivals(LiveViewState& view, Drawing& d) {
  const SittingState& s = d.state;
  const FollowedShown& folder = s.followed;
  const std::string name = folder.folder.filename().empty() ? folder.folder.string() : folder.folder.filename().string();
  heading("Photos that came", d.look);
  if (folder.running) wrapped("The folder \"" + name + "\" is followed: each photo in it is judged, and the verdict is written beside it." +
                                  (folder.by_tags ? " Where tags tell mix, coats and carrier, it goes into the series too." : ""));
  else if (!folder.folder.empty()) wrapped("The folder \"" + name + "\" is not followed now (" + keyWords(keyLine(Do::FollowFolder)) + ").");
  else wrapped("Let the phone's sync or the card reader drop photos into a folder, and follow that (" + keyWords(keyLine(Do::FollowFolder)) + ").");
  if (!folder.trouble.empty()) cautionLine(folder.trouble.c_str(), d.look);
  const float em = ImGui::GetFontSize(), pad = 0.3f * em, scale = d.look.scale;
  for (const Arrival& one : s.arrivals) {
    ImGui::PushID(one.id);
    ImGui::Dummy({0, 0.1f * em});
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const float wide = ImGui::GetContentRegionAvail().x, side = 2.2f * em, left = side + 2 * pad + 4 * scale;
    const std::string sentence = inLines(one.sentence, wide - left);
    const float words = ImGui::CalcTextSize(sentence.c_str(), nullptr, false, wide - left).y;
    const float tall = std::max(side, 1.25f * em + words) + 2 * pad;
    const bool clicked = ImGui::InvisibleButton("arrival", {std::max(1.0f, wide), tall});
    const bool over = ImGui::IsItemHovered(), chosen = one.id == view.arrival;
    ImDrawList* list = ImGui::GetWindowDrawList();
    if (chosen || over) list->AddRectFilled(at, {at.x + wide, at.y + tall}, ink(chosen ? d.look.greys.held : d.look.greys.hovered));
    if (chosen) list->AddRectFilled(at, {at.x + 4 * scale, at.y + tall}, ink(d.look.greys.type));
    const ImVec2 end = ImGui::GetCursorScreenPos();
    ImGui::SetCursorScreenPos({at.x + pad + 4 * scale, at.y + pad});
    if (one.band) {
      const std::array pieces{SwatchPiece{&one.panel, "panel"}, SwatchPiece{&one.card, "card"}};
      swatchRow("colours", pieces, side - 1.1f * em, side, d.look);
      ImGui::SetCursorScreenPos({at.x + pad + 4 * scale + side - em, at.y + pad});
      drawBand(*one.band, 0.9f * em, d.look);
    }
    const float x = at.x + left;
    const std::string line = one.problem ? one.name + ": cannot be used" : one.name + ": " + one.headline;
    list->AddText({x, at.y + pad}, ink(d.look.greys.type), shortName(line, ImGui::GetFont(), wide - left).c_str());
    list->AddText(ImGui::GetFont(), em, {x, at.y + pad + 1.2f * em}, ink(d.look.greys.weak_type), sentence.c_str(), nullptr, wide - left);
    ImGui::SetCursorScreenPos(end);
    if (clicked) view.arrival = one.id;
    if (over && ImGui::IsMouseDoubleClicked(ImGuiMouseButton_Left)) d.out.push_back(openingOf(one));
    ImGui::PopID();
  }
}

}  // namespace huewright::desk
