// Drives frames of the whole desk, on a state that a test sets.
#pragma once

#include <algorithm>
#include <array>
#include <functional>
#include <memory>
#include <string>
#include <utility>
#include <variant>
#include <vector>

#include "desk/desk.hpp"
#include "desk_hand.hpp"

namespace huewright::fixtures {

/// A picture of one grey with a fixed pattern.
inline PictureRef patternPicture(Size size, double scale = 1) {
  auto picture = std::make_shared<Picture>();
  picture->size = size;
  picture->scale = scale;
  picture->rgba.resize(static_cast<std::size_t>(size.width) * static_cast<std::size_t>(size.height) * 4, 255);
  for (std::size_t i = 0; i < picture->rgba.size(); i += 4) picture->rgba[i] = static_cast<std::uint8_t>(i / 4 % 251);
  return picture;
}

class DeskDriver final : public DeskHand {
 public:
  /// own_type: the desk's fonts, as on the screen, which take a while to draw at a large scale; else ImGui's own for all of them, at the same sizes.
  explicit DeskDriver(float width = 1280, float height = 720, float text = 1, bool own_type = false) : DeskHand(width, height) {
    desk::DeskLook look;
    look.been_here = true;
    look.text = text;
    desk_ = std::make_unique<desk::Desk>(textures, look, 1.0f);
    desk_->remakeType();
    if (!own_type) const_cast<desk::Look&>(desk_->look()).type = plainType(text);
    makeFonts();
    frames(2);  // windows know their sizes from the second frame on
    actions.clear();
  }

  /// What it gave back is added to `actions`.
  void frame() override {
    ImGui::NewFrame();
    auto done = desk_->frame(state, width_, height_);
    ImGui::Render();
    for (Action& action : done) {
      if (apply) apply(action);
      actions.push_back(std::move(action));
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
  std::unique_ptr<desk::Desk> desk_;
};

}  // namespace huewright::fixtures
