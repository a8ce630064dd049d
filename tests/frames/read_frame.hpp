// A frame as the module hands it over.
#pragma once

#include <cstdint>
#include <vector>

namespace huewright::frames {

struct ReadFrame {
  int width = -1, height = -1;
  std::vector<std::uint8_t> rgb{};
};

/// The door's HuewrightRoom for one. In: owner, a ReadFrame.
inline std::uint8_t* roomInRead(void* owner, std::int32_t width, std::int32_t height) {
  auto& frame = *static_cast<ReadFrame*>(owner);
  frame.width = width;
  frame.height = height;
  frame.rgb.resize(static_cast<std::size_t>(width) * static_cast<std::size_t>(height) * 3);
  return frame.rgb.data();
}

}  // namespace huewright::frames
