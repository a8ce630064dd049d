// A hand at the mouse and the keys, with no window, no X server and no graphics card: a frame is drawn for each step.
#pragma once

#include <cmath>
#include <cstdint>
#include <imgui.h>
#include <imgui_internal.h>
#include <initializer_list>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <variant>

#include "desk/keys.hpp"
#include "desk/textures.hpp"
#include "desk/theme.hpp"

namespace huewright::fixtures {

/// Stands in for the graphics card, and counts.
class CountingTextures final : public desk::TextureMaker {
 public:
  desk::TextureId make(Size size, std::span<const std::uint8_t> rgba, bool smooth) override {
    ++made;
    sizes_right = sizes_right && rgba.size() == static_cast<std::size_t>(size.width) * static_cast<std::size_t>(size.height) * 4;
    last_smooth = smooth;
    held.insert(++number_);
    last = reinterpret_cast<desk::TextureId>(number_);
    return last;
  }
  void drop(desk::TextureId id) override { dropped_right = held.erase(reinterpret_cast<std::uintptr_t>(id)) == 1 && dropped_right; }

  int made = 0;
  bool sizes_right = true, dropped_right = true, last_smooth = true;
  std::set<std::uintptr_t> held;
  desk::TextureId last{};            ///< made last

 private:
  std::uintptr_t number_ = 1000;     // above that of the fonts' texture
};

/// One step from a window to an item: a name, a table's name, PushID's number, or the button of an action with the table's word.
class IdStep {
 public:
  IdStep(const char* name) : step_(std::string(name)) {}
  IdStep(std::string name) : step_(std::move(name)) {}
  IdStep(int number) : step_(number) {}
  IdStep(desk::Do what, const char* word) : step_(desk::buttonName(what, word)) {}
  IdStep(desk::Do what) : step_(desk::buttonName(what)) {}

  ImGuiID from(ImGuiID seed) const {
    if (const int* number = std::get_if<int>(&step_)) return ImHashData(number, sizeof(int), seed);
    return ImHashStr(std::get<std::string>(step_).c_str(), 0, seed);
  }
  std::string words() const { return std::holds_alternative<int>(step_) ? std::to_string(std::get<int>(step_)) : std::get<std::string>(step_); }

 private:
  std::variant<std::string, int> step_;
};

class DeskHand {
 public:
  DeskHand(const DeskHand&) = delete;
  DeskHand& operator=(const DeskHand&) = delete;

  /// Draws one frame.
  virtual void frame() = 0;
  void frames(int count) {
    for (int i = 0; i < count; ++i) frame();
  }

  /// To a whole pixel, as ImGui takes the mouse.
  void move(double x, double y) {
    ImGui::GetIO().MousePos = {static_cast<float>(std::floor(x)), static_cast<float>(std::floor(y))};
    frame();
  }
  void press(int which = 0) { ImGui::GetIO().MouseDown[which] = true, frame(); }
  void release(int which = 0) { ImGui::GetIO().MouseDown[which] = false, frame(); }
  void click(double x, double y, int which = 0) { move(x, y), frame(), press(which), release(which), frame(); }
  /// Presses at one place, moves to the other in so many steps, lets go.
  void drag(double x0, double y0, double x1, double y1, int steps = 4, int which = 0) {
    move(x0, y0);
    frame();
    press(which);
    for (int i = 1; i <= steps; ++i) move(x0 + (x1 - x0) * i / steps, y0 + (y1 - y0) * i / steps);
    release(which);
    frame();
  }
  void wheel(float notches) {
    ImGui::GetIO().MouseWheel = notches;
    frame();
    ImGui::GetIO().MouseWheel = 0;
  }

  /// A key goes down and up again.
  void key(int code, bool ctrl = false, bool shift = false) {
    ImGuiIO& io = ImGui::GetIO();
    io.KeyCtrl = ctrl;
    io.KeyShift = shift;
    io.KeyMods = (ctrl ? ImGuiKeyModFlags_Ctrl : 0) | (shift ? ImGuiKeyModFlags_Shift : 0);
    io.KeysDown[code] = true;
    frame();
    io.KeysDown[code] = false;
    io.KeyCtrl = io.KeyShift = false;
    io.KeyMods = 0;
    frame();
  }
  /// The key of the table.
  void key(desk::Do what) {
    const desk::KeyLine& line = desk::keyLine(what);
    key(line.key, line.ctrl, line.shift);
  }
  /// Letters into the field that has the keyboard.
  void type(std::string_view text) {
    for (const char c : text) {
      ImGui::GetIO().AddInputCharacter(static_cast<unsigned char>(c));
      frame();
    }
  }

  /// The middle of the item at the end of these steps in the window whose name has this part. The mouse looks for it.
  std::optional<ImVec2> find(std::string_view window, std::initializer_list<IdStep> steps) {
    move(-10, -10);
    ImGuiID id = 0;
    ImRect within;
    for (const ImGuiWindow* w : ImGui::GetCurrentContext()->Windows)
      if (w->Active && std::string_view(w->Name).find(window) != std::string_view::npos) id = w->ID, within = w->Rect();
    for (const IdStep& step : steps) id = step.from(id);
    const float left = within.Min.x + 4, top = within.Min.y + 4, right = std::min(width_, within.Max.x), bottom = std::min(height_, within.Max.y);
    const auto isAt = [&](float x, float y) {
      move(x, y);
      return x >= 0 && y >= 0 && x < width_ && y < height_ && ImGui::GetCurrentContext()->HoveredId == id;
    };
    // Wide items are found in few steps; then narrow ones are looked for.
    for (const ImVec2 stride : {ImVec2{90, 14}, ImVec2{24, 8}})
      for (float y = top; y < bottom; y += stride.y)
        for (float x = left; x < right; x += stride.x) {
          if (!isAt(x, y)) continue;
          const auto reach = [&](float dx, float dy) {
            float far = 0;
            while (isAt(x + (far + 4) * dx, y + (far + 4) * dy)) far += 4;
            return far;
          };
          return ImVec2{x + (reach(1, 0) - reach(-1, 0)) / 2, y + (reach(0, 1) - reach(0, -1)) / 2};
        }
    return {};
  }

 protected:
  DeskHand(float width, float height) : width_(width), height_(height), before_(ImGui::GetCurrentContext()), context_(ImGui::CreateContext()) {
    ImGui::SetCurrentContext(context_);
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.DisplaySize = {width, height};
    io.DeltaTime = 1.0f / 60;
    io.MousePos = {-1, -1};
    for (const auto& [what, code] : {std::pair{ImGuiKey_Tab, desk::kKeyTab}, std::pair{ImGuiKey_LeftArrow, desk::kKeyLeft}, std::pair{ImGuiKey_RightArrow, desk::kKeyRight}, std::pair{ImGuiKey_UpArrow, desk::kKeyUp},
                                     std::pair{ImGuiKey_DownArrow, desk::kKeyDown}, std::pair{ImGuiKey_Home, desk::kKeyHome}, std::pair{ImGuiKey_End, desk::kKeyEnd}, std::pair{ImGuiKey_Delete, desk::kKeyDelete},
                                     std::pair{ImGuiKey_Backspace, desk::kKeyBackspace}, std::pair{ImGuiKey_Enter, desk::kKeyEnter}, std::pair{ImGuiKey_Escape, desk::kKeyEscape}, std::pair{ImGuiKey_A, static_cast<int>('A')}})
      io.KeyMap[what] = code;
  }
  virtual ~DeskHand() {
    ImGui::DestroyContext(context_);
    ImGui::SetCurrentContext(before_);
  }

  /// ImGui's own font in the five sizes' places: the same on every machine, and soon made.
  static desk::Type plainType(float scale) {
    ImGuiIO& io = ImGui::GetIO();
    io.Fonts->Clear();
    ImFontConfig config;
    const auto load = [&](float size) {
      config.SizePixels = size * scale;
      return io.Fonts->AddFontDefault(&config);
    };
    const desk::Type type{.small = load(14), .body = load(17), .head = load(24), .large = load(44), .room = load(84)};
    io.FontDefault = type.body;
    return type;
  }
  /// To be called when the fonts are known.
  static void makeFonts() {
    unsigned char* pixels = nullptr;
    int w = 0, h = 0;
    ImGui::GetIO().Fonts->GetTexDataAsRGBA32(&pixels, &w, &h);
    ImGui::GetIO().Fonts->SetTexID(reinterpret_cast<ImTextureID>(1));
  }

  float width_, height_;

 private:
  ImGuiContext* before_;
  ImGuiContext* context_;
};

}  // namespace huewright::fixtures
