// Drives frames of one view, in a window of its own.
#pragma once

#include <algorithm>
#include <functional>
#include <string_view>

#include "desk/views.hpp"
#include "desk_hand.hpp"

namespace huewright::desk {

class Frames final : public fixtures::DeskHand {
 public:
  using Draw = std::function<void(DeskState&, Drawing&)>;

  Frames(Page page, Draw draw, float width = 1280, float height = 720, float text = 1) : DeskHand(width, height), page_(page), draw_(std::move(draw)) {
    look.type = plainType(text);
    makeFonts();
    look.scale = text;
    ImGui::GetStyle().ScaleAllSizes(text);
    view.look.page = page;
  }

  /// What was done in it stands in `out`.
  void frame() override {
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
    gathered_.insert(gathered_.end(), out.begin(), out.end());
  }
  /// Each gives the actions of all frames that it took.
  Actions clicked(double x, double y) {
    return during([&] { click(x, y); });
  }
  Actions pressed(Do what) {
    return during([&] { key(what); });
  }
  Actions pressed(int code, bool ctrl = false, bool shift = false) {
    return during([&] { key(code, ctrl, shift); });
  }
  /// Into the field that has the keyboard; it is left with Enter.
  Actions typed(std::string_view text) {
    return during([&] { type(text), key(kKeyEnter), frame(); });
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
  Actions during(const std::function<void()>& what) {
    gathered_.clear();
    what();
    return gathered_;
  }
  Page page_;
  Draw draw_;
  fixtures::CountingTextures card_;
  Textures textures{card_};
  Actions gathered_;
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
