#include "desk/theme.hpp"

#include <gtest/gtest.h>

#include <imgui.h>

#include "colour/rgb.hpp"

namespace huewright::desk {
namespace {

constexpr std::array kSurrounds{Surround::Dark, Surround::Mid, Surround::Light};

double light(std::uint8_t code) { return srgbToLinear(code / 255.0); }

/// Contrast ratio of two greys. Source: W3C, Web Content Accessibility Guidelines 2.1, "contrast ratio".
double contrast(std::uint8_t a, std::uint8_t b) {
  const double la = light(a), lb = light(b);
  return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

TEST(Theme, TheMiddleSurroundIsLStar50) { EXPECT_EQ(greysOf(Surround::Mid).surround, 119); }  // sRGB code of L* 50 by IEC 61966-2-1 and CIE 15

TEST(Theme, TypeIsReadOnEveryGrey) {
  for (const Surround s : kSurrounds) {
    const Greys g = greysOf(s);
    for (const std::uint8_t ground : {g.surround, g.panel, g.control, g.hovered, g.held}) EXPECT_GE(contrast(g.type, ground), 4.5) << static_cast<int>(s) << " " << static_cast<int>(ground);
    EXPECT_GE(contrast(g.weak_type, g.surround), 3.0) << static_cast<int>(s);
  }
}

TEST(Theme, NothingInTheWindowHasAHue) {
  ImGuiContext* context = ImGui::CreateContext();
  for (const Surround s : kSurrounds) {
    applyGreys(greysOf(s));
    for (int i = 0; i < ImGuiCol_COUNT; ++i) {
      if (i == ImGuiCol_DragDropTarget || i == ImGuiCol_PlotLinesHovered || i == ImGuiCol_PlotHistogramHovered || i == ImGuiCol_NavWindowingHighlight || i == ImGuiCol_NavWindowingDimBg)
        continue;  // not drawn by any view
      const ImVec4 c = ImGui::GetStyle().Colors[i];
      EXPECT_EQ(c.x, c.y) << ImGui::GetStyleColorName(i);
      EXPECT_EQ(c.y, c.z) << ImGui::GetStyleColorName(i);
    }
  }
  ImGui::DestroyContext(context);
}

TEST(Theme, TypeGrowsWithTheScaleAndHasTheSignsThatSentencesUse) {
  if (fontFile().empty()) GTEST_SKIP() << "no font is installed here";
  ImGuiContext* context = ImGui::CreateContext();
  const auto build = [] {
    unsigned char* pixels = nullptr;
    int w = 0, h = 0;
    ImGui::GetIO().Fonts->GetTexDataAsAlpha8(&pixels, &w, &h);
  };
  const Type small = loadType(1);
  build();
  EXPECT_FLOAT_EQ(small.body->FontSize, 17);
  const Type large = loadType(2.5f);
  build();
  EXPECT_FLOAT_EQ(large.body->FontSize, 42.5f);
  for (const int sign : {0x394, 0xd7, 0xb1, 0x2026, 0x2013, 0x2019, 0x2212}) EXPECT_NE(large.body->FindGlyphNoFallback(static_cast<ImWchar>(sign)), nullptr) << std::hex << sign;
  ImGui::DestroyContext(context);
}

TEST(Theme, InkIsPackedAsImGuiPacksIt) {
  EXPECT_EQ(ink(10, 20), IM_COL32(10, 10, 10, 20));
  EXPECT_EQ(ink(std::array<std::uint8_t, 3>{1, 2, 3}), IM_COL32(1, 2, 3, 255));
}

}  // namespace
}  // namespace huewright::desk
