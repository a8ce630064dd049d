#include <algorithm>
#include <array>
#include <imgui.h>
#include <string>

#include "desk/short_name.hpp"
#include "desk/toolbar.hpp"
#include "desk/views.hpp"

namespace huewright::desk {
namespace {

constexpr std::array kAllRoles{PhotoRole::First, PhotoRole::Again, PhotoRole::ChangedOver, PhotoRole::OtherLight, PhotoRole::Tilted};

void stripTools(DeskState& desk, Drawing& d) {
  const auto& photos = d.state.photos;
  const bool any = firstPhoto(d.state.plan) != nullptr, several = photos.size() > 1;
  const std::array<ToolItem, 7> items{{{Do::AddAgain, any}, {Do::AddChangedOver, any}, {Do::AddOtherLight, any}, {Do::AddTilted, any}, {Do::PreviousPhoto, several}, {Do::NextPhoto, several}, {Do::ClosePhoto, !photos.empty()}}};
  const auto step = [&](std::size_t by) {
    const auto at = std::ranges::find(photos, d.state.shown, &PhotoShown::id);
    const std::size_t now = at == photos.end() ? 0 : static_cast<std::size_t>(at - photos.begin());
    d.out.push_back(act::ShowPhoto{photos[(now + by) % photos.size()].id});
  };
  for (const Do what : drawToolbar("strip", items, 1)) switch (what) {
      case Do::AddAgain: askForFile(desk, Asking::Again, d.out); break;
      case Do::AddChangedOver: askForFile(desk, Asking::ChangedOver, d.out); break;
      case Do::AddOtherLight: askForFile(desk, Asking::OtherLight, d.out); break;
      case Do::AddTilted: askForFile(desk, Asking::Tilted, d.out); break;
      case Do::PreviousPhoto: step(photos.size() - 1); break;
      case Do::NextPhoto: step(1); break;
      case Do::ClosePhoto: d.out.push_back(act::ClosePhoto{d.state.shown}); break;
      default: break;
    }
}

void photoMenu(const PlannedPhoto& planned, Actions& out) {
  if (!ImGui::BeginPopup("photo menu")) return;
  ImGui::TextUnformatted("This photo is …");
  for (const PhotoRole role : kAllRoles)
    if (ImGui::Selectable(std::string(photoRoleWords(role)).c_str(), planned.role == role) && planned.role != role) out.push_back(act::SetRole{planned.id, role});
  ImGui::Separator();
  if (ImGui::Selectable("Close this photo")) out.push_back(act::ClosePhoto{planned.id});
  ImGui::EndPopup();
}

void smallPicture(const PhotoShown& photo, ImVec2 from, float width, float height, Drawing& d) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  if (!photo.preview) {
    list->AddRect(from, {from.x + width, from.y + height}, ink(d.look.greys.line), 0, 0, d.look.scale);
    return;
  }
  const Size size = photo.preview->size;
  const float scale = std::min(width / static_cast<float>(size.width), height / static_cast<float>(size.height));
  const ImVec2 at{from.x + 0.5f * (width - scale * static_cast<float>(size.width)), from.y + 0.5f * (height - scale * static_cast<float>(size.height))};
  for (const Textures::Tile& tile : d.textures.tiles(photo.preview, {0, 0, size.width, size.height}))
    list->AddImage(tile.id, {at.x + scale * static_cast<float>(tile.rect.x), at.y + scale * static_cast<float>(tile.rect.y)},
                   {at.x + scale * static_cast<float>(tile.rect.x + tile.rect.width), at.y + scale * static_cast<float>(tile.rect.y + tile.rect.height)});
}

/// One photo: its picture, what it is for, its file, and what is wrong with it.
void stripItem(const PhotoShown& photo, const PlannedPhoto& planned, float height, Drawing& d) {
  const float scale = d.look.scale, pad = 5 * scale, tall = height - 2 * pad, wide = 1.4f * tall, text = 150 * scale, menu = ImGui::GetFontSize() + 2 * pad;
  const float width = wide + text + menu + 4 * pad;
  ImFont* font = d.look.type.small ? d.look.type.small : ImGui::GetFont();
  const bool low = tall < 2.2f * font->FontSize;   // room for one line only
  const float line = low ? std::min(font->FontSize, tall) : font->FontSize;
  const bool shown = photo.id == d.state.shown;
  ImGui::PushID(photo.id);
  const ImVec2 from = ImGui::GetCursorScreenPos(), to{from.x + width, from.y + height};
  ImDrawList* list = ImGui::GetWindowDrawList();
  if (ImGui::InvisibleButton("photo", {width - menu - pad, height})) d.out.push_back(act::ShowPhoto{photo.id});
  const bool over = ImGui::IsItemHovered();
  const bool asks = over && ImGui::IsMouseReleased(ImGuiMouseButton_Right);
  list->AddRectFilled(from, to, ink(over ? d.look.greys.hovered : d.look.greys.panel), 3 * scale);
  if (shown) list->AddRect({from.x + scale, from.y + scale}, {to.x - scale, to.y - scale}, ink(d.look.greys.type), 3 * scale, 0, 3 * scale);
  smallPicture(photo, {from.x + pad, from.y + pad}, wide, tall, d);

  const char* word = !photo.trouble.empty() ? "cannot be used" : photo.opening ? "opening …" : "";
  const std::string role(low && *word ? word : photoRoleWords(planned.role));
  float x = from.x + wide + 2 * pad, y = from.y + pad;
  ImGui::PushClipRect({x, from.y}, {x + text, to.y}, true);
  list->AddText(font, line, {x, y}, ink(d.look.greys.type), role.c_str(), nullptr, low ? 0 : text);
  y += font->CalcTextSizeA(line, 1e6f, text, role.c_str()).y + (low ? height : 0);
  list->AddText(font, line, {x, y}, ink(d.look.greys.weak_type), shortName(planned.file.filename().string(), font, text).c_str());
  y += line;
  list->AddText(font, line, {x, y}, ink(d.look.greys.type), word);
  ImGui::PopClipRect();
  if (over && ImGui::GetIO().MousePos.x < to.x - menu) {
    std::string tip = planned.file.string();
    if (!photo.facts.empty()) tip += "\n" + photo.facts;
    if (!photo.trouble.empty()) tip += "\n" + photo.trouble;
    ImGui::SetTooltip("%s\nClick: show it. Right click: what it is for, or close it (W while it is shown).", tip.c_str());
  }

  ImGui::SetCursorScreenPos({to.x - menu - pad, from.y + pad});
  const bool clicked = sizedButton(Do::PhotoFor, menu, std::min(menu, tall), shown);
  if (clicked || asks) ImGui::OpenPopup("photo menu");
  ImGui::SetNextWindowPos(ImGui::GetItemRectMin(), ImGuiCond_Appearing, {0, 1});  // above the button, wherever the mouse is
  photoMenu(planned, d.out);
  ImGui::SetCursorScreenPos(from);
  ImGui::Dummy({width, height});
  ImGui::PopID();
}

}  // namespace

void drawStrip(DeskState& desk, Drawing& d) {
  stripTools(desk, d);
  const float scale = d.look.scale;
  // Where there is little room the bar gives way; the wheel still runs along the row.
  const bool low = ImGui::GetContentRegionAvail().y < 50 * scale;
  ImGui::BeginChild("photos", {0, 0}, false, ImGuiWindowFlags_HorizontalScrollbar | ImGuiWindowFlags_NoScrollWithMouse | (low ? ImGuiWindowFlags_NoScrollbar : 0));
  if (ImGui::IsWindowHovered() && ImGui::GetIO().MouseWheel != 0) ImGui::SetScrollX(std::clamp(ImGui::GetScrollX() - 60 * scale * ImGui::GetIO().MouseWheel, 0.0f, ImGui::GetScrollMaxX()));
  const float height = std::max(16 * scale, ImGui::GetContentRegionAvail().y);
  bool next = false;
  for (const PhotoShown& photo : d.state.photos) {
    const PlannedPhoto* planned = photoOf(d.state.plan, photo.id);
    if (!planned) continue;
    if (next) ImGui::SameLine();
    stripItem(photo, *planned, height, d);
    next = true;
  }
  ImGui::EndChild();
}

}  // namespace huewright::desk
