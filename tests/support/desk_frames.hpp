// Frames of one view, driven without a window or a graphics card: the mouse and the keys are set by hand, a frame for each step.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <imgui.h>
#include <imgui_internal.h>
#include <initializer_list>
#include <optional>
#include <string_view>

#include "desk/views.hpp"
#include "desk_find.hpp"

namespace huewright::desk {

/// Stands in for the graphics card.
class NoCard final : public TextureMaker {
 public:
  TextureId make(Size, std::span<const std::uint8_t>, bool) override { return reinterpret_cast<TextureId>(static_cast<std::uintptr_t>(++made_)); }
  void drop(TextureId) override {}

 private:
  int made_ = 0;
};

class Frames {
 public:
  using Draw = std::function<void(DeskState&, Drawing&)>;

  Frames(Page page, Draw draw, float width = 1280, float height = 720, float text = 1) : page_(page), draw_(std::move(draw)), width_(width), height_(height) {
    context_ = ImGui::CreateContext();
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.DisplaySize = {width, height};
    io.DeltaTime = 1.0f / 60;
    io.MousePos = {-1e4f, -1e4f};
    for (const auto& [what, key] : {std::pair{ImGuiKey_Tab, kKeyTab}, std::pair{ImGuiKey_Enter, kKeyEnter}, std::pair{ImGuiKey_Escape, kKeyEscape}, std::pair{ImGuiKey_Backspace, kKeyBackspace},
                                    std::pair{ImGuiKey_Delete, kKeyDelete}, std::pair{ImGuiKey_A, static_cast<int>('A')}})
      io.KeyMap[what] = key;
    // ImGui's own font: the same on every machine.
    const auto font = [&](float size) {
      ImFontConfig config;
      config.SizePixels = size * text;
      return io.Fonts->AddFontDefault(&config);
    };
    look.type.body = font(17);
    look.type.small = font(14);
    look.type.head = font(24);
    look.type.large = look.type.room = font(44);
    unsigned char* pixels = nullptr;
    int w = 0, h = 0;
    io.Fonts->GetTexDataAsAlpha8(&pixels, &w, &h);
    look.scale = text;
    ImGui::GetStyle().ScaleAllSizes(text);
    view.look.page = page;
  }
  ~Frames() { ImGui::DestroyContext(context_); }
  Frames(const Frames&) = delete;
  Frames& operator=(const Frames&) = delete;

  /// One frame. What was done in it stands in `out`.
  void frame() {
    out.clear();
    ImGui::NewFrame();
    keysOf(page_);
    ImGui::SetNextWindowPos({0, 0});
    ImGui::SetNextWindowSize({width_, height_});
    ImGui::Begin("desk", nullptr, ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings | ImGuiWindowFlags_NoScrollWithMouse);
    Drawing d{state, look, textures, out};
    draw_(view, d);
    ImGui::End();
    ImGui::Render();
  }
  void frames(int count) {
    for (int i = 0; i < count; ++i) frame();
  }
  void moveTo(float x, float y) {
    ImGui::GetIO().MousePos = {x, y};
    frame();
  }
  /// Actions of all of its frames.
  Actions click(float x, float y) {
    Actions all;
    const auto keep = [&] { all.insert(all.end(), out.begin(), out.end()); };
    moveTo(x, y), keep();
    ImGui::GetIO().MouseDown[0] = true;
    frame(), keep();
    ImGui::GetIO().MouseDown[0] = false;
    frame(), keep();
    return all;
  }
  /// The key of that action, as the table has it; actions of the frame in which it goes down.
  Actions press(Do what) { return press(keyLine(what).key, keyLine(what).ctrl, keyLine(what).shift); }
  Actions press(int key, bool ctrl = false, bool shift = false) {
    ImGuiIO& io = ImGui::GetIO();
    io.KeyCtrl = ctrl;
    io.KeyShift = shift;
    io.KeysDown[key] = true;
    frame();
    Actions all = out;
    io.KeysDown[key] = io.KeyCtrl = io.KeyShift = false;
    frame();
    all.insert(all.end(), out.begin(), out.end());
    return all;
  }
  /// Into the field that has the keyboard; it is left with Enter.
  Actions type(std::string_view text) {
    for (const char c : text) ImGui::GetIO().AddInputCharacter(static_cast<unsigned>(c));
    frame();
    Actions all = out, last = press(kKeyEnter);
    all.insert(all.end(), last.begin(), last.end());
    frame();
    all.insert(all.end(), out.begin(), out.end());
    return all;
  }
  /// The middle of the item at the end of these steps in the window whose name has this part. The mouse looks for it.
  std::optional<ImVec2> find(std::string_view window, std::initializer_list<fixtures::IdStep> steps) {
    return fixtures::findItem([this](float x, float y) { moveTo(x, y); }, width_, height_, window, steps);
  }
  /// px by which anything is wider than the window that it lies in, or reaches beyond the right edge.
  float tooWide() const {
    float most = 0;
    for (const ImGuiWindow* w : ImGui::GetCurrentContext()->Windows) {
      if (!w->Active || (w->Flags & ImGuiWindowFlags_Tooltip) != 0 || std::string_view(w->Name).starts_with("Debug")) continue;
      most = std::max({most, w->DC.CursorMaxPos.x - w->WorkRect.Max.x, w->Pos.x + w->Size.x - width_});
    }
    return most;
  }
  /// Whether a tooltip is on show.
  bool tooltip() const {
    return std::ranges::any_of(ImGui::GetCurrentContext()->Windows, [](const ImGuiWindow* w) { return w->Active && (w->Flags & ImGuiWindowFlags_Tooltip) != 0; });
  }

  SittingState state;
  DeskState view;
  Look look;
  Actions out;

 private:
  Page page_;
  Draw draw_;
  float width_, height_;
  ImGuiContext* context_;
  NoCard card_;
  Textures textures{card_};
};

/// The only action of that kind among them, or nullptr.
template <class A>
const A* only(const Actions& actions) {
  const A* found = nullptr;
  for (const Action& action : actions)
    if (const auto* one = std::get_if<A>(&action)) {
      if (found) return nullptr;
      found = one;
    }
  return found;
}

}  // namespace huewright::desk
