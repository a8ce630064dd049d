#include <algorithm>
#include <array>
#include <imgui.h>

#include "desk/band.hpp"
#include "desk/flow.hpp"
#include "desk/swatch_row.hpp"
#include "desk/views.hpp"

namespace huewright::desk {
namespace {

struct RoomLine {
  std::string text;
  ImFont* font{};
  float height = 0;
};

/// The text in the largest of the fonts in which it takes at most so many lines and so much height.
RoomLine fitting(const std::string& text, float width, int lines, float most, const Look& look) {
  RoomLine line{text, look.type.body, 0};
  for (ImFont* font : {look.type.room, look.type.large, look.type.head, look.type.body}) {
    line.font = font;
    line.height = font->CalcTextSizeA(font->FontSize, 1e9f, width, text.c_str()).y;
    if (line.height <= (static_cast<float>(lines) + 0.1f) * font->FontSize && line.height <= most) break;
  }
  return line;
}

}  // namespace

void drawRoom(DeskState& desk, Drawing& d) {
  const SittingState& s = d.state;
  const ImVec2 room = ImGui::GetContentRegionAvail();
  const auto say = [&](const std::string& text, int lines, float share) { wrapped(text, fitting(text, room.x, lines, share * room.y, d.look).font); };
  if (!s.judged) {
    say(s.judging ? "Looking at the photo …" : "No verdict yet.", 1, 0.3f);
    if (!s.judge_trouble.empty()) say(s.judge_trouble, 4, 0.6f);
    return;
  }
  const JudgedShown& judged = *s.judged;
  const std::size_t panel = desk.verdict.panel < 0 || desk.verdict.panel >= static_cast<int>(judged.panels.size()) ? judged.main : static_cast<std::size_t>(desk.verdict.panel);
  const PanelShown& shown = judged.panels[panel];

  // The words first have what they need, the colours take the rest.
  const float gap = ImGui::GetStyle().ItemSpacing.y;
  const RoomLine head = fitting(shown.headline, 0.85f * room.x, 2, 0.34f * room.y, d.look), line = fitting(shown.line, room.x, 1, 0.16f * room.y, d.look);
  const std::string next = s.judging ? "A new verdict is on its way …" : shown.actions.empty() ? "" : shown.actions.front();
  const RoomLine first_action = fitting(next, room.x, 3, 0.25f * room.y, d.look);
  const float used = head.height + line.height + (next.empty() ? 0 : first_action.height) + 5 * gap + 1.4f * ImGui::GetTextLineHeight();
  const SwatchPiece card{&judged.card, "card"}, one{&shown.swatch, shown.name};
  const std::array fields{desk.look.swapped ? card : one, desk.look.swapped ? one : card};
  namedSwatches("panel and card", fields, room.x, std::max(0.15f * room.y, room.y - used), d.look, desk.look.gap ? 24 * d.look.scale : 0);
  drawBand(shown.band, head.font->FontSize, d.look);
  ImGui::SameLine();
  wrapped(head.text, head.font);
  wrapped(line.text, line.font);
  if (!next.empty()) wrapped(first_action.text, first_action.font);
}

}  // namespace huewright::desk
