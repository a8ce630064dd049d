// Type, greys and spaces. The surround is neutral, so that it does not tint the judgement.
#pragma once

#include <array>
#include <cstdint>
#include <filesystem>
#include <string>

#include "desk/view.hpp"

struct ImFont;
struct ImVec4;

namespace huewright::desk {

/// Fonts of the five sizes, made for a scale.
struct Type {
  ImFont* small{};     ///< 14 px at scale 1: units, keys
  ImFont* body{};      ///< 17 px
  ImFont* head{};      ///< 24 px
  ImFont* large{};     ///< 44 px: the verdict
  ImFont* room{};      ///< 84 px: read from 3 m
};

/// The font file that the system has, the first of a list; empty: none, ImGui's own is taken, which lacks Δ and ×.
std::filesystem::path fontFile();

/// Puts the fonts into ImGui's atlas anew, at scale = text size × the screen's content scale, and sets the spaces to it.
Type loadType(float scale);

/// Neutral greys, R = G = B.
struct Greys {
  std::uint8_t surround = 119;       ///< round swatches and photo
  std::uint8_t panel = 100;          ///< fields that hold words
  std::uint8_t control = 130, hovered = 150, held = 90;
  std::uint8_t line = 70;
  std::uint8_t type = 20, weak_type = 55;
};

/// Mid: L* 50 about the surround that CIE 1995 (CIE 101) viewing takes; dark and light for dim and bright shops.
Greys greysOf(Surround surround);

/// Sets ImGui's colours to these greys.
void applyGreys(const Greys& greys);

/// A packed colour for ImDrawList.
std::uint32_t ink(std::uint8_t grey, std::uint8_t alpha = 255);
std::uint32_t ink(const std::array<std::uint8_t, 3>& rgb, std::uint8_t alpha = 255);

/// What views need to draw: the fonts, the greys and the scale in use.
struct Look {
  Type type;
  Greys greys;
  float scale = 1;
};

}  // namespace huewright::desk
