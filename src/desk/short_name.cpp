#include "desk/short_name.hpp"

#include <imgui.h>
#include <vector>

namespace huewright::desk {

std::string shortName(const std::string& name, ImFont* font, float width) {
  const auto wide = [&](const std::string& words) { return font->CalcTextSizeA(font->FontSize, 1e6f, 0, words.c_str()).x; };
  if (wide(name) <= width) return name;
  std::vector<std::size_t> starts;  // of letters
  for (std::size_t i = 0; i < name.size(); ++i)
    if ((static_cast<unsigned char>(name[i]) & 0xC0) != 0x80) starts.push_back(i);
  starts.push_back(name.size());
  // The most letters that fit, a little more of them at the end.
  for (std::size_t kept = starts.size() - 1; kept > 0; --kept) {
    const std::size_t front = kept * 2 / 5, back = kept - front;
    std::string cut = name.substr(0, starts[front]) + "…" + name.substr(starts[starts.size() - 1 - back]);
    if (wide(cut) <= width) return cut;
  }
  return "…";
}

}  // namespace huewright::desk
