#include "desk/desk.hpp"

#include <algorithm>
#include <array>
#include <imgui.h>

#include "desk/flow.hpp"
#include "desk/keys.hpp"
#include "desk/toolbar.hpp"
#include "desk/views.hpp"

namespace huewright::desk {
namespace {

constexpr float kTextStep = 0.25f;

/// Whose keys work: those of what lies uppermost.
Page uppermost(const DeskState& view) {
  if (view.browser.asking != Asking::Nothing) return Page::Files;
  if (view.keys) return Page::Everywhere;
  if (view.first_step > 0) return Page::FirstSteps;
  return view.sprayed ? Page::Sprayed : view.look.page;
}

/// Keys that need no button of their own.
void everywhere(DeskState& view) {
  if (keyPressed(Do::TextLarger)) view.look.text = std::min(3.0f, view.look.text + kTextStep);
  if (keyPressed(Do::TextSmaller)) view.look.text = std::max(1.0f, view.look.text - kTextStep);
  if (keyPressed(Do::SurroundDarker)) view.look.surround = view.look.surround == Surround::Light ? Surround::Mid : Surround::Dark;
  if (keyPressed(Do::SurroundLighter)) view.look.surround = view.look.surround == Surround::Dark ? Surround::Mid : Surround::Light;
  if (keyPressed(Do::Quit)) view.quit = true;
  if (keyPressed(Do::StopWork)) view.keys = view.recent = false;
}

/// What works on every page, in one row; what has no room stands behind "More".
void bar(DeskState& view, Drawing& d) {
  const Page page = view.look.page;
  const std::array items{ToolItem{Do::PagePanel, true, page == Page::Panel}, ToolItem{Do::PageMixes, true, page == Page::Mixes}, ToolItem{Do::PageCamera, true, page == Page::Camera},
                         ToolItem{Do::PageRoom, true, page == Page::Room}, ToolItem{Do::PageLive, true, page == Page::Live}, ToolItem{Do::OpenPhoto}, ToolItem{Do::Undo, d.state.can_undo}, ToolItem{Do::Redo, d.state.can_redo},
                         ToolItem{Do::Recent}, ToolItem{Do::Keys, true, view.keys}, ToolItem{Do::Demo}};
  for (const Do what : drawToolbar("bar", items, 1)) {
    switch (what) {
      case Do::PagePanel: view.look.page = Page::Panel; break;
      case Do::PageMixes: view.look.page = Page::Mixes; break;
      case Do::PageCamera: view.look.page = Page::Camera; break;
      case Do::PageRoom:
        if (page != Page::Room) view.back = page;
        view.look.page = Page::Room;
        break;
      case Do::PageLive: view.look.page = Page::Live; break;
      case Do::OpenPhoto: askForFile(view, Asking::Photo, d.out); break;
      case Do::Recent: view.recent = true; break;
      case Do::Undo: d.out.push_back(act::Undo{}); break;
      case Do::Redo: d.out.push_back(act::Redo{}); break;
      case Do::Keys: view.keys = !view.keys; break;
      default: view.first_step = 1; break;
    }
  }
}

/// Photos and series of late, below their button.
void recentList(DeskState& view, Drawing& d) {
  if (view.recent) ImGui::OpenPopup("recent");
  ImGui::SetNextWindowPos({ImGui::GetItemRectMin().x, ImGui::GetItemRectMax().y});
  if (!ImGui::BeginPopup("recent")) {
    view.recent = false;
    return;
  }
  if (d.state.recent.empty()) ImGui::TextUnformatted("Nothing was opened yet.");
  for (const auto& file : d.state.recent) {
    ImGui::PushID(file.c_str());
    if (ImGui::Selectable(file.filename().c_str())) {
      if (file.extension() == ".json") d.out.push_back(act::OpenSeries{file}), view.look.page = Page::Mixes;
      else d.out.push_back(act::OpenPhotos{{file}, PhotoRole::First}), view.look.page = Page::Panel;
    }
    if (ImGui::IsItemHovered()) ImGui::SetTooltip("%s", file.c_str());
    ImGui::PopID();
  }
  ImGui::EndPopup();
  view.recent = false;
}

void notice(const SittingState& state, const Look& look, Actions& out) {
  if (state.notice.sentence.empty()) return;
  ImDrawList* list = ImGui::GetWindowDrawList();
  const float edge = 5 * look.scale;
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const float hide = ImGui::CalcTextSize(keyLine(Do::HideNotice).word).x + 3 * ImGui::GetStyle().FramePadding.x;
  const float wrap = ImGui::GetContentRegionAvail().x - hide - 4 * edge;
  const std::string sentence = inLines(state.notice.sentence, wrap);
  const float height = ImGui::CalcTextSize(sentence.c_str(), nullptr, false, wrap).y + 2 * ImGui::GetStyle().FramePadding.y + 2 * edge;
  const ImVec2 to{at.x + ImGui::GetContentRegionAvail().x, at.y + height};
  list->AddRectFilled(at, to, ink(look.greys.panel));
  // What went wrong has a heavy bar at its left, what was done a thin one.
  list->AddRectFilled(at, {at.x + (state.notice.bad ? 2 * edge : 0.5f * edge), to.y}, ink(look.greys.type));
  ImGui::SetCursorScreenPos({at.x + 3 * edge, at.y + edge});
  ImGui::PushTextWrapPos(ImGui::GetCursorPosX() + wrap);
  ImGui::AlignTextToFramePadding();
  ImGui::TextUnformatted(sentence.c_str());
  ImGui::PopTextWrapPos();
  ImGui::SetCursorScreenPos({to.x - hide, at.y + edge});
  if (button(Do::HideNotice)) out.push_back(act::HideNotice{});
  ImGui::SetCursorScreenPos({at.x, to.y + edge});
}

/// What is being worked at, in the lower right corner, over everything else.
void work(const SittingState& state, const Look& look, Actions& out) {
  if (state.work.what.empty()) return;
  const ImVec2 all = ImGui::GetIO().DisplaySize;
  ImGui::SetNextWindowPos({all.x - 6 * look.scale, all.y - 6 * look.scale}, 0, {1, 1});
  ImGui::PushStyleColor(ImGuiCol_WindowBg, ink(look.greys.panel));
  ImGui::Begin("work", nullptr, ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_AlwaysAutoResize | ImGuiWindowFlags_NoFocusOnAppearing);
  ImGui::AlignTextToFramePadding();
  ImGui::TextUnformatted((state.work.what + " …").c_str());
  ImGui::SameLine();
  if (button(Do::StopWork)) out.push_back(act::Stop{});
  ImGui::End();
  ImGui::PopStyleColor();
}

void panelPage(DeskState& view, Drawing& d, float width, float height) {
  const float scale = d.look.scale;
  // With large type in a small window neither side may lose all of its room.
  const float right = std::min(std::max(0.42f * width, 330 * scale), 0.52f * width);
  const float strip = std::min(110 * scale, 0.3f * height);
  ImGui::BeginChild("left", {width - right - ImGui::GetStyle().ItemSpacing.x, height});
  ImGui::BeginChild("photo", {0, std::max(120.0f, height - strip - ImGui::GetStyle().ItemSpacing.y)}, false, ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_NoScrollWithMouse);
  drawPhoto(view.photo, d);
  ImGui::EndChild();
  ImGui::BeginChild("strip", {0, strip}, false, ImGuiWindowFlags_HorizontalScrollbar);
  drawStrip(view, d);
  ImGui::EndChild();
  ImGui::EndChild();
  ImGui::SameLine();
  ImGui::BeginChild("verdict", {right, height});
  drawVerdict(view, d);
  ImGui::EndChild();
}

}  // namespace

Desk::Desk(TextureMaker& maker, DeskLook look, float content_scale) : textures_(maker), content_scale_(content_scale) {
  view_.look = look;
  if (!look.been_here) view_.first_step = 1;
}

bool Desk::typeIsOld() const { return made_for_ != view_.look.text * content_scale_; }

void Desk::remakeType() {
  made_for_ = view_.look.text * content_scale_;
  look_.scale = made_for_;
  look_.type = loadType(made_for_);
}

Actions Desk::frame(const SittingState& state, float width, float height) {
  Actions out;
  look_.greys = greysOf(view_.look.surround);
  applyGreys(look_.greys);
  Drawing d{state, look_, textures_, out};
  keysOf(uppermost(view_));
  const bool covered = view_.keys || view_.recent || view_.sprayed || view_.first_step > 0 || view_.photo.adding > 0 || view_.browser.asking != Asking::Nothing;

  ImGui::SetNextWindowPos({0, 0});
  ImGui::SetNextWindowSize({width, height});
  ImGui::Begin("desk", nullptr, ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoBringToFrontOnFocus | ImGuiWindowFlags_NoScrollWithMouse);
  everywhere(view_);
  bar(view_, d);
  recentList(view_, d);
  notice(state, look_, out);

  const ImVec2 room = ImGui::GetContentRegionAvail();
  switch (view_.look.page) {
    case Page::Mixes: drawSeries(view_, d); break;
    case Page::Camera: drawCamera(view_, d); break;
    case Page::Room: drawRoom(view_, d); break;
    case Page::Live: drawLive(view_, d); break;
    default: panelPage(view_, d, room.x, room.y); break;
  }
  if (view_.sprayed) drawSprayed(view_, d);
  if (view_.keys) drawKeys(view_, d);
  if (view_.first_step > 0) drawFirstSteps(view_, d);
  if (view_.browser.asking != Asking::Nothing) drawBrowser(view_, d);
  ImGui::End();
  // Esc first leaves what lies over the page.
  if (!covered) work(state, look_, out);
  for (Action& action : out)  // the map is that of the panel that is spoken of
    if (auto* map = std::get_if<act::WantMap>(&action); map && !map->panel && view_.verdict.panel >= 0) map->panel = static_cast<std::size_t>(view_.verdict.panel);
  textures_.frameDone();
  return out;
}

}  // namespace huewright::desk
