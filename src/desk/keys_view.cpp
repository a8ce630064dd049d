#include <imgui.h>

#include "desk/flow.hpp"
#include "desk/sheet.hpp"
#include "desk/views.hpp"

namespace huewright::desk {
namespace {

const char* pageWords(Page page) {
  switch (page) {
    case Page::Everywhere: return "Everywhere";
    case Page::Panel: return "On the page Panel";
    case Page::Mixes: return "On the page Mixes";
    case Page::Camera: return "On the page Camera";
    case Page::Live: return "On the page Live";
    case Page::FirstSteps: return "On the first steps";
    case Page::Sprayed: return "On the sheet How sprayed";
    case Page::Files: return "In the list of files";
    case Page::Room: break;
  }
  return "On the page Across the room";
}

}  // namespace

void drawKeys(DeskState& desk, Drawing& d) {
  beginSheet("keys", 900, 720, d.look);
  wrapped("Keys", d.look.type.large);
  wrapped("F12 or Esc puts this list away. Shift with the arrow keys goes ten times as far; the mouse wheel zooms, dragging moves.");
  Page page = Page::Room;
  bool open = false;
  for (const KeyLine& line : keyTable()) {
    if (line.page != page) {
      if (open) ImGui::EndTable();
      page = line.page;
      ImGui::Dummy({0, 6 * d.look.scale});
      wrapped(pageWords(page), d.look.type.head);
      open = ImGui::BeginTable(pageWords(page), 3, ImGuiTableFlags_RowBg);
      if (open) {
        ImGui::TableSetupColumn("key", ImGuiTableColumnFlags_WidthFixed, 130 * d.look.scale);
        ImGui::TableSetupColumn("word", ImGuiTableColumnFlags_WidthFixed, 170 * d.look.scale);
        ImGui::TableSetupColumn("tip");
      }
    }
    if (!open) continue;
    ImGui::TableNextRow();
    ImGui::TableNextColumn();
    ImGui::TextUnformatted(keyWords(line).c_str());
    ImGui::TableNextColumn();
    wrapped(line.word);
    ImGui::TableNextColumn();
    wrapped(line.tip);
  }
  if (open) ImGui::EndTable();
  if (!endSheet()) desk.keys = false;
}

}  // namespace huewright::desk
