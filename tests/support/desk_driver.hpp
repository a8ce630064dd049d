// Drives frames of the desk with no window, no X server and no graphics card: a mouse and keys that a test moves, and a state that it sets.
#pragma once

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <functional>
#include <imgui.h>
#include <memory>
#include <set>
#include <span>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "desk/desk.hpp"
#include "desk/keys.hpp"

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

/// A picture of one grey with a fixed pattern.
inline PictureRef patternPicture(Size size, double scale = 1) {
  auto picture = std::make_shared<Picture>();
  picture->size = size;
  picture->scale = scale;
  picture->rgba.resize(static_cast<std::size_t>(size.width) * static_cast<std::size_t>(size.height) * 4, 255);
  for (std::size_t i = 0; i < picture->rgba.size(); i += 4) picture->rgba[i] = static_cast<std::uint8_t>(i / 4 % 251);
  return picture;
}

class DeskDriver {
 public:
  /// own_type: the desk's fonts, as on the screen, which take a while to draw at a large scale; else ImGui's own for all of them, at the same sizes.
  explicit DeskDriver(float width = 1280, float height = 720, float text = 1, bool own_type = false) : before_(ImGui::GetCurrentContext()), context_(ImGui::CreateContext()), width_(width), height_(height) {
    ImGui::SetCurrentContext(context_);
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.DisplaySize = {width, height};
    io.DeltaTime = 1.0f / 60;
    io.MousePos = {-1, -1};
    io.KeyMap[ImGuiKey_Tab] = desk::kKeyTab;
    io.KeyMap[ImGuiKey_LeftArrow] = desk::kKeyLeft;
    io.KeyMap[ImGuiKey_RightArrow] = desk::kKeyRight;
    io.KeyMap[ImGuiKey_UpArrow] = desk::kKeyUp;
    io.KeyMap[ImGuiKey_DownArrow] = desk::kKeyDown;
    io.KeyMap[ImGuiKey_Home] = desk::kKeyHome;
    io.KeyMap[ImGuiKey_End] = desk::kKeyEnd;
    io.KeyMap[ImGuiKey_Delete] = desk::kKeyDelete;
    io.KeyMap[ImGuiKey_Backspace] = desk::kKeyBackspace;
    io.KeyMap[ImGuiKey_Enter] = desk::kKeyEnter;
    io.KeyMap[ImGuiKey_Escape] = desk::kKeyEscape;
    io.KeyMap[ImGuiKey_A] = 'A';
    desk::DeskLook look;
    look.been_here = true;
    look.text = text;
    desk_ = std::make_unique<desk::Desk>(textures, look, 1.0f);
    desk_->remakeType();
    if (!own_type) plainType(text);
    unsigned char* pixels = nullptr;
    int w = 0, h = 0;
    io.Fonts->GetTexDataAsRGBA32(&pixels, &w, &h);
    io.Fonts->SetTexID(reinterpret_cast<ImTextureID>(1));
    frame();
    frame();  // windows know their sizes from the second frame on
    actions.clear();
  }
  ~DeskDriver() {
    desk_.reset();
    ImGui::DestroyContext(context_);
    ImGui::SetCurrentContext(before_);
  }
  DeskDriver(const DeskDriver&) = delete;
  DeskDriver& operator=(const DeskDriver&) = delete;

  /// Draws one frame; what it gave back is added to `actions`.
  void frame() {
    ImGuiIO& io = ImGui::GetIO();
    ImGui::NewFrame();
    auto done = desk_->frame(state, width_, height_);
    ImGui::Render();
    io.MouseWheel = 0;
    for (Action& action : done) {
      if (apply) apply(action);
      actions.push_back(std::move(action));
    }
  }
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
  void wheel(float notches) { ImGui::GetIO().MouseWheel = notches, frame(); }

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
  void type(const std::string& text) {
    for (const char c : text) {
      ImGui::GetIO().AddInputCharacter(static_cast<unsigned char>(c));
      frame();
    }
  }

  /// The actions of one kind, in their order.
  template <class One>
  std::vector<One> all() const {
    std::vector<One> found;
    for (const Action& action : actions)
      if (const One* one = std::get_if<One>(&action)) found.push_back(*one);
    return found;
  }

  /// How far words, buttons and lines of a window whose name holds `part` are cut off at its left or right edge, screen pixels; at most 0 where all is seen.
  /// -1e9 where there is no such window. Pictures do not count.
  static float cutOff(const std::string& part) {
    float worst = -1e9f;
    const ImDrawData* data = ImGui::GetDrawData();
    for (int l = 0; l < data->CmdListsCount; ++l) {
      const ImDrawList& list = *data->CmdLists[l];
      if (std::string(list._OwnerName).find(part) == std::string::npos) continue;
      for (const ImDrawCmd& command : list.CmdBuffer)
        for (unsigned i = 0; i < command.ElemCount && command.GetTexID() == reinterpret_cast<ImTextureID>(1); ++i) {
          const ImVec2 p = list.VtxBuffer[static_cast<int>(command.VtxOffset + list.IdxBuffer[static_cast<int>(command.IdxOffset + i)])].pos;
          worst = std::max({worst, p.x - command.ClipRect.z, command.ClipRect.x - p.x});
        }
    }
    return worst;
  }

  /// The largest rectangle that shows a texture, cut off or not: left, top, right, bottom; all zero where there is none.
  static std::array<float, 4> imageBox(desk::TextureId id) {
    std::array<float, 4> largest{};
    const ImDrawData* data = ImGui::GetDrawData();
    for (int l = 0; l < data->CmdListsCount; ++l) {
      const ImDrawList& list = *data->CmdLists[l];
      for (const ImDrawCmd& command : list.CmdBuffer) {
        if (command.GetTexID() != id) continue;
        for (unsigned i = 0; i + 6 <= command.ElemCount; i += 6) {
          std::array<float, 4> box{1e9f, 1e9f, -1e9f, -1e9f};
          for (unsigned k = 0; k < 6; ++k) {
            const ImVec2 p = list.VtxBuffer[static_cast<int>(command.VtxOffset + list.IdxBuffer[static_cast<int>(command.IdxOffset + i + k)])].pos;
            box = {std::min(box[0], p.x), std::min(box[1], p.y), std::max(box[2], p.x), std::max(box[3], p.y)};
          }
          if ((box[2] - box[0]) * (box[3] - box[1]) > (largest[2] - largest[0]) * (largest[3] - largest[1])) largest = box;
        }
      }
    }
    return largest;
  }

  desk::Desk& desk() { return *desk_; }
  desk::DeskState& view() { return desk_->view(); }

  CountingTextures textures;
  SittingState state;
  desk::Actions actions;
  std::function<void(const Action&)> apply;   ///< what a sitting would do with them; may be empty

 private:
  /// ImGui's own font in the five sizes' places.
  void plainType(float scale) {
    ImGuiIO& io = ImGui::GetIO();
    io.Fonts->Clear();
    ImFontConfig config;
    const auto load = [&](float size) {
      config.SizePixels = size * scale;
      return io.Fonts->AddFontDefault(&config);
    };
    auto& type = const_cast<desk::Look&>(desk_->look()).type;
    type = {.small = load(14), .body = load(17), .head = load(24), .large = load(44), .room = load(84)};
    io.FontDefault = type.body;
  }

  ImGuiContext* before_;
  ImGuiContext* context_;
  std::unique_ptr<desk::Desk> desk_;
  float width_, height_;
};

}  // namespace huewright::fixtures
