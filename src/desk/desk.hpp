// The window's frame: pages, the bar, notices. Draws the sitting's state and gives back what the person did; works without a graphics card.
#pragma once

#include "desk/textures.hpp"
#include "desk/theme.hpp"
#include "desk/view.hpp"

namespace huewright::desk {

class Desk {
 public:
  /// In: an ImGui context that is current. content_scale: of the screen, as GLFW tells it.
  Desk(TextureMaker& maker, DeskLook look, float content_scale);

  /// Draws one frame of a window of that size (screen pixels), between ImGui::NewFrame and ImGui::Render.
  Actions frame(const SittingState& state, float width, float height);

  /// True when the fonts must be made anew before the next frame; remakeType does so.
  bool typeIsOld() const;
  void remakeType();
  void setContentScale(float scale) { content_scale_ = scale; }

  DeskState& view() { return view_; }
  const Look& look() const { return look_; }
  Textures& textures() { return textures_; }

 private:
  Textures textures_;
  DeskState view_;
  Look look_;
  float content_scale_ = 1, made_for_ = 0;
  unsigned notice_hidden_ = 0;
};

}  // namespace huewright::desk
