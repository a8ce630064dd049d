#include "capture/hold_words.hpp"

#include <vector>

#include "base/text.hpp"

namespace huewright {
namespace {

std::string enumerated(const std::vector<std::string>& things) {
  std::string text;
  for (std::size_t i = 0; i < things.size(); ++i) text += (i == 0 ? "" : i + 1 < things.size() ? ", " : " and ") + things[i];
  return text;
}

}  // namespace

bool somethingIsFree(const CameraHolds& holds) {
  return holds.exposure != Hold::Held || holds.white_balance != Hold::Held || (holds.focus != Hold::Held && holds.focus != Hold::NoSuch);
}

std::string holdWords(const CameraHolds& holds) {
  std::vector<std::string> held, free;
  (holds.exposure == Hold::Held ? held : free).emplace_back("exposure");
  (holds.white_balance == Hold::Held ? held : free).emplace_back("white balance");
  if (holds.focus != Hold::NoSuch) (holds.focus == Hold::Held ? held : free).emplace_back("focus");
  std::string text;
  if (!held.empty()) text = capitalised(enumerated(held)) + (held.size() == 1 ? " is held" : " are held");
  if (free.empty()) return text;
  const bool light = holds.exposure != Hold::Held || holds.white_balance != Hold::Held;
  const bool place = holds.focus == Hold::Free || holds.focus == Hold::Refused;
  text += (held.empty() ? "This camera" : "; this camera") + std::string(" does not let its ") + enumerated(free) + " be held, so keep ";
  text += light && place ? "the light as it is and the camera where it is" : light ? "the light as it is" : "the camera where it is";
  return text;
}

}  // namespace huewright
