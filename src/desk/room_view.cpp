#include <algorithm>
#include <array>
#include <imgui.h>
#include <span>

#include "desk/band.hpp"
#include "desk/flow.hpp"
#include "desk/key_cap.hpp"
#include "desk/swatch_row.hpp"
#include "desk/views.hpp"

namespace huewright::desk {
namespace {

struct RoomLine {
  std::string text;
  ImFont* font{};
  float height = 0;
};

/// The text in the largest of the fonts in which it takes at most so many lines and so much height. quiet: not in the largest of all.
RoomLine fitting(const std::string& text, float width, int lines, float most, const Look& look, bool quiet = false) {
  RoomLine line{text, look.type.body, 0};
  if (text.empty()) return line;
  for (ImFont* font : {look.type.room, look.type.large, look.type.head, look.type.body}) {
    if (quiet && font == look.type.room) continue;
    line.font = font;
    line.height = heightInLines(text, width, font, font->FontSize);
    if (line.height <= (static_cast<float>(lines) + 0.1f) * font->FontSize && line.height <= most) break;
  }
  return line;
}

/// All that is shown across the room, from wherever it comes.
struct RoomCard {
  const Swatch* panel = nullptr;     ///< nullptr: there is no verdict
  const Swatch* card = nullptr;
  std::string name;                  ///< of the panel
  Band band{};
  std::string headline, line, next;  ///< without a verdict: why, and what to do
  bool quiet = false;                ///< `next` is nothing to do
};

RoomCard ofPanel(const JudgedShown& judged, std::size_t at) {
  const PanelShown& shown = judged.panels[at];
  return {&shown.swatch, &judged.card, shown.name, shown.band, shown.headline, shown.line, shown.actions.empty() ? "" : shown.actions.front(), false};
}

RoomCard ofCamera(const LiveNow& now) {
  if (!now.judged) return {.name = {}, .headline = now.away ? "The camera is away" : now.state_words.empty() ? "No verdict" : now.state_words, .line = {}, .next = now.trouble};
  RoomCard out = ofPanel(*now.judged, now.judged->main);
  out.next = now.trouble.empty() ? now.state_words : now.trouble;
  out.quiet = now.state == LiveState::Steady && now.trouble.empty();
  return out;
}

RoomCard ofArrival(const Arrival& one) {
  if (!one.band) return {.name = {}, .headline = one.name + " cannot be used", .line = {}, .next = one.sentence};
  return {&one.panel, &one.card, one.name, *one.band, one.headline, {}, one.sentence, true};
}

RoomCard ofPhoto(const DeskState& desk, const SittingState& s) {
  if (!s.judged) return {.name = {}, .headline = s.judging ? "Looking at the photo …" : "No verdict yet.", .line = {}, .next = s.judge_trouble};
  const auto panels = static_cast<int>(s.judged->panels.size());
  RoomCard out = ofPanel(*s.judged, desk.verdict.panel < 0 || desk.verdict.panel >= panels ? s.judged->main : static_cast<std::size_t>(desk.verdict.panel));
  if (s.judging) out.next = "A new verdict is on its way …";
  return out;
}

/// The photo that came last, beside the camera's verdict.
std::string newestWords(const SittingState& s) {
  if (!s.live.running || !s.followed.running || s.arrivals.empty()) return {};
  const Arrival& one = s.arrivals.front();
  return one.name + ": " + (one.band ? one.headline : "cannot be used");
}

void roomKeys(DeskState& desk, float height, Drawing& d) {
  const LiveShown& live = d.state.live;
  const std::array caps{KeyCap{Do::RoomStill, live.now.frame != nullptr}, KeyCap{Do::RoomAnew}, KeyCap{Do::RoomBack}};
  switch (keyCaps(std::span(caps).subspan(live.running ? 0 : 2), height, d.look)) {  // without a camera there is only the way back
    case Do::RoomStill: d.out.push_back(act::TakeStill{}); break;
    case Do::RoomAnew: d.out.push_back(act::BeginAnew{}); break;
    case Do::RoomBack: desk.look.page = desk.back; break;
    default: break;
  }
}

}  // namespace

void drawRoom(DeskState& desk, Drawing& d) {
  const SittingState& s = d.state;
  const ImVec2 all = ImGui::GetContentRegionAvail();
  const float gap = ImGui::GetStyle().ItemSpacing.y;
  const float keys = std::max((s.live.running ? 0.14f : 0.08f) * all.y, 1.6f * d.look.type.body->FontSize);
  const ImVec2 room{all.x, all.y - keys - gap};
  const RoomCard card = s.live.running ? ofCamera(s.live.now) : s.followed.running && s.followed.came_last && !s.arrivals.empty() ? ofArrival(s.arrivals.front()) : ofPhoto(desk, s);
  const ImVec2 at = ImGui::GetCursorScreenPos();
  if (!card.panel) {
    const auto say = [&](const std::string& text, int lines, float share) {
      if (!text.empty()) wrapped(text, fitting(text, room.x, lines, share * room.y, d.look).font);
    };
    say(card.headline, 2, 0.4f);
    say(card.next, 4, 0.5f);
  } else {
    // The words first have what they need, the colours take the rest.
    const RoomLine head = fitting(card.headline, 0.85f * room.x, 2, 0.34f * room.y, d.look), line = fitting(card.line, room.x, 1, 0.16f * room.y, d.look);
    const RoomLine next = fitting(card.next, room.x, 3, 0.25f * room.y, d.look, card.quiet), newest = fitting(newestWords(s), room.x, 1, 0.12f * room.y, d.look);
    const float used = head.height + line.height + next.height + newest.height + 6 * gap + 1.4f * ImGui::GetTextLineHeight();
    const SwatchPiece wanted{card.card, "card"}, one{card.panel, card.name};
    const std::array fields{desk.look.swapped ? wanted : one, desk.look.swapped ? one : wanted};
    namedSwatches("panel and card", fields, room.x, std::max(0.15f * room.y, room.y - used), d.look, desk.look.gap ? 24 * d.look.scale : 0);
    drawBand(card.band, head.font->FontSize, d.look);
    ImGui::SameLine();
    wrapped(head.text, head.font);
    for (const RoomLine* each : {&line, &next, &newest})
      if (!each->text.empty()) wrapped(each->text, each->font);
  }
  if (ImGui::GetCursorScreenPos().y < at.y + room.y + gap) ImGui::SetCursorScreenPos({at.x, at.y + room.y + gap});
  roomKeys(desk, keys, d);
}

}  // namespace huewright::desk
