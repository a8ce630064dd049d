#include "desk/look_numbers.hpp"

#include <algorithm>
#include <cmath>

namespace huewright::desk {

std::map<std::string, double> numbersOf(const DeskLook& look) {
  return {{"page", static_cast<double>(look.page)},
          {"surround", static_cast<double>(look.surround)},
          {"text", static_cast<double>(look.text)},
          {"width", look.width},
          {"height", look.height},
          {"swapped", look.swapped},
          {"gap", look.gap},
          {"been_here", look.been_here}};
}

DeskLook lookOf(const std::map<std::string, double>& numbers) {
  DeskLook look;
  const auto within = [&](const char* name, double low, double high, double otherwise) {
    const auto at = numbers.find(name);
    return at != numbers.end() && std::isfinite(at->second) && at->second >= low && at->second <= high ? at->second : otherwise;
  };
  const auto whole = [&](const char* name, int low, int high, int otherwise) { return static_cast<int>(within(name, low, high, otherwise)); };
  look.page = static_cast<Page>(whole("page", static_cast<int>(Page::Panel), static_cast<int>(Page::Room), static_cast<int>(Page::Panel)));
  look.surround = static_cast<Surround>(whole("surround", 0, 2, 1));
  look.text = static_cast<float>(within("text", 1, 3, 1));
  look.width = whole("width", 640, 7680, look.width);
  look.height = whole("height", 480, 4320, look.height);
  look.swapped = whole("swapped", 0, 1, 0) == 1;
  look.gap = whole("gap", 0, 1, 0) == 1;
  look.been_here = whole("been_here", 0, 1, 0) == 1;
  return look;
}

}  // namespace huewright::desk
