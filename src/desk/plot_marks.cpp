#include "desk/plot_marks.hpp"

#include <algorithm>
#include <cmath>
#include <imgui.h>

namespace huewright::desk {

void drawMark(ImDrawList* list, Mark mark, float x, float y, std::uint32_t fill, bool selected, const Look& look) {
  const float r = 6.5f * look.scale, thick = std::max(1.0f, 1.6f * look.scale);
  const std::uint32_t line = ink(look.greys.type);
  if (selected) list->AddRect({x - 2 * r, y - 2 * r}, {x + 2 * r, y + 2 * r}, line, 0, 0, 1.5f * thick);
  switch (mark) {
    case Mark::Disc:
      list->AddCircleFilled({x, y}, r, fill);
      list->AddCircle({x, y}, r, line, 0, thick);
      break;
    case Mark::Diamond: {
      const float d = 1.6f * r;
      list->AddQuadFilled({x, y - d}, {x + d, y}, {x, y + d}, {x - d, y}, fill);
      list->AddQuad({x, y - d}, {x + d, y}, {x, y + d}, {x - d, y}, line, 1.3f * thick);
      break;
    }
    case Mark::Square:
    case Mark::Cross:
      list->AddRectFilled({x - r, y - r}, {x + r, y + r}, fill);
      list->AddRect({x - r, y - r}, {x + r, y + r}, line, 0, 0, thick);
      if (mark == Mark::Cross) {
        const float c = 1.5f * r;
        list->AddLine({x - c, y - c}, {x + c, y + c}, line, 1.3f * thick);
        list->AddLine({x - c, y + c}, {x + c, y - c}, line, 1.3f * thick);
      }
      break;
  }
}

}  // namespace huewright::desk
