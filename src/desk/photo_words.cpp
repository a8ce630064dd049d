#include "desk/photo_words.hpp"

#include <algorithm>
#include <imgui.h>

#include "desk/flow.hpp"

namespace huewright::desk {

void drawSentence(Field& field, const std::string& sentence, WordsAt at, const Look& look) {
  ImFont* font = ImGui::GetFont();
  const double pad = 9 * look.scale, gap = 6 * look.scale;
  // Lines of more than some 60 letters are hard to read.
  const double most = std::max(60.0, std::min(field.width - 2 * gap, 520.0 * look.scale) - 2 * pad);
  std::string words = inLines(sentence, static_cast<float>(most), font);
  ImVec2 text = font->CalcTextSizeA(font->FontSize, 1e6f, static_cast<float>(most), words.c_str());
  if (text.y > 0.3 * field.height && look.type.small) {  // it must not hide the photo
    font = look.type.small;
    words = inLines(sentence, static_cast<float>(most), font);
    text = font->CalcTextSizeA(font->FontSize, 1e6f, static_cast<float>(most), words.c_str());
  }
  const double width = text.x + 2 * pad, height = text.y + 2 * pad;
  const double left = field.left + 0.5 * (field.width - width);
  const double top = at == WordsAt::Top ? field.top + gap : at == WordsAt::Foot ? field.top + field.height - height - gap : field.top + 0.5 * (field.height - height);
  ImDrawList* list = ImGui::GetWindowDrawList();
  const ImVec2 from{static_cast<float>(left), static_cast<float>(top)};
  list->AddRectFilled(from, {static_cast<float>(left + width), static_cast<float>(top + height)}, ink(look.greys.panel, 250), 4 * look.scale);
  list->AddText(font, font->FontSize, {from.x + static_cast<float>(pad), from.y + static_cast<float>(pad)}, ink(look.greys.type), words.c_str(), nullptr, static_cast<float>(most));
  if (at == WordsAt::Top) field.top += height + gap;
  if (at != WordsAt::Middle) field.height = std::max(1.0, field.height - height - gap);
}

}  // namespace huewright::desk
