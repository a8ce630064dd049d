#include "desk/band.hpp"

#include <imgui.h>
#include <numbers>

namespace huewright::desk {
namespace {

constexpr float kPi = std::numbers::pi_v<float>;

void arc(ImDrawList* list, ImVec2 middle, float radius, float from, float to, float thick, std::uint32_t colour) {
  list->PathArcTo(middle, radius, from, to, 48);
  const bool whole = to - from > 1.99f * kPi;
  list->PathStroke(colour, whole ? ImDrawFlags_Closed : 0, thick);
}

}  // namespace

const char* bandWords(Band band) {
  switch (band) {
    case Band::There: return "There";
    case Band::CantSay: return "Can't say";
    case Band::Nearly: return "Nearly";
    case Band::NotThere: break;
  }
  return "Not there";
}

void drawBand(Band band, float size, const Look& look) {
  ImDrawList* list = ImGui::GetWindowDrawList();
  const ImVec2 at = ImGui::GetCursorScreenPos();
  const std::uint32_t colour = ink(look.greys.type);
  const float r = 0.36f * size, thick = 0.13f * size;
  const ImVec2 middle{at.x + 0.5f * size, at.y + 0.5f * size};
  switch (band) {
    case Band::There:
      list->AddCircleFilled(middle, r + 0.5f * thick, colour, 48);
      break;
    case Band::Nearly:
      arc(list, middle, r, -0.5f * kPi + 0.45f, 1.5f * kPi - 0.45f, thick, colour);
      list->AddCircleFilled(middle, 0.45f * r, colour, 32);
      break;
    case Band::CantSay:
      for (int i = 0; i < 8; ++i) arc(list, middle, r, static_cast<float>(i) * kPi / 4, static_cast<float>(i) * kPi / 4 + 0.38f, thick, colour);
      break;
    case Band::NotThere:
      arc(list, {middle.x - 0.22f * size, middle.y}, 0.62f * r, 0, 2 * kPi, 0.8f * thick, colour);
      list->AddRectFilled({middle.x + 0.1f * size, middle.y - 0.55f * r}, {middle.x + 0.1f * size + 1.1f * r, middle.y + 0.55f * r}, colour);
      break;
  }
  ImGui::Dummy({size, size});
}

}  // namespace huewright::desk
