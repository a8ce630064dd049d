#include "desk/theme.hpp"

#include <array>
#include <filesystem>
#include <imgui.h>

namespace huewright::desk {
namespace {

constexpr std::array<const char*, 4> kFontFiles{
    "/usr/share/fonts/truetype/roboto/unhinted/RobotoTTF/Roboto-Regular.ttf",
    "/usr/share/fonts/truetype/inter/Inter-Regular.ttf",
    "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf",
    "/usr/share/fonts/truetype/liberation/LiberationSans-Regular.ttf",
};

// Latin, Greek, and the signs that sentences use: dashes, quotes, arrows, primes, minus, approximately, at most, at least.
constexpr ImWchar kLetters[]{0x20, 0xff, 0x100, 0x17f, 0x370, 0x3ff, 0x2010, 0x203a, 0x2070, 0x209c, 0x2190, 0x2193, 0x2212, 0x2212, 0x2248, 0x2248, 0x2264, 0x2265, 0};

ImVec4 grey(std::uint8_t g, float alpha = 1) {
  const float v = static_cast<float>(g) / 255.0f;
  return {v, v, v, alpha};
}

}  // namespace

std::filesystem::path fontFile() {
  std::error_code ignored;
  for (const char* file : kFontFiles)
    if (std::filesystem::exists(file, ignored)) return file;
  return {};
}

Type loadType(float scale) {
  ImGuiIO& io = ImGui::GetIO();
  io.Fonts->Clear();
  Type type;
  const std::string file = fontFile().string();
  ImFontConfig config;
  config.OversampleH = 2;
  const auto load = [&](float size) -> ImFont* {
    if (file.empty()) {
      config.SizePixels = size * scale;
      return io.Fonts->AddFontDefault(&config);
    }
    return io.Fonts->AddFontFromFileTTF(file.c_str(), size * scale, &config, kLetters);
  };
  type.body = load(17);
  type.small = load(14);
  type.head = load(24);
  config.OversampleH = 1;
  type.large = load(44);
  type.room = load(84);
  io.FontDefault = type.body;

  ImGuiStyle& style = ImGui::GetStyle();
  style = ImGuiStyle();
  style.WindowRounding = style.ChildRounding = style.PopupRounding = 0;
  style.FrameRounding = 3;
  style.GrabRounding = 3;
  style.WindowBorderSize = style.ChildBorderSize = 0;
  style.PopupBorderSize = 1;
  style.FramePadding = {9, 6};
  style.ItemSpacing = {8, 7};
  style.WindowPadding = {12, 10};
  style.ScrollbarSize = 16;
  style.ScaleAllSizes(scale);
  return type;
}

Greys greysOf(Surround surround) {
  switch (surround) {
    case Surround::Dark: return {.surround = 48, .panel = 40, .control = 68, .hovered = 84, .held = 98, .line = 90, .type = 225, .weak_type = 170};
    case Surround::Light: return {.surround = 190, .panel = 205, .control = 176, .hovered = 160, .held = 144, .line = 130, .type = 12, .weak_type = 60};
    case Surround::Mid: break;
  }
  return {.surround = 119, .panel = 132, .control = 152, .hovered = 168, .held = 184, .line = 84, .type = 0, .weak_type = 30};
}

void applyGreys(const Greys& g) {
  ImVec4* c = ImGui::GetStyle().Colors;
  for (int i = 0; i < ImGuiCol_COUNT; ++i) c[i] = grey(g.control);
  c[ImGuiCol_Text] = c[ImGuiCol_CheckMark] = grey(g.type);
  c[ImGuiCol_TextDisabled] = grey(g.weak_type);
  c[ImGuiCol_WindowBg] = grey(g.surround);
  c[ImGuiCol_ChildBg] = grey(g.surround, 0);
  c[ImGuiCol_PopupBg] = grey(g.panel);
  c[ImGuiCol_Border] = c[ImGuiCol_Separator] = c[ImGuiCol_TableBorderLight] = c[ImGuiCol_TableBorderStrong] = grey(g.line);
  c[ImGuiCol_BorderShadow] = grey(0, 0);
  c[ImGuiCol_FrameBg] = c[ImGuiCol_Button] = grey(g.control);
  c[ImGuiCol_FrameBgHovered] = c[ImGuiCol_ButtonHovered] = c[ImGuiCol_HeaderHovered] = c[ImGuiCol_SeparatorHovered] = grey(g.hovered);
  c[ImGuiCol_FrameBgActive] = c[ImGuiCol_ButtonActive] = c[ImGuiCol_HeaderActive] = c[ImGuiCol_Header] = c[ImGuiCol_SeparatorActive] = grey(g.held);
  c[ImGuiCol_SliderGrab] = c[ImGuiCol_ScrollbarGrab] = grey(g.line);
  c[ImGuiCol_SliderGrabActive] = c[ImGuiCol_ScrollbarGrabActive] = c[ImGuiCol_ScrollbarGrabHovered] = grey(g.type);
  c[ImGuiCol_ScrollbarBg] = grey(g.panel, 0.5f);
  c[ImGuiCol_TextSelectedBg] = grey(g.line, 0.5f);
  c[ImGuiCol_TableRowBg] = grey(0, 0);
  c[ImGuiCol_TableRowBgAlt] = grey(g.panel, 0.4f);
  c[ImGuiCol_TableHeaderBg] = grey(g.panel);
  c[ImGuiCol_ModalWindowDimBg] = grey(0, 0.35f);
  c[ImGuiCol_NavHighlight] = grey(g.type);
  c[ImGuiCol_PlotLines] = c[ImGuiCol_PlotHistogram] = grey(g.type);
  c[ImGuiCol_TitleBg] = c[ImGuiCol_TitleBgActive] = c[ImGuiCol_TitleBgCollapsed] = grey(g.panel);
}

std::uint32_t ink(std::uint8_t g, std::uint8_t alpha) { return IM_COL32(g, g, g, alpha); }
std::uint32_t ink(const std::array<std::uint8_t, 3>& rgb, std::uint8_t alpha) { return IM_COL32(rgb[0], rgb[1], rgb[2], alpha); }

}  // namespace huewright::desk
